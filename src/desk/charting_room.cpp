#include <callfit/base/finding.hpp>
#include <callfit/charting/charting.hpp>
#include <callfit/desk/gate.hpp>
#include <callfit/files/files.hpp>
#include <desk/chart_file.hpp>
#include <desk/charting_room.hpp>
#include <desk/film.hpp>
#include <desk/reading.hpp>
#include <desk/so_far.hpp>
#include <format/chart_header.hpp>
#include <format/json_print.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <charconv>
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

charting::KeyMap keys_of(const std::string& path, const ChartWords& words) {
  if (!fs::exists(path)) return charting::usual_keys();
  return charting::keys_from_json(Files{}.read(path), path, words);
}

std::vector<charting::Mark> marks_of(const ChartFile& file) {
  const std::string text = file.marks();
  return text.empty() ? std::vector<charting::Mark>{} : charting::marks_in(text, file.marks_path());
}

Charting charting_of(const ChartFile& file, const Taping& taping) {
  return {charting::ChartRows(file.text(), file.path(), taping.words),
          keys_of(taping.keys, taping.words), marks_of(file)};
}

std::vector<Film> films_of(const Taping& taping, const charting::ChartRows& rows) {
  std::vector<Film> films;
  for (const std::string& path : taping.films) {
    if (const std::string fault = film_fault(path); !fault.empty())
      throw InputError(Finding{{path, 0, ""}, fault, ""});
    films.push_back({fs::path(path).filename().string(), path});
  }
  std::vector<std::string> clips;
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (const std::string clip = rows.snap(i).clip.str(); clips.empty() || clips.back() != clip)
      clips.push_back(clip);
  for (Film& film : films_named(clips, taping.chart))
    if (std::none_of(films.begin(), films.end(),
                     [&film](const Film& known) { return known.name == film.name; }))
      films.push_back(std::move(film));
  return films;
}

}  // namespace

class ChartingRoom::Inside {
 public:
  explicit Inside(Taping taping)
      : taping_(std::move(taping)),
        file_(taping_.chart),
        charting_(charting_of(file_, taping_)),
        films_(films_of(taping_, charting_.rows())),
        so_far_(taping_.read_case, taping_.chart) {
    for (const Film& film : films_) names_.push_back(film.name);
  }

  std::string state() {
    look_again();
    return one_line({{"format", "callfit-charting/1"},
                     {"chart", fs::path(taping_.chart).filename().string()},
                     {"rows", charting_.rows().size()},
                     {"count", count_words()},
                     {"only_looked_at", file_.only_looked_at()},
                     {"fault", fault_.empty() ? charting_.fault() : fault_},
                     {"told", told()},
                     {"drives", charting_.drives_ended()},
                     {"version", version_},
                     {"lacks_film_columns", lacks_film_columns()},
                     {"films", films_json()},
                     {"film", film_json(charting_.film())},
                     {"span", film_json(charting_.span())},
                     {"asked", asked_json()},
                     {"asks_nothing", next_words()},
                     {"is_text", charting_.is_typing_text()},
                     {"open", open_json()},
                     {"odd", odd_json()},
                     {"table", table_json()},
                     {"film_keys", film_keys_json()}});
  }

  std::string keys(const std::string& body) {
    for (const Press& press : pressed_in(body, films_)) {
      fault_.clear();
      if (!file_.only_looked_at().empty()) {
        fault_ = file_.only_looked_at();
        break;
      }
      const std::size_t before = charting_.revision();
      charting_.press(press);
      if (charting_.revision() != before) write();
    }
    return state();
  }

  std::string add_columns() {
    fault_.clear();
    charting_.add_film_columns();
    write();
    return state();
  }

