#include "loaders.hpp"

#include "desk_loaders.hpp"
#include "on_disk.hpp"
#include "packed.hpp"
#include "small.hpp"

#include "../ask/toy.hpp"
#include "../support/example_setting.hpp"

#include <callfit/chart/odd_rows.hpp>
#include <callfit/draw/image.hpp>
#include <callfit/draw/raster.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/case.hpp>
#include <callfit/format/dictionary.hpp>
#include <callfit/format/drives.hpp>
#include <callfit/format/glossary.hpp>
#include <callfit/format/kept.hpp>
#include <callfit/format/mend.hpp>
#include <callfit/format/net_values.hpp>
#include <callfit/format/observed.hpp>
#include <callfit/format/opponents.hpp>
#include <callfit/format/page_handles.hpp>
#include <callfit/format/profile.hpp>
#include <callfit/format/quarterback_games.hpp>
#include <callfit/format/record.hpp>
#include <callfit/format/scenario.hpp>
#include <callfit/format/scheme.hpp>
#include <callfit/format/season_totals.hpp>
#include <callfit/format/setting.hpp>
#include <callfit/report/door.hpp>
#include <callfit/style/style.hpp>
#include <files/mark.hpp>
#include <files/sheet.hpp>
#include <format/changes.hpp>

#include <nlohmann/json.hpp>

#include <zlib.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <stdexcept>

