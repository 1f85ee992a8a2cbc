// What reading and writing have in common.
#pragma once

#include <cstddef>
#include <string>

namespace callfit {

/// Throws InputError about the file.
[[noreturn]] void refuse_file(const std::string& path, const std::string& what,
                              const std::string& mend);

/// Throws where the path is none of a readable file.
void require_file(const std::string& path);

/// All bytes of a file.
std::string bytes_of(const std::string& path);

/// Throws where a file has more bytes than anything that is read here.
void require_modest(const std::string& path, std::size_t bytes);

/// What the system says of its last failure.
std::string system_reason();

}  // namespace callfit
