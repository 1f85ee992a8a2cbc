// Everything that a fit picture, and what is said with it, is about.
#pragma once

#include <callfit/ask/study.hpp>

#include <optional>
#include <vector>

namespace callfit {

/// Whose game a fit picture shows, against whom, and whose tape stands behind it.
struct FitScene {
  FitAnswer fit;
  std::optional<DifferenceAnswer> against;  ///< the case's other man in the same scheme
  std::vector<About> tape;
};
FitScene fit_scene(Study& study, const Stand& stand);

}  // namespace callfit
