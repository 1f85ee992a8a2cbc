#pragma once

namespace callfit {

/// How far a coordinator would bend.
struct TailorLimits {
  double move = 0.05;      ///< how far each share may move, in (0, 1]
  double run_pass = 0.05;  ///< how far a situation's share of passes may move, in [0, 1]
  /// Of a call's added share d the part fade x d is expected by the defence and is worth no more
  /// than the mix as it was (see Package::fade); fade x move at most 1.
  double fade = 0;
  bool uncharted = false;  ///< also more of families of which nothing was charted
};

}  // namespace callfit
