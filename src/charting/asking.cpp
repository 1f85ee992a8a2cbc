#include <callfit/charting/charting.hpp>
#include <charting/key_words.hpp>

#include <algorithm>
#include <utility>

namespace callfit::charting {

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

}  // namespace callfit::charting
