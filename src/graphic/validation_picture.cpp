#include <callfit/graphic/validation_picture.hpp>

#include "graphic/ball_chart.hpp"

#include <algorithm>
#include <string>

namespace callfit {
namespace {

std::string text_of(const ValidationRow& row, double value) {
  return row.is_share ? percent_text(value) : number_text(value, 2);
}

bool holds(const ValidationRow& row) { return !row.observed.clear_of(row.model); }

BallChart chart_of(const ValidationPicture& values, const Wording& wording) {
  BallChart chart;
  const bool shares = std::all_of(values.rows.begin(), values.rows.end(),
                                  [](const ValidationRow& row) { return row.is_share; });
  chart.tick_text = [shares](double tick, int decimals) {
    return shares ? percent_text(tick) : number_text(tick, decimals);
  };
  chart.axis_note = wording("validation_axis");
  // Here solid means trouble: the model lies outside what was seen.
  for (const ValidationRow& row : values.rows)
    chart.blocks.push_back(
        {row.label,
         "",
         "",
         {{row.observed, "", text_of(row, row.observed.value),
           wording("validation_model", {{"value", text_of(row, row.model)}}), 0.7,
           holds(row) ? Ink::first : Ink::second, fill_of(row.observed, row.model), row.model}},
         ""});
  return chart;
}

}  // namespace

Panel validation_panel(const ValidationPicture& values, const Wording& wording) {
  const auto inside = std::count_if(values.rows.begin(), values.rows.end(), holds);
  std::string lines;
  for (const ValidationRow& row : values.rows)
    lines += row.label + ": " + text_of(row, row.observed.value) + " (" +
             text_of(row, row.observed.low) + ", " + text_of(row, row.observed.high) + "), " +
             wording("validation_model", {{"value", text_of(row, row.model)}}) + ".\n";
  return {{wording("validation_kicker"),
           wording("validation_headline", {{"inside", std::to_string(inside)},
                                           {"all", std::to_string(values.rows.size())},
                                           {"what", values.what}}),
           {wording("validation_deck"), wording("validation_source", {{"source", values.source}})},
           wording("validation_note"),
           lines},
          [values, wording](Canvas& canvas, const Box& box) {
            paint_ball_chart(canvas, box, chart_of(values, wording), wording);
          }};
}

}  // namespace callfit
