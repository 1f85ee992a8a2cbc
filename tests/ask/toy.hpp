// The drive tests' invented setting and scheme as a question about a quarterback of whom nothing
// was charted: his posterior is the population.
#pragma once

#include "../drive/fixture.hpp"

#include <callfit/ask/question.hpp>

#include <memory>

namespace toy {

using namespace callfit;

inline constexpr DrawOptions draws{1, 24, 1};

inline Question question(const DriveOptions& options = {}) {
  Setting setting = fixture::setting();
  setting.drives_per_game = 11;
  const Scheme scheme = fixture::scheme();
  auto ground = std::make_shared<const Matchup>(make_matchup(setting, scheme, scheme, options));
  return make_question(ground, build_profile("Somebody", {}, setting, weighting_of(setting)));
}

}  // namespace toy
