// One quarterback in one scheme and setting, with everything that a what-if can turn.
#pragma once

#include <callfit/ask/comparison.hpp>
#include <callfit/ask/matchup.hpp>
#include <callfit/ask/player_shift.hpp>
#include <callfit/profile/profile.hpp>

#include <memory>
#include <vector>

namespace callfit {

/// The charts behind a profile, for questions that weigh them anew; empty where only the profile
/// is known.
struct Tape {
  std::vector<Chart> charts;
  std::vector<FamilyAlias> like;
};

/// What is asked about. `ground` is what the question starts from and stays as it is: the
/// population that players are pulled toward, and what the opponent's possessions are worth.
struct Question {
  std::shared_ptr<const Matchup> ground;
  std::shared_ptr<const Tape> tape;
  Profile profile;
  Player mean;         ///< the profile's posterior means, before `player`
  PlayerShift player;  ///< moves of the quarterback's own rates and gains
  Setting setting;     ///< drives are played in it
  Scheme scheme;
  DriveOptions options;

  /// The quarterback as the question has him.
  Player mean_player() const { return moved(mean, player, ground->setting); }
};

Question make_question(std::shared_ptr<const Matchup> ground, Profile profile,
                       std::shared_ptr<const Tape> tape = nullptr);

/// The matchup of the question. What the opponent expects from his own possessions stays the
/// ground's: a question about this offence changes no other team.
Matchup matchup_of(const Question& question);

/// One question answered: at the posterior means, and for every posterior draw.
struct Standing {
  FitResult fit;
  DriveValues drive;  ///< averaged over the setting's starts
  std::vector<DrivePoints> draws;
  std::vector<double> fit_draws;
  double drives_per_game = 0;
};

/// Draw i of two questions about one profile is the same quarterback (common random numbers), so
/// equal questions differ by exactly 0.
Standing stand(const Question& question, const DrawOptions& options, const Progress& progress = {});

/// The posterior draws as the question has them: draw_player() moved.
Player question_draw(const Question& question, std::uint64_t seed, std::uint64_t index);

}  // namespace callfit
