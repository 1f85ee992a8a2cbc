// What a file is called until it is whole.
#pragma once

#include <sys/types.h>

#include <string>
#include <string_view>

namespace callfit {

/// ".callfit-123-0.part": by the process that writes it and a number.
std::string part_name(pid_t process, int number);
bool is_part_name(std::string_view name);

}  // namespace callfit
