// What is shipped, as tests ask for it.
#pragma once

#include <callfit/files/files.hpp>

#include <string>

namespace callfit::testing {

inline const std::string root = CALLFIT_SOURCE_DIR "/";

inline const Setting& college() {
  static const Setting setting = Files().setting(root + "settings/college.json");
  return setting;
}

inline const Setting& professional() {
  static const Setting setting = Files().setting(root + "settings/pro.json");
  return setting;
}

}  // namespace callfit::testing
