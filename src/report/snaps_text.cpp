#include <callfit/report/snaps_text.hpp>

#include "report/phrases.hpp"
#include "report/snap_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <utility>

namespace callfit {
namespace {

Unit unit_of_snaps(SnapUnit unit) {
  switch (unit) {
    case SnapUnit::share:
      return Unit::share;
    case SnapUnit::yards:
      return Unit::yards;
    case SnapUnit::points:
      return Unit::points;
    case SnapUnit::net_points:
      return Unit::signed_points;
    case SnapUnit::place:
      return Unit::place;
    case SnapUnit::distance:
      return Unit::distance;
    default:
      return Unit::count;
  }
}

// What one snap moves is small: more decimals than the number itself is told with.
std::string moved_text(SnapUnit unit, double value) {
  switch (unit) {
    case SnapUnit::share:
      return signed_fixed(100 * value, 2) + "%";
    case SnapUnit::yards:
      return signed_fixed(value, 3) + " yd";
    case SnapUnit::place:
      return signed_fixed(value, 2);
    case SnapUnit::distance:
      return signed_fixed(value, 4);
    default:
      return signed_fixed(value, 3);
  }
}

std::string end_text(SnapUnit unit, double value) {
  return unit == SnapUnit::share ? fixed(100 * value, 1) + "%"
                                 : value_text(unit_of_snaps(unit), value);
}

std::string file_of(const std::string& path) {
  const std::size_t slash = path.find_last_of("/\\");
  return slash == std::string::npos ? path : path.substr(slash + 1);
}

std::string clock_text(float seconds) {
  const auto whole = static_cast<long>(seconds);
  const double rest = static_cast<double>(seconds) - static_cast<double>(whole);
  const std::string tail = rest > 0 ? fmt::format("{:.1f}", rest).substr(1) : "";
  return fmt::format("{}:{:02}{}", whole / 60, whole % 60, tail);
}

std::string clip_text(const Snap& snap) {
  // The time first: names of films are long, and are cut first.
  std::string text;
  if (snap.start) text += clock_text(*snap.start);
  if (snap.end) text += "-" + clock_text(*snap.end);
  return text + (text.empty() || snap.clip.empty() ? "" : " ") + snap.clip.str();
}

std::string counted_text(const SnapRow& row) {
  if (!row.counts) return row.why_not;
  std::string text = row.made ? (*row.made ? "yes" : "no") : "counts";
  if (row.weight != 1) text += " x" + fixed(row.weight, 2);
  return text;
}

std::string game_text(const SnapRow& row) {
  const std::string opponent = row.snap.opponent.str();
  return row.snap.game.str() + (opponent.empty() ? "" : ", " + opponent);
}

bool any_clip(const SnapsAnswer& answer) {
  return std::any_of(answer.rows.begin(), answer.rows.end(), [](const SnapRow& row) {
    return !row.snap.clip.empty() || row.snap.start || row.snap.end;
  });
}

bool is_rate_or_gain(const SnapsAnswer& answer) {
  return answer.number.unit == SnapUnit::share || answer.number.unit == SnapUnit::yards;
}

// What is told of a row; of width 0 on pages alone, where there is room.
struct SnapColumn {
  std::string head;
  std::size_t width = 0;
  std::function<std::string(const SnapRow&)> text;
};

std::vector<SnapColumn> columns_of(const SnapsAnswer& answer) {
  const bool is_of_family = is_rate_or_gain(answer);
  std::vector<SnapColumn> columns{{"row", 20, [](const SnapRow& row) {
                                     return file_of(row.chart) + ':' + std::to_string(row.line);
                                   }}};
  if (answer.moves)
    columns.push_back({"moved", 10, [unit = answer.number.unit](const SnapRow& row) {
                         return row.moved ? moved_text(unit, *row.moved) : "";
                       }});
  columns.push_back({"down", 14, snap_down_text});
  columns.push_back({"result", 16, [](const SnapRow& row) { return snap_result_text(row.snap); }});
  if (is_of_family) columns.push_back({"counted", 11, counted_text});
  columns.push_back({"family", is_of_family ? std::size_t{0} : 16,
                     [](const SnapRow& row) { return row.family; }});
  columns.push_back({"game", 0, game_text});
  if (any_clip(answer))
    columns.push_back({"film", 14, [](const SnapRow& row) { return clip_text(row.snap); }});
  return columns;
}

bool tells_net_points(const SnapsAnswer& answer) {
  const auto& footing = answer.about.footing;
  return answer.number.unit == SnapUnit::net_points || (footing && footing->assumed.net_points);
}

std::string table_of(const SnapsAnswer& answer, const std::vector<std::size_t>& rows) {
  std::vector<SnapColumn> told = columns_of(answer);
  std::erase_if(told, [](const SnapColumn& column) { return column.width == 0; });
  std::vector<Column> columns;
  columns.reserve(told.size());
  for (const SnapColumn& column : told) columns.push_back({column.head, Align::left, column.width});
  Table table(std::move(columns));
  for (const std::size_t row : rows) {
    std::vector<std::string> cells;
    cells.reserve(told.size());
    for (const SnapColumn& column : told) cells.push_back(column.text(answer.rows[row]));
    table.add(std::move(cells));
  }
  return table.text();
}

std::string most_text(const SnapsAnswer& answer, const std::vector<std::size_t>& rows,
                      const char* way) {
  if (rows.empty()) return "";
  return "\nmoved it " + std::string(way) + " most\n" + table_of(answer, rows);
}

}  // namespace

std::string snap_result_text(const Snap& snap) {
  const std::string what = plain(word(snap.result));
  const bool has_yards = snap.result != Result::incomplete && snap.result != Result::intercepted &&
                         snap.result != Result::no_play;
  std::string text = has_yards ? what + ' ' + std::to_string(snap.yards) : what;
  if (snap.fumble_lost.value_or(false)) text += ", fumble lost";
  return text;
}

std::string snap_down_text(const SnapRow& row) {
  return fmt::format("{} and {} at {}", row.snap.down, row.snap.to_go, row.snap.yards_to_goal);
}

std::string snaps_head(const SnapsAnswer& answer) {
  std::string text = capital(answer.number.label) + ", " + stand_text(answer.about);
  if (answer.shown) text += ": " + number_text(unit_of_snaps(answer.number.unit), *answer.shown);
  return text;
}

std::string snaps_way(const SnapsAnswer& answer) {
  if (!answer.has_charts)
    return "No rows: a finished profile has counts alone; give the charts in its place.";
  if (!answer.moves)
    return answer.number.unit == SnapUnit::snaps
               ? ""
               : "How much each moved it is told where the setting says how quarterbacks differ "
                 "together.";
  const SnapMoves& moves = *answer.moves;
  const SnapUnit unit = answer.number.unit;
  std::string text = "In the mean his tape moved it from " + end_text(unit, moves.without) +
                     " with nothing charted to " + end_text(unit, moves.with) + ": the rows here " +
                     moved_text(unit, moves.rows);
  if (moves.other_snaps != 0) text += ", his other snaps " + moved_text(unit, moves.other_snaps);
  if (moves.season_totals != 0)
    text += ", games that nobody charted " + moved_text(unit, moves.season_totals);
  return text + ", not shared out " + moved_text(unit, moves.rest) + ".";
}

std::string snaps_left_out(const SnapsAnswer& answer) {
  std::map<std::string, std::size_t> reasons;
  std::size_t count = 0;
  for (const SnapRow& row : answer.rows) {
    if (row.counts) continue;
    ++reasons[row.why_not];
    ++count;
  }
  if (count == 0) return "";
  std::string text;
  for (const auto& [why, times] : reasons)
    text += (text.empty() ? "" : ", ") + why + ' ' + std::to_string(times);
  return (count == 1 ? "1 row is" : std::to_string(count) + " rows are") + " not counted: " + text +
         ".";
}

std::string snaps_rows_head(const SnapsAnswer& answer) {
  return answer.rows.size() == 1 ? "The one row"
                                 : "All " + std::to_string(answer.rows.size()) + " rows";
}

std::string snaps_more(const SnapsAnswer& answer, std::size_t shown) {
  if (answer.rows.size() <= shown) return "";
  return "Here are the first " + std::to_string(shown) + "; the answer as JSON has all of them.";
}

std::vector<std::string> snap_heads(const SnapsAnswer& answer) {
  std::vector<std::string> heads;
  for (const SnapColumn& column : columns_of(answer)) heads.push_back(column.head);
  return heads;
}

std::vector<std::string> snap_cells(const SnapsAnswer& answer, const SnapRow& row) {
  std::vector<std::string> cells;
  for (const SnapColumn& column : columns_of(answer)) cells.push_back(column.text(row));
  return cells;
}

std::string snaps_text(const SnapsAnswer& answer) {
  std::string text = wrapped(snaps_head(answer) + '.') + tape_line(answer.about);
  if (const std::string way = snaps_way(answer); !way.empty()) text += '\n' + wrapped(way);
  text += most_text(answer, answer.most_up, "up") + most_text(answer, answer.most_down, "down");
  if (is_rate_or_gain(answer) && !answer.rows.empty()) {
    std::vector<std::size_t> counted;
    for (std::size_t i = 0; i < answer.rows.size(); ++i)
      if (answer.rows[i].counts) counted.push_back(i);
    text +=
        "\nthe " + std::to_string(counted.size()) + " that it counts\n" + table_of(answer, counted);
  } else if (!answer.rows.empty()) {
    text += '\n' + wrapped("It rests on " + std::to_string(answer.rows.size()) +
                           " rows; --json lists them all.");
  }
  if (const std::string left_out = snaps_left_out(answer); !left_out.empty())
    text += wrapped(left_out);
  if (tells_net_points(answer)) text += wrapped(net_points_meaning);
  return text;
}

std::string snap_numbers_text(const std::vector<SnapNumber>& numbers) {
  Table table({{"number", Align::left, 60}, {"what it is", Align::left, 60}});
  for (const SnapNumber& number : numbers) table.add({number.address, number.label});
  return table.text();
}

}  // namespace callfit
