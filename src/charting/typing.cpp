#include <callfit/charting/charting.hpp>
#include <charting/key_words.hpp>
#include <format/chart_header.hpp>

#include <utility>

namespace callfit::charting {
namespace {

constexpr std::size_t longest_number = 4, longest_text = 200;

ColumnKind kind(ChartColumn column) { return kind_of(word(column)); }

}  // namespace

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

}  // namespace callfit::charting
