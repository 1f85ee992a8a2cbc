// The drive tests' invented setting and scheme as a case about a quarterback of whom nothing was
// charted: his posterior is the population.
#pragma once

#include "../drive/fixture.hpp"

#include <ask/memory.hpp>
#include <callfit/ask/case.hpp>

#include <string>
#include <vector>

namespace toy {

using namespace callfit;
using namespace callfit::ask;

/// Two like men, so that the second can be turned.
inline Case about(const Scheme& scheme = fixture::scheme()) {
  Case about;
  about.setting = fixture::setting();
  about.setting.drives_per_game = 11;
  about.average_scheme = fixture::scheme();
  about.schemes = {scheme};
  for (const char* name : {"Somebody", "Somebody else"})
    about.quarterbacks.push_back(
        {build_profile(name, {}, about.setting, weighting_of(about.setting)), nullptr});
  about.options.draws = fewest_draws;
  return about;
}

inline Change set(const std::string& path, double value) {
  return {path, Change::Way::set, value, ""};
}

/// The question of a stand in the toy's case.
inline Question question(Memory& memory, const std::vector<Change>& changes = {}) {
  return memory.standing({0, 0, changes}).question;
}

inline double net_of(const Question& question) {
  return drive_points(matchup_of(question), question.mean_player()).net_points;
}

}  // namespace toy
