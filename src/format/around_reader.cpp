#include <format/around_reader.hpp>

#include <format/box_score.hpp>
#include <profile/box.hpp>
#include <profile/tape_sources.hpp>

#include <optional>
#include <string>

namespace callfit {
namespace {

constexpr std::string_view move_want =
    R"(a move such as {"season": "2024", "team": "North", "change": "new_team"})";
constexpr std::string_view season_want =
    R"(totals such as {"season": "2025", "level": "college", "attempts": 310, "completions": 190})";
constexpr Sizes seasons_rule{0, 100, "a list of seasons"};
constexpr Sizes moves_rule{0, 100, "a list of moves"};
constexpr Numbers total_rule{0, 10'000, "a whole number from 0 to 10000"};
constexpr Texts around_name_rule{1, 200, "a short name"};

Move move_from(Fields& fields) {
  Move move;
  move.season = fields.text_or("season", around_name_rule, "");
  move.team = fields.text_or("team", around_name_rule, "");
  move.chart = fields.text_or("chart", around_name_rule, "");
  move.change = fields.word<PlaceChange>("change");
  if (move.season.empty() && move.team.empty() && move.chart.empty() && fields.sound())
    fields.part().fault("names no snaps", "give a season, a team or a chart of them");
  return move;
}

SeasonTotals season_from(Fields& fields) {
  SeasonTotals season;
  season.season = fields.text("season", around_name_rule);
  season.team = fields.text_or("team", around_name_rule, "");
  season.level = fields.text("level", around_name_rule);
  const auto total = [&fields](const char* key) {
    return fields.maybe(
        key, [](const Part& part) { return static_cast<double>(part.integer(total_rule)); });
  };
  season.games = total("games").value_or(0);
  const BoxScore score{static_cast<double>(fields.integer("attempts", total_rule)),
                       total("completions"), total("interceptions"), total("sacks"),
                       total("scrambles")};
  season.totals = score.counts();
  if (fields.sound() && score.fewer_attempts_than_ends())
    fields.at("attempts").fault("fewer than completions and interceptions", "mend one of them");
  return season;
}

bool is_twice(const SeasonTotals& a, const SeasonTotals& b) {
  return a.season == b.season && a.level == b.level &&
         (a.team == b.team || a.team.empty() || b.team.empty());
}

// Faults of a season told where it stands, in the case or in a file of its own.
class SeasonPlaces {
 public:
  SeasonPlaces(const SeasonTable& table, const Part& part) : table_(table), part_(part) {}

  void fault(std::size_t season, const std::string& key, const std::string& what,
             const std::string& mend) const {
    if (table_.lines.empty())
      part_.faults().add(child(child(part_.pointer(), season), key), what, mend);
    else
      part_.faults().add(Findings{{{table_.source, table_.lines[season], key}, what, mend}});
  }

 private:
  const SeasonTable& table_;
  const Part& part_;
};

void refuse_twice(const std::vector<SeasonTotals>& seasons, const SeasonPlaces& places) {
  for (std::size_t s = 0; s < seasons.size(); ++s)
    for (std::size_t before = 0; before < s; ++before)
      if (is_twice(seasons[before], seasons[s]))
        places.fault(s, "season", "season " + seasons[s].season + " is given twice",
                     "give it once, or each team's part");
}

void refuse_levels(const std::vector<SeasonTotals>& seasons, const Setting& setting,
                   const SeasonPlaces& places) {
  std::vector<std::string> known;
  for (const Level& level : setting.levels) known.push_back(level.id);
  for (std::size_t s = 0; s < seasons.size(); ++s)
    if (setting.find_level(seasons[s].level) == nullptr)
      places.fault(s, "level", "the setting has no level " + seasons[s].level,
                   suggest(seasons[s].level, known));
}

// The list under a key, none where it cannot be used.
template <class Read>
auto usable_list(Fields& fields, std::string_view key, const Setting& setting, const Read& read)
    -> decltype(fields.maybe(key, read)) {
  auto list = fields.maybe(key, [&](const Part& part) {
    if (!setting.population)
      part.fault("the setting has no population to hold it against", "leave it out");
    return read(part);
  });
  if (!fields.sound()) list.reset();
  return list;
}

}  // namespace

std::vector<Move> moves_from(Fields& fields, const std::vector<Chart>& charts,
                             const Setting& setting) {
  const auto list = usable_list(fields, "moves", setting, [](const Part& part) {
    return part.list(moves_rule,
                     [](const Part& item) { return item.object(move_want, move_from); });
  });
  if (!list) return {};
  const Part part = fields.at("moves");
  for (const MoveFault& fault : faults_of(*list, charts, setting))
    part.faults().add(child(part.pointer(), fault.move), fault.what, fault.mend);
  return *list;
}

std::vector<SeasonTotals> seasons_from(Fields& fields, const std::vector<Chart>& charts,
                                       const Setting& setting, const ReadSeasons& read_table) {
  const auto table = usable_list(fields, "season_totals", setting, [&](const Part& part) {
    if (!part.value().is_array()) return read_table(part);
    return SeasonTable{
        part.list(seasons_rule,
                  [](const Part& item) { return item.object(season_want, season_from); }),
        {},
        {}};
  });
  if (!table) return {};
  const Part part = fields.at("season_totals");
  const SeasonPlaces places(*table, part);
  refuse_twice(table->seasons, places);
  refuse_levels(table->seasons, setting, places);
  for (const SeasonFault& fault : faults_of(table->seasons, charts))
    places.fault(fault.season, fault.key, fault.what, fault.mend);
  return table->seasons;
}

}  // namespace callfit
