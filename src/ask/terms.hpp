// The plain numbers that a drive is made of, with their derivatives: what a linear score adds up.
#pragma once

#include <ask/sample.hpp>
#include <callfit/drive/adjoint.hpp>

#include <cstddef>
#include <limits>
#include <vector>

namespace callfit::ask {

/// Scrambles and sacks share their gains between families: they belong to none.
inline constexpr std::size_t no_family = std::numeric_limits<std::size_t>::max();

/// One plain number of a player.
struct Term {
  std::size_t family = no_family;  ///< index into Setting::families
  enum class Kind { rate, shell, bin } kind = Kind::rate;
  Rate rate = Rate::completion;
  std::size_t shell = 0;
  GainPart part = GainPart::depth;
  std::size_t bin = 0;
  double by_points = 0, by_net = 0;  ///< derivatives of points and net points per drive

  double& in(Player& player) const;
  double in(const Player& player) const;
  DrawColumn of(const Sample& sample) const;
};

/// Those with a derivative other than 0.
std::vector<Term> terms_of(const PointGradients& gradient);

}  // namespace callfit::ask
