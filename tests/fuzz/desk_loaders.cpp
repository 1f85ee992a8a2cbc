#include "desk_loaders.hpp"

#include "loaders.hpp"
#include "on_disk.hpp"
#include "small.hpp"

#include "../ask/toy.hpp"

#include <callfit/charting/charting.hpp>
#include <callfit/desk/gate.hpp>
#include <callfit/film/cuts.hpp>
#include <callfit/format/case.hpp>
#include <callfit/format/scheme.hpp>
#include <callfit/reader/page_case.hpp>
#include <callfit/reader/reader.hpp>
#include <desk/film.hpp>
#include <desk/reading.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <sstream>
#include <stdexcept>

namespace callfit::fuzz {
namespace {

using Texts = std::vector<std::string>;
using namespace charting;

void require(bool holds, const char* what) {
  if (!holds) throw std::logic_error(what);
}

/// The text up to the next line end, which goes too.
std::string take_line(std::string_view& text) {
  const std::size_t end = text.find('\n');
  std::string line(text.substr(0, end));
  text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
  return line;
}

const Case& toy_case() {
  static const Case about = toy::about();
  return about;
}

/// What the desk's page sends.
void read_call(std::string_view text) {
  const std::string body(text);
  const Case& about = toy_case();
  const bool has_name = body.find("name") != std::string::npos;
  const bool has_turn = body.find("turn") != std::string::npos;
  const bool has_number = body.find("number") != std::string::npos;
  const bool has_keys = body.find("keys") != std::string::npos;
  if (has_name) desk::named_in(body, about);
  if (has_turn) desk::sight_in(body, about);
  if (has_number) desk::snaps_in(body, about);
  if (has_keys) desk::pressed_in(body, [](std::size_t film) { return film == 1 ? "one.mp4" : ""; });
  if (!has_name && !has_turn && !has_number && !has_keys) desk::stand_in(body, about);
}

Texts call_seeds() {
  const std::string stand = R"({"stand": {"quarterback": 2, "scheme": 1, "changes": [)"
                            R"({"path": "rate.deep.completion", "set": 0.5}]})";
  const std::string turn = R"(, "turn": {"path": "rate.deep.completion", )";
  return {stand + "}",
          stand + R"(, "name": "a", "frame": "tall"})",
          stand + turn + R"("steps": 3}, "following": true})",
          stand + turn + R"("typed": "40%"}, "frame": "tall"})",
          stand + turn + R"("units": 0.5}, "theme": "dark"})",
          stand + R"(, "number": "net_points"})",
          R"({"keys": [{"key": "Enter", "at": 12.5, "playing": true}, {"key": "q"}], "film": 1})"};
}

/// Method and target, a header a line: who gets in, and which bytes of a film he asks for.
void read_http(std::string_view text) {
  desk::Call call;
  call.method = take_line(text);
  call.target = take_line(text);
  while (!text.empty()) {
    const std::string line = take_line(text);
    const std::size_t colon = std::min(line.find(':'), line.size());
    call.headers.emplace_back(
        line.substr(0, colon),
        line.substr(std::min(line.find_first_not_of(": ", colon), line.size())));
  }
  const std::string token = "0123456789abcdef";
  const desk::Gate gate(token, 8000);
  for (const bool is_page_file : {true, false}) {
    if (gate.refusal(call, is_page_file)) continue;
    require(call.header("Host") == "127.0.0.1:8000" || call.header("Host") == "localhost:8000",
            "another host gets in");
    require(is_page_file || call.header("X-Callfit-Token") == token ||
                (call.method == "GET" && call.target.ends_with('/' + token)),
            "somebody without the token gets in");
  }
  for (const std::uint64_t size : {std::uint64_t{0}, std::uint64_t{1}, std::uint64_t{5000}})
    if (const auto range = desk::range_in(call.header("Range"), size))
      require(range->first <= range->last && range->last < size, "a range lies beyond the file");
}

Texts http_seeds() {
  return {
      "POST\n/view\nHost: 127.0.0.1:8000\nOrigin: http://127.0.0.1:8000\n"
      "Sec-Fetch-Site: same-origin\nX-Callfit-Token: 0123456789abcdef\n"
      "Content-Type: application/json\n",
      "GET\n/film/1/0123456789abcdef\nHost: localhost:8000\nRange: bytes=0-99\n",
      "GET\n/desk.js\nhost: localhost:8000\nrange: bytes=-7\nRange: bytes=9-\n"};
}

/// A Range header, a name as charts have them, and the film's bytes.
void read_film(std::string_view text) {
  static const OnDisk disk("film.mp4");
  desk::Call call;
  call.headers = {{"Range", take_line(text)}};
  const std::string clip = take_line(text);
  disk.write(text);
  const desk::Reply reply = desk::part_of_film({"film.mp4", disk.path()}, call);
  require(reply.status == 206 ? !reply.body.empty() && reply.body.size() <= text.size()
                              : reply.status == 415 || reply.status == 416,
          "a film is given out wrongly");
  for (const desk::Film& film : desk::films_named({clip, "film.mp4"}, disk.folder() + "/c.csv"))
    require(std::filesystem::canonical(film.path).string() == disk.path(),
            "a film from elsewhere is given out");
  desk::way_to_play(clip);
}

Texts film_seeds() {
  using namespace std::string_literals;
  const std::string asked = "bytes=0-99\n../film.mp4\n";
  return {asked +
              "\0\0\0\x18"s
              "ftypmp42"s,
          "bytes=4-\n./film.mp4\n\x1A\x45\xDF\xA3 webm",
          asked + "\x1A\x45\xDF\xA3 matroska",
          asked + "OggS.",
          asked + "RIFF....AVI LIST",
          asked + "\0\0\x01\xBA"s,
          asked + "\x30\x26\xB2\x75",
          asked + "FLV\x01",
          asked + 'G' + std::string(187, '.') + "G."};
}

const ChartWords& tape_words() {
  static const ChartWords words{
      parse_families(small_families_text(), "families.json"), {"high_school", "college"}, {}};
  return words;
}

void read_keys(std::string_view text) {
  const KeyMap keys = keys_from_json(text, "keys.json", tape_words());
  for (const Question& question : keys.order)
    for (const Choice& choice : choices_of(keys, question, tape_words()))
      require(choice.values.size() == question.size() && !keys.command_of(choice.key),
              "a key means two things");
}

Texts keys_seeds() {
  return {R"({"format": "callfit-keys/1", "commands": {"next": "F6", "play": "Ctrl+p"}, )"
          R"("order": ["yac", "platform+pressure", "note"], "choices": {"family": {"screen": "m"},)"
          R"( "on_time+catchable": {"yes+no": "o", "+yes": "v"}, "pressure": {"no": "w"}}})"};
}

void read_marks(std::string_view text) {
  const std::vector<Mark> marks = marks_in(text, "chart.csv.marks");
  require(marks_in(marks_text(marks), "written") == marks, "marks are not read as written");
  Charting charting(ChartRows(ChartRows::fresh_text(), "chart.csv", tape_words()), usual_keys(),
                    {marks, {}});
  charting.press({usual_keys().key(Command::waiting), "", 0, false});
  if (const auto film = charting.film())
    require(std::isfinite(film->start) && (!film->end || std::isfinite(*film->end)),
            "a mark leads to no place of a film");
}

/// Unchanged rows keep their bytes, changed ones are read as what they were changed to.
void read_chart_rows(std::string_view text) {
  ChartRows rows(text, "chart.csv", tape_words());
  require(rows.text() == text, "unchanged rows come back otherwise");
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Values values = rows.values(i);
    require(rows.changed(i, values).body == rows.row_text(i).body, "a row changes by itself");
    const auto read = rows.read(values);
    require(read.snap && read.snap->yards == rows.snap(i).yards &&
                read.snap->family == rows.snap(i).family && read.snap->clip == rows.snap(i).clip,
            "values of a row are not what is read");
  }
  const ChartRows wider(rows.text_with({ChartColumn::note, ChartColumn::clip}), "wider.csv",
                        tape_words());
  require(wider.size() == rows.size(), "columns more make other rows");
  if (rows.size() == 0) return;
  Values values = rows.values(0);
  at(values, ChartColumn::note) = "said \"so\",; \t\nand so";
  rows.replace(0, rows.changed(0, values));
  rows.insert(rows.size(), rows.made(rows.size(), values));
  rows.insert(0, rows.made(0, values));
  const ChartRows written(rows.text(), "written.csv", tape_words());
  require(written.size() == rows.size(), "written rows are not read");
  for (std::size_t i = 0; i < rows.size(); ++i)
    require(written.values(i) == rows.values(i), "written rows are read otherwise");
}

Texts chart_rows_seeds() {
  const std::string chart = small_chart_text("new-starter.csv", 5);
  return {
      chart,
      "\xEF\xBB\xBF\r\nResult;Coach's word;Game;level;DOWN;to go;yards to goal;family;yards;"
      "note\r\n Complete ;\"say \"\"go\"\"; now\";G1;college;1;10;+75;Screen;08;\"two\r\nlines\""
      "\r\n;;;;;;;;;\r\nrun;x;\"G1\";college;2;2;67;handoff;3;",
      ChartRows::fresh_text(), chart.substr(0, chart.size() - 1)};
}

/// What the page is told after each key.
void show(const Charting& charting) {
  charting.span();
  charting.asked_then();
  charting.offer();
  if (const auto question = charting.asked()) charting.choices(*question);
  if (!charting.open()) return;
  charting.odd();
  for (std::size_t c = 0; c < column_count; ++c) {
    charting.value(static_cast<ChartColumn>(c));
    charting.standing(static_cast<ChartColumn>(c));
  }
}

/// Keys parted by blanks, "@12.5" the film's time; whatever is typed, the chart and the marks are
/// read again.
void read_typing(std::string_view text) {
  static const std::string chart = small_chart_text("new-starter.csv", 3);
  Charting charting(ChartRows(chart, "chart.csv", tape_words()), usual_keys(),
                    {{{"one.webm", "3.5", ""}}, {}});
  charting.add_film_columns();
  std::istringstream keys{std::string(text.substr(0, 600))};
  Press press{"", "one.webm", 0, true};
  for (std::string key; keys >> key;) {
    if (key[0] == '@' && key.size() > 1) {
      const double at = std::strtod(key.c_str() + 1, nullptr);
      if (at >= 0 && at <= 86400) press.at = at;
      continue;
    }
    press.key = key;
    charting.press(press);
    press.is_playing = key.size() % 2 == 1;
    press.at = std::min(press.at + 0.5, 86400.0);
    show(charting);
  }
  const ChartRows written(charting.rows().text(), "written.csv", tape_words());
  require(written.size() == charting.rows().size(), "a typed chart is read otherwise");
  require(marks_in(marks_text(charting.waiting()), "written") == charting.waiting(),
          "typed marks are read otherwise");
}

Texts typing_seeds() {
  return {"@5 Enter s c 1 2 . n p . q . . n Enter @20 a Shift+Enter Ctrl+z Ctrl+y z",
          "PageUp F2 F4 w e e k Enter b 4 5 v 3 8 Delete Delete Home 2 Enter x , Backspace",
          "Enter Enter Enter End d u g Insert F8 F9 Space \xC3\xA4 Enter PageDown f Enter"};
}

/// Whether a POSIX shell takes the word as one and as this text.
bool is_one_word(std::string_view word, std::string_view text) {
  std::string out;
  bool quoted = false;
  for (std::size_t i = 0; i < word.size(); ++i) {
    if (word[i] == '\'') {
      quoted = !quoted;
    } else if (!quoted && word[i] == '\\' && i + 1 < word.size()) {
      out += word[++i];
    } else {
      if (!quoted &&
          std::string_view(" \t\n|&;<>()$`\"*?[#~").find(word[i]) != std::string_view::npos)
        return false;
      out += word[i];
    }
  }
  return !quoted && out == text && !word.empty();
}

std::size_t times(const std::string& text, std::string_view what) {
  std::size_t count = 0;
  for (std::size_t i = text.find(what); i != std::string::npos; i = text.find(what, i + 1)) ++count;
  return count;
}

/// A frame rate, then clips and captions by turns: what charts say of films, in lists for others.
void read_cuts(std::string_view text) {
  const FrameRate rate = frame_rate(take_line(text)).value_or(FrameRate{});
  std::vector<Cut> cuts;
  double at = 0;
  while (!text.empty() && cuts.size() < most_edits) {
    const std::string clip = take_line(text);
    require(is_one_word(shell_word(clip), clip), "a shell reads another word");
    cuts.push_back({clip, at, at + 7.29, take_line(text)});
    at = std::fmod(at + 1000.0, 86000.0);
  }
  const std::string title = cuts.empty() ? "" : cuts.front().caption;
  require(times(edit_decision_list(title, cuts, rate), "\n* FROM CLIP NAME: ") == cuts.size(),
          "a clip's name is more than a name in a list of edits");
  require(times(caption_sheet({title}, cuts), "-->") == cuts.size() + 1,
          "a caption is more than a caption");
  concat_script(cuts);
  cutting_script(cuts);
  cut_table(cuts);
}

Texts cuts_seeds() {
  return {"29.97\nit's one.mp4\nscreen, 4 yards\n-x $(y).mov\na --> b <i>&\n",
          "59.94 ndf\n\xC3\xA4 b.webm\n\n", "24\n"};
}

/// A page's document of a case of one man; with `more`, what a case has beside itself too.
std::string page_case_seed(const std::string& setting, bool more) {
  const std::string document = R"({"format": "callfit-case/1", "name": "a", "setting": "small", )"
                               R"("schemes": ["balanced"], "quarterbacks": [{"name": "A", )"
                               R"("charts": ["starter.csv"]}], "options": {"draws": 500}})";
  const Beside beside = [&setting](const std::string& name, const std::string& source) {
    if (name == "small.json") return SourceText{setting, name};
    return name == "families.json" ? SourceText{small_families_text(), name}
                                   : nothing_beside(name, source);
  };
  const CaseTexts texts = [&beside](CasePart part, const std::string& name,
                                    const std::string& source) {
    std::optional<SourceText> found;
    if (part == CasePart::setting) found = beside(name + ".json", source);
    if (part == CasePart::scheme)
      found = SourceText{small_scheme_text("balanced.json"), "balanced.json"};
    if (part == CasePart::chart) found = SourceText{small_chart_text("new-starter.csv", 5), name};
    return found;
  };
  Findings notices;
  Case about = parse_case(document, "case.json", texts, beside, notices);
  const std::string whole = whole_case(about, document, "case.json", texts, beside);
  if (more) {
    about.net = NetValues{std::vector<double>(100, 0.5), 0.25, 0.125, 0};
    about.record = Record{"invented men", "a test", {{0.5, 0.6, 20, 0.55, 0.5, 0.1}}};
  }
  return page_case_text(whole, about, {}, {{"screens", {"call.all.screen", 0.1, 0.3, 3}}}, {},
                        false);
}

Texts page_case_seeds() {
  return {page_case_seed(plain_setting_text(), true), page_case_seed(small_setting_text(), false)};
}

/// What is read makes a page again, with names or without; that takes long: for one in four.
void read_page_case(std::string_view text) {
  const PageCase held = parse_page_case(text, "page");
  if (!is_one_in(4, text)) return;
  const std::string document = nlohmann::json::parse(text).at("case").dump();
  const CaseTexts nothing = [](CasePart, const std::string& name, const std::string& source) {
    return std::optional(nothing_beside(name, source));
  };
  const std::string whole = whole_case(held.about, document, "page", nothing, nothing_beside);
  for (const bool anonymous : {false, true}) {
    const PageCase again = parse_page_case(
        page_case_text(whole, held.about, held.stand, held.handles, {}, anonymous), "written");
    require(again.about.quarterbacks.size() == held.about.quarterbacks.size() &&
                again.stand.quarterback == held.stand.quarterback &&
                again.stand.scheme == held.stand.scheme &&
                again.handles.size() == held.handles.size() &&
                again.about.net.has_value() == held.about.net.has_value(),
            "a page is read otherwise");
    require(!anonymous || again.about.quarterbacks.front().profile.name == "New starter",
            "a page without names has one");
  }
}

Reader& toy_reader() {
  static Reader reader({toy::about(),
                        {},
                        {{"deep", {"rate.deep.completion", 0.4, 0.6, 2}},
                         {"sacks", {"rate.deep.sack", 0.02, 0.08, 2}}},
                        {}},
                       1, Pace::following);
  return reader;
}

/// What a page's reader turns; few places, so that every answer is soon known.
void read_turned(std::string_view text) { toy_reader().answer(text); }

Texts turned_seeds() {
  return {R"({"put": [{"handle": 1, "at": 1}, {"handle": 2, "at": 0}]})",
          R"({"try": "rate.deep.completion=0.6&rate.deep.sack=2%"})"};
}

}  // namespace

std::vector<Loader> desk_loaders() {
  return {
      {"chart_rows", false, read_chart_rows, chart_rows_seeds},
      {"marks", false, read_marks,
       [] { return Texts{"clip,start,end\none.mp4,12.5,\n\"a, b.mp4\",20,24.25\n"}; }},
      {"typing", false, read_typing, typing_seeds},
      {"cuts", false, read_cuts, cuts_seeds},
      {"film", false, read_film, film_seeds},
      {"http", false, read_http, http_seeds},
      {"keys", true, read_keys, keys_seeds},
      {"call", true, read_call, call_seeds},
      {"page_case", true, read_page_case, page_case_seeds},
      {"turned", true, read_turned, turned_seeds},
  };
}

}  // namespace callfit::fuzz
