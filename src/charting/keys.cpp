#include <callfit/chart/snap.hpp>
#include <callfit/charting/keys.hpp>
#include <callfit/film/playing.hpp>
#include <format/chart_header.hpp>
#include <format/part.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace callfit::charting {
namespace {

constexpr std::string_view document_kind = "callfit-keys";
constexpr Texts key_rule{1, 40, "a key such as \"q\", \"Enter\" or \"Ctrl+z\""};
constexpr Texts question_rule{1, 60, "a column such as shell, or two such as platform+pressure"};
constexpr Sizes commands_rule{0, command_count, "commands and their keys"};
constexpr Sizes order_rule{0, column_count, "a list of columns"};
constexpr Sizes choices_rule{0, 100, "columns and the keys of their values"};
constexpr Sizes values_rule{0, 100, "values and their keys"};

struct Usual {
  Command command;
  std::string_view key;
  std::string_view meaning;
};

using enum Command;
constexpr std::array usual{
    Usual{next, "Enter", "the next snap: finish the open row, mark the time of the new one"},
    Usual{done, "Shift+Enter", "finish the open row, mark nothing"},
    Usual{end_here, "z", "the snap's play ends here on the film"},
    Usual{skip, ".", "leave the asked column blank, go on"},
    Usual{column_before, ",", "back a column"},
    Usual{erase, "Backspace", "erase what is typed, or the value before"},
    Usual{spot, "b", "where the ball is: type the yards to goal; far away it is a new drive"},
    Usual{place, "v", "down and distance: type the down, then the yards to go"},
    Usual{quarter, "F2", "the next quarter"},
    Usual{game, "F4", "another game: type its name"},
    Usual{opponent, "F8", "the opponent: type the name"},
    Usual{note, "F9", "a note: type it"},
    Usual{again, "x", "the asked column again as in the row before"},
    Usual{row_before, "PageUp", "open the row before"},
    Usual{row_after, "PageDown", "open the row after"},
    Usual{row, "Home", "open a row by its number: type it, then Enter"},
    Usual{waiting, "End", "the first snap whose time is marked and nothing else, or a new row"},
    Usual{insert, "Insert", "a new row before the open one"},
    Usual{drop, "Delete", "drop what is open: a new row, changes, at last the row itself"},
    Usual{undo, "Ctrl+z", "undo"},
    Usual{redo, "Ctrl+y", "redo"},
    Usual{take_mine, "1", "where two charts differ: this one's value stands"},
    Usual{take_theirs, "2", "where two charts differ: the other one's value is taken"},
    Usual{play, "Space", "play or pause"},
    Usual{pause, "k", "pause"},
    Usual{shuttle_back, "j", "shuttle back"},
    Usual{shuttle_on, "l", "shuttle on, faster each time"},
    Usual{back, "ArrowLeft", "back {} seconds"},
    Usual{on, "ArrowRight", "on {} seconds"},
    Usual{slower, "ArrowDown", "slower"},
    Usual{faster, "ArrowUp", "faster"},
    Usual{frame_back, "Shift+ArrowLeft", "back one frame"},
    Usual{frame_on, "Shift+ArrowRight", "on one frame"},
    Usual{loop, "h", "play the snap again and again, or no more"}};
static_assert(usual.size() == command_count);

std::vector<Choice> words(std::initializer_list<std::pair<const char*, const char*>> pairs) {
  std::vector<Choice> choices;
  for (const auto& [key, value] : pairs) choices.push_back({key, {value}});
  return choices;
}

std::map<std::string, std::vector<Choice>> usual_choices() {
  return {{"family", words({{"q", "quick_middle"},
                            {"w", "quick_outside"},
                            {"e", "screen"},
                            {"r", "intermediate"},
                            {"t", "boot"},
                            {"y", "deep_middle"},
                            {"u", "deep_outside"},
                            {"a", "qb_draw"},
                            {"s", "zone_read"},
                            {"d", "qb_power"},
                            {"f", "qb_sneak"},
                            {"g", "handoff"}})},
          {"result", words({{"c", "complete"},
                            {"i", "incomplete"},
                            {"p", "intercepted"},
                            {"s", "sack"},
                            {"r", "scramble"},
                            {"u", "run"},
                            {"n", "no_play"}})},
          {"shell", words({{"o", "one_high"}, {"t", "two_high"}, {"n", "none_high"}})},
          {"platform", words({{"p", "pocket"}, {"m", "moving"}})},
          {"lane", words({{"q", "left"}, {"w", "middle"}, {"e", "right"}})},
          {"platform+pressure",
           {{"q", {"pocket", "no"}},
            {"w", {"pocket", "yes"}},
            {"a", {"moving", "no"}},
            {"s", {"moving", "yes"}},
            {"p", {"pocket", ""}},
            {"m", {"moving", ""}},
            {"n", {"", "no"}},
            {"y", {"", "yes"}}}},
          {"on_time+catchable",
           {{"q", {"yes", "yes"}},
            {"w", {"yes", "no"}},
            {"a", {"no", "yes"}},
            {"s", {"no", "no"}},
            {"t", {"yes", ""}},
            {"d", {"no", ""}},
            {"y", {"", "yes"}},
            {"n", {"", "no"}}}}};
}

std::vector<std::string> words_in(ChartColumn column, const ChartWords& known) {
  switch (column) {
    case ChartColumn::level:
      return known.levels;
    case ChartColumn::family: {
      std::vector<std::string> ids;
      for (const Family& family : known.families) ids.push_back(family.id);
      return ids;
    }
    case ChartColumn::result:
      return all_words<Result>();
    case ChartColumn::shell:
      return all_words<Shell>();
    case ChartColumn::platform:
      return all_words<Platform>();
    case ChartColumn::lane:
      return all_words<Lane>();
    default:
      return kind_of(word(column)) == ColumnKind::yes_no ? std::vector<std::string>{"yes", "no"}
                                                         : std::vector<std::string>{};
  }
}

// Every answer that a question can have: of two columns all pairs, then each alone.
std::vector<std::vector<std::string>> answers_to(const Question& question,
                                                 const ChartWords& known) {
  std::vector<std::vector<std::string>> answers;
  const auto first = words_in(question.front(), known);
  if (question.size() == 1) {
    for (const std::string& one : first) answers.push_back({one});
    return answers;
  }
  const auto second = words_in(question.back(), known);
  for (const std::string& a : first)
    for (const std::string& b : second) answers.push_back({a, b});
  for (const std::string& a : first) answers.push_back({a, ""});
  for (const std::string& b : second) answers.push_back({"", b});
  return answers;
}

// Yes and no have their first letters, all else what is left of the keyboard.
std::string free_key(const std::string& value, const std::set<std::string>& taken) {
  if ((value == "yes" || value == "no") && !taken.contains(value.substr(0, 1)))
    return value.substr(0, 1);
  for (const char letter : std::string_view("qwertyuiopasdfgcnm"))
    if (!taken.contains({letter})) return {letter};
  return {};
}

Question question_named(std::string_view name) {
  Question question;
  while (true) {
    const std::size_t plus = name.find('+');
    const auto column = from_word<ChartColumn>(name.substr(0, plus));
    if (!column) return {};
    question.push_back(*column);
    if (plus == std::string_view::npos) return question;
    name.remove_prefix(plus + 1);
  }
}

bool can_be_ordered(const Question& question, const ChartWords& known) {
  if (question.empty() || question.size() > 2) return false;
  return std::all_of(question.begin(), question.end(), [&](ChartColumn column) {
    return static_cast<std::size_t>(column) >= needed_column_count &&
           (question.size() == 1 || !words_in(column, known).empty());
  });
}

class KeyReader {
 public:
  KeyReader(const ChartWords& known, KeyMap& map) : known_(known), map_(map) {}

