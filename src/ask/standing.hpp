// A stand worked out: who plays what, with what is turned, and all that follows from it, each made
// once, when first asked for.
#pragma once

#include <ask/fit_draws.hpp>
#include <ask/knob.hpp>
#include <ask/meeting.hpp>
#include <ask/question.hpp>
#include <ask/worth.hpp>
#include <callfit/ask/answer.hpp>
#include <callfit/ask/matchup.hpp>

#include <array>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <utility>

namespace callfit::ask {

/// What an answer tells of, beside rates.
enum class Tells { place, net_points, both };
inline constexpr std::size_t tells_count = 3;

/// What a standing is made of. Parts that a change left as they were are shared with the standing
/// that it came from.
struct Standing {
  std::size_t quarterback = 0;  ///< place in the case
  std::size_t scheme = 0;
  Question question;
  std::shared_ptr<const Matchup> matchup;
  std::shared_ptr<const Sample> sample;
  std::shared_ptr<const Player> mean;
  bool turned = false;                 ///< with changes against the case's own stand
  bool drives_turned = false;          ///< some of them reach drives
  bool replanned = false;              ///< the game around it is another one
  bool recharted = false;              ///< his tape counts otherwise
  SharedTangent tangent;               ///< nullptr until asked for
  std::shared_ptr<const Worth> worth;  ///< likewise
  std::shared_ptr<const std::vector<Column>> measures;   ///< of the demands; likewise
  std::shared_ptr<const std::vector<Number>> estimates;  ///< of the measures; likewise
  /// Of measures that no demand need be on, each made when first asked for.
  std::shared_ptr<std::map<std::pair<std::size_t, Measure>, Number>> strengths;
  std::shared_ptr<const FitDraws> fit;   ///< likewise
  std::shared_ptr<const Column> place;   ///< of 100, by draw; likewise
  std::shared_ptr<const Column> others;  ///< of the population; likewise

  /// What its intervals rest on, by Tells; likewise.
  std::array<std::shared_ptr<const Footing>, tells_count> footings;

  /// What was told of the fit, what drives in full were worked out as (answer_drives.cpp), and the
  /// levers; likewise.
  std::shared_ptr<const FitAnswer> fit_told;
  std::shared_ptr<const std::vector<std::vector<double>>> drive_rows;
  std::shared_ptr<const std::vector<LeverAnswer>> levers;

  double drives_per_game() const { return question.setting.drives_per_game; }
};

/// first - second, draw by draw.
Column minus(Column first, std::span<const double> second);

/// Net points per drive, less what the linear scores have for a mean by chance.
Told net_points_of(const Standing& standing);

DifferenceAnswer difference_of(const Standing& first, const Standing& second,
                               const std::string& first_name, const std::string& second_name);

}  // namespace callfit::ask
