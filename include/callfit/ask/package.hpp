// A few calls added in one situation: what they gain, and what they cost in contact.
#pragma once

#include <callfit/ask/whatif.hpp>

#include <optional>
#include <string>
#include <vector>

namespace callfit {

struct Package {
  std::string situation;         ///< id; empty: every situation
  std::optional<int> inside;     ///< only this many yards from the goal and nearer
  std::string family;            ///< id of the scheme's family to call more
  std::optional<Shell> against;  ///< only against this shell
  double share = 0;              ///< of the calls there that become the package, in [0, 1]
  /// Surprise: of a share q of added calls the part `fade` x q is expected by the defence and is
  /// worth no more than the rest of the mix. 0: never; at most 1 / share counts.
  double fade = 0;
};

/// share (1 - fade share), not below 0: what is left of a share once the defence expects some.
double surprising_share(double share, double fade);

/// The scheme with `share` of the calls turned into the package's family: the others shrink by
/// 1 - share. A share of 0 changes nothing to the last bit. Throws InputError for an unknown
/// situation or family, and where nothing lies inside the yard line.
Scheme with_package(const Scheme& scheme, const Package& package, double share);

/// Per game.
struct GameCounts {
  double package_calls = 0;        ///< of the package's family
  double quarterback_runs = 0;     ///< planned, all families of kind qb_run
  double red_zone_touchdowns = 0;  ///< scored on snaps from the 20 and nearer
};

struct PackageResult {
  WhatIf effect;
  double surprising = 0;  ///< share that still surprises
  GameCounts before, after;
};

/// Points and touchdowns come from the share that surprises, calls and contact from all of it.
PackageResult add_package(const Question& question, const Package& package,
                          const DrawOptions& options, const Progress& progress = {});

}  // namespace callfit