  void read(Fields& fields) {
    fields.maybe("commands", [this](const Part& part) { return read_commands(part); });
    fields.maybe("order", [this](const Part& part) { return read_order(part); });
    fields.maybe("choices", [this](const Part& part) { return read_choices(part); });
  }

  // Film and command keys work whatever is asked; a key with two meanings would take one of them.
  void check(Faults& faults) const {
    std::map<std::string, std::string> meanings;
    for (std::size_t i = 0; i < command_count; ++i) {
      const std::string name(word(static_cast<Command>(i)));
      const auto [other, is_new] = meanings.try_emplace(map_.commands[i], name);
      if (!is_new)
        faults.add("/commands/" + name,
                   "\"" + map_.commands[i] + "\" is the key of " + other->second,
                   "give each a key of its own");
    }
    std::vector<Question> questions{
        {ChartColumn::family}, {ChartColumn::result}, {ChartColumn::level}};
    questions.insert(questions.end(), map_.order.begin(), map_.order.end());
    for (const Question& question : questions) check(question, meanings, faults);
  }

 private:
  bool read_commands(const Part& part) {
    part.entries(commands_rule, [this](const Part& one, const std::string& name) {
      const auto command = from_word<Command>(name);
      if (!command) one.fault("there is no such command", suggest(name, all_words<Command>()));
      const std::string key = one.text(key_rule);
      if (command) map_.key(*command) = key;
      return true;
    });
    return true;
  }

