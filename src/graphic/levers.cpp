#include <callfit/graphic/levers.hpp>

#include "graphic/ball_chart.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace callfit {
namespace {

std::vector<Lever> by_size(const LeverPicture& values) {
  auto levers = values.levers;
  std::stable_sort(levers.begin(), levers.end(), [](const Lever& a, const Lever& b) {
    return std::abs(a.gain.value) > std::abs(b.gain.value);
  });
  return levers;
}

BallChart chart_of(const LeverPicture& values, const Wording& wording) {
  const auto levers = by_size(values);
  BallChart chart;
  chart.stick = 0;
  chart.below = {wording("lever_costs"), Ink::second};
  chart.above = {wording("lever_gains"), Ink::first};
  chart.tick_text = [](double tick, int decimals) { return signed_text(tick, decimals); };
  chart.axis_note = wording("lever_axis", {{"answer", values.answer}, {"step", values.step}});
  const double largest = levers.empty() ? 1 : std::max(std::abs(levers.front().gain.value), 1e-9);
  for (const Lever& lever : levers)
    chart.blocks.push_back(
        {lever.label,
         lever.change,
         lever.change,
         {{lever.gain, "", signed_text(lever.gain.value, 2),
           range_text(lever.gain, Unit::points, wording), std::abs(lever.gain.value) / largest,
           lever.gain.value < 0 ? Ink::second : Ink::first, fill_of(lever.gain, 0), std::nullopt}},
         ""});
  return chart;
}

std::string headline(const LeverPicture& values, const Wording& wording) {
  const auto levers = by_size(values);
  const std::string player = isolated(values.player), scheme = isolated(values.scheme);
  if (levers.empty() || !levers.front().gain.clear_of(0))
    return wording("lever_none", {{"player", player}, {"scheme", scheme}});
  const std::string best = isolated(levers[0].label);
  if (levers.size() == 1 || levers[0].gain.low > levers[1].gain.high)
    return wording("lever_one", {{"player", player}, {"scheme", scheme}, {"best", best}});
  return wording("lever_two", {{"player", player},
                               {"scheme", scheme},
                               {"best", best},
                               {"next", isolated(levers[1].label)}});
}

}  // namespace

Panel lever_panel(const LeverPicture& values, const Wording& wording) {
  std::string lines;
  for (const Lever& lever : by_size(values))
    lines += isolated(lever.label) + ", " + lever.change + ": " + signed_text(lever.gain.value, 2) +
             " (" + range_text(lever.gain, Unit::points, wording) + ").\n";
  return {{wording("lever_kicker"),
           headline(values, wording),
           {wording("lever_deck", {{"answer", values.answer},
                                   {"step", values.step},
                                   {"scheme", isolated(values.scheme)}})},
           wording("ball_note"),
           lines},
          [values, wording](Canvas& canvas, const Box& box) {
            paint_ball_chart(canvas, box, chart_of(values, wording), wording);
          }};
}

}  // namespace callfit
