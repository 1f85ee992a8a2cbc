// One quarterback in one scheme and setting, with everything that a change can turn.
#pragma once

#include <ask/player_shift.hpp>
#include <callfit/ask/case.hpp>
#include <callfit/ask/matchup.hpp>
#include <callfit/profile/profile.hpp>

#include <cstddef>
#include <map>
#include <memory>

namespace callfit::ask {

/// `ground` is what the question starts from and stays as it is: the population that players are
/// pulled toward, and what the opponent's possessions are worth.
struct Question {
  std::shared_ptr<const Matchup> ground;
  std::shared_ptr<const Tape> tape;  ///< nullptr where only the profile is known
  std::shared_ptr<const Profile> profile;
  std::shared_ptr<const Player> mean;  ///< the profile's posterior means, before `player`
  PlayerShift player;                  ///< moves of the quarterback's own rates and gains
  /// Whether what goes with a rate or gain moves along; then what was turned: moves on the log-odds
  /// scale by quantity of the population.
  bool as_learned = false;
  std::map<std::size_t, double> learned;
  Weighting weighting;  ///< how the profile weighs its snaps
  Setting setting;      ///< drives are played in it
  Scheme scheme;
  DriveOptions options;

  /// The quarterback as the question has him.
  Player mean_player() const { return moved(*mean, player, ground->setting); }
  /// One family of his.
  PlayerFamily mean_family(std::size_t family) const {
    return moved_family(*mean, player, ground->setting, family);
  }
  /// The ground's setting, which lives as long as the ground.
  std::shared_ptr<const Setting> ground_setting() const { return {ground, &ground->setting}; }
};

/// `tape`: nullptr where only the profile is known.
Question make_question(std::shared_ptr<const Matchup> ground,
                       std::shared_ptr<const Profile> profile, std::shared_ptr<const Tape> tape,
                       std::shared_ptr<const Player> mean);

/// The matchup of the question. What the opponent expects from his own possessions stays the
/// ground's: a question about this offence changes no other team.
Matchup matchup_of(const Question& question);

/// The drives of matchup_of() alone, for less.
DrivePlan plan_of(const Question& question);

}  // namespace callfit::ask
