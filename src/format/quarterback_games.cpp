#include <callfit/base/nearest.hpp>
#include <callfit/base/visible.hpp>
#include <callfit/format/csv.hpp>
#include <callfit/format/quarterback_games.hpp>
#include <format/chart_header.hpp>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>
#include <utility>

namespace callfit {
namespace {

using Text = std::string;

const std::vector<Text> depths{"behind_line", "quick", "intermediate", "deep"};
const std::vector<Text> lanes{"left", "middle", "right"};  // beside "lane_unknown"

std::vector<Text> needed_columns() {
  std::vector<Text> names{"quarterback", "season",       "game",        "game_order",
                          "dropbacks",   "attempts",     "completions", "interceptions",
                          "sacks",       "sack_fumbles", "scrambles",   "scrambles_10plus"};
  for (const Text& depth : depths) {
    for (const Text& lane : lanes)
      for (const char* what : {"_attempts", "_completions", "_yac10"})
        names.push_back(depth + "_" + lane + what);
    for (const char* what : {"_lane_unknown_attempts", "_lane_unknown_completions"})
      names.push_back(depth + what);
  }
  return names;
}

class GamesReader {
 public:
  explicit GamesReader(std::string source) : source_(std::move(source)) {}

  std::vector<QuarterbackGame> read(std::string_view text) {
    CsvCutter cutter(source_, [this](const CsvRow& row) { take(row); });
    cutter.feed(text);
    cutter.finish();
    if (faults_.empty() && games_.empty())
      faults_.push_back({{source_, 0, {}}, "holds no game", "give a row for each game"});
    if (!faults_.empty()) throw InputError(std::move(faults_));
    return std::move(games_);
  }

 private:
  void take(const CsvRow& row) {
    if (!has_header_) {
      read_header(row);
    } else if (!places_.empty()) {
      row_ = &row;
      read_game();
    }
  }

  void read_header(const CsvRow& row) {
    has_header_ = true;
    std::vector<Text> names;
    for (const Text& field : row.fields) names.push_back(plain_word(field));
    std::map<Text, std::size_t> places;
    Text missing;
    for (const Text& column : needed_columns()) {
      const auto found = std::find(names.begin(), names.end(), column);
      if (found == names.end()) missing += (missing.empty() ? "" : ", ") + column;
      places[column] = static_cast<std::size_t>(found - names.begin());
    }
    if (missing.empty())
      places_ = std::move(places);
    else
      faults_.push_back({{source_, row.line, {}}, "no column " + missing, "add what is missing"});
  }

  std::string_view field(const Text& column) const {
    return trimmed(row_->fields[places_.at(column)]);
  }

  void fault(const Text& column, const Text& what, const Text& mend) {
    faults_.push_back({{source_, row_->line, column}, what, mend});
  }

  int whole(const Text& column, int least, int most, const Text& want) {
    std::string_view text = field(column);
    if (text.ends_with(".0")) text.remove_suffix(2);  // as some programs write whole numbers
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (!text.empty() && error == std::errc() && end == text.data() + text.size() &&
        value >= least && value <= most)
      return value;
    fault(column, text.empty() ? "is blank" : "\"" + shortened(text) + "\" cannot be",
          "give " + want);
    return least;
  }

  double count(const Text& column) {
    constexpr int most = 1000;
    return whole(column, 0, most, "a count from 0 to 1000");
  }

  /// Counts of which one is part of the other.
  MemberCounts share(const Text& made, const Text& of) {
    const MemberCounts counts{count(made), count(of)};
    if (counts.made > counts.of)
      fault(made, Text(field(made)) + " of " + Text(field(of)) + " " + plain(of) + " cannot be",
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
    const std::size_t faults_before = faults_.size();
    QuarterbackGame game;
    game.quarterback = field("quarterback");
    if (game.quarterback.empty()) fault("quarterback", "is blank", "give his number");
    game.season = whole("season", 1800, 2200, "a year");
    game.order = whole("game_order", 1, 1000, "the game's number in his season");
    game.dropbacks = count("dropbacks");
    at(game, GameRate::interception) = share("interceptions", "attempts");
    at(game, GameRate::sack) = share("sacks", "dropbacks");
    at(game, GameRate::scramble) = share("scrambles", "dropbacks");
    at(game, GameRate::sack_fumble) = share("sack_fumbles", "sacks");
    at(game, GameRate::scramble_10plus) = share("scrambles_10plus", "scrambles");
    read_throws(game);
    check_twice(game);
    if (faults_.size() == faults_before) games_.push_back(std::move(game));
  }

  void read_throws(QuarterbackGame& game) {
    const MemberCounts all = share("completions", "attempts");
    double deep_enough = 0;
    for (std::size_t d = 0; d < depths.size(); ++d) {
      const Text& depth = depths[d];
      MemberCounts thrown;
      MemberCounts ran;
      for (const Text& lane : lanes) {
        const Text stem = depth + "_" + lane;
        add(thrown, share(stem + "_completions", stem + "_attempts"));
        add(ran, share(stem + "_yac10", stem + "_completions"));
      }
      add(thrown, share(depth + "_lane_unknown_completions", depth + "_lane_unknown_attempts"));
      game.counts[static_cast<std::size_t>(GameRate::completion_behind_line) + d] = thrown;
      if (depth == "behind_line" || depth == "quick") add(at(game, GameRate::yac10_short), ran);
      if (depth == "intermediate") add(at(game, GameRate::yac10_intermediate), ran);
      deep_enough += thrown.of;
    }
    const double other = at(game, GameRate::sack).made + at(game, GameRate::scramble).made;
    if (deep_enough > all.of)
      fault("attempts", "fewer than those by depth", "let the depths add up to no more");
    if (all.of + other > game.dropbacks)
      fault("dropbacks", "fewer than attempts, sacks and scrambles together",
            "count each of them as a dropback");
    if (all.made + at(game, GameRate::interception).made > all.of)
      fault("interceptions", "more completions and interceptions than attempts",
            "no throw is both");
  }

  void check_twice(const QuarterbackGame& game) {
    const Text id(field("game"));
    if (id.empty()) fault("game", "is blank", "give the game's number or name");
    const auto [first, fresh] = lines_.try_emplace({game.quarterback, game.season, id}, row_->line);
    if (!fresh)
      fault("game",
            "quarterback " + game.quarterback + " has game " + id + " already in line " +
                std::to_string(first->second),
            "leave one of them out");
  }

  std::string source_;
  bool has_header_ = false;
  std::map<Text, std::size_t> places_;
  const CsvRow* row_ = nullptr;
  std::map<std::tuple<Text, int, Text>, std::size_t> lines_;
  std::vector<QuarterbackGame> games_;
  Findings faults_;
};

}  // namespace

std::vector<QuarterbackGame> parse_quarterback_games(std::string_view text,
                                                     const std::string& source) {
  return GamesReader(source).read(text);
}

}  // namespace callfit
