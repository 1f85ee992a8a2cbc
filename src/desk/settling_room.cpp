#include <callfit/base/finding.hpp>
#include <callfit/chart/agreement.hpp>
#include <callfit/files/files.hpp>
#include <callfit/report/agreement_text.hpp>
#include <desk/plain_value.hpp>
#include <desk/settling_room.hpp>
#include <format/json_print.hpp>
#include <format/part.hpp>

#include <algorithm>
#include <filesystem>
#include <utility>

namespace callfit::desk {
namespace {

namespace fs = std::filesystem;
using charting::ChartRows;
using charting::Command;
using charting::Dispute;
using Json = nlohmann::ordered_json;

constexpr std::size_t most_lone_rows = 20;  // that are listed
constexpr Texts settling_key_rule{1, 40, "a key such as \"1\" or \"Ctrl+z\""};

ChartRows other_chart(const Taping& taping) {
  std::error_code failed;
  if (fs::equivalent(taping.against, taping.chart, failed))
    throw InputError(Finding{{taping.against, 0, ""},
                             "is the chart that is typed",
                             "name the one that somebody else charted"});
  Findings notices;
  return {Files{}.chart_text(taping.against, notices), taping.against, taping.words};
}

std::string file_name(const std::string& path) { return fs::path(path).filename().string(); }

std::vector<std::string> settling_keys_in(const std::string& body) {
  const nlohmann::json document = parse_json(body, "request");
  Faults faults("request");
  auto keys =
      Part(document, "", faults).object(R"(keys such as {"keys": ["1"]})", [](Fields& fields) {
        return fields.list("keys", {0, 1000},
                           [](const Part& part) { return part.text(settling_key_rule); });
      });
  faults.settle();
  return keys;
}

// "Only in mine.csv: rows 4, 9 and 2 more."; empty where there is none.
std::string lone_words(const std::string& chart, const std::vector<std::size_t>& rows) {
  if (rows.empty()) return {};
  std::string words = "Only in " + chart + (rows.size() == 1 ? ": row " : ": rows ");
  const std::size_t shown = std::min(rows.size(), most_lone_rows);
  for (std::size_t i = 0; i < shown; ++i)
    words += (i > 0 ? ", " : "") + std::to_string(rows[i] + 1);
  if (shown < rows.size()) words += " and " + std::to_string(rows.size() - shown) + " more";
  return words + ". No key settles those.";
}

// Names stand in the first column.
Json cells_json(const TableCells& cells) {
  Json rows = Json::array();
  for (std::size_t row = 1; row < cells.size(); ++row) {
    rows.push_back(cells[row]);
    rows.back().front() = plain(cells[row].front());
  }
  return {{"heads", cells.front()}, {"rows", std::move(rows)}};
}

std::string blank_or(const std::string& value) { return value.empty() ? "blank" : value; }

// What goes into the row beside the disputed column.
std::string taken_words(const charting::Taking& taken) {
  if (!taken.fault.empty()) return taken.fault;
  std::string words;
  for (std::size_t i = 1; i < taken.values.size(); ++i) {
    const auto& [column, value] = taken.values[i];
    words += (words.empty() ? "Theirs takes with it " : ", ") + plain(word(column)) + ' ' +
             blank_or(plain_value(column, value));
  }
  return words;
}

}  // namespace

SettlingRoom::SettlingRoom(const Taping& taping, TypedChart& typed, const RoomFilms& films)
    : taping_(taping),
      typed_(typed),
      films_(films),
      settling_(other_chart(taping)),
      mine_name_(file_name(taping.chart)),
      theirs_name_(file_name(taping.against)),
      sealed_(typed.file().blind()) {}

std::string SettlingRoom::games_words() const {
  std::vector<std::string> games;
  for (std::size_t row = 0; row < settling_.theirs().size(); ++row)
    if (const std::string game = settling_.theirs().snap(row).game.str();
        std::find(games.begin(), games.end(), game) == games.end())
      games.push_back(game);
  std::string words;
  for (const std::string& game : games) words += (words.empty() ? "" : ", ") + game;
  return words;
}

Json SettlingRoom::notice() const {
  const std::string blind =
      "This chart is blind to " + theirs_name_ +
      ": nothing of it is shown until you ask how far the two agree. That chart calls its games " +
      games_words() + "; call yours the same.";
  const std::string seen = "What was charted blind is kept in " +
                           file_name(typed_.file().blind_path()) + "; " + mine_name_ +
                           " is what is settled.";
  return {{"name", theirs_name_},
          {"is_blind", is_blind()},
          {"words", is_blind() ? blind : seen},
          {"button", is_blind() ? "I am done: how far do the two agree?" : "Where the two differ"}};
}

void SettlingRoom::may_be_seen() const {
  if (is_blind())
    throw InputError(Finding{{"", 0, ""},
                             "this chart is blind to " + theirs_name_ + " still",
                             "ask how far the two agree when it is charted"});
}

void SettlingRoom::need_pairs() const {
  if (pair_snaps(typed_.rows().chart(), settling_.theirs().chart()).pairs.empty())
    throw InputError(Finding{{"", 0, ""},
                             "no snap of " + mine_name_ + " is one of " + theirs_name_,
                             "that chart calls its games " + games_words() +
                                 "; call yours the same, or give both snap ids"});
}

std::string SettlingRoom::begin() {
  if (is_blind()) {
    if (typed_.charting().is_being_typed())
      throw InputError(Finding{{"", 0, ""}, "a row is being typed", "finish it or drop it first"});
    need_pairs();
    typed_.seal();
    sealed_ = typed_.file().blind();
  }
  return state();
}

Json SettlingRoom::figures() const {
  const Chart mine = ChartRows(*sealed_, mine_name_, taping_.words).chart();
  const Agreement result = agreement(mine, settling_.theirs().chart(), taping_.success);
  Json lone = Json::array();
  for (const std::string& words : {lone_words(mine_name_, result.pairing.only_first),
                                   lone_words(theirs_name_, result.pairing.only_second)})
    if (!words.empty()) lone.push_back(words);
  return {{"head", "A is " + mine_name_ + " as it was charted blind, B is " + theirs_name_ + ": " +
                       pairing_words(result)},
          {"lone", std::move(lone)},
          {"columns", cells_json(column_cells(result))},
          {"meaning", kappa_meaning},
          {"effects_head", effects_head},
          {"effects", cells_json(effect_cells(result))},
          {"disagreements", result.disagreements.size()},
          {"note", "What is settled changes none of these figures: it says nothing of agreement."}};
}

std::string SettlingRoom::state() {
  may_be_seen();
  typed_.look_again();
  if (!figures_) figures_ = figures();
  const std::size_t left = settling_.open(typed_.charting()).size();
  const std::string count = std::to_string(left) + " left to settle; there were " +
                            std::to_string(figures_->at("disagreements").get<std::size_t>()) +
                            " in what was charted blind";
  return one_line({{"format", "callfit-settling/1"},
                   {"mine", mine_name_},
                   {"theirs", theirs_name_},
                   {"figures", *figures_},
                   {"count", count},
                   {"fault", typed_.fault().empty() ? settling_.fault() : typed_.fault()},
                   {"only_looked_at", typed_.file().only_looked_at()},
                   {"version", typed_.version()},
                   {"asked", asked_json()},
                   {"keys", keys_json()}});
}

std::string SettlingRoom::keys(const std::string& body) {
  may_be_seen();
  for (const std::string& key : settling_keys_in(body))
    typed_.change([&](charting::Charting& mine) { settling_.press(key, mine); });
  return state();
}

Json SettlingRoom::asked_json() const {
  const auto asked = settling_.asked(typed_.charting());
  if (!asked) return nullptr;
  const auto taken = charting::taking(typed_.rows(), settling_.theirs(), *asked);
  return {{"head", "Row " + std::to_string(asked->row + 1) + " of " + mine_name_ + ", row " +
                       std::to_string(asked->their_row + 1) + " of " + theirs_name_},
          {"column", plain(word(asked->column))},
          {"mine", plain_value(asked->column, asked->mine)},
          {"theirs", plain_value(asked->column, asked->theirs)},
          {"takes", taken_words(taken)},
          {"film", films_.json(place_of(*asked))},
          {"rows", rows_json(*asked)}};
}

// The two rows side by side, in what either of them charted.
Json SettlingRoom::rows_json(const Dispute& asked) const {
  const charting::Values mine = typed_.rows().values(asked.row);
  const charting::Values theirs = settling_.theirs().values(asked.their_row);
  Json rows = Json::array();
  for (std::size_t c = 0; c < column_count; ++c) {
    const auto column = static_cast<ChartColumn>(c);
    if (!is_compared(column) && column != ChartColumn::note) continue;
    if (mine[c].empty() && theirs[c].empty()) continue;
    rows.push_back({{"words", plain(word(column))},
                    {"mine", plain_value(column, mine[c])},
                    {"theirs", plain_value(column, theirs[c])},
                    {"differs", is_compared(column) && mine[c] != theirs[c]},
                    {"is_asked", column == asked.column}});
  }
  return rows;
}

// By this chart's times, else by the other one's.
std::optional<charting::FilmPlace> SettlingRoom::place_of(const Dispute& asked) const {
  for (const Snap* snap :
       {&typed_.rows().snap(asked.row), &settling_.theirs().snap(asked.their_row)}) {
    if (!snap->start || !films_.place_of(snap->clip.str())) continue;
    charting::FilmPlace place{snap->clip.str(), *snap->start, std::nullopt};
    if (snap->end) place.end = *snap->end;
    return place;
  }
  return std::nullopt;
}

Json SettlingRoom::keys_json() const {
  constexpr auto meanings = std::to_array<std::pair<Command, std::string_view>>(
      {{Command::take_mine, "yours stands"},
       {Command::take_theirs, "theirs is taken"},
       {Command::skip, "leave it open, go on"},
       {Command::column_before, "back to the one before"},
       {Command::undo, "undo"},
       {Command::redo, "redo"}});
  Json keys = Json::array();
  for (const auto& [command, words] : meanings)
    keys.push_back({{"key", typed_.charting().keys().key(command)},
                    {"name", word(command)},
                    {"words", words}});
  return keys;
}

}  // namespace callfit::desk
