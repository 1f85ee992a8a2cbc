#include <callfit/base/nearest.hpp>
#include <callfit/chart/impossible.hpp>
#include <callfit/format/chart.hpp>
#include <callfit/format/csv.hpp>
#include <callfit/format/mend.hpp>
#include <callfit/scheme/chart_families.hpp>
#include <format/chart_header.hpp>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <iterator>
#include <optional>
#include <set>
#include <utility>

namespace callfit {
namespace {

bool among(const std::vector<std::string>& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

std::optional<double> unsigned_number(std::string_view text) {
  double value = 0;
  const auto [end, failed] =
      std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  const bool whole = failed == std::errc() && end == text.data() + text.size();
  return whole && value >= 0 ? std::optional(value) : std::nullopt;
}

// Parts after the first colon are sixtieths, and whole but for the last.
std::optional<float> seconds_of(std::string_view text) {
  constexpr double sixty = 60;
  constexpr double longest = 86400;
  double seconds = 0;
  for (int part = 0; part < 3; ++part) {
    const std::size_t colon = text.find(':');
    const auto value = unsigned_number(text.substr(0, colon));
    if (!value || (part > 0 && *value >= sixty)) return {};
    seconds = sixty * seconds + *value;
    if (colon == std::string_view::npos)
      return seconds <= longest ? std::optional(static_cast<float>(seconds)) : std::nullopt;
    if (*value != std::floor(*value)) return {};
    text.remove_prefix(colon + 1);
  }
  return {};
}

/// One copy of each word, for those that stand in many rows.
class Pool {
 public:
  SharedText keep(std::string_view text) {
    const auto found = words_.find(text);
    return found != words_.end() ? *found : *words_.emplace(text).first;
  }

 private:
  struct ByText {
    using is_transparent = void;
    bool operator()(std::string_view a, std::string_view b) const { return a < b; }
  };
  std::set<SharedText, ByText> words_;
};

/// Reads the fields of one row into a snap and remembers which it could not read.
class RowReader {
 public:
  RowReader(const CsvRow& row, const ColumnPlaces& places, const std::string& source, Pool& pool,
            const Dictionary& accepted)
      : row_(row), places_(places), source_(source), pool_(pool), accepted_(accepted) {
    snap.line = row.line;
  }

  std::string_view text(ChartColumn column) const {
    const auto& place = places_[static_cast<std::size_t>(column)];
    return place ? trimmed(row_.fields[*place]) : std::string_view();
  }

  SharedText pooled(std::string_view text) { return pool_.keep(text); }

  void fault(ChartColumn column, const std::string& what, const std::string& mend) {
    unreadable.set(static_cast<std::size_t>(column));
    findings.push_back({{source_, row_.line, std::string(word(column))}, what, mend});
  }

  std::optional<int> number(ChartColumn column) {
    const std::string_view field = text(column);
    if (field.empty()) return {};
    const char* first = field.data() + (field.front() == '+' ? 1 : 0);
    const char* last = field.data() + field.size();
    int value = 0;
    const auto [end, failed] = std::from_chars(first, last, value);
    // Wide enough for any field, narrow enough that sums of fields cannot overflow.
    const bool sane = failed == std::errc() && end == last && value >= -9999 && value <= 9999;
    if (sane) return value;
    fault(column, "\"" + std::string(field) + "\" is not a whole number",
          "write one such as 7 or -3");
    return {};
  }

  /// "83.5", "1:23" or "1:02:03" into seconds.
  std::optional<float> time(ChartColumn column) {
    const std::string_view field = text(column);
    if (field.empty()) return {};
    const auto seconds = seconds_of(field);
    if (!seconds)
      fault(column, "\"" + std::string(field) + "\" is no time in a clip",
            "write seconds or minutes:seconds, such as 83.5 or 1:23");
    return seconds;
  }

  std::optional<bool> yes_or_no(ChartColumn column) {
    const std::string field = plain_word(text(column));
    if (field.empty()) return {};
    for (const bool yes : {true, false})
      if (const std::string_view proper = yes ? "yes" : "no";
          field == proper || accepted_.meaning(place::yes_no, field) == proper)
        return yes;
    fault(column, "\"" + field + "\" is neither yes nor no", "write yes, no or nothing");
    return {};
  }

  template <class Enum>
  std::optional<Enum> one_of(ChartColumn column) {
    const std::string field = plain_word(text(column));
    if (field.empty()) return {};
    const auto value = from_word<Enum>(field);
    if (!value) fault(column, "unknown word \"" + field + "\"", suggest(field, all_words<Enum>()));
    return value;
  }

  /// A field that may not be blank.
  template <class Value>
  Value needed(ChartColumn column, std::optional<Value> value) {
    if (!value && !unreadable.test(static_cast<std::size_t>(column)))
      fault(column, "is blank", "fill it in");
    return value.value_or(Value{});
  }

  SharedText needed_text(ChartColumn column, std::string_view value) {
    return needed(column, value.empty() ? std::nullopt : std::optional(pooled(value)));
  }

  Snap snap;
  Findings findings;
  ColumnSet unreadable;

 private:
  const CsvRow& row_;
  const ColumnPlaces& places_;
  const std::string& source_;
  Pool& pool_;
  const Dictionary& accepted_;
};

bool gain_may_be_blank(Result result) {
  return result == Result::incomplete || result == Result::intercepted || result == Result::no_play;
}

void read_gain(RowReader& row, bool result_known) {
  const std::optional<int> gain = row.number(ChartColumn::yards);
  const bool unread = row.unreadable.test(static_cast<std::size_t>(ChartColumn::yards));
  if (gain || unread || !result_known || gain_may_be_blank(row.snap.result)) {
    row.snap.yards = gain.value_or(0);
    return;
  }
  const std::string result(word(row.snap.result));
  row.fault(ChartColumn::yards, "a play with result " + result + " needs its yards",
            "fill in the gain or loss (0 for none)");
}

void read_needed(RowReader& row) {
  Snap& snap = row.snap;
  const auto result = row.one_of<Result>(ChartColumn::result);
  snap.result = row.needed(ChartColumn::result, result);
  snap.game = row.needed_text(ChartColumn::game, row.text(ChartColumn::game));
  snap.level = row.needed_text(ChartColumn::level, plain_word(row.text(ChartColumn::level)));
  snap.down = row.needed(ChartColumn::down, row.number(ChartColumn::down));
  snap.to_go = row.needed(ChartColumn::to_go, row.number(ChartColumn::to_go));
  snap.yards_to_goal =
      row.needed(ChartColumn::yards_to_goal, row.number(ChartColumn::yards_to_goal));
  snap.family = row.pooled(plain_word(row.text(ChartColumn::family)));
  if (result != Result::no_play) row.needed_text(ChartColumn::family, snap.family);
  read_gain(row, result.has_value());
}

void read_optional(RowReader& row) {
  Snap& snap = row.snap;
  snap.opponent = row.pooled(row.text(ChartColumn::opponent));
  snap.quarter = row.number(ChartColumn::quarter);
  snap.shell = row.one_of<Shell>(ChartColumn::shell);
  snap.platform = row.one_of<Platform>(ChartColumn::platform);
  snap.pressure = row.yes_or_no(ChartColumn::pressure);
  snap.air_yards = row.number(ChartColumn::air_yards);
  snap.lane = row.one_of<Lane>(ChartColumn::lane);
  snap.on_time = row.yes_or_no(ChartColumn::on_time);
  snap.catchable = row.yes_or_no(ChartColumn::catchable);
  snap.yac = row.number(ChartColumn::yac);
  snap.evaded = row.number(ChartColumn::evaded);
  snap.fumble_lost = row.yes_or_no(ChartColumn::fumble_lost);
  snap.note = row.text(ChartColumn::note);
  snap.snap_id = row.text(ChartColumn::snap_id);
  snap.season = row.pooled(row.text(ChartColumn::season));
  snap.team = row.pooled(row.text(ChartColumn::team));
  snap.clip = row.pooled(row.text(ChartColumn::clip));
  snap.start = row.time(ChartColumn::start);
  snap.end = row.time(ChartColumn::end);
}

void check_words(RowReader& row, const std::string& source, const ChartWords& words) {
  const Snap& snap = row.snap;
  const auto readable = [&](ChartColumn column) {
    return !row.unreadable.test(static_cast<std::size_t>(column));
  };
  if (!words.levels.empty() && readable(ChartColumn::level) && !among(words.levels, snap.level))
    row.fault(ChartColumn::level, "unknown level \"" + snap.level.str() + "\"",
              suggest(snap.level, words.levels));
  if (words.families.empty() || !readable(ChartColumn::family) || !readable(ChartColumn::result))
    return;
  const Findings faults = family_faults(snap, source, words.families);
  row.findings.insert(row.findings.end(), faults.begin(), faults.end());
}

void append(Findings& to, Findings from) {
  to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
}

}  // namespace

namespace {

/// Snaps as they come: in blocks, so that a long chart is never there twice.
class SnapBlocks {
 public:
  void add(Snap snap) {
    if (blocks_.empty() || blocks_.back().size() == block_size) {
      blocks_.emplace_back();
      blocks_.back().reserve(block_size);
    }
    blocks_.back().push_back(std::move(snap));
  }