  std::string key_map() const {
    Json commands = Json::array();
    for (std::size_t i = 0; i < charting::command_count; ++i) {
      const auto command = static_cast<charting::Command>(i);
      commands.push_back({{"key", charting_.keys().key(command)},
                          {"words", charting::meaning_of(command)},
                          {"name", word(command)},
                          {"is_film", charting::moves_film(command)}});
    }
    std::vector<Question> questions{
        {ChartColumn::family}, {ChartColumn::result}, {ChartColumn::level}};
    const auto& order = charting_.keys().order;
    questions.insert(questions.end(), order.begin(), order.end());
    Json columns = Json::array();
    for (const Question& question : questions)
      columns.push_back(
          {{"words", in_plain_words(columns_in(question))},
           {"kind", kind_word(question)},
           {"choices", choices_json(question, charting::choices_of(charting_.keys(), question,
                                                                   taping_.words))}});
    return one_line({{"commands", std::move(commands)},
                     {"columns", std::move(columns)},
                     {"file", fs::path(taping_.keys).filename().string()}});
  }

  std::string so_far() {
    if (charting_.rows().size() == 0) return one_line({{"working", false}, {"words", ""}});
    const auto said = so_far_.of(version_);
    Json answer{{"working", so_far_.is_working()}};
    if (!said) return one_line(answer);
    answer["verdict"] = said->fault.empty() ? said->verdict : said->fault;
    answer["next"] = said->next;
    answer["is_old"] = said->version != version_;
    return one_line(answer);
  }

  Reply film(const Call& call) const {
    const std::string_view rest = std::string_view(call.target).substr(film_target.size());
    std::size_t place = 0;
    const auto [end, failed] = std::from_chars(rest.data(), rest.data() + rest.size(), place);
    const bool is_place = failed == std::errc() && end != rest.data() + rest.size() && *end == '/';
    if (!is_place || place < 1 || place > films_.size())
      return refused_film(404, "", "there is no such film");
    return part_of_film(films_[place - 1], call);
  }

  Json films_json() const {
    Json list = Json::array();
    for (std::size_t i = 0; i < films_.size(); ++i)
      list.push_back({{"name", films_[i].name},
                      {"target", std::string(film_target) + std::to_string(i + 1) + '/'},
                      {"fault", "This browser cannot play " + films_[i].name +
                                    ". Charting goes on without; " + way_to_play(films_[i].path)}});
    return list;
  }
  std::optional<std::size_t> film_named(const std::string& clip) const {
    const auto film = std::find(names_.begin(), names_.end(), clip);
    if (film == names_.end()) return std::nullopt;
    return static_cast<std::size_t>(film - names_.begin()) + 1;
  }
  std::size_t version() const { return version_; }

 private:
  // What could not be written down did not happen.
  void write() {
    try {
      file_.write(charting_.rows().text(),
                  charting_.waiting().empty() ? "" : charting::marks_text(charting_.waiting()));
      ++version_;
    } catch (const InputError& error) {
      fault_ = to_text(error.findings().front());
      charting_.take_back();
    }
  }

  void look_again() {
    if (file_.only_looked_at().empty() || !file_.look_again()) return;
    charting_ = charting_of(file_, taping_);
    ++version_;
  }

  std::string count_words() const {
    std::string words = std::to_string(charting_.rows().size()) +
                        (charting_.rows().size() == 1 ? " row on disk" : " rows on disk");
    if (!charting_.waiting().empty())
      words += ", " + std::to_string(charting_.waiting().size()) + " marked and not charted yet";
    return words;
  }

  std::string told() const { return fault_.empty() ? charting_.told() : std::string(); }

  bool lacks_film_columns() const {
    return !films_.empty() &&
           (!charting_.rows().has(ChartColumn::clip) || !charting_.rows().has(ChartColumn::start) ||
            !charting_.rows().has(ChartColumn::end));
  }

  Json film_json(const std::optional<charting::FilmPlace>& place) const {
    if (!place) return nullptr;
    const auto film = film_named(place->clip);
    if (!film) return nullptr;
    Json json{{"film", *film}, {"start", place->start}};
    json["end"] = place->end ? Json(*place->end) : Json(nullptr);
    return json;
  }

