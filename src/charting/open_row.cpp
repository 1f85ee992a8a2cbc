#include <callfit/chart/odd_rows.hpp>
#include <callfit/charting/charting.hpp>
#include <charting/key_words.hpp>

#include <algorithm>
#include <array>

namespace callfit::charting {
namespace {

// What a game's rows mostly share: shown as proposals, like all that follows.
constexpr std::array carried{ChartColumn::opponent, ChartColumn::quarter, ChartColumn::season,
                             ChartColumn::team, ChartColumn::clip};

}  // namespace

const Snap* Charting::before(const OpenRow& open) const {
  return open.place > 0 ? &rows_.snap(open.place - 1) : nullptr;
}

bool Charting::is_same_game(const OpenRow& open) const {
  const Snap* row = before(open);
  const auto typed = open.typed.find(ChartColumn::game);
  return row && (typed == open.typed.end() || row->game.view() == typed->second);
}

std::optional<FamilyKind> Charting::family_kind(const OpenRow& open) const {
  const std::string id = value_of(open, ChartColumn::family);
  for (const Family& family : rows_.words().families)
    if (family.id == id) return family.kind;
  return std::nullopt;
}

std::optional<DriveState> Charting::place_of(const OpenRow& open) const {
  const Snap* row = before(open);
  const auto expected = row && is_same_game(open) ? following(*row) : std::nullopt;
  const auto typed = open.typed.find(ChartColumn::yards_to_goal);
  if (typed != open.typed.end())
    if (const auto spot = whole_number(typed->second); spot && *spot >= 1 && *spot <= 99)
      return moved_to(expected, *spot);
  return expected ? std::optional(expected->place) : std::nullopt;
}

std::string Charting::proposal(const OpenRow& open, ChartColumn column) const {
  if (!open.is_new) return {};
  const Snap* row = before(open);
  switch (column) {
    case ChartColumn::game:
      return row ? row->game.str() : std::string();
    case ChartColumn::level:
      return row ? row->level.str() : std::string();
    case ChartColumn::down:
    case ChartColumn::to_go:
    case ChartColumn::yards_to_goal:
      if (const auto place = place_of(open))
        return std::to_string(column == ChartColumn::down    ? place->down
                              : column == ChartColumn::to_go ? place->to_go
                                                             : place->yards_to_goal);
      return {};
    case ChartColumn::result: {  // of a run that was called nothing else is left but a foul
      const auto called = family_kind(open);
      return called && *called != FamilyKind::pass ? std::string(word(Result::run)) : "";
    }
    case ChartColumn::yards: {
      const auto result = from_word<Result>(value_of(open, ChartColumn::result));
      return result && (*result == Result::incomplete || *result == Result::intercepted ||
                        *result == Result::no_play)
                 ? "0"
                 : "";
    }
    default:
      if (!is_same_game(open) || std::find(carried.begin(), carried.end(), column) == carried.end())
        return {};
      return at(rows_.values(open.place - 1), column);
  }
}

std::string Charting::value_of(const OpenRow& open, ChartColumn column) const {
  if (const auto typed = open.typed.find(column); typed != open.typed.end()) return typed->second;
  return open.is_new ? proposal(open, column) : at(rows_.values(open.place), column);
}

std::string Charting::value(ChartColumn column) const {
  return open_ ? value_of(*open_, column) : std::string();
}

Standing Charting::standing(ChartColumn column) const {
  if (value(column).empty()) return Standing::blank;
  return open_->typed.contains(column) || !open_->is_new ? Standing::typed : Standing::follows;
}

Values Charting::values_of(const OpenRow& open) const {
  Values values;
  for (std::size_t c = 0; c < column_count; ++c)
    values[c] = value_of(open, static_cast<ChartColumn>(c));
  return values;
}

std::string Charting::offer() const {
  const auto question = asked();
  if (!question || question->size() != 1) return {};
  std::string proposed = proposal(*open_, question->front());
  if (!proposed.empty() || question->front() != ChartColumn::yac) return proposed;
  const auto yards = whole_number(value(ChartColumn::yards));
  const auto air = whole_number(value(ChartColumn::air_yards));
  const auto spot = whole_number(value(ChartColumn::yards_to_goal));
  if (!yards || !air || !spot) return {};
  return std::to_string(*air >= *spot ? 0 : *yards - *air);
}

std::optional<FilmPlace> Charting::span() const {
  if (!open_) return std::nullopt;
  std::optional<double> start = seconds_in(value(ChartColumn::start));
  std::optional<double> end = seconds_in(value(ChartColumn::end));
  if (!open_->is_new) {  // a chart made elsewhere may say 1:23
    const Snap& there = rows_.snap(open_->place);
    if (!start && there.start) start = *there.start;
    if (!end && there.end) end = *there.end;
  }
  if (!start) return std::nullopt;
  return FilmPlace{value(ChartColumn::clip), *start, end};
}

Findings Charting::odd() const {
  if (!open_) return {};
  auto read = rows_.read(values_of(*open_));
  if (!read.snap) return {};
  Chart both{rows_.source(), {}};
  if (const Snap* row = before(*open_)) both.snaps.push_back(*row);
  read.snap->line = 0;
  both.snaps.push_back(std::move(*read.snap));
  Findings all = odd_rows(both);
  std::erase_if(all, [](const Finding& finding) { return finding.place.line != 0; });
  return all;
}

}  // namespace callfit::charting
