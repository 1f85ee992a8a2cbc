#include <callfit/graphic/pictures.hpp>

#include <callfit/base/isolated.hpp>
#include "graphic/ball_chart.hpp"
#include "report/phrases.hpp"

#include <callfit/report/number_text.hpp>

#include <algorithm>
#include <cmath>
#include <string>

namespace callfit {
namespace {

double size_of(const LeverAnswer& lever) { return std::abs(lever.net_points_per_game.centre); }

std::string step_of(const LeverAnswer& lever, const Wording& wording) {
  return wording("lever_step", {{"from", knob_text(lever.unit, lever.now)},
                                {"to", knob_text(lever.unit, lever.now + lever.step)}});
}

std::string label_of(const LeverAnswer& lever, const Wording& wording) {
  return lever.of_handoffs ? wording("lever_runner", {{"label", lever.label}}) : lever.label;
}

BallChart chart_of(const LeversAnswer& answer, const Wording& wording) {
  BallChart chart;
  chart.stick = 0;
  chart.below = {wording("lever_costs"), Ink::second};
  chart.above = {wording("lever_gains"), Ink::first};
  chart.tick_text = signed_fixed;
  chart.axis_note = wording("lever_axis");
  double largest = 1e-9;
  for (const LeverAnswer& lever : answer.levers) largest = std::max(largest, size_of(lever));
  for (const LeverAnswer& lever : answer.levers) {
    const Number& gain = lever.net_points_per_game;
    chart.blocks.push_back(
        {label_of(lever, wording),
         step_of(lever, wording),
         step_of(lever, wording),
         {{gain, "", value_text(Unit::signed_points, gain.centre),
           range_text(Unit::signed_points, gain), size_of(lever) / largest,
           ink_of(gain, 0, Ink::first, Ink::second), fill_of(gain, 0), std::nullopt}},
         ""});
  }
  return chart;
}

std::string headline(const LeversAnswer& answer, const Wording& wording) {
  const auto clear =
      std::find_if(answer.levers.begin(), answer.levers.end(), [](const LeverAnswer& lever) {
        return !lever.of_handoffs && one_sided(lever.net_points_per_game);
      });
  const Wording::Values words = {{"player", isolated(answer.about.quarterback)},
                                 {"scheme", isolated(answer.about.scheme)}};
  if (clear == answer.levers.end()) return wording("lever_none", words);
  return wording("lever_best",
                 {{"best", isolated(capital(clear->label))},
                  {"step", step_of(*clear, wording)},
                  {"gain", value_text(Unit::signed_points, clear->net_points_per_game.centre)},
                  {"range", range_text(Unit::signed_points, clear->net_points_per_game)}});
}

}  // namespace

Panel levers_panel(const LeversAnswer& levers, std::size_t most, const Wording& wording) {
  LeversAnswer shown = levers;
  shown.levers.resize(std::min(most, shown.levers.size()));
  std::string lines;
  for (const LeverAnswer& lever : shown.levers)
    lines += isolated(label_of(lever, wording)) + ", " + step_of(lever, wording) + ": " +
             number_text(Unit::signed_points, lever.net_points_per_game) + ".\n";
  return {{wording("lever_kicker", {{"player", isolated(shown.about.quarterback)},
                                    {"scheme", isolated(shown.about.scheme)}}),
           headline(shown, wording),
           {wording("lever_deck")},
           {wording("lever_note")},
           lines},
          [shown, wording, out = levers.levers.size() - shown.levers.size()](Canvas& canvas,
                                                                             const Box& box) {
            BallChart chart = chart_of(shown, wording);
            chart.left_out = out;
            paint_ball_chart(canvas, box, chart, wording);
          }};
}

}  // namespace callfit