  bool empty() const { return blocks_.empty(); }

  std::vector<Snap> take() {
    if (blocks_.empty()) return {};
    std::vector<Snap> all;
    all.reserve((blocks_.size() - 1) * block_size + blocks_.back().size());
    for (std::vector<Snap>& block : blocks_) {
      std::move(block.begin(), block.end(), std::back_inserter(all));
      std::vector<Snap>().swap(block);
    }
    return all;
  }

 private:
  static constexpr std::size_t block_size = 4096;

  std::vector<std::vector<Snap>> blocks_;
};

}  // namespace

class ChartReader::State {
 public:
  State(std::string source, ChartWords words)
      : cutter(source, [this](const CsvRow& row) { read(row); }),
        source_(std::move(source)),
        words_(std::move(words)) {}

  Chart finish(Findings& notices) {
    cutter.finish();
    append(notices, header_->notices());
    if (has_errors(header_->errors())) throw InputError(header_->errors());
    if (snaps_.empty())
      errors_.push_back(
          {{source_, header_->line(), {}}, "no snaps below the column names", "add a row a snap"});
    if (has_errors(errors_)) throw InputError(std::move(errors_));
    return {source_, snaps_.take()};
  }

  CsvCutter cutter;

 private:
  void read(const CsvRow& row) {
    if (!header_) {
      header_.emplace(row, source_);
      return;
    }
    header_->see(row);
    if (header_->errors().empty()) snaps_.add(snap_from(row));
  }

