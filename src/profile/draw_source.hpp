// What the numbers of a quarterback's draws are drawn from, whether he has a tape or not.
#pragma once

#include <callfit/profile/profile.hpp>
#include <callfit/stats/beta.hpp>
#include <profile/cells.hpp>
#include <profile/joint.hpp>

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace callfit {

/// A cell's rate given its family's rate theta: CellGivenFamily::posterior().
struct CellSource {
  double shift = 0;
  double kappa = 0;
  double departure = 0;
  double of = 0;
};

struct FamilySource {
  std::array<std::optional<Beta>, rate_count> rates;
  std::array<std::array<std::optional<CellSource>, rate_count>, cell_count> cells;
  std::vector<double> depth, yac, run;  ///< Dirichlet parameters; empty where there are none

  bool differs_by_shell(std::size_t rate) const;
};

/// What rates and gains are drawn from together, and which of them are.
struct JointSource {
  Posterior posterior;
  std::vector<Quantity> quantities;
  std::size_t traits = 0;
  JointPlaces places;
};

struct DrawSource {
  std::string name;
  std::vector<FamilySource> families;
  std::vector<double> scramble, sack;
  ShellMix mix{};
  std::shared_ptr<const JointSource> joint;  ///< nullptr where the setting has no population
};

FamilySource source_of(const FamilyProfile& profile);
FamilySource source_of(const FamilyPopulation& population, const CellTable& table);

/// A rate or gain of the profile that is no longer what its joint posterior says was turned by
/// hand: it is drawn alone.
///
/// Throughout, shells bring their own snaps only: they are balanced once drawn.
DrawSource source_of(const Profile& profile, const Setting& setting);
DrawSource source_of(const Setting& setting);

}  // namespace callfit
