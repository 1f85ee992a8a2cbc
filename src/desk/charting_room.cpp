#include <callfit/base/finding.hpp>
#include <callfit/charting/charting.hpp>
#include <callfit/report/cautions.hpp>
#include <desk/charting_room.hpp>
#include <desk/plain_value.hpp>
#include <desk/reading.hpp>
#include <desk/so_far.hpp>
#include <desk/typed_chart.hpp>
#include <format/chart_header.hpp>
#include <format/json_print.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>

namespace callfit::desk {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;
using charting::Charting;
using charting::Choice;
using charting::Press;
using charting::Question;

constexpr std::size_t rows_above = 6, rows_shown = 8;

// A question or its values as people read them.
std::string in_plain_words(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names)
    if (!name.empty()) text += (text.empty() ? "" : ", ") + plain(name);
  return text;
}

std::vector<std::string> columns_in(const Question& question) {
  std::vector<std::string> names;
  for (const ChartColumn column : question) names.emplace_back(word(column));
  return names;
}

// Of two columns of yes and no, "yes" alone would not tell which.
std::string choice_words(const Question& question, const Choice& choice) {
  if (question.size() == 1) return plain(choice.values.front());
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < question.size(); ++i) {
    const std::string column(word(question[i]));
    const std::string& value = choice.values[i];
    if (value == "yes")
      parts.push_back(column);
    else if (value == "no")
      parts.push_back((question[i] == ChartColumn::pressure ? "no " : "not ") + column);
    else
      parts.push_back(value);
  }
  return in_plain_words(parts);
}

Json choices_json(const Question& question, const std::vector<Choice>& choices) {
  Json list = Json::array();
  for (const Choice& choice : choices)
    list.push_back({{"key", choice.key}, {"words", choice_words(question, choice)}});
  return list;
}

std::string kind_word(const Question& question) {
  if (question.size() > 1) return "choice";
  switch (kind_of(word(question.front()))) {
    case ColumnKind::number:
      return "number";
    case ColumnKind::text:
      return "text";
    case ColumnKind::clock:
      return "time";
    default:
      return "choice";
  }
}

std::string standing_word(charting::Standing standing) {
  switch (standing) {
    case charting::Standing::typed:
      return "typed";
    case charting::Standing::follows:
      return "follows";
    default:
      return "blank";
  }
}

}  // namespace

class ChartingRoom::Inside {
 public:
  explicit Inside(Taping taping)
      : taping_(std::move(taping)),
        typed_(taping_),
        films_(taping_, typed_.rows()),
        so_far_(taping_.read_case, taping_.chart) {
    if (!taping_.against.empty()) settling_.emplace(taping_, typed_, films_);
  }

  std::string state() {
    typed_.look_again();
    const Charting& charting = typed_.charting();
    return one_line({{"format", "callfit-charting/1"},
                     {"chart", fs::path(taping_.chart).filename().string()},
                     {"rows", charting.rows().size()},
                     {"count", count_words()},
                     {"notice", data_about_minors},
                     {"against", settling_ ? settling_->notice() : Json(nullptr)},
                     {"only_looked_at", typed_.file().only_looked_at()},
                     {"fault", typed_.fault().empty() ? charting.fault() : typed_.fault()},
                     {"told", typed_.fault().empty() ? charting.told() : std::string()},
                     {"drives", charting.drives_ended()},
                     {"version", typed_.version()},
                     {"lacks_film_columns", lacks_film_columns()},
                     {"films", films_.json()},
                     {"playing", playing_json()},
                     {"film", films_.json(charting.film())},
                     {"span", films_.json(charting.span())},
                     {"asked", asked_json()},
                     {"asks_nothing", next_words()},
                     {"is_text", charting.is_typing_text()},
                     {"open", open_json()},
                     {"odd", odd_json()},
                     {"table", table_json()},
                     {"film_keys", film_keys_json()}});
  }

  std::string keys(const std::string& body) {
    for (const Press& press :
         pressed_in(body, [this](std::size_t film) { return films_.name(film); }))
      typed_.change([&press](Charting& charting) { charting.press(press); });
    return state();
  }

  std::string add_columns() {
    typed_.change([](Charting& charting) { charting.add_film_columns(); });
    return state();
  }

  SettlingRoom& settling() {
    if (!settling_)
      throw InputError(Finding{{"", 0, ""},
                               "this chart is held against no other one",
                               "name it: callfit desk --chart FILE --against FILE"});
    return *settling_;
  }
  bool is_blind() const { return settling_ && settling_->is_blind(); }

  std::string key_map() const {
    Json commands = Json::array();
    for (std::size_t i = 0; i < charting::command_count; ++i) {
      const auto command = static_cast<charting::Command>(i);
      commands.push_back({{"key", charting().keys().key(command)},
                          {"words", charting::meaning_of(command)},
                          {"name", word(command)},
                          {"is_film", charting::moves_film(command)}});
    }
    std::vector<Question> questions{
        {ChartColumn::family}, {ChartColumn::result}, {ChartColumn::level}};
    const auto& order = charting().keys().order;
    questions.insert(questions.end(), order.begin(), order.end());
    Json columns = Json::array();
    for (const Question& question : questions)
      columns.push_back(
          {{"words", in_plain_words(columns_in(question))},
           {"kind", kind_word(question)},
           {"choices", choices_json(question, charting::choices_of(charting().keys(), question,
                                                                   taping_.words))}});
    return one_line({{"commands", std::move(commands)},
                     {"columns", std::move(columns)},
                     {"file", fs::path(taping_.keys).filename().string()}});
  }

