#include <callfit/format/quarterback_games.hpp>
#include <format/count_rows.hpp>

#include <fmt/format.h>

#include <map>
#include <tuple>
#include <utility>

namespace callfit {
namespace {

using Text = std::string;

const std::vector<Text> depths{"behind_line", "quick", "intermediate", "deep"};
const std::vector<Text> lanes{"left", "middle", "right"};  // beside "lane_unknown"

std::vector<Text> needed_columns() {
  std::vector<Text> names{"quarterback",       "season",        "game",
                          "game_order",        "dropbacks",     "attempts",
                          "completions",       "interceptions", "sacks",
                          "sack_fumbles",      "scrambles",     "scrambles_10plus",
                          "scramble_yards_sum"};
  for (const Text& depth : depths) {
    for (const Text& lane : lanes)
      for (const char* what : {"_attempts", "_completions", "_yac10", "_yac_sum"})
        names.push_back(fmt::format("{}_{}{}", depth, lane, what));
    for (const char* what : {"_lane_unknown_attempts", "_lane_unknown_completions"})
      names.push_back(depth + what);
  }
  return names;
}

class GamesReader {
 public:
  explicit GamesReader(const std::string& source) : rows_(source, "game", needed_columns()) {}

  std::vector<QuarterbackGame> read(std::string_view text) {
    rows_.read(text, [this] { read_game(); });
    return std::move(games_);
  }

 private:
  double yards(const Text& column) {
    constexpr int most = 2000;
    return rows_.whole(column, -most, most, "yards from -2000 to 2000");
  }

  /// Counts of which one is part of the other.
  MemberCounts share(const Text& made, const Text& of) {
    const MemberCounts counts{rows_.count(made), rows_.count(of)};
    if (counts.made > counts.of)
      rows_.fault(
          made,
          Text(rows_.field(made)) + " of " + Text(rows_.field(of)) + " " + plain(of) + " cannot be",
          "give at most as many as " + of);
    return counts;
  }

  static void add(MemberCounts& sum, const MemberCounts& more) {
    sum.made += more.made;
    sum.of += more.of;
  }

  static MemberCounts& at(QuarterbackGame& game, GameRate rate) {
    return game.counts[static_cast<std::size_t>(rate)];
  }

  void read_game() {
    const std::size_t faults_before = rows_.faults();
    QuarterbackGame game;
    game.quarterback = rows_.field("quarterback");
    if (game.quarterback.empty()) rows_.fault("quarterback", "is blank", "give his number");
    game.season = rows_.whole("season", 1800, 2200, "a year");
    game.order = rows_.whole("game_order", 1, 1000, "the game's number in his season");
    game.dropbacks = rows_.count("dropbacks");
    at(game, GameRate::interception) = share("interceptions", "attempts");
    at(game, GameRate::sack) = share("sacks", "dropbacks");
    at(game, GameRate::scramble) = share("scrambles", "dropbacks");
    at(game, GameRate::sack_fumble) = share("sack_fumbles", "sacks");
    at(game, GameRate::scramble_10plus) = share("scrambles_10plus", "scrambles");
    game.scrambles = {yards("scramble_yards_sum"), at(game, GameRate::scramble).made};
    read_throws(game);
    check_twice(game);
    if (rows_.faults() == faults_before) games_.push_back(std::move(game));
  }

  void read_throws(QuarterbackGame& game) {
    const MemberCounts all = share("completions", "attempts");
    double deep_enough = 0;
    for (std::size_t d = 0; d < depths.size(); ++d) {
      const Text& depth = depths[d];
      MemberCounts thrown;
      MemberCounts ran;
      for (const Text& lane : lanes) {
        const Text stem = fmt::format("{}_{}", depth, lane);
        add(thrown, share(stem + "_completions", stem + "_attempts"));
        const MemberCounts far = share(stem + "_yac10", stem + "_completions");
        add(ran, far);
        game.after_catch[d].yards += yards(stem + "_yac_sum");
        game.after_catch[d].times += far.of;
      }
      add(thrown, share(depth + "_lane_unknown_completions", depth + "_lane_unknown_attempts"));
      game.counts[static_cast<std::size_t>(GameRate::completion_behind_line) + d] = thrown;
      if (depth == "behind_line" || depth == "quick") add(at(game, GameRate::yac10_short), ran);
      if (depth == "intermediate") add(at(game, GameRate::yac10_intermediate), ran);
      deep_enough += thrown.of;
    }
    const double other = at(game, GameRate::sack).made + at(game, GameRate::scramble).made;
    if (deep_enough > all.of)
      rows_.fault("attempts", "fewer than those by depth", "let the depths add up to no more");
    if (all.of + other > game.dropbacks)
      rows_.fault("dropbacks", "fewer than attempts, sacks and scrambles together",
                  "count each of them as a dropback");
    if (all.made + at(game, GameRate::interception).made > all.of)
      rows_.fault("interceptions", "more completions and interceptions than attempts",
                  "no throw is both");
  }

  void check_twice(const QuarterbackGame& game) {
    const Text id(rows_.field("game"));
    if (id.empty()) rows_.fault("game", "is blank", "give the game's number or name");
    const auto [first, fresh] =
        lines_.try_emplace({game.quarterback, game.season, id}, rows_.line());
    if (!fresh)
      rows_.fault("game",
                  "quarterback " + game.quarterback + " has game " + id + " already in line " +
                      std::to_string(first->second),
                  "leave one of them out");
  }

  CountRows rows_;
  std::map<std::tuple<Text, int, Text>, std::size_t> lines_;
  std::vector<QuarterbackGame> games_;
};

}  // namespace

std::vector<QuarterbackGame> parse_quarterback_games(std::string_view text,
                                                     const std::string& source) {
  return GamesReader(source).read(text);
}

}  // namespace callfit
