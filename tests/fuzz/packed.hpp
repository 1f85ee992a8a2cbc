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

/// As gzip packs it; level 0 leaves the bytes as they are.
std::string gzipped(std::string_view text, int level);

}  // namespace callfit::fuzz