namespace callfit::fuzz {
namespace {

namespace fs = std::filesystem;
using Texts = std::vector<std::string>;

const std::string root = CALLFIT_SOURCE_DIR;

/// The beginning of a packed table.
std::string unpacked(const std::string& name) {
  gzFile_s* const packed = gzopen((root + "/" + name).c_str(), "rb");
  std::string text(1U << 14U, '\0');
  const int length = gzread(packed, text.data(), static_cast<unsigned>(text.size()));
  gzclose_r(packed);
  text.resize(static_cast<std::size_t>(std::max(length, 0)));
  return text;
}

/// A flat sheet of OpenDocument.
std::string flat_sheet() {
  return R"(<?xml version="1.0"?><office:document><office:body><office:spreadsheet>)"
         R"(<table:table table:name="a"><table:table-header-rows><table:table-row>)"
         R"(<table:table-cell table:number-columns-repeated="2"><office:annotation><text:p>no)"
         R"(</text:p></office:annotation><text:p>yards<text:s text:c="2"/>x<text:tab/></text:p>)"
         R"(</table:table-cell></table:table-row></table:table-header-rows>)"
         R"(<table:table-row table:number-rows-repeated="2"><table:table-cell )"
         R"(office:value-type="time" office:time-value="PT12H34M05.5S"/><table:table-cell )"
         R"(office:value-type="date" office:date-value="2026-09-04T10:00:00"/><table:table-cell )"
         R"(office:value-type="boolean" office:boolean-value="true"/><table:covered-table-cell )"
         R"(office:value-type="float" office:value="7.5"/></table:table-row></table:table>)"
         R"(</office:spreadsheet></office:body></office:document>)";
}

/// The first lines of a table, whole.
std::string head(const std::string& text, std::size_t bytes) {
  return text.substr(0, text.find('\n', std::min(bytes, text.size())) + 1);
}

Texts json_files(const std::string& folder) {
  Texts texts;
  for (const auto& entry : fs::directory_iterator(root + "/" + folder))
    if (entry.path().extension() == ".json") texts.push_back(Files().read(entry.path().string()));
  return texts;
}

/// What a document may name, made once.
SourceText beside_it(const std::string& name, const std::string& source) {
  static const std::map<std::string, std::string> known{
      {"small.json", plain_setting_text()},
      {"with-population.json", small_setting_text()},
      {"balanced.json", small_scheme_text("balanced.json")},
      {"families.json", small_families_text()}};
  const auto found = known.find(name);
  return found == known.end() ? nothing_beside(name, source) : SourceText{found->second, name};
}

const std::string chart_to_mend =
    "Game 4, invented\nsep=;\ngame;level;down;to_go;yards_to_goal;family;result;yards;clock\n"
    "1;college;1;10;own 25;screen;complete;7,0;7:05\n1;college;2;3;opp 8;screen;INT;n/a;0:10\n"
    "total;;;;;;;7;\n";

const std::string drives_table =
    "season,game,quarter,start_yards_to_goal,plays,result,points,kneel_only\n"
    "2025,2,1,86,9,td,6.97,0\n2025,2,3,,3,punt,0,1\n";

const Setting& example_setting() {
  static const Setting setting = testing::example_setting();
  return setting;
}

Study& toy_study() {
  static Study study(toy::about(), 1);
  return study;
}

void read_chart(std::string_view text) {
  Findings notices;
  const Chart chart = parse_chart(text, "chart.csv", notices);
  odd_rows(chart);
  for (const Finding& notice : notices) to_text(notice);
}

/// What mending makes of a chart is read, or refused with what is left to do.
void read_mend(std::string_view text) {
  const ChartWords words{{}, {"college", "high_school"}, {}};
  const MendedChart mended = mend_chart(text, "chart.csv", words);
  for (const Mend& mend : mended.mends) mend_text(mend, "chart.csv");
  mend_findings(mended, "chart.csv", Severity::notice);
  Findings notices;
  parse_chart(mended.text, "mended.csv", notices, words);
}

/// With the user's words a chart that needs mending is mended.
void read_dictionary(std::string_view text) {
  const ChartWords words{{}, {"college", "high_school"}, parse_dictionary(text, "words.csv")};
  mend_chart(chart_to_mend, "chart.csv", words);
}
void read_opponents(std::string_view text) { parse_opponents(text, "opponents.csv"); }

/// Bytes as they lie in a file.
void read_workbook(std::string_view text) {
  Findings notices;
  workbook_as_csv(std::string(text), "chart.xlsx", notices);
}

/// The parts of a workbook, which come packed.
void read_sheet(std::string_view text) { read_workbook(packed(text)); }

void read_drives(std::string_view text) {
  DrivesReader reader("drives.csv");
  const std::size_t half = text.size() / 2;  // a block may end anywhere
  reader.feed(text.substr(0, half));
  reader.feed(text.substr(half));
  reader.finish();
}

/// The same packed.
void read_packed_drives(std::string_view text) {
  static const OnDisk disk("drives.csv.gz");
  disk.write(text);
  Files().drives(disk.path());
}

void read_season_totals(std::string_view text) { parse_season_totals(text, "seasons.csv"); }

/// What is marked is known again, and is marked no other way.
void read_mark(std::string_view text) {
  for (const char* path : {"a.txt", "a.svg"}) {
    const std::string with_mark = marked(text, path);
    if ((with_mark != text) != is_marked(with_mark, path) && !is_marked(text, path))
      throw std::logic_error("a marked file is not known again");
  }
}

void read_games(std::string_view text) { parse_quarterback_games(text, "games.csv"); }
void read_seasons(std::string_view text) { parse_quarterback_seasons(text, "seasons.csv"); }

/// What is read is written, and that is read again.
void read_scheme(std::string_view text) {
  const Scheme scheme = parse_scheme(text, "scheme.json", beside_it);
  parse_scheme(scheme_to_json(scheme), "written.json", nothing_beside);
}

void read_families(std::string_view text) { parse_families(text, "families.json"); }

void read_setting(std::string_view text) {
  start_shares(parse_setting(text, "setting.json", beside_it));
}

/// Of a setting with population where it tells what was counted.
void read_profile(std::string_view text) {
  static const Setting peopled = parse_setting(small_setting_text(), "setting.json", beside_it);
  const bool has_evidence = text.find("\"evidence\"") != std::string_view::npos;
  const Setting& setting = has_evidence ? peopled : example_setting();
  const Profile profile = parse_profile(text, "profile.json", setting);
  mean_player(profile, setting);
  if (!has_evidence || is_one_in(8, text))
    parse_profile(profile_to_json(profile, setting), "written.json", setting);
}

std::optional<SourceText> text_of(CasePart part, const std::string& name,
                                  const std::string& source) {
  static const std::map<std::string, std::string> tables{
      {"starter.csv", small_chart_text("new-starter.csv", 30)},
      {"calls.csv", small_chart_text("coordinator-calls.csv", 20)},
      {"seasons.csv", "season,level,attempts,completions\n2025,college,310,190\n"}};
  if (part == CasePart::net_values || part == CasePart::record) return std::nullopt;
  if (part == CasePart::setting || part == CasePart::scheme)
    return beside_it(name + ".json", source);
  const auto found = tables.find(name);
  return found == tables.end() ? nothing_beside(name, source) : SourceText{found->second, name};
}

/// What is written of a case takes long: for one in 32.
void read_case(std::string_view text) {
  Findings notices;
  parse_page_handles(text, "case.json");
  const Case about = parse_case(text, "case.json", text_of, beside_it, notices);
  if (!is_one_in(32, text)) return;
  parse_case(with_tries(text, "case.json", about.tries), "kept.json", text_of, beside_it, notices);
  parse_case(whole_case(about, text, "case.json", text_of, beside_it), "whole.json", text_of,
             nothing_beside, notices);
}

void read_kept(std::string_view text) {
  parse_kept(kept_to_json(parse_kept(text, "kept.json")), "written.json");
}

void read_scenario(std::string_view text) {
  const Scenario scenario = parse_scenario(text, "scenario.json");
  const nlohmann::ordered_json written{{"format", "callfit-scenario/1"},
                                       {"name", "written"},
                                       {"changes", changes_json(scenario.changes)}};
  parse_scenario(written.dump(), "written.json");
}

void read_words(std::string_view text) {
  const std::string words(text);
  if (words.find(':') == std::string::npos)
    parse_change(words);
  else
    parse_sweep(words);
}

void read_observed(std::string_view text) { parse_observed(text, "observed.json"); }
void read_net_values(std::string_view text) {
  if (const auto values = parse_net_values(text, "net.json", 0))
    parse_net_values(net_values_to_json(*values, 0), "written.json", 0);
}

void read_record(std::string_view text) {
  parse_record(record_to_json(parse_record(text, "record.json")), "written.json");
}
void read_glossary(std::string_view text) { find_entry(parse_glossary(text), "fit"); }
void read_style(std::string_view text) { with_style({}, text, "style.json"); }

void read_image(std::string_view text) {
  try {
    image_type(std::string(text));
  } catch (const std::invalid_argument& error) {  // what it throws for bytes that are no picture
    throw InputError(Finding{{"picture", 0, {}}, error.what(), ""});
  }
}

/// Every request is read; what it asks is answered for one in 256, since answers take long.
void read_request(std::string_view text) {
  const Case& about = toy_study().about();
  const Request request = request_from_json(text, about);
  request_from_json(request_to_json(request, about), about);
  if (is_one_in(256, text)) answer_json_or_error(toy_study(), text);
}

Texts mend_seeds() { return {small_chart_text("new-starter.csv", 6), chart_to_mend}; }

Texts sheet_seeds() {
  const std::string book =
      R"(<workbook><workbookPr date1904="1"/><sheets><sheet name="a" state="hidden" r:id="r2"/>)"
      R"(<sheet name="b" r:id="r1"/></sheets></workbook>)";
  const std::string relations =
      R"(<Relationships><Relationship Id="r1" Target="worksheets/sheet1.xml"/></Relationships>)";
  const std::string sheet =
      R"(<worksheet><sheetData><row r="2"><c r="A2" t="s"><v>0</v></c><c s="1"><v>46269.5</v></c>)"
      R"(<c s="2"><v>0.5</v></c><c t="inlineStr"><is><t>a, "b"</t></is></c><c t="b"><v>1</v></c>)"
      R"(<c t="str"><v>so</v></c><c><v>7.25</v></c></row></sheetData></worksheet>)";
  const std::string strings = R"(<sst><si><t>game</t></si><si><r><t>x</t></r></si></sst>)";
  const std::string styles =
      R"(<styleSheet><numFmts><numFmt numFmtId="170" formatCode="[h]:mm &quot;d&quot;\-_x"/>)"
      R"(</numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="170"/></cellXfs>)"
      R"(</styleSheet>)";
  return {joined({book, relations, sheet, strings, styles}),
          joined({"", "", "", "", "", flat_sheet()})};
}

Texts workbook_seeds() {
  Texts seeds;
  for (const std::string& parts : sheet_seeds()) seeds.push_back(packed(parts));
  seeds.push_back(flat_sheet());
  return seeds;
}

Texts setting_seeds() {
  return {small_setting_text(),
          R"({"format": "callfit-setting/1", "based_on": "small.json", "id": "other"})",
          R"({"format": "callfit-setting/1", "based_on": "with-population.json", "level": "pro"})"};
}

Texts kept_seeds() {
  KeptVerdict said;
  said.family = said.family_label = "boot";
  said.label = "completion";
  said.cell = Cell::moving;
  return {kept_to_json({"2026-11-28", "A", "B", 10, {{"opener", 10}}, {said, said}})};
}

/// As it stands in a request.
std::string kept_answer() {
  nlohmann::json kept = nlohmann::json::parse(kept_seeds().front());
  kept.erase("format");
  return kept.dump();
}

Texts request_seeds() {
  const std::string path = R"("path": "rate.slant.completion")";
  return {
      R"({"kind": "fit", "quarterback": 1, "scheme": 1, "weights_by_points": true})",
      R"({"kind": "drives", "from": {"down": 3, "to_go": 8, "yards_to_goal": 40}})",
      R"({"kind": "drives", "sampled_drives": 100})",
      R"({"kind": "compare", "quarterbacks": [1, 2], "schemes": []})",
      R"({"kind": "try", "tries": [{"name": "a", "changes": [{)" + path + R"(, "set": 0.5}]}]})",
      R"({"kind": "sweep", "ranges": [{)" + path + R"(, "from": 0.4, "to": 0.6, "count": 3}]})",
      R"({"kind": "levers", "changes": [{)" + path + R"(, "scale": 1.1}]})",
      R"({"kind": "break_even", "first": {}, "second": {"quarterback": 2}, )" + path + "}",
      R"({"kind": "package", "package": {"family": "slant", "share": 0.1, "inside_yards": 10}})",
      R"({"kind": "tailor", "limits": {"move": 0.05, "run_pass": 0.05, "fade": 0}})",
      R"({"kind": "next", "snaps": 40})",
      R"({"kind": "trend", "before": 0})",
      R"({"kind": "trend", "kept": [)" + kept_answer() + "]}",
      R"({"kind": "brief", "first": {}, "second": {"quarterback": 2}})",
      R"({"kind": "say", "against": {"quarterback": 2}})"};
}

Texts style_seeds() {
  return {R"({"format": "callfit-style/1", "theme": "dark", "colours": {"paper": "#101418"},)"
          R"( "fonts": {"headline": "Noto Sans", "text": "Noto Sans"}, "wording": {}})"};
}

Texts image_seeds() {
  const std::string svg =
      "<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'><rect width='4' height='5'/>"
      "</svg>";
  return {svg, to_png(svg, 9, 9)};
}

std::string case_with(const std::string& setting, const std::string& quarterback,
                      const std::string& more = "") {
  return R"({"format": "callfit-case/1", "name": "a", "setting": ")" + setting +
         R"(", "schemes": [{"scheme": "balanced", "calls": ["calls.csv"], "smoothing": 20}, )"
         R"("balanced"], "quarterbacks": [)" +
         quarterback + R"(], "options": {"seed": 1, "draws": 500, "policy": "best"}, )" + more +
         R"("tries": [{"name": "t", "changes": [{"path": "rate.screen.sack", "set": 0.1}]}]})";
}

Texts case_seeds() {
  const std::string profile = profile_to_json(
      build_profile("B", {}, parse_setting(plain_setting_text(), "small.json"),
                    weighting_of(parse_setting(plain_setting_text(), "small.json"))),
      parse_setting(plain_setting_text(), "small.json"));
  return {
      case_with("small", R"({"name": "A", "charts": ["starter.csv"], )"
                         R"("level_weights": {"college": 0.5}, "scheme": "Balanced"})"),
      case_with("small",
                R"({"name": "A", "charts": [{"name": "c", "csv": )"
                R"("game,level,down,to_go,yards_to_goal,family,result,yards\n)"
                R"(G,pro,1,10,70,screen,complete,4"}]})",
                R"("page": {"handles": [{"path": "call.all.screen", "words": "screens", )"
                R"("from": 0.1, "to": 0.3, "count": 5}]}, )"),
      case_with("small", R"({"profile": )" + profile + "}"),
      case_with(
          "with-population",
          R"({"name": "A", "charts": ["starter.csv"], "moves": [{"chart": "starter.csv", )"
          R"("change": "new_level"}], "season_totals": [{"season": "2025", "level": "college", )"
          R"("attempts": 310, "completions": 190}]})",
          R"("opponents": {"name": "o", "csv": "opponent,better_than\nFarrow,0.8\n"}, )"),
  };
}

