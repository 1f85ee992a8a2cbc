// One man's posterior on the way from nothing charted to his whole tape: every snap counts a share
// of what it does. docs/model.md, "What a snap moved".
#pragma once

#include <ask/question.hpp>
#include <callfit/population/response.hpp>
#include <callfit/profile/draws.hpp>
#include <profile/snap_evidence.hpp>

#include <memory>
#include <optional>
#include <vector>

namespace callfit::ask {

struct TapeStage {
  double at = 1;     ///< what every snap counts of what it does, in [0, 1]
  double width = 0;  ///< of the path that the stage stands for; those inside add up to 1
  Response response;
  Profile profile;
  Player mean;  ///< the profile's means
  std::shared_ptr<const PlayerDraws> draws;
};

struct TapeStages {
  TapeStage none, all;            ///< the ends
  std::vector<TapeStage> inside;  ///< points of Gauss-Legendre over the square root of `at`
  SnapEvidence evidence;
};

/// How many stages stand for the path, and draws for a stage.
inline constexpr std::size_t stage_count = 6, stage_draws = 2048;

/// Of a question with a tape and a joint posterior.
TapeStages tape_stages(const Question& question, const DrawKey& key,
                       std::size_t stages = stage_count);

}  // namespace callfit::ask
