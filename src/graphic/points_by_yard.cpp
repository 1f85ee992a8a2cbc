#include <callfit/graphic/pictures.hpp>

#include <callfit/base/isolated.hpp>
#include "graphic/curve_chart.hpp"

#include <callfit/report/number_text.hpp>

#include <algorithm>
#include <string>

namespace callfit {
namespace {

std::string yard_line(double yards_to_goal) {
  return fixed(std::min(yards_to_goal, 100 - yards_to_goal), 0);
}

Curve curve_of(const DrivesAnswer& drives) {
  Curve curve{drives.about.quarterback, {}};
  for (const Number& net : drives.net_points_at)
    curve.points.push_back({static_cast<double>(curve.points.size() + 1), net});
  return curve;
}

std::vector<Curve> curves_of(const DrivesAnswer& first,
                             const std::optional<DrivesAgainst>& against) {
  std::vector<Curve> curves{curve_of(first)};
  if (against) curves.push_back(curve_of(against->drives));
  return curves;
}

CurveChart chart_of(std::vector<Curve> curves, const Wording& wording) {
  CurveChart chart;
  chart.curves = std::move(curves);
  chart.x = {100, 0};
  for (int yards = 10; yards <= 90; yards += 10) chart.x_ticks.push_back(yards);
  chart.x_text = yard_line;
  chart.y_text = signed_fixed;
  chart.x_note = wording("yard_axis");
  chart.y_note = wording("yard_net");
  chart.grass = true;
  return chart;
}

constexpr double own_25 = 75;  // yards to go, where most drives start

const CurvePoint& point_at(const Curve& curve, double x) {
  return *std::min_element(curve.points.begin(), curve.points.end(),
                           [x](const CurvePoint& a, const CurvePoint& b) {
                             return std::abs(a.x - x) < std::abs(b.x - x);
                           });
}

std::string from_own_25(const Curve& curve, const Wording& wording) {
  return wording("yard_one",
                 {{"player", isolated(curve.label)},
                  {"points", number_text(Unit::signed_points, point_at(curve, own_25).y)}});
}

std::string lines_of(const std::vector<Curve>& curves) {
  std::string text;
  for (const Curve& curve : curves)
    for (const double yards : {90.0, 75.0, 50.0, 25.0, 10.0}) {
      const CurvePoint& point = point_at(curve, yards);
      text += isolated(curve.label) + ", " + fixed(point.x, 0) + ": " +
              number_text(Unit::signed_points, point.y) + ".\n";
    }
  return text;
}

}  // namespace

Panel points_by_yard_panel(const DrivesAnswer& first, const std::optional<DrivesAgainst>& against,
                           const Wording& wording) {
  const auto curves = curves_of(first, against);
  std::vector<std::string> deck{wording("yard_deck", {{"scheme", isolated(first.about.scheme)}})};
  if (against)
    for (const Curve& curve : curves) deck.push_back(from_own_25(curve, wording) + ".");
  std::vector<std::string> notes{wording("band_note")};
  if (against) notes.push_back(wording("two_bands_note"));
  return {{wording("yard_kicker"),
           against ? ahead_sentence(against->difference, first.about.scheme, wording)
                   : from_own_25(curves.front(), wording),
           deck, notes, lines_of(curves)},
          [curves, wording](Canvas& canvas, const Box& box) {
            paint_curve_chart(canvas, box, chart_of(curves, wording));
          }};
}

}  // namespace callfit