  bool read_order(const Part& part) {
    map_.order.clear();
    part.list(order_rule, [this](const Part& one) {
      const Question question = question_named(one.text(question_rule));
      if (can_be_ordered(question, known_))
        map_.order.push_back(question);
      else
        one.fault("is no optional column, nor two of words",
                  "write one such as shell, or platform+pressure");
      return true;
    });
    return true;
  }

  bool read_choices(const Part& part) {
    part.entries(choices_rule, [this](const Part& one, const std::string& name) {
      const Question question = question_named(name);
      if (question.empty() || answers_to(question, known_).empty())
        one.fault("is no column of words, nor two of them",
                  "write one such as family, or platform+pressure");
      else
        read_keys_of(one, question);
      return true;
    });
    return true;
  }

  void read_keys_of(const Part& part, const Question& question) {
    const auto answers = answers_to(question, known_);
    auto& choices = map_.choices[name_of(question)];
    part.entries(values_rule, [&](const Part& one, const std::string& name) {
      const std::string key = one.text(key_rule);
      const auto answer = std::find_if(answers.begin(), answers.end(), [&name](const auto& values) {
        return values_name(values) == name;
      });
      if (answer == answers.end()) {
        one.fault("is no value of " + name_of(question),
                  "write one such as " + values_name(answers.front()));
        return false;
      }
      std::erase_if(choices, [&](const Choice& old) { return old.values == *answer; });
      choices.push_back({key, *answer});
      return true;
    });
  }

  static std::string values_name(const std::vector<std::string>& values) {
    return values.size() == 1 ? values.front() : values.front() + '+' + values.back();
  }

  void check(const Question& question, const std::map<std::string, std::string>& meanings,
             Faults& faults) const {
    std::set<std::string> taken;
    for (const Choice& choice : choices_of(map_, question, known_)) {
      const std::string pointer = "/choices/" + name_of(question);
      if (const auto command = meanings.find(choice.key); command != meanings.end())
        faults.add(pointer, "\"" + choice.key + "\" is the key of " + command->second,
                   "give each a key of its own");
      if (!taken.insert(choice.key).second)
        faults.add(pointer, "\"" + choice.key + "\" stands for two values",
                   "give each a key of its own");
    }
  }

  const ChartWords& known_;
  KeyMap& map_;
};

}  // namespace

std::string name_of(const Question& question) {
  std::string name;
  for (const ChartColumn column : question)
    name += (name.empty() ? "" : "+") + std::string(word(column));
  return name;
}

std::optional<Command> KeyMap::command_of(std::string_view key) const {
  const auto found = std::find(commands.begin(), commands.end(), key);
  if (found == commands.end()) return std::nullopt;
  return static_cast<Command>(found - commands.begin());
}

KeyMap usual_keys() {
  KeyMap map;
  for (const Usual& one : usual) map.key(one.command) = one.key;
  map.order = {{ChartColumn::shell},
               {ChartColumn::platform, ChartColumn::pressure},
               {ChartColumn::air_yards},
               {ChartColumn::lane},
               {ChartColumn::on_time, ChartColumn::catchable},
               {ChartColumn::yac},
               {ChartColumn::evaded},
               {ChartColumn::fumble_lost}};
  map.choices = usual_choices();
  return map;
}

KeyMap keys_from_json(std::string_view text, const std::string& source, const ChartWords& known) {
  KeyMap map = usual_keys();
  const nlohmann::json document = parse_json(text, source);
  read_document(document, document_kind, source, [&](Fields& fields) {
    KeyReader reader(known, map);
    reader.read(fields);
    reader.check(fields.part().faults());
    return true;
  });
  return map;
}

std::vector<Choice> choices_of(const KeyMap& keys, const Question& question,
                               const ChartWords& known) {
  std::vector<Choice> choices;
  std::set<std::string> taken;
  std::vector<Choice> own;
  if (const auto found = keys.choices.find(name_of(question)); found != keys.choices.end())
    own = found->second;
  for (const Choice& choice : own) taken.insert(choice.key);
  for (std::vector<std::string>& values : answers_to(question, known)) {
    const auto given = std::find_if(own.begin(), own.end(),
                                    [&](const Choice& choice) { return choice.values == values; });
    const std::string key =
        given != own.end() ? given->key : free_key(values.size() == 1 ? values.front() : "", taken);
    if (key.empty()) continue;  // more words than keys: they can be charted in a spreadsheet
    taken.insert(key);
    choices.push_back({key, std::move(values)});
  }
  return choices;
}

std::string meaning_of(Command command) {
  return fmt::format(fmt::runtime(usual[static_cast<std::size_t>(command)].meaning), film_jump);
}

}  // namespace callfit::charting
