#include <callfit/chart/odd_rows.hpp>
#include <callfit/charting/charting.hpp>
#include <format/chart_header.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <set>
#include <utility>

namespace callfit::charting {
namespace {

constexpr std::size_t longest_number = 4, longest_text = 200;
constexpr std::array carried{ChartColumn::opponent, ChartColumn::quarter, ChartColumn::season,
                             ChartColumn::team, ChartColumn::clip};

ColumnKind kind(ChartColumn column) { return kind_of(word(column)); }

bool is_digit(const std::string& key) { return key.size() == 1 && key[0] >= '0' && key[0] <= '9'; }

std::optional<int> whole_number(std::string_view text) {
  int value = 0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (failed != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

std::optional<double> seconds_in(std::string_view text) {
  double value = 0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (failed != std::errc() || end != text.data() + text.size() || !std::isfinite(value))
    return std::nullopt;
  return value;
}

// Hundredths tell the frames of 60 a second apart.
std::string seconds_text(double seconds) {
  std::string text = fmt::format("{:.2f}", seconds);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

// One character of text, whatever its bytes; names of keys are longer and plain ASCII.
bool is_character(const std::string& key) {
  if (key.empty() || static_cast<unsigned char>(key[0]) < 0x20) return false;
  const auto rest =
      std::count_if(key.begin(), key.end(), [](char c) { return (c & 0xC0) != 0x80; });
  return rest == 1;
}

void drop_character(std::string& text) {
  while (!text.empty() && (text.back() & 0xC0) == 0x80) text.pop_back();
  if (!text.empty()) text.pop_back();
}

std::string said(const Finding& finding) {
  const std::string column = finding.place.field.empty() ? "" : plain(finding.place.field) + ": ";
  return column + finding.what + (finding.mend.empty() ? "" : "; " + finding.mend);
}

bool is_same(const Finding& a, const Finding& b) {
  return a.place.field == b.place.field && a.what == b.what;
}

// The reader blames a blank field for what is not there yet.
bool is_of_a_value(const Finding& finding, const Values& values) {
  const auto column = from_word<ChartColumn>(finding.place.field);
  return !column || !at(values, *column).empty();
}

}  // namespace

Charting::Charting(ChartRows rows, KeyMap keys, std::vector<Mark> waiting)
    : rows_(std::move(rows)), keys_(std::move(keys)), waiting_(std::move(waiting)) {
  // A mark whose row was written is no longer waiting, though the desk was ended between the two.
  if (waiting_.empty()) return;
  std::set<std::pair<std::string, std::string>> charted;
  for (std::size_t row = 0; row < rows_.size(); ++row) {
    const Values values = rows_.values(row);
    charted.emplace(at(values, ChartColumn::clip), at(values, ChartColumn::start));
  }
  std::erase_if(waiting_, [&charted](const Mark& mark) {
    return charted.contains({mark.clip, mark.start});
  });
}

void Charting::press(const Press& press) {
  fault_.clear();
  told_.clear();
  film_.reset();
  act(press);
}

void Charting::act(const Press& press) {
  if (asks_row_) {
    if (is_digit(press.key) && row_number_.size() < 7)
      row_number_ += press.key;
    else if (press.key == keys_.key(Command::erase) && !row_number_.empty())
      row_number_.pop_back();
    else
      open_numbered();
    return;
  }
  if (takes_text(press.key) || takes_digit(press.key)) return;
  const bool ends_number = open_ && !open_->typing.empty();
  if (!settles_number() || (ends_number && press.key == keys_.key(Command::skip))) return;
  if (takes_choice(press.key)) return;
  if (const auto meant = keys_.command_of(press.key)) return command(*meant, press);
  const auto question = asked();
  refuse(fmt::format("the key {} means nothing here; {}", press.key,
                     question ? "asked is " + plain(name_of(*question)) : "no row is open"));
}

bool Charting::is_typing_text() const {
  const auto question = asked();
  return question && question->size() == 1 && kind(question->front()) == ColumnKind::text;
}

bool Charting::takes_text(const std::string& key) {
  if (!is_typing_text()) return false;
  const ChartColumn column = asked()->front();
  if (is_character(key) || key == "Space") {
    if (open_->typing.size() < longest_text) open_->typing += key == "Space" ? " " : key;
    return true;
  }
  if (key == keys_.key(Command::erase) && !open_->typing.empty()) {
    drop_character(open_->typing);
    return true;
  }
  if (key == "Escape") {
    open_->typing.clear();
    open_->turned_to.reset();
    return true;
  }
  if (key != "Enter" || open_->typing.empty()) return false;
  const std::string text(trimmed(open_->typing));
  set({{column, text}});
  return true;
}

bool Charting::takes_digit(const std::string& key) {
  const auto question = asked();
  if (!question || question->size() != 1 || kind(question->front()) != ColumnKind::number)
    return false;
  std::string& typing = open_->typing;
  const bool is_sign = key == "-" && typing.empty();
  if (is_sign || is_digit(key)) {
    if (typing.size() < longest_number) typing += key;
    // Downs and quarters have one digit, and are taken with it.
    const ChartColumn column = question->front();
    if (!is_sign && (column == ChartColumn::down || column == ChartColumn::quarter))
      settles_number();
    return true;
  }
  if (key == keys_.key(Command::erase) && !typing.empty()) {
    typing.pop_back();
    return true;
  }
  if (!typing.empty()) return false;
  if (key == offer_key && !offer().empty()) {
    set({{question->front(), offer()}});
    return true;
  }
  if (key == goal_key && question->front() == ChartColumn::yards) {
    set({{ChartColumn::yards, value(ChartColumn::yards_to_goal)}});
    return true;
  }
  return false;
}

// A number ends with the key after it. Whether that key may go on.
bool Charting::settles_number() {
  const auto question = asked();
  if (!question || open_->typing.empty()) return true;
  const ChartColumn column = question->front();
  const std::string typed = std::exchange(open_->typing, {});
  const bool is_place = column == ChartColumn::down && open_->turned_to;
  if (!set({{column, typed}})) return false;
  if (is_place) turn_to({ChartColumn::to_go});
  return true;
}

std::vector<Choice> Charting::choices(const Question& question) const {
  return choices_of(keys_, question, rows_.words());
}

bool Charting::takes_choice(const std::string& key) {
  const Question question = asked().value_or(Question{});
  if (question.empty()) return false;
  for (const Choice& choice : choices(question)) {
    if (choice.key != key) continue;
    Answers answers;
    for (std::size_t i = 0; i < question.size(); ++i)
      if (!choice.values[i].empty()) answers.emplace_back(question[i], choice.values[i]);
    set(answers);
    return true;
  }
  return false;
}

void Charting::command(Command command, const Press& press) {
  switch (command) {
    case Command::next:
      return next(press);
    case Command::done:
      if (!open_) return refuse("no row is open");
      finish();
      return;
    case Command::end_here:
      return end_here(press);
    case Command::skip:
      return skip();
    case Command::column_before:
      return step_back();
    case Command::erase:
      return erase();
    case Command::spot:
      return turn_to({ChartColumn::yards_to_goal});
    case Command::place:
      return turn_to({ChartColumn::down});
    case Command::quarter:
      return next_quarter();
    case Command::game:
      return turn_to({ChartColumn::game});
    case Command::opponent:
      return turn_to({ChartColumn::opponent});
    case Command::note:
      return turn_to({ChartColumn::note});
    case Command::again:
      return again();
    case Command::row_before:
      if (const std::size_t place = open_ ? open_->place : rows_.size(); place > 0)
        return open_row(place - 1);
      return refuse("this is the first row");
    case Command::row_after:
      if (open_ && open_->place + 1 < rows_.size()) return open_row(open_->place + 1);
      return refuse("this is the last row");
    case Command::row:
      if (!may_leave()) return;
      asks_row_ = true;
      row_number_.clear();
      return;
    case Command::waiting:
      return open_waiting();
    case Command::insert:
      if (!open_ || open_->is_new) return refuse("open the row that the new one comes before");
      if (!may_leave()) return;
      remember();
      open_ = OpenRow{.place = open_->place};
      return;
    case Command::drop:
      return drop();
    case Command::undo:
      return undo(done_, undone_);
    case Command::redo:
      return undo(undone_, done_);
    default:
      return;  // the film's, which whoever plays it moves
  }
}

// What is asked, and in which order.

std::optional<Question> Charting::asked() const {
  if (!open_ || asks_row_) return std::nullopt;
  return open_->turned_to ? open_->turned_to : first_open(*open_);
}

std::optional<Question> Charting::asked_then() const {
  const auto question = asked();
  if (!question || open_->typing.empty() || is_typing_text()) return std::nullopt;
  if (question->front() == ChartColumn::down) return Question{ChartColumn::to_go};
  OpenRow trial = *open_;
  trial.typed[question->front()] = trial.typing;
  return first_open(trial);
}

std::optional<Question> Charting::first_open(const OpenRow& open) const {
  for (const Question& question : questions(open))
    if (!is_answered(open, question)) return question;
  return std::nullopt;
}

std::vector<Question> Charting::questions(const OpenRow& open) const {
  std::vector<Question> all;
  const bool is_new_game = open.typed.contains(ChartColumn::game);
  for (const ChartColumn column :
       {ChartColumn::game, ChartColumn::level, ChartColumn::yards_to_goal})
    if (open.is_new &&
        (is_new_game || proposal(open, column).empty() || open.typed.contains(column)))
      all.push_back({column});
  all.push_back({ChartColumn::family});
  all.push_back({ChartColumn::result});
  const auto result = from_word<Result>(value_of(open, ChartColumn::result));
  if (result && proposal(open, ChartColumn::yards).empty()) all.push_back({ChartColumn::yards});
  for (const Question& wanted : keys_.order) {
    Question question;
    for (const ChartColumn column : wanted)
      if (rows_.has(column) && is_asked_of(open, column)) question.push_back(column);
    if (!question.empty()) all.push_back(std::move(question));
  }
  return all;
}

// Where docs/chart.md has something to write; anything else can be reached by its row.
bool Charting::is_asked_of(const OpenRow& open, ChartColumn column) const {
  const auto result = from_word<Result>(value_of(open, ChartColumn::result));
  if (!result) return false;
  switch (column) {
    case ChartColumn::platform:
    case ChartColumn::pressure:
      return is_dropback(*result);
    case ChartColumn::air_yards:
    case ChartColumn::lane:
    case ChartColumn::on_time:
    case ChartColumn::catchable:
      return is_throw(*result);
    case ChartColumn::yac:
      return *result == Result::complete;
    case ChartColumn::evaded:  // of a handoff it is the runner's, not his
      return is_touch(*result) && family_kind(open) != FamilyKind::handoff;
    case ChartColumn::fumble_lost:
      return is_touch(*result) || *result == Result::sack;
    default:
      return true;
  }
}

bool Charting::is_answered(const OpenRow& open, const Question& question) const {
  return std::any_of(question.begin(), question.end(), [&](ChartColumn column) {
    return open.skipped.test(static_cast<std::size_t>(column)) || !value_of(open, column).empty();
  });
}

void Charting::turn_to(Question question) {
  if (!open_) return refuse("no row is open");
  if (!rows_.has(question.front()))
    return refuse("the chart has no column " + std::string(word(question.front())));
  open_->typing.clear();
  open_->turned_to = std::move(question);
}

void Charting::step_back() {
  if (!open_) return refuse("no row is open");
  const auto all = questions(*open_);
  const auto now = asked();
  const auto place = now ? std::find(all.begin(), all.end(), *now) : all.end();
  if (place == all.begin()) return refuse("this is the first column");
  turn_to(*std::prev(place));
}

void Charting::skip() {
  const auto question = asked();
  if (!question) return refuse("nothing is asked");
  const auto all = questions(*open_);
  const auto place = std::find(all.begin(), all.end(), *question);
  remember();
  if (!is_answered(*open_, *question))
    for (const ChartColumn column : *question) open_->skipped.set(static_cast<std::size_t>(column));
  const bool was_turned = std::exchange(open_->turned_to, std::nullopt).has_value();
  if (was_turned && place != all.end() && std::next(place) != all.end() &&
      is_answered(*open_, *std::next(place)))
    open_->turned_to = *std::next(place);
}

// What the open row holds.

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
  const std::string proposed = proposal(*open_, question->front());
  if (!proposed.empty() || question->front() != ChartColumn::yac) return proposed;
  const auto yards = whole_number(value(ChartColumn::yards));
  const auto air = whole_number(value(ChartColumn::air_yards));
  const auto spot = whole_number(value(ChartColumn::yards_to_goal));
  if (!yards || !air || !spot) return {};
  return std::to_string(*air >= *spot ? 0 : *yards - *air);
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

bool Charting::set(const Answers& answers) {
  OpenRow trial = *open_;
  for (const auto& [column, text] : answers) {
    if (!rows_.has(column)) {
      refuse("the chart has no column " + std::string(word(column)));
      return false;
    }
    trial.typed[column] = text;
    trial.skipped.reset(static_cast<std::size_t>(column));
  }
  trial.turned_to.reset();
  trial.typing.clear();
  const Values values = values_of(trial);
  const Findings known = rows_.read(values_of(*open_)).faults;
  for (const Finding& finding : rows_.read(values).faults) {
    if (!is_of_a_value(finding, values)) continue;
    if (std::any_of(known.begin(), known.end(),
                    [&](const Finding& old) { return is_same(old, finding); }))
      continue;
    open_->typing.clear();
    refuse(said(finding));
    return false;
  }
  remember();
  open_ = std::move(trial);
  return true;
}

void Charting::erase() {
  if (!open_) return refuse("no row is open");
  if (!open_->turned_to) {
    step_back();
    if (!fault_.empty()) return;
  }
  const Question question = *open_->turned_to;
  remember();
  for (const ChartColumn column : question) {
    if (open_->is_new) open_->typed.erase(column);
    if (!open_->is_new || !proposal(*open_, column).empty()) open_->typed[column] = "";
  }
}

void Charting::again() {
  const auto question = asked();
  if (!question) return refuse("nothing is asked");
  if (open_->place == 0) return refuse("there is no row before");
  const Values row = rows_.values(open_->place - 1);
  Answers answers;
  for (const ChartColumn column : *question)
    if (!at(row, column).empty()) answers.emplace_back(column, at(row, column));
  if (answers.empty()) return refuse("the row before has no " + plain(name_of(*question)));
  set(answers);
}

void Charting::next_quarter() {
  if (!open_) return refuse("no row is open");
  const auto now = whole_number(value(ChartColumn::quarter));
  set({{ChartColumn::quarter, std::to_string(now.value_or(0) + 1)}});
}

void Charting::end_here(const Press& press) {
  if (!open_) return refuse("no row is open");
  if (press.clip.empty()) return refuse("there is no film");
  set({{ChartColumn::end, seconds_text(press.at)}});
}

// Rows: begun, finished, opened, dropped.

bool Charting::is_untouched(const OpenRow& open) const {
  return std::all_of(open.typed.begin(), open.typed.end(), [&](const auto& one) {
    return open.is_new && (one.first == ChartColumn::clip || one.first == ChartColumn::start ||
                           one.first == ChartColumn::end);
  });
}

Mark Charting::mark_of(const OpenRow& open) const {
  const auto typed = [&](ChartColumn column) {
    const auto found = open.typed.find(column);
    return found == open.typed.end() ? std::string() : found->second;
  };
  return {typed(ChartColumn::clip), typed(ChartColumn::start), typed(ChartColumn::end)};
}

void Charting::start_new(const Press& press) {
  open_ = OpenRow{.place = rows_.size()};
  if (press.clip.empty()) return;
  if (!rows_.has(ChartColumn::start) || !rows_.has(ChartColumn::clip)) {
    told_ = "the chart has no columns clip and start: the time is not kept";
    return;
  }
  open_->typed[ChartColumn::clip] = press.clip;
  open_->typed[ChartColumn::start] = seconds_text(press.at);
}

void Charting::next(const Press& press) {
  if (!open_) {
    remember();
    start_new(press);
    return;
  }
  const bool has_film = !press.clip.empty();
  const bool was_new = open_->is_new, was_waiting = open_->was_waiting;
  if (was_new && is_untouched(*open_)) {  // times first, details later
    const Mark mark = mark_of(*open_);
    if (mark.start.empty()) return refuse("nothing is charted of this row yet");
    if (!press.is_playing)
      return refuse("the film stands: chart the snap, or let the film go on to the next");
    remember();
    auto waiting = waiting_;
    waiting.push_back(mark);
    set_waiting(std::move(waiting));
    start_new(press);
    told_ = fmt::format("{} marked, to be charted later", waiting_.size());
    return;
  }
  if (!finish()) {
    if (was_new && press.is_playing) keep_time(press);
    return;
  }
  if (was_waiting) return waiting_.empty() ? void() : open_waiting();
  if (was_new && (press.is_playing || !has_film)) start_new(press);
}

// The film has gone on to the next snap while this row is not whole: its time is not lost.
void Charting::keep_time(const Press& press) {
  constexpr double same_press = 2;  // seconds
  if (press.clip.empty() || !rows_.has(ChartColumn::start) || !rows_.has(ChartColumn::clip)) return;
  const auto last = waiting_.empty() ? std::nullopt : seconds_in(waiting_.back().start);
  if (last && std::abs(*last - press.at) < same_press) return;
  remember();
  auto waiting = waiting_;
  waiting.push_back({press.clip, seconds_text(press.at), ""});
  set_waiting(std::move(waiting));
  told_ = "the time of the next snap is marked and waits";
}

bool Charting::finish() {
  const OpenRow& row = *open_;
  const Values values = values_of(row);
  auto read = rows_.read(values);
  if (!read.snap) {
    const Finding& first = read.faults.front();
    refuse("the row is not whole: " + said(first));
    if (const auto column = from_word<ChartColumn>(first.place.field))
      open_->turned_to = Question{*column};
    return false;
  }
  const std::size_t place = row.place;
  const bool begins = row.is_new && place > 0 && is_new_drive(rows_.snap(place - 1), *read.snap) &&
                      following(rows_.snap(place - 1));
  const bool ends = row.is_new && !following(*read.snap);
  RowChange change{place, std::nullopt, std::nullopt};
  if (row.is_new) {
    change.after = rows_.made(place, values);
  } else {
    change.before = rows_.row_text(place);
    change.after = rows_.changed(place, values);
  }
  const bool changes = row.is_new || !row.typed.empty();
  remember();
  open_.reset();
  if (changes) change_row(std::move(change));
  if (begins || ends) ++drives_ended_;
  told_ = fmt::format("row {} of {}", place + 1, rows_.size());
  return true;
}

bool Charting::may_leave() {
  if (!open_ || is_untouched(*open_)) return true;
  refuse("a row is open: finish it (" + keys_.key(Command::done) + ") or drop it (" +
         keys_.key(Command::drop) + ")");
  return false;
}

void Charting::open_row(std::size_t place) {
  if (!may_leave()) return;
  remember();
  if (open_ && open_->is_new && !mark_of(*open_).start.empty()) {
    auto waiting = waiting_;
    waiting.push_back(mark_of(*open_));
    set_waiting(std::move(waiting));
  }
  open_ = OpenRow{.place = place, .is_new = false};
  open_->turned_to = Question{ChartColumn::family};
  film_ = span();
}

void Charting::open_numbered() {
  asks_row_ = false;
  const auto number = whole_number(row_number_);
  if (!number) return;
  if (*number < 1 || static_cast<std::size_t>(*number) > rows_.size())
    return refuse(fmt::format("there is no row {}; the chart has {}", row_number_, rows_.size()));
  open_row(static_cast<std::size_t>(*number) - 1);
}

void Charting::open_waiting() {
  if (!may_leave()) return;
  if (waiting_.empty()) {
    remember();
    open_ = OpenRow{.place = rows_.size()};
    return;
  }
  // The times of an open row without details wait too; it stays the last of them.
  const bool keeps = open_ && open_->is_new && !mark_of(*open_).start.empty();
  auto waiting = waiting_;
  if (keeps) waiting.push_back(mark_of(*open_));
  remember();
  const Mark mark = waiting.front();
  waiting.erase(waiting.begin());
  set_waiting(std::move(waiting));
  open_ = OpenRow{.place = rows_.size(), .was_waiting = true};
  open_->typed = {{ChartColumn::clip, mark.clip}, {ChartColumn::start, mark.start}};
  if (!mark.end.empty()) open_->typed[ChartColumn::end] = mark.end;
  film_ = span();
}

void Charting::drop() {
  if (!open_) return refuse("no row is open");
  remember();
  const OpenRow row = *std::exchange(open_, std::nullopt);
  if (row.is_new) {
    told_ = "dropped";
  } else if (!row.typed.empty()) {
    open_ = OpenRow{.place = row.place, .is_new = false};
    told_ = "changes dropped";
  } else {
    change_row({row.place, rows_.row_text(row.place), std::nullopt});
    told_ = fmt::format("row {} is out of the chart; {} takes it back", row.place + 1,
                        keys_.key(Command::undo));
  }
}

std::optional<FilmPlace> Charting::span() const {
  const auto start = seconds_in(value(ChartColumn::start));
  if (!start) return std::nullopt;
  return FilmPlace{value(ChartColumn::clip), *start, seconds_in(value(ChartColumn::end))};
}

// Undo and redo.

void Charting::remember() {
  done_.push_back({open_, std::nullopt, std::nullopt});
  done_.back().open ? done_.back().open->typing.clear() : void();
  undone_.clear();
}

void Charting::change_row(RowChange change) {
  apply(change);
  done_.back().change = std::move(change);
}

void Charting::apply(const RowChange& change) {
  if (!change.before)
    rows_.insert(change.place, *change.after);
  else if (!change.after)
    rows_.erase(change.place);
  else
    rows_.replace(change.place, *change.after);
  ++revision_;
}

void Charting::set_waiting(std::vector<Mark> waiting) {
  if (!done_.back().waiting) done_.back().waiting = waiting_;
  waiting_ = std::move(waiting);
  ++revision_;
}

void Charting::undo(std::vector<Moment>& from, std::vector<Moment>& to) {
  if (from.empty()) return refuse("there is nothing more to take back or bring back");
  Moment moment = std::move(from.back());
  from.pop_back();
  Moment back{open_, std::nullopt, std::nullopt};
  if (moment.change) {
    std::swap(moment.change->before, moment.change->after);
    apply(*moment.change);
    back.change = std::move(moment.change);
  }
  if (moment.waiting) {
    back.waiting = std::exchange(waiting_, std::move(*moment.waiting));
    ++revision_;
  }
  open_ = std::move(moment.open);
  to.push_back(std::move(back));
}

void Charting::take_back() {
  std::vector<Moment> nowhere;
  if (!done_.empty()) undo(done_, nowhere);
}

void Charting::add_film_columns() {
  rows_ = ChartRows(rows_.text_with({ChartColumn::clip, ChartColumn::start, ChartColumn::end}),
                    rows_.source(), rows_.words());
  done_.clear();  // rows of before are of another width
  undone_.clear();
  ++revision_;
}

}  // namespace callfit::charting
