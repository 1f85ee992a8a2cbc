// A few calls added in one situation.
#pragma once

#include <callfit/scheme/scheme.hpp>

#include <optional>
#include <string>

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

}  // namespace callfit
