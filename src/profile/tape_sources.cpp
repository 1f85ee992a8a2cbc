#include <profile/tape_sources.hpp>

#include <callfit/base/nearest.hpp>

#include <algorithm>
#include <set>
#include <utility>

namespace callfit {
namespace {

bool is_file(std::string_view path, std::string_view name) {
  return path == name || (path.size() > name.size() && path.ends_with(name) &&
                          path[path.size() - name.size() - 1] == '/');
}

bool fits(const Move& move, std::string_view season, std::string_view team) {
  return (move.season.empty() || move.season == season) && (move.team.empty() || move.team == team);
}

bool fits(const Move& move, const Snap& snap, const std::string& chart) {
  return fits(move, snap.season.view(), snap.team.view()) &&
         (move.chart.empty() || is_file(chart, move.chart));
}

std::string name_of(const Move& move) {
  std::string name;
  const auto add = [&name](const char* what, const std::string& value) {
    if (!value.empty()) name += (name.empty() ? "" : ", ") + std::string(what) + ' ' + value;
  };
  add("season", move.season);
  add("team", move.team);
  add("chart", move.chart);
  return name.empty() ? "all snaps" : name;
}

// What a move has of a tape.
struct Met {
  bool any = false;    ///< a snap fits
  bool first = false;  ///< and no earlier move
  bool own_level = false, other_level = false;
};

std::vector<Met> met(const std::vector<Move>& moves, const std::vector<Chart>& charts,
                     const Setting& setting) {
  std::vector<Met> out(moves.size());
  for (const Chart& chart : charts)
    for (const Snap& snap : chart.snaps) {
      bool taken = false;
      for (std::size_t m = 0; m < moves.size(); ++m) {
        if (!fits(moves[m], snap, chart.source)) continue;
        out[m].any = true;
        if (std::exchange(taken, true)) continue;
        out[m].first = true;
        (snap.level == setting.level ? out[m].own_level : out[m].other_level) = true;
      }
    }
  return out;
}

std::string places_of(const std::vector<Chart>& charts) {
  std::set<std::string> seasons, teams;
  for (const Chart& chart : charts)
    for (const Snap& snap : chart.snaps) {
      if (!snap.season.empty()) seasons.insert(snap.season.str());
      if (!snap.team.empty()) teams.insert(snap.team.str());
    }
  const auto told = [](const char* what, const std::set<std::string>& names) {
    if (names.empty()) return "no " + std::string(what);
    return std::string(what) + ' ' +
           either_of(std::vector<std::string>(names.begin(), names.end()));
  };
  return "the charts have " + told("season", seasons) + " and " + told("team", teams);
}

}  // namespace

TapeSources::TapeSources(const Setting& setting, const std::vector<Move>& moves) : moves_(moves) {
  for (std::size_t m = 0; m < moves.size(); ++m) {
    auto& source = source_of_move_.emplace_back();
    if (moves[m].change == PlaceChange::new_level) continue;
    for (std::size_t before = 0; before < m && !source; ++before)
      if (!moves[m].team.empty() && moves[before].team == moves[m].team &&
          moves[before].change == moves[m].change)
        source = source_of_move_[before];
    if (source) continue;
    source = sources_.size();
    sources_.push_back(source_after(*setting.population, moves[m].change));
    sources_.back().name = name_of(moves[m]);
  }
}

std::optional<std::size_t> TapeSources::of(const Snap& snap, const std::string& chart) const {
  for (std::size_t m = 0; m < moves_.size(); ++m)
    if (fits(moves_[m], snap, chart)) return source_of_move_[m];
  return std::nullopt;
}

std::optional<std::size_t> TapeSources::of(const SeasonTotals& season) const {
  for (std::size_t m = 0; m < moves_.size(); ++m)
    if (moves_[m].chart.empty() && fits(moves_[m], season.season, season.team))
      return source_of_move_[m];
  return std::nullopt;
}

std::vector<MoveFault> faults_of(const std::vector<Move>& moves, const std::vector<Chart>& charts,
                                 const Setting& setting) {
  std::vector<MoveFault> faults;
  const std::vector<Met> tape = met(moves, charts, setting);
  for (std::size_t m = 0; m < moves.size(); ++m) {
    const bool to_level = moves[m].change == PlaceChange::new_level;
    const std::string name = name_of(moves[m]);
    if (!tape[m].any)
      faults.push_back({m, "no snap is of " + name, places_of(charts)});
    else if (!tape[m].first)
      faults.push_back({m, "earlier moves have all snaps of " + name, "name each place once"});
    else if (to_level && tape[m].own_level)
      faults.push_back({m, "snaps of " + name + " are of level " + setting.level + " already",
                        "give same_caller, new_caller or new_team"});
    else if (!to_level && tape[m].other_level)
      faults.push_back({m, "snaps of " + name + " are of another level than " + setting.level,
                        "give new_level, which takes in team and caller"});
  }
  return faults;
}

}  // namespace callfit
