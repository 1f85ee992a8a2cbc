#include <callfit/base/finding.hpp>
#include <callfit/base/names.hpp>
#include <callfit/base/nearest.hpp>
#include <callfit/format/csv.hpp>
#include <callfit/format/opponents.hpp>
#include <format/chart_header.hpp>

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <optional>
#include <utility>

namespace callfit {

enum class OpponentColumn {
  opponent,
  level,
  games,
  attempts,
  completions,
  interceptions,
  sacks,
  scrambles,
  better_than,
  give_or_take
};

template <>
inline constexpr auto enum_words<OpponentColumn> = std::to_array<std::string_view>(
    {"opponent", "level", "games", "attempts", "completions", "interceptions", "sacks", "scrambles",
     "better_than", "give_or_take"});

namespace {

using Text = std::string;

constexpr double usual_give_or_take = 0.15;

class OpponentsReader {
 public:
  explicit OpponentsReader(Text source) : source_(std::move(source)) {}

  std::vector<OpponentRecord> read(std::string_view text) {
    CsvCutter cutter(source_, [this](const CsvRow& row) {
      row_ = &row;
      if (std::exchange(has_header_, true))
        take();
      else
        read_header();
    });
    cutter.feed(text);
    cutter.finish();
    if (faults_.empty() && records_.empty())
      faults_.push_back({{source_, 0, {}}, "holds no opponent", "give a row for each"});
    if (!faults_.empty()) throw InputError(std::move(faults_));
    return std::move(records_);
  }

 private:
  void read_header() {
    for (std::size_t i = 0; i < row_->fields.size(); ++i) {
      const Text name = plain_word(row_->fields[i]);
      if (const auto column = from_word<OpponentColumn>(name))
        places_[*column] = i;
      else
        fault(name, "no column of opponents", suggest(name, all_words<OpponentColumn>()));
    }
    if (!places_.contains(OpponentColumn::opponent))
      fault("opponent", "the column is missing", "add it");
  }

  void fault(const Text& column, const Text& what, const Text& mend) {
    faults_.push_back({{source_, row_->line, column}, what, mend});
  }
  void fault(OpponentColumn column, const Text& what, const Text& mend) {
    fault(Text(word(column)), what, mend);
  }

  std::string_view field(OpponentColumn column) const {
    const auto place = places_.find(column);
    return place == places_.end() ? std::string_view() : trimmed(row_->fields[place->second]);
  }

  std::optional<double> number(OpponentColumn column, double least, double most, const Text& want) {
    const std::string_view text = field(column);
    if (text.empty()) return {};
    double value = 0;
    const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (failed == std::errc() && end == text.data() + text.size() && value >= least &&
        value <= most)
      return value;
    fault(column, "\"" + Text(text) + "\" cannot be", "give " + want);
    return {};
  }

  std::optional<double> count(OpponentColumn column) {
    constexpr double most = 100000;
    return number(column, 0, most, "a count from 0 to 100000");
  }

  void take() {
    if (!faults_.empty() && places_.empty()) return;
    const std::size_t before = faults_.size();
    OpponentRecord record;
    record.name = Text(field(OpponentColumn::opponent));
    record.level = plain_word(field(OpponentColumn::level));
    if (record.name.empty()) fault(OpponentColumn::opponent, "is blank", "fill it in");
    record.games = count(OpponentColumn::games).value_or(0);
    read_counts(record);
    record.better_than = number(OpponentColumn::better_than, 0.01, 0.99,
                                "a share of the level's defences, 0.01 to 0.99");
    record.give_or_take =
        number(OpponentColumn::give_or_take, 0.01, 0.5, "a share from 0.01 to 0.5")
            .value_or(usual_give_or_take);
    const bool counted = std::any_of(record.allowed.begin(), record.allowed.end(),
                                     [](const auto& one) { return one.has_value(); });
    if (faults_.size() == before && counted == record.better_than.has_value())
      fault(OpponentColumn::opponent, "has both counts and better_than, or neither",
            "give one of them");
    const auto [first, fresh] = lines_.try_emplace({record.name, record.level}, row_->line);
    if (!fresh)
      fault(OpponentColumn::opponent,
            "\"" + record.name + "\" stands in line " + std::to_string(first->second) + " already",
            "keep one of them");
    records_.push_back(std::move(record));
  }

  void read_counts(OpponentRecord& record) {
    const auto attempts = count(OpponentColumn::attempts);
    const auto completions = count(OpponentColumn::completions);
    const auto interceptions = count(OpponentColumn::interceptions);
    const auto sacks = count(OpponentColumn::sacks);
    const auto scrambles = count(OpponentColumn::scrambles);
    if (!attempts && (completions || interceptions || sacks || scrambles)) {
      fault(OpponentColumn::attempts, "is blank beside other counts", "fill it in");
      return;
    }
    const auto put = [&](BoxRate rate, const std::optional<double>& made, double of) {
      if (made) record.allowed[static_cast<std::size_t>(rate)] = BoxCount{*made, of};
    };
    const double throws = attempts.value_or(0);
    if (completions.value_or(0) + interceptions.value_or(0) > throws)
      fault(OpponentColumn::attempts, "fewer than completions and interceptions",
            "mend one of them");
    const double dropbacks = throws + sacks.value_or(0) + scrambles.value_or(0);
    put(BoxRate::completion, completions, throws);
    put(BoxRate::interception, interceptions, throws);
    put(BoxRate::sack, sacks, dropbacks);
    put(BoxRate::scramble, scrambles, dropbacks);
  }

  Text source_;
  const CsvRow* row_ = nullptr;
  bool has_header_ = false;
  std::map<OpponentColumn, std::size_t> places_;
  std::map<std::pair<Text, Text>, std::size_t> lines_;
  std::vector<OpponentRecord> records_;
  Findings faults_;
};

}  // namespace

std::vector<OpponentRecord> parse_opponents(std::string_view text, const std::string& source) {
  return OpponentsReader(source).read(text);
}

}  // namespace callfit
