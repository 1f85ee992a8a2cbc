// Every picture, drawn straight from answers: what a panel shows is what text and JSON say.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/graphic/dress.hpp>
#include <callfit/profile/throw_zones.hpp>
#include <callfit/telling/fit_scene.hpp>
#include <callfit/validate/validate.hpp>

#include <cstddef>
#include <optional>
#include <vector>

namespace callfit {

/// Who fits a scheme and where not: the demands as balls that have to reach a line, families by
/// what they cost; beside them his place of 100 and, with `against`, the net points. With `start`,
/// the fit before anything was turned, rows keep its order and show where a ball began. What can be
/// turned carries its path as an id: balls, what is asked, call shares.
Panel fit_panel(const FitAnswer& fit, const std::optional<DifferenceAnswer>& against,
                const Wording& wording, const std::optional<FitAnswer>& start = {});

/// What stands in a file beside a picture: the paragraph to say, the picture in words, how often
/// such odds came true where it is of two men, the cautions.
std::string text_beside(const Figure& drawing, const SayAnswer& say, const Case& about);

/// Where the throws go and how many are caught, on a field drawn to scale; `hash_gap` in feet
/// (GameRules).
Panel throws_panel(const About& about, const std::vector<ThrowZone>& zones, double hash_gap,
                   const Wording& wording);

/// Another man's drives in the same scheme, and the first minus him.
struct DrivesAgainst {
  DrivesAnswer drives;
  DifferenceAnswer difference;
};

/// How drives end under two quarterbacks, side by side: results with the same ids in the same
/// order.
Panel drive_results_panel(const DrivesAnswer& first, const DrivesAgainst& against,
                          const Wording& wording);

/// Net points expected of first and ten at every yard line.
Panel points_by_yard_panel(const DrivesAnswer& first, const std::optional<DrivesAgainst>& against,
                           const Wording& wording);

/// Change of net points a game: a curve over one axis of at least 2 places, a map over two.
Panel sweep_panel(const SweepAnswer& sweep, const Wording& wording);

/// The `most` largest levers.
Panel levers_panel(const LeversAnswer& levers, std::size_t most, const Wording& wording);

/// Net points and place of every quarterback in every scheme.
Panel comparison_panel(const CompareAnswer& comparison, const Wording& wording);

/// One small chart a value, game by game.
Panel trend_panel(const TrendAnswer& trend, const Wording& wording);

/// Drive results of the setting's average offence against counted ones.
Panel validation_panel(const ValidationReport& report, const Wording& wording);

}  // namespace callfit
