#include <callfit/report/question_reports.hpp>
#include <callfit/report/table.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

constexpr std::size_t text_width = 100;

std::string moved_value(const Moved& moved, double value, const std::string& word) {
  return moved.unit == KnobUnit::word ? word : knob_value(moved.unit, value);
}

bool worth_a_line(const Moved& moved) {
  constexpr double visible = 0.002;
  return moved.asked || moved.unit == KnobUnit::word ||
         std::abs(moved.after - moved.before) >= visible;
}

std::string moved_table(const std::vector<Moved>& list) {
  Table table({{"what moved", Align::left, 60}, {"before"}, {"after"}, {"", Align::left, 12}});
  for (const bool asked : {true, false})
    for (const Moved& moved : list)
      if (moved.asked == asked && worth_a_line(moved))
        table.add({moved.about, moved_value(moved, moved.before, moved.word_before),
                   moved_value(moved, moved.after, moved.word_after), asked ? "asked" : "along"});
  return table.text();
}

void add_effect(Table& table, const std::string& name, const Effect& effect, int decimals) {
  table.add({name, fixed(effect.before.value, decimals), fixed(effect.after.value, decimals),
             signed_fixed(effect.change.value, decimals),
             range(effect.change.interval90, decimals, true)});
}

std::string effects_table(const WhatIf& result) {
  Table table({{"", Align::left}, {"before"}, {"after"}, {"change"}, {"90% interval"}});
  add_effect(table, "fit, at the estimates", result.fit, 1);
  add_effect(table, "points per drive", result.points_per_drive, 3);
  add_effect(table, "net points per drive", result.net_per_drive, 3);
  add_effect(table, "points per game", result.points_per_game, 2);
  add_effect(table, "net points per game", result.net_per_game, 2);
  return table.text();
}

std::string results_table(const WhatIf& result) {
  Table table({{"drives end in", Align::left}, {"before"}, {"after"}, {"change"}});
  for (std::size_t i = 0; i < drive_result_count; ++i) {
    const double before = 100 * result.drive_before.share[i];
    const double after = 100 * result.drive_after.share[i];
    if (before == 0 && after == 0) continue;
    table.add({plain(enum_words<DriveResult>[i]), fixed(before, 1) + '%', fixed(after, 1) + '%',
               signed_fixed(after - before, 2)});
  }
  return table.text();
}

}  // namespace

std::string knob_value(KnobUnit unit, double value) {
  if (unit == KnobUnit::share) return percent(value);
  if (unit == KnobUnit::yards) return fixed(value, 1) + " yd";
  return fixed(value, 2);
}

std::string change_claim(const UncertainValue& change, const std::string& what) {
  const std::string interval = "90% interval " + range(change.interval90, 1, true);
  const bool up = change.interval90.low > 0;
  const bool down = change.interval90.high < 0;
  if (change.value == 0 && change.interval90.low == 0 && change.interval90.high == 0)
    return what + " do not change";
  if (!up && !down)
    return what + " change by " + signed_fixed(change.value, 1) +
           ", but the tape does not settle "
           "which way (" +
           interval + ")";
  return what + (up ? " rise by " : " fall by ") + fixed(std::abs(change.value), 1) + " (" +
         interval + ")";
}

std::string whatif_text(const WhatIf& result, const std::string& player,
                        const std::string& scheme) {
  std::string text = wrapped(player + " in " + scheme + ": " +
                                 change_claim(result.net_per_game.change, "net points a game") +
                                 "; fit " + fixed(result.fit.before.value, 0) + " to " +
                                 fixed(result.fit.after.value, 0) + " of 100.",
                             text_width);
  if (!result.moved.empty()) text += '\n' + moved_table(result.moved);
  text += '\n' + effects_table(result) + '\n' + results_table(result);
  if (std::any_of(result.moved.begin(), result.moved.end(),
                  [](const Moved& moved) { return !moved.asked; }))
    text += "\nalong: the rest of a mix gives or takes in proportion, so that it still sums to 1\n";
  return text;
}

std::string sweep_text(const Sweep& result, const std::string& player, const std::string& scheme) {
  Table table({{"value"},
               {"fit"},
               {"points per drive"},
               {"net per drive"},
               {"net per game, change"},
               {"90% interval"}});
  for (const SweepPoint& point : result.points)
    table.add({knob_value(result.unit, point.at), fixed(point.fit, 0), fixed(point.points.value, 3),
               signed_fixed(point.net.value, 3), signed_fixed(point.net_change.value, 2),
               range(point.net_change.interval90, 2, true)});
  return wrapped(player + " in " + scheme + ", at values of " + result.path + ": " + result.about +
                     "; now " + knob_value(result.unit, result.now) + '.',
                 text_width) +
         '\n' + table.text();
}

std::string grid_text(const SweepGrid& result, const std::string& player,
                      const std::string& scheme) {
  std::vector<Column> columns{{"", Align::right}};
  for (const double at : result.columns) columns.push_back({knob_value(result.unit[1], at)});
  Table table(std::move(columns));
  for (std::size_t r = 0; r < result.rows.size(); ++r) {
    std::vector<std::string> cells{knob_value(result.unit[0], result.rows[r])};
    for (const UncertainValue& value : result.cell[r]) {
      const bool settled = value.interval90.low > 0 || value.interval90.high < 0;
      cells.push_back(signed_fixed(value.value, 2) + (settled ? "" : "?"));
    }
    table.add(std::move(cells));
  }
  return player + " in " + scheme + ": change of net points a game\nrows: " + result.about[0] +
         ", now " + knob_value(result.unit[0], result.now[0]) + "\ncolumns: " + result.about[1] +
         ", now " + knob_value(result.unit[1], result.now[1]) + "\n\n" + table.text() +
         "\n?: the 90% interval includes 0\n";
}

std::string knobs_text(const Question& question) {
  Table table({{"path", Align::left, 60}, {"now"}, {"what it is", Align::left, 60}});
  for (const Knob& knob : knobs_of(question)) {
    const double now = knob.get(question);
    table.add({knob.path,
               knob.unit == KnobUnit::word ? knob.words[static_cast<std::size_t>(now)]
                                           : knob_value(knob.unit, now),
               knob.about});
  }
  return table.text();
}

}  // namespace callfit
