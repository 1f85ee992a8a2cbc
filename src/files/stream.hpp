// What reading and writing have in common.
#pragma once

#include <string>

namespace callfit {

/// Throws InputError about the file.
[[noreturn]] void refuse_file(const std::string& path, const std::string& what,
                              const std::string& mend);

/// Throws where the path is none of a readable file.
void require_file(const std::string& path);

/// What the system says of its last failure.
std::string system_reason();

}  // namespace callfit
