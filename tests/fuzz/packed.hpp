// Workbooks for fuzzing: their parts as one text, so that mutations reach what is packed.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace callfit::fuzz {

/// The parts of a workbook in the order workbook, relations, sheet, strings, styles, ODF content,
/// each behind a line of "====" but the first; empty ones are left out.
std::string joined(const std::vector<std::string>& parts);

/// The archive of those parts under their names. Throws std::runtime_error.
std::string packed(std::string_view parts);

}  // namespace callfit::fuzz