  Json asked_json() const {
    if (charting_.asks_row())
      return {{"words", "number of the row"},
              {"typing", charting_.row_number()},
              {"offer", ""},
              {"then", ""},
              {"choices", Json::array()}};
    const auto question = charting_.asked();
    if (!question) return nullptr;
    const std::string offer = charting_.offer();
    // The key after a number is the next column's already.
    const auto then = charting_.asked_then();
    const Question& answered = then ? *then : *question;
    return {{"words", in_plain_words(columns_in(*question))},
            {"typing", charting_.open()->typing},
            {"offer", offer.empty() ? "" : std::string(charting::offer_key) + " takes " + offer},
            {"then", then ? "then " + in_plain_words(columns_in(*then)) : ""},
            {"choices", choices_json(answered, charting_.choices(answered))}};
  }

  // Where nothing is asked.
  std::string next_words() const {
    if (!file_.only_looked_at().empty()) return {};
    return charting_.keys().key(charting::Command::next) +
           (charting_.open() ? " puts the row on disk and marks the next snap"
                             : " marks a snap and opens its row");
  }

  Json open_json() const {
    const auto& open = charting_.open();
    if (!open) return nullptr;
    const auto question = charting_.asked();
    Json cells = Json::array();
    for (std::size_t c = 0; c < column_count; ++c) {
      const auto column = static_cast<ChartColumn>(c);
      if (!charting_.rows().has(column)) continue;
      const bool is_asked =
          question && std::find(question->begin(), question->end(), column) != question->end();
      cells.push_back({{"words", plain(word(column))},
                       {"value", plain_value(column, charting_.value(column))},
                       {"standing", standing_word(charting_.standing(column))},
                       {"is_asked", is_asked}});
    }
    const std::string number = std::to_string(open->place + 1);
    return {{"words", open->is_new ? "Row " + number + ", new: not on disk yet"
                                   : "Row " + number + ", as it is on disk" +
                                         (open->typed.empty() ? "" : " but for what was typed")},
            {"cells", std::move(cells)}};
  }

  static std::string plain_value(ChartColumn column, const std::string& value) {
    return kind_of(word(column)) == ColumnKind::word ? plain(value) : value;
  }

  Json odd_json() const {
    Json list = Json::array();
    for (const Finding& finding : charting_.odd())
      list.push_back(plain(finding.place.field) + ": " + finding.what +
                     (finding.mend.empty() ? "" : "; " + finding.mend));
    return list;
  }

  // The rows around the open one, or the last ones.
  Json table_json() const {
    const charting::ChartRows& rows = charting_.rows();
    const std::size_t here = charting_.open() ? charting_.open()->place : rows.size();
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
                      {"is_open", charting_.open() && !charting_.open()->is_new && i == here}});
    }
    return {{"heads", std::move(heads)}, {"rows", std::move(list)}};
  }

  Json film_keys_json() const {
    Json keys = Json::object();
    for (std::size_t i = 0; i < charting::command_count; ++i)
      if (const auto command = static_cast<charting::Command>(i); charting::moves_film(command))
        keys[charting_.keys().key(command)] = word(command);
    return keys;
  }

  Taping taping_;
  ChartFile file_;
  Charting charting_;
  std::vector<Film> films_;
  std::vector<std::string> names_;
  std::string fault_;
  std::size_t version_ = 0;
  SoFar so_far_;
};

ChartingRoom::ChartingRoom(Taping taping) : inside_(std::make_unique<Inside>(std::move(taping))) {}
ChartingRoom::~ChartingRoom() = default;
std::string ChartingRoom::state() { return inside_->state(); }
std::string ChartingRoom::keys(const std::string& body) { return inside_->keys(body); }
std::string ChartingRoom::add_columns() { return inside_->add_columns(); }
std::string ChartingRoom::key_map() const { return inside_->key_map(); }
std::string ChartingRoom::so_far() { return inside_->so_far(); }
Reply ChartingRoom::film(const Call& call) const { return inside_->film(call); }
std::optional<std::size_t> ChartingRoom::film_named(const std::string& clip) const {
  return inside_->film_named(clip);
}
Json ChartingRoom::films() const { return inside_->films_json(); }
std::size_t ChartingRoom::version() const { return inside_->version(); }

}  // namespace callfit::desk
