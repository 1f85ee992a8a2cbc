#include <callfit/format/quarterback_games.hpp>
#include <format/count_rows.hpp>

#include <charconv>
#include <map>
#include <utility>

namespace callfit {
namespace {

class SeasonsReader {
 public:
  explicit SeasonsReader(const std::string& source)
      : rows_(source, "season",
              {"quarterback", "season", "drives", "points", "start_q13_mean", "handoffs",
               "handoff_success", "handoff_yards", "new_team"}) {}

  std::vector<QuarterbackSeason> read(std::string_view text) {
    rows_.read(text, [this] { read_season(); });
    return std::move(seasons_);
  }

 private:
  static constexpr int most = 10'000;

  void read_season() {
    const std::size_t faults_before = rows_.faults();
    QuarterbackSeason season;
    season.quarterback = rows_.field("quarterback");
    if (season.quarterback.empty()) rows_.fault("quarterback", "is blank", "give his number");
    season.season = rows_.whole("season", 1800, 2200, "a year");
    season.drives = rows_.count("drives");
    season.points = rows_.whole("points", 0, most, "points of his drives, 0 to 10000");
    season.start = start();
    season.handoff_success = {rows_.count("handoff_success"), rows_.count("handoffs")};
    if (season.handoff_success.made > season.handoff_success.of)
      rows_.fault("handoff_success", "more than handoffs", "give at most as many");
    season.handoff_yards = rows_.whole("handoff_yards", -most, most, "yards from -10000 to 10000");
    season.new_team = new_team();
    check_twice(season);
    if (rows_.faults() == faults_before) seasons_.push_back(std::move(season));
  }

  std::optional<double> start() {
    const std::string_view text = rows_.field("start_q13_mean");
    if (text.empty()) return std::nullopt;
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error == std::errc() && end == text.data() + text.size() && value >= 1 && value <= 99)
      return value;
    rows_.fault("start_q13_mean", "\"" + std::string(text) + "\" cannot be",
                "give yards to goal, 1 to 99, or nothing where no drive began in these quarters");
    return std::nullopt;
  }

  std::optional<bool> new_team() {
    if (rows_.field("new_team").empty()) return std::nullopt;
    return rows_.whole("new_team", 0, 1, "1, 0, or nothing in his first season") == 1;
  }

  void check_twice(const QuarterbackSeason& season) {
    const auto [first, fresh] =
        lines_.try_emplace({season.quarterback, season.season}, rows_.line());
    if (!fresh)
      rows_.fault("season",
                  "quarterback " + season.quarterback + " has it already in line " +
                      std::to_string(first->second),
                  "leave one of them out");
  }

  CountRows rows_;
  std::map<std::pair<std::string, int>, std::size_t> lines_;
  std::vector<QuarterbackSeason> seasons_;
};

}  // namespace

std::vector<QuarterbackSeason> parse_quarterback_seasons(std::string_view text,
                                                         const std::string& source) {
  return SeasonsReader(source).read(text);
}

}  // namespace callfit
