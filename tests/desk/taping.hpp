// What a charting room is told of in tests: two families, one level, no case.
#pragma once

#include "../cli/program.hpp"

#include <callfit/base/finding.hpp>
#include <desk/charting_room.hpp>

#include <string>

namespace callfit::desk {

inline Taping taping_in(const test::Scratch& folder, const std::string& chart = "game.csv") {
  Taping taping;
  taping.chart = (folder.path() / chart).string();
  taping.keys = (folder.path() / "keys.json").string();
  taping.words.families = {{"boot", "", FamilyKind::pass, "", ""},
                           {"handoff", "", FamilyKind::handoff, "", ""}};
  taping.words.levels = {"college"};
  taping.read_case = []() -> Case {
    throw InputError(Finding{{"case.json", 0, ""}, "no case in this test", ""});
  };
  return taping;
}

}  // namespace callfit::desk
