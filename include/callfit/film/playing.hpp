// How film is played while it is charted and shown: one place for its speeds and steps.
#pragma once

#include <array>
#include <optional>

namespace callfit {

/// Slower and faster go from one to the next; 1 is as it was filmed. No source: from a tenth, where
/// a ball's flight can be followed, to where a huddle is passed over.
inline constexpr std::array film_speeds{0.1, 0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 4.0, 8.0};

inline constexpr int film_jump = 3;  ///< seconds that the arrows go back and on
inline constexpr double film_shuttle_back =
    1;  ///< seconds a press, since browsers play no film backwards
inline constexpr double film_frame =
    1.0 / 30;  ///< seconds of a frame until the film has shown how long its own are
inline constexpr double snap_without_end =
    8;  ///< seconds that are shown of a snap whose end nobody charted

/// Where what is shown of a snap ends: seconds into the film.
constexpr double shown_until(double start, std::optional<double> end) {
  return end ? *end : start + snap_without_end;
}

}  // namespace callfit