  Snap snap_from(const CsvRow& fields) {
    RowReader row(fields, header_->places(), source_, pool_, accepted_);
    read_needed(row);
    read_optional(row);
    check_words(row, source_, words_);
    append(errors_, std::move(row.findings));
    append(errors_, impossible(row.snap, source_, row.unreadable));
    return std::move(row.snap);
  }

  std::string source_;
  ChartWords words_;
  Dictionary accepted_ = parse_dictionary(accepted_words_text(), "accepted words");
  std::optional<ChartHeader> header_;
  Pool pool_;
  SnapBlocks snaps_;
  Findings errors_;
};

ChartReader::ChartReader(std::string source, ChartWords words)
    : state_(std::make_unique<State>(std::move(source), std::move(words))) {}

ChartReader::~ChartReader() = default;

void ChartReader::feed(std::string_view block) { state_->cutter.feed(block); }

Chart ChartReader::finish(Findings& notices) { return state_->finish(notices); }

Chart parse_chart(std::string_view text, const std::string& source, Findings& notices,
                  const ChartWords& words) {
  try {
    ChartReader reader(source, words);
    reader.feed(text);
    return reader.finish(notices);
  } catch (const InputError& refused) {
    throw with_mending(refused, text, source, words);
  }
}

}  // namespace callfit
