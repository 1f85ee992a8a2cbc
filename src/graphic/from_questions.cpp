#include <callfit/graphic/from_questions.hpp>
#include <callfit/graphic/from_results.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace callfit {
namespace {

std::string amount(KnobUnit unit, double value) {
  if (unit == KnobUnit::share) return fmt::format("{:.3g}%", 100 * std::clamp(value, 0.0, 1.0));
  return unit == KnobUnit::yards ? fmt::format("{:.1f} yd", value) : fmt::format("{:.2f}", value);
}

}  // namespace

SweepCurve sweep_picture(const std::string& player, const Sweep& result) {
  SweepCurve picture;
  picture.player = player;
  picture.quantity = result.about;
  picture.quantity_is_share = result.unit == KnobUnit::share;
  picture.answer = "net points a game, change";
  for (const SweepPoint& point : result.points)
    picture.curve.points.push_back({point.at, reading_of(point.net_change)});
  std::sort(picture.curve.points.begin(), picture.curve.points.end(),
            [](const CurvePoint& a, const CurvePoint& b) { return a.x < b.x; });
  picture.curve.label = player;
  picture.now = result.now;
  return picture;
}

ComparisonMap grid_picture(const SweepGrid& result) {
  ComparisonMap map;
  map.what = "change of net points a game";
  map.decimals = 1;
  for (const double at : result.rows)
    map.row_labels.push_back(result.about[0] + " " + amount(result.unit[0], at));
  for (const double at : result.columns)
    map.column_labels.push_back(result.about[1] + " " + amount(result.unit[1], at));
  for (const auto& row : result.cell) {
    map.cells.emplace_back();
    for (const UncertainValue& value : row) map.cells.back().push_back(reading_of(value));
  }
  return map;
}

LeverPicture lever_picture(const std::string& player, const std::string& scheme,
                           const std::vector<LeverValue>& levers, std::size_t most) {
  LeverPicture picture{player,
                       scheme,
                       "net points a game",
                       "one spread between quarterbacks, or 10 points of calls",
                       {}};
  for (const LeverValue& lever : levers) {
    if (picture.levers.size() == most) break;
    if (lever.of_handoffs) continue;
    picture.levers.push_back(
        {lever.about,
         amount(lever.unit, lever.now) + " to " + amount(lever.unit, lever.now + lever.step),
         reading_of(lever.net_per_game)});
  }
  return picture;
}

}  // namespace callfit
