// A stand worked out: who plays what, with what is turned, and all that follows from it, each made
// once, when first asked for.
#pragma once

#include <ask/fit_draws.hpp>
#include <ask/knob.hpp>
#include <ask/question.hpp>
#include <ask/worth.hpp>
#include <callfit/ask/answer.hpp>
#include <callfit/ask/matchup.hpp>

#include <memory>
#include <optional>
#include <span>

namespace callfit::ask {

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
  std::shared_ptr<const Worth> worth;  ///< nullptr until asked for
  std::shared_ptr<const std::vector<Column>> measures;  ///< of the demands; likewise
  std::shared_ptr<const FitDraws> fit;                  ///< likewise
  std::shared_ptr<const Column> place;                  ///< of 100, by draw; likewise
  std::shared_ptr<const Column> others;                 ///< of the population; likewise

  /// What drives in full were worked out as (answer_drives.cpp), and the levers; likewise.
  std::shared_ptr<const std::vector<std::vector<double>>> drive_rows;
  std::shared_ptr<const std::vector<LeverAnswer>> levers;

  double drives_per_game() const { return question.setting.drives_per_game; }
};

/// Pairs draws of two quarterbacks: within each of 16 blocks of neighbouring draws, those of the
/// quarterback at place p are turned on by k p for k = 0 to 7. Draws of one quarterback stay with
/// themselves, those of two meet in eight ways each, and blocks stay independent of each other
/// (number_of() needs that for its error).
Column seated(std::span<const double> draws, std::size_t place);

/// first - second, draw by draw.
Column minus(Column first, std::span<const double> second);

/// Of values of such meetings; `draws` says how many of each quarterback stand behind them.
Number number_of_meetings(std::span<const double> meetings);

/// Odds that a column lies above 0, ties counting half, with two standard errors.
Verdict verdict_of(std::span<const double> draws);

/// Net points per drive, seated, less what the linear scores have for a mean by chance.
Column net_meetings(const Standing& standing);

/// net_meetings() of the first less those of the second.
Column net_gaps(const Standing& first, const Standing& second);

DifferenceAnswer difference_of(const Standing& first, const Standing& second,
                               const std::string& first_name, const std::string& second_name);

}  // namespace callfit::ask
