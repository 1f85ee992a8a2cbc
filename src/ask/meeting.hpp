// What two quarterbacks differ by: their draws are independent, so each meets each.
#pragma once

#include <ask/fit_draws.hpp>
#include <callfit/ask/number.hpp>
#include <callfit/ask/verdict.hpp>

#include <cstddef>
#include <span>
#include <vector>

namespace callfit::ask {

/// Something told of every draw of the quarterback at that place of the case.
struct Told {
  std::size_t quarterback = 0;
  Column draws;
};

Told operator+(Told told, const Column& more);
Told operator*(double factor, Told told);

/// First less second, both with as many draws. Draws of two quarterbacks meet every way within each
/// of the 16 blocks of neighbouring draws that number_of() takes for its error, so that blocks stay
/// independent; those of one quarterback meet themselves.
class Meeting {
 public:
  Meeting(const Told& first, const Told& second);

  double mean() const { return mean_; }
  /// Quantiles of all meetings; the draws are those of one quarterback.
  Number number() const;
  /// Odds that the first has more.
  Verdict verdict() const;

 private:
  struct Block {  // draws of both, ascending
    Column first, second;

    double odds() const;
  };

  static double quantile(std::span<const Block> blocks, double p);

  std::vector<Block> blocks_;
  Column with_himself_;  // differences, where both are one quarterback
  std::size_t draws_ = 0;
  double mean_ = 0;
};

/// For each told, the odds that it is the most of all over the same meetings; ties share.
std::vector<double> odds_of_being_most(const std::vector<Told>& told);

/// Odds that a column lies above 0, ties counting half, with two standard errors.
Verdict verdict_of(std::span<const double> draws);

}  // namespace callfit::ask
