#include <callfit/graphic/pictures.hpp>

#include "graphic/ball_chart.hpp"
#include "report/phrases.hpp"

#include <algorithm>
#include <string>

namespace callfit {
namespace {

constexpr double ends90 = 1.6449;  // standard normal quantile of .95

struct ValidationRow {
  std::string label;
  double model = 0;
  Number observed;  // with the sampling error of what was counted

  bool holds() const { return !one_sided(moved(observed, -model)); }
};

std::vector<ValidationRow> rows_of(const ValidationReport& report) {
  std::vector<ValidationRow> rows;
  if (report.drives.empty()) return rows;
  const DrivesCompared& all = report.drives.front();
  for (std::size_t r = 0; r < static_cast<std::size_t>(DriveResult::end_of_half); ++r) {
    const double share = all.observed.share[r];
    const double error = ends90 * all.observed.share_error(r);
    rows.push_back({plain(word(static_cast<DriveResult>(r))),
                    all.model.share[r],
                    {share, std::max(0.0, share - error), std::min(1.0, share + error)}});
  }
  return rows;
}

// As validation_text() writes shares.
std::string text_of(double share) { return fixed(100 * share, 1) + "%"; }

std::string model_text(const ValidationRow& row, const Wording& wording) {
  return wording("validation_model", {{"value", text_of(row.model)}});
}

BallChart chart_of(const std::vector<ValidationRow>& rows, const Wording& wording) {
  BallChart chart;
  chart.tick_text = percent_tick;
  chart.axis_note = wording("validation_axis");
  // Here solid means trouble: the model lies outside what was seen.
  for (const ValidationRow& row : rows)
    chart.blocks.push_back({row.label,
                            "",
                            "",
                            {{row.observed, "", text_of(row.observed.centre),
                              model_text(row, wording), 0.7, row.holds() ? Ink::first : Ink::second,
                              row.holds() ? Fill::hollow : Fill::solid, row.model}},
                            ""});
  return chart;
}

}  // namespace

Panel validation_panel(const ValidationReport& report, const Wording& wording) {
  const auto rows = rows_of(report);
  const auto inside =
      std::count_if(rows.begin(), rows.end(), [](const ValidationRow& row) { return row.holds(); });
  std::string lines;
  for (const ValidationRow& row : rows)
    lines += row.label + ": " + text_of(row.observed.centre) + " (" + text_of(row.observed.low) +
             " to " + text_of(row.observed.high) + "), " + model_text(row, wording) + ".\n";
  return {{wording("validation_kicker"),
           wording("validation_headline",
                   {{"inside", std::to_string(inside)}, {"all", std::to_string(rows.size())}}),
           {wording("validation_deck"),
            wording("validation_source", {{"setting", report.setting}, {"about", report.about}})},
           {wording("validation_note")},
           lines},
          [rows, wording](Canvas& canvas, const Box& box) {
            paint_ball_chart(canvas, box, chart_of(rows, wording), wording);
          }};
}

}  // namespace callfit
