// What a reader says of an input.
#pragma once

#include <callfit/base/finding.hpp>

#include <string>

namespace callfit::testing {

/// What is wrong with what `read` reads; "accepted" where nothing is.
template <class Read>
std::string message_of(const Read& read) {
  try {
    read();
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}

}  // namespace callfit::testing