Texts profile_seeds() {
  const Setting& setting = example_setting();
  Findings notices;
  const Case peopled = parse_case(case_seeds().back(), "case.json", text_of, beside_it, notices);
  return {profile_to_json(build_profile("A", {}, setting, weighting_of(setting)), setting),
          profile_to_json(peopled.quarterbacks.front().profile, peopled.setting)};
}

Texts dictionary_seeds() {
  return {"column,from,to\nresult,INT,intercepted\nyes_no,ja,yes\nto_go,goal,5\n",
          std::string(accepted_words_text()), std::string(mended_words_text())};
}

/// One with what its demands for one family have in common.
Texts scheme_seeds() {
  nlohmann::json scheme = nlohmann::json::parse(small_scheme_text("balanced.json"));
  const nlohmann::json family = scheme.at("demands").front().at("family");
  const auto demands = static_cast<std::size_t>(
      std::count_if(scheme.at("demands").begin(), scheme.at("demands").end(),
                    [&family](const auto& demand) { return demand.at("family") == family; }));
  std::vector<std::vector<double>> matrix(demands, std::vector<double>(demands, 0.3));
  for (std::size_t i = 0; i < demands; ++i) matrix[i][i] = 1;
  scheme["correlations"] = {{{"family", family}, {"matrix", matrix}}};
  return {scheme.dump(), small_scheme_text("quick-middle-option.json")};
}

