#include <callfit/base/nearest.hpp>
#include <callfit/base/visible.hpp>
#include <callfit/format/csv.hpp>
#include <callfit/format/drives.hpp>
#include <format/chart_header.hpp>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <utility>

namespace callfit {
namespace {

enum class DriveColumn {
  season,
  game,
  quarter,
  start_yards_to_goal,
  plays,
  result,
  points,
  kneel_only
};

constexpr std::array<std::string_view, 8> columns{
    "season", "game", "quarter", "start_yards_to_goal", "plays", "result", "points", "kneel_only"};

struct ResultWord {
  std::string_view word;
  DriveResult result;
};

// As public tables of drives write them.
constexpr std::array results{ResultWord{"td", DriveResult::touchdown},
                             ResultWord{"fg_made", DriveResult::field_goal},
                             ResultWord{"fg_missed", DriveResult::missed_field_goal},
                             ResultWord{"punt", DriveResult::punt},
                             ResultWord{"interception", DriveResult::interception},
                             ResultWord{"fumble", DriveResult::fumble},
                             ResultWord{"downs", DriveResult::downs},
                             ResultWord{"safety", DriveResult::safety},
                             ResultWord{"end_half", DriveResult::end_of_half}};

std::vector<std::string> result_words() {
  std::vector<std::string> words;
  words.reserve(results.size());
  for (const ResultWord& entry : results) words.emplace_back(entry.word);
  return words;
}

struct Limits {
  double low = 0, high = 0;
  bool whole = true;
  const char* want = "";
};

constexpr Limits season_rule{1800, 2200, true, "a year"};
constexpr Limits quarter_rule{1, 20, true, "1 to 4, or 5 and more in overtime"};
constexpr Limits start_rule{1, 99, true, "1 to 99, or nothing where it is unknown"};
constexpr Limits plays_rule{0, 200, true, "a count of plays"};
constexpr Limits points_rule{0, 8, false, "points of the offence, 0 to 8"};
constexpr Limits flag_rule{0, 1, true, "0 or 1"};

using Places = std::array<std::size_t, columns.size()>;

/// One row's fields by column; what cannot be read goes to `faults`.
class DriveRow {
 public:
  DriveRow(const CsvRow& row, const Places& places, const std::string& source, Findings& faults)
      : row_(row), places_(places), source_(source), faults_(faults) {}

  std::string_view text(DriveColumn column) const {
    return trimmed(row_.fields[places_[static_cast<std::size_t>(column)]]);
  }

  std::optional<double> number_or_blank(DriveColumn column, const Limits& limits) {
    const std::string_view field = text(column);
    if (field.empty()) return {};
    double value = 0;
    const auto [end, error] = std::from_chars(field.data(), field.data() + field.size(), value);
    const bool fits = error == std::errc() && end == field.data() + field.size() &&
                      value >= limits.low && value <= limits.high &&
                      (!limits.whole || std::floor(value) == value);
    if (fits) return value;
    fault(column, "\"" + shortened(field) + "\" cannot be", std::string("give ") + limits.want);
    return {};
  }

  double number(DriveColumn column, const Limits& limits) {
    if (text(column).empty()) fault(column, "is blank", std::string("give ") + limits.want);
    return number_or_blank(column, limits).value_or(limits.low);
  }

  DriveResult result() {
    const std::string field(text(DriveColumn::result));
    const auto* const found =
        std::find_if(results.begin(), results.end(),
                     [&](const ResultWord& entry) { return entry.word == field; });
    if (found != results.end()) return found->result;
    fault(DriveColumn::result, "unknown result \"" + shortened(field) + "\"",
          suggest(field, result_words()));
    return DriveResult::punt;
  }

  /// Seasons may number their games alike.
  std::string game() {
    const std::string_view field = text(DriveColumn::game);
    if (field.empty()) fault(DriveColumn::game, "is blank", "give the game's number or name");
    const int season = static_cast<int>(number(DriveColumn::season, season_rule));
    return std::to_string(season) + "/" + std::string(field);
  }

 private:
  void fault(DriveColumn column, const std::string& what, const std::string& mend) {
    faults_.push_back(
        {{source_, row_.line, std::string(columns[static_cast<std::size_t>(column)])}, what, mend});
  }

  const CsvRow& row_;
  const Places& places_;
  const std::string& source_;
  Findings& faults_;
};

RealDrive drive_from(DriveRow row) {
  RealDrive drive;
  drive.game = row.game();
  drive.quarter = static_cast<int>(row.number(DriveColumn::quarter, quarter_rule));
  if (const auto start = row.number_or_blank(DriveColumn::start_yards_to_goal, start_rule))
    drive.start_yards_to_goal = static_cast<int>(*start);
  drive.plays = row.number(DriveColumn::plays, plays_rule);
  drive.result = row.result();
  drive.points = row.number(DriveColumn::points, points_rule);
  drive.kneel_only = row.number(DriveColumn::kneel_only, flag_rule) != 0;
  return drive;
}

}  // namespace

class DrivesReader::State {
 public:
  explicit State(std::string source)
      : cutter(source, [this](const CsvRow& row) { read(row); }), source_(std::move(source)) {}

  std::vector<RealDrive> finish() {
    cutter.finish();
    if (!faults_.empty()) throw InputError(std::move(faults_));
    return std::move(drives_);
  }

  CsvCutter cutter;

 private:
  void read(const CsvRow& row) {
    if (!has_header_)
      read_header(row);
    else if (is_readable_)
      drives_.push_back(drive_from({row, places_, source_, faults_}));
  }

  void read_header(const CsvRow& row) {
    has_header_ = true;
    std::vector<std::string> names;
    for (const std::string& field : row.fields) names.push_back(plain_word(field));
    std::vector<std::string> missing;
    for (std::size_t i = 0; i < columns.size(); ++i) {
      const auto found = std::find(names.begin(), names.end(), columns[i]);
      places_[i] = static_cast<std::size_t>(found - names.begin());
      if (found == names.end()) missing.emplace_back(columns[i]);
    }
    is_readable_ = missing.empty();
    if (!is_readable_) tell_missing(row.line, missing, names);
  }

  /// One line, however many there are: a table of something else lacks them all.
  void tell_missing(std::size_t line, const std::vector<std::string>& missing,
                    const std::vector<std::string>& names) {
    std::string mend = "add what is missing";
    std::string what = "no column ";
    for (const std::string& name : missing) {
      what.append(name == missing.front() ? "" : ", ").append(name);
      const std::string near = nearest_word(name, names);
      if (!near.empty()) mend.append(", rename ").append(near).append(" if that is ").append(name);
    }
    faults_.push_back({{source_, line, {}}, what, mend});
  }

  std::string source_;
  bool has_header_ = false, is_readable_ = false;
  Places places_{};
  std::vector<RealDrive> drives_;
  Findings faults_;
};

DrivesReader::DrivesReader(std::string source)
    : state_(std::make_unique<State>(std::move(source))) {}

DrivesReader::~DrivesReader() = default;

void DrivesReader::feed(std::string_view block) { state_->cutter.feed(block); }

std::vector<RealDrive> DrivesReader::finish() { return state_->finish(); }

}  // namespace callfit
