#include <callfit/report/answer_text.hpp>

#include "report/phrases.hpp"

#include <algorithm>

namespace callfit {
namespace {

std::string now_text(const SweepAxis& axis) {
  return axis.label + ", now " + knob_text(axis.unit, axis.now);
}

std::string change_text(const SweepCell& cell) {
  return number_text(Unit::signed_points, cell.net_points_per_game_change);
}

std::string line_head(const SweepAnswer& answer) {
  const SweepAxis& axis = answer.axes.front();
  const auto settled = std::count_if(answer.cells.begin(), answer.cells.end(), [](const auto& row) {
    return one_sided(row.front().net_points_per_game_change);
  });
  return stand_text(answer.about) + ", turning " + now_text(axis) + ": at " +
         knob_text(axis.unit, axis.at.front()) + " net points a game change by " +
         change_text(answer.cells.front().front()) + ", at " +
         knob_text(axis.unit, axis.at.back()) + " by " + change_text(answer.cells.back().front()) +
         "; at " + std::to_string(settled) + " of " + std::to_string(axis.at.size()) +
         " values the 90% interval lies on one side of 0.";
}

std::string line_table(const SweepAnswer& answer) {
  Table table({{"value"},
               {"place"},
               {"points per drive"},
               {"net per drive"},
               {"net per game, change"},
               {"90% interval"}});
  const SweepAxis& axis = answer.axes.front();
  for (std::size_t r = 0; r < axis.at.size(); ++r) {
    const SweepCell& cell = answer.cells[r].front();
    table.add({knob_text(axis.unit, axis.at[r]), value_text(Unit::place, cell.place.centre),
               value_text(Unit::points, cell.points_per_drive.centre),
               value_text(Unit::signed_points, cell.net_points_per_drive.centre),
               value_text(Unit::signed_points, cell.net_points_per_game_change.centre),
               range_text(Unit::signed_points, cell.net_points_per_game_change)});
  }
  return table.text();
}

// What is not settled carries a question mark.
std::string grid_cell(const SweepCell& cell) {
  const Number& change = cell.net_points_per_game_change;
  return value_text(Unit::signed_points, change.centre) + (one_sided(change) ? "" : "?");
}

// As many columns side by side as the width holds.
std::string grid_tables(const SweepAnswer& answer) {
  constexpr std::size_t at_once = 9;
  const SweepAxis& rows = answer.axes[0];
  const SweepAxis& across = answer.axes[1];
  std::string text;
  for (std::size_t from = 0; from < across.at.size(); from += at_once) {
    const std::size_t to = std::min(from + at_once, across.at.size());
    std::vector<Column> columns{{"", Align::right}};
    for (std::size_t c = from; c < to; ++c)
      columns.push_back({knob_text(across.unit, across.at[c])});
    Table table(std::move(columns));
    for (std::size_t r = 0; r < rows.at.size(); ++r) {
      std::vector<std::string> cells{knob_text(rows.unit, rows.at[r])};
      for (std::size_t c = from; c < to; ++c) cells.push_back(grid_cell(answer.cells[r][c]));
      table.add(std::move(cells));
    }
    text += '\n' + table.text();
  }
  return text;
}

}  // namespace

std::string sweep_text(const SweepAnswer& answer) {
  const std::string meaning = std::string(net_points_meaning) + '\n';
  if (answer.axes.size() == 1)
    return wrapped(line_head(answer)) + tape_line(answer.about) + '\n' + line_table(answer) +
           wrapped("place: of 100 quarterbacks of this level, how many fit it worse") + meaning;
  return wrapped(stand_text(answer.about) + ": change of net points a game") +
         wrapped("rows: " + now_text(answer.axes[0])) +
         wrapped("columns: " + now_text(answer.axes[1])) + tape_line(answer.about) +
         grid_tables(answer) + "\n?: the 90% interval includes 0\n" + meaning;
}

}  // namespace callfit