  std::string so_far() {
    if (charting().rows().size() == 0) return one_line({{"working", false}, {"words", ""}});
    const auto said = so_far_.of(version());
    Json answer{{"working", so_far_.is_working()}};
    if (!said) return one_line(answer);
    answer["verdict"] = said->fault.empty() ? said->verdict : said->fault;
    answer["next"] = said->next;
    answer["is_old"] = said->version != version();
    return one_line(answer);
  }

  const RoomFilms& films() const { return films_; }
  std::size_t version() const { return typed_.version(); }

 private:
  std::string count_words() const {
    std::string words = std::to_string(charting().rows().size()) +
                        (charting().rows().size() == 1 ? " row on disk" : " rows on disk");
    if (!charting().waiting().empty())
      words += ", " + std::to_string(charting().waiting().size()) + " marked and not charted yet";
    return words;
  }

  bool lacks_film_columns() const {
    return !films_.empty() &&
           (!charting().rows().has(ChartColumn::clip) ||
            !charting().rows().has(ChartColumn::start) || !charting().rows().has(ChartColumn::end));
  }

  Json asked_json() const {
    if (charting().asks_row())
      return {{"words", "number of the row"},
              {"typing", charting().row_number()},
              {"offer", ""},
              {"then", ""},
              {"choices", Json::array()}};
    const auto question = charting().asked();
    if (!question) return nullptr;
    const std::string offer = charting().offer();
    // The key after a number is the next column's already.
    const auto then = charting().asked_then();
    const Question& answered = then ? *then : *question;
    return {{"words", in_plain_words(columns_in(*question))},
            {"typing", charting().open()->typing},
            {"offer", offer.empty() ? "" : std::string(charting::offer_key) + " takes " + offer},
            {"then", then ? "then " + in_plain_words(columns_in(*then)) : ""},
            {"choices", choices_json(answered, charting().choices(answered))}};
  }

  // Where nothing is asked.
  std::string next_words() const {
    if (!typed_.file().only_looked_at().empty()) return {};
    return charting().keys().key(charting::Command::next) +
           (charting().open() ? " puts the row on disk and marks the next snap"
                              : " marks a snap and opens its row");
  }

  Json open_json() const {
    const auto& open = charting().open();
    if (!open) return nullptr;
    const auto question = charting().asked();
    Json cells = Json::array();
    for (std::size_t c = 0; c < column_count; ++c) {
      const auto column = static_cast<ChartColumn>(c);
      if (!charting().rows().has(column)) continue;
      const bool is_asked =
          question && std::find(question->begin(), question->end(), column) != question->end();
      cells.push_back({{"words", plain(word(column))},
                       {"value", plain_value(column, charting().value(column))},
                       {"standing", standing_word(charting().standing(column))},
                       {"is_asked", is_asked}});
    }
    const std::string number = std::to_string(open->place + 1);
    return {{"words", open->is_new ? "Row " + number + ", new: not on disk yet"
                                   : "Row " + number + ", as it is on disk" +
                                         (open->typed.empty() ? "" : " but for what was typed")},
            {"cells", std::move(cells)}};
  }

  Json odd_json() const {
    Json list = Json::array();
    for (const Finding& finding : charting().odd())
      list.push_back(plain(finding.place.field) + ": " + finding.what +
                     (finding.mend.empty() ? "" : "; " + finding.mend));
    return list;
  }

  // The rows around the open one, or the last ones.
  Json table_json() const {
    const charting::ChartRows& rows = charting().rows();
    const std::size_t here = charting().open() ? charting().open()->place : rows.size();
    const std::size_t last =
        std::min(rows.size(), std::max(here + rows_shown - rows_above, rows_shown));
    const std::size_t first = last > rows_shown ? last - rows_shown : 0;
    Json heads = Json::array({"row"});
    for (std::size_t c = 0; c < column_count; ++c)
      if (rows.has(static_cast<ChartColumn>(c)))
        heads.push_back(plain(word(static_cast<ChartColumn>(c))));
    Json list = Json::array();
    for (std::size_t i = first; i < last; ++i) {
      const charting::Values values = rows.values(i);
      Json cells = Json::array({std::to_string(i + 1)});
      for (std::size_t c = 0; c < column_count; ++c)
        if (const auto column = static_cast<ChartColumn>(c); rows.has(column))
          cells.push_back(plain_value(column, values[c]));
      list.push_back({{"cells", std::move(cells)},
                      {"is_open", charting().open() && !charting().open()->is_new && i == here}});
    }
    return {{"heads", std::move(heads)}, {"rows", std::move(list)}};
  }

  Json film_keys_json() const {
    Json keys = Json::object();
    for (std::size_t i = 0; i < charting::command_count; ++i)
      if (const auto command = static_cast<charting::Command>(i); charting::moves_film(command))
        keys[charting().keys().key(command)] = word(command);
    return keys;
  }

  const Charting& charting() const { return typed_.charting(); }

  Taping taping_;
  TypedChart typed_;
  RoomFilms films_;
  std::optional<SettlingRoom> settling_;
  SoFar so_far_;
};

ChartingRoom::ChartingRoom(Taping taping) : inside_(std::make_unique<Inside>(std::move(taping))) {}
ChartingRoom::~ChartingRoom() = default;
std::string ChartingRoom::state() { return inside_->state(); }
std::string ChartingRoom::keys(const std::string& body) { return inside_->keys(body); }
std::string ChartingRoom::add_columns() { return inside_->add_columns(); }
std::string ChartingRoom::key_map() const { return inside_->key_map(); }
std::string ChartingRoom::so_far() { return inside_->so_far(); }
SettlingRoom& ChartingRoom::settling() { return inside_->settling(); }
bool ChartingRoom::is_blind() const { return inside_->is_blind(); }
const RoomFilms& ChartingRoom::films() const { return inside_->films(); }
std::size_t ChartingRoom::version() const { return inside_->version(); }

}  // namespace callfit::desk