/// As if they followed from what the loader holds them against.
Texts net_values_seeds() {
  Texts seeds;
  for (const std::string& text : json_files("settings/derived")) {
    nlohmann::json values = nlohmann::json::parse(text);
    values["follows_from"] = std::string(16, '0');
    seeds.push_back(values.dump());
  }
  return seeds;
}

std::vector<Loader> file_loaders() {
  const auto demo = [](const std::string& name) { return file("profiles/demo/" + name); };
  return {
      {"chart", false, read_chart,
       [=] {
         return Texts{head(demo("new-starter.csv"), 900), head(demo("coordinator-calls.csv"), 600)};
       }},
      {"mend", false, read_mend, mend_seeds},
      {"dictionary", false, read_dictionary, dictionary_seeds},
      {"workbook", false, read_workbook, workbook_seeds},
      {"sheet", false, read_sheet, sheet_seeds},
      {"opponents", false, read_opponents,
       [] {
         return Texts{
             "opponent,level,games,attempts,completions,sacks,better_than,give_or_take\n"
             "Quillhaven,college,11,350,200,30,,\nFarrow,,,,,,0.8,0.1\n"};
       }},
      {"drives", false, read_drives,
       [] {
         return Texts{
             "season,game,quarter,start_yards_to_goal,plays,result,points,kneel_only\n"
             "2025,2,1,86,9,td,6.97,0\n2025,2,3,,3,punt,0,1\n"};
       }},
      {"packed_drives", false, read_packed_drives,
       [] {
         return Texts{gzipped(drives_table, 0), gzipped(drives_table, 9)};
       }},
      {"season_totals", false, read_season_totals,
       [] {
         return Texts{
             "Season,Team,Level,Games,Attempts,Completions,Interceptions,Sacks\n"
             "2025,North,High School,11,310,190,9,20\n2024,,college,,100,,,\n"};
       }},
      {"mark", false, read_mark,
       [] {
         return Texts{
             "{\n  \"a\": 1\n}\n",
             "<svg >\n",
             "%PDF-1.5\n",
             "TITLE: a\n",
             "WEBVTT\n\n",
             "ffconcat version 1.0\n",
             "said\n",
             to_png("<svg xmlns='http://www.w3.org/2000/svg' width='1' height='1'/>", 1, 1)};
       }},
      {"quarterback_games", false, read_games,
       [] { return Texts{head(unpacked("data/quarterbacks/quarterback_games.csv.gz"), 2600)}; }},
      {"quarterback_seasons", false, read_seasons,
       [] { return Texts{head(file("data/quarterbacks/quarterback_seasons.csv"), 600)}; }},
      {"words", false, read_words,
       [] {
         return Texts{"rate.boot.completion=40%", "a.b=x1.2", "rate.boot.sack=0:1e-1:7"};
       }},
      {"glossary", false, read_glossary,
       [] { return Texts{head(file("docs/glossary.md"), 2000)}; }},
      {"image", false, read_image, image_seeds},
      {"scheme", true, read_scheme, scheme_seeds},
      {"families", true, read_families, [] { return Texts{small_families_text()}; }},
      {"setting", true, read_setting, setting_seeds},
      {"profile", true, read_profile, profile_seeds},
      {"case", true, read_case, case_seeds},
      {"kept", true, read_kept, kept_seeds},
      {"scenario", true, read_scenario,
       [] {
         return Texts{R"({"format": "callfit-scenario/1", "name": "a", "changes": [)"
                      R"({"path": "rate.boot.sack", "set": 0.1}, {"path": "x", "scale": 2}]})"};
       }},
      {"observed", true, read_observed, [] { return json_files("settings/observed"); }},
      {"record", true, read_record, [] { return json_files("settings/record"); }},
      {"net_values", true, read_net_values, net_values_seeds},
      {"style", true, read_style, style_seeds},
      {"request", true, read_request, request_seeds},
  };
}

}  // namespace

bool is_one_in(std::size_t count, std::string_view text) {
  return std::hash<std::string_view>()(text) % count == 0;
}

const std::vector<Loader>& loaders() {
  static const std::vector<Loader> all = [] {
    std::vector<Loader> both = file_loaders();
    for (Loader& loader : desk_loaders()) both.push_back(std::move(loader));
    return both;
  }();
  return all;
}

const Loader& loader_named(const std::string& name) {
  std::string known;
  for (const Loader& loader : loaders()) {
    if (loader.name == name) return loader;
    known += ' ' + loader.name;
  }
  throw std::runtime_error("no loader is called \"" + name + "\"; there are" + known);
}

}  // namespace callfit::fuzz
