#include <callfit/format/season_totals.hpp>
#include <format/worded_rows.hpp>

#include <array>

namespace callfit {

enum class SeasonColumn {
  season,
  team,
  level,
  games,
  attempts,
  completions,
  interceptions,
  sacks,
  scrambles
};

template <>
inline constexpr auto enum_words<SeasonColumn> =
    std::to_array<std::string_view>({"season", "team", "level", "games", "attempts", "completions",
                                     "interceptions", "sacks", "scrambles"});

SeasonTable parse_season_totals(std::string_view text, const std::string& source) {
  using Column = SeasonColumn;
  SeasonTable table{{}, source, {}};
  WordedRows<Column> rows(source, "season", {Column::season, Column::level, Column::attempts});
  rows.read(text, [&] {
    SeasonTotals season;
    season.season = std::string(rows.field(Column::season));
    season.team = std::string(rows.field(Column::team));
    season.level = plain_word(rows.field(Column::level));
    season.games = rows.count(Column::games).value_or(0);
    for (const Column column : {Column::season, Column::level, Column::attempts})
      if (rows.field(column).empty()) rows.fault(column, "is blank", "fill it in");
    if (!rows.field(Column::attempts).empty()) season.totals = rows.box_score().counts();
    table.seasons.push_back(season);
    table.lines.push_back(rows.line());
  });
  return table;
}

}  // namespace callfit
