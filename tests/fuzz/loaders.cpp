#include "loaders.hpp"

#include "../ask/toy.hpp"
#include "../support/example_setting.hpp"

#include <callfit/chart/odd_rows.hpp>
#include <callfit/draw/image.hpp>
#include <callfit/draw/raster.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/case.hpp>
#include <callfit/format/drives.hpp>
#include <callfit/format/glossary.hpp>
#include <callfit/format/kept.hpp>
#include <callfit/format/net_values.hpp>
#include <callfit/format/observed.hpp>
#include <callfit/format/profile.hpp>
#include <callfit/format/quarterback_games.hpp>
#include <callfit/format/scenario.hpp>
#include <callfit/format/scheme.hpp>
#include <callfit/format/setting.hpp>
#include <callfit/report/door.hpp>
#include <callfit/style/style.hpp>

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

std::string file(const std::string& name) {
  Files files;
  return files.read(root + "/" + name);
}

/// The beginning of a packed table.
std::string unpacked(const std::string& name) {
  gzFile_s* const packed = gzopen((root + "/" + name).c_str(), "rb");
  std::string text(1U << 14U, '\0');
  const int length = gzread(packed, text.data(), static_cast<unsigned>(text.size()));
  gzclose_r(packed);
  text.resize(static_cast<std::size_t>(std::max(length, 0)));
  return text;
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

/// Shipped settings and schemes, each read once: what a document may name.
SourceText beside_shipped(const std::string& name, const std::string& source) {
  static std::map<std::string, std::string> known;
  for (const std::string folder : {"settings/", "schemes/"}) {
    const std::string path = root + "/" + folder + name;
    if (known.contains(path)) return {known[path], name};
    if (name.find("..") == std::string::npos && fs::is_regular_file(path) &&
        path.ends_with(".json"))
      return {known[path] = Files().read(path), name};
  }
  return nothing_beside(name, source);
}

const Setting& small_setting() {
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

void read_drives(std::string_view text) {
  DrivesReader reader("drives.csv");
  const std::size_t half = text.size() / 2;  // a block may end anywhere
  reader.feed(text.substr(0, half));
  reader.feed(text.substr(half));
  reader.finish();
}

void read_games(std::string_view text) { parse_quarterback_games(text, "games.csv"); }

/// What is read is written, and that is read again.
void read_scheme(std::string_view text) {
  const Scheme scheme = parse_scheme(text, "scheme.json", beside_shipped);
  parse_scheme(scheme_to_json(scheme), "written.json", nothing_beside);
}

void read_families(std::string_view text) { parse_families(text, "families.json"); }

void read_setting(std::string_view text) {
  start_shares(parse_setting(text, "setting.json", beside_shipped));
}

void read_profile(std::string_view text) {
  const Profile profile = parse_profile(text, "profile.json", small_setting());
  mean_player(profile, small_setting());
  parse_profile(profile_to_json(profile, small_setting()), "written.json", small_setting());
}

/// A document that cannot be written as text would be a fault of its reader.
void read_case(std::string_view text) {
  Findings notices;
  const CaseTexts texts = [](CasePart part, const std::string& name,
                             const std::string& source) -> std::optional<SourceText> {
    if (part == CasePart::net_values || part == CasePart::record) return std::nullopt;
    if (part == CasePart::chart) return SourceText{file("profiles/demo/" + name), name};
    return beside_shipped(name.ends_with(".json") ? name : name + ".json", source);
  };
  parse_case(text, "case.json", texts, beside_shipped, notices);
}

void read_kept(std::string_view text) {
  parse_kept(kept_to_json(parse_kept(text, "kept.json")), "written.json");
}

void read_scenario(std::string_view text) { parse_scenario(text, "scenario.json"); }

void read_words(std::string_view text) {
  const std::string words(text);
  parse_change(words);
  parse_sweep(words);
}

void read_observed(std::string_view text) { parse_observed(text, "observed.json"); }
void read_net_values(std::string_view text) { parse_net_values(text, "net.json", 0); }
void read_glossary(std::string_view text) { find_entry(parse_glossary(text), "fit"); }
void read_style(std::string_view text) { with_style({}, text, "style.json"); }

void read_image(std::string_view text) {
  try {
    image_type(std::string(text));
  } catch (const std::invalid_argument&) {  // what it throws for bytes that are no picture
  }
}

/// Every request is read; what it asks is answered for one in 256, since answers take long.
void read_request(std::string_view text) {
  const Case& about = toy_study().about();
  const Request request = request_from_json(text, about);
  request_from_json(request_to_json(request, about), about);
  constexpr std::size_t answered = 256;
  if (std::hash<std::string_view>()(text) % answered == 0) answer_json_or_error(toy_study(), text);
}

Texts profile_seeds() {
  const Setting& setting = small_setting();
  return {profile_to_json(build_profile("A", {}, setting, weighting_of(setting)), setting)};
}

Texts kept_seeds() {
  KeptVerdict said;
  said.family = said.family_label = "boot";
  said.label = "completion";
  said.cell = Cell::moving;
  return {kept_to_json({"2026-11-28", "A", "B", 10, {said, said}})};
}

Texts request_seeds() {
  const std::string path = R"("path": "rate.slant.completion")";
  return {
      R"({"kind": "fit", "quarterback": 1, "scheme": 1, "weights_by_points": true})",
      R"({"kind": "drives", "from": {"down": 3, "to_go": 8, "yards_to_goal": 40}})",
      R"({"kind": "drives", "sampled_drives": 100})",
      R"({"kind": "compare", "quarterbacks": [1, 2], "schemes": []})",
      R"({"kind": "try", "tries": [{"name": "a", "changes": [{)" + path + R"(, "set": 0.5}]}]})",
      R"({"kind": "sweep", "ranges": [{)" + path + R"(, "from": 0.4, "to": 0.6, "steps": 3}]})",
      R"({"kind": "levers", "changes": [{)" + path + R"(, "scale": 1.1}]})",
      R"({"kind": "break_even", "first": {}, "second": {"quarterback": 2}, )" + path + "}",
      R"({"kind": "package", "package": {"family": "slant", "share": 0.1, "inside_yards": 10}})",
      R"({"kind": "tailor", "limits": {"move": 0.05, "run_pass": 0.05, "fade": 0}})",
      R"({"kind": "next", "snaps": 40})",
      R"({"kind": "trend", "before": 0, "kept": []})",
      R"({"kind": "brief", "first": {}, "second": {"quarterback": 2}})",
      R"({"kind": "say", "against": {"quarterback": 2}})"};
}

Texts style_seeds() {
  return {R"({"format": "callfit-style/1", "theme": "dark", "colours": {"ground": "#101418"},)"
          R"( "fonts": {"headline": "Noto Sans", "text": "Noto Sans"}, "wording": {}})"};
}

Texts image_seeds() {
  const std::string svg =
      "<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'><rect width='4' height='5'/>"
      "</svg>";
  return {svg, to_png(svg, 9, 9)};
}

std::string case_with(const std::string& quarterback) {
  return R"({"format": "callfit-case/1", "setting": "high-school", "schemes": ["balanced"], )"
         R"("quarterbacks": [)" +
         quarterback + R"(], "options": {"seed": 1, "draws": 500, "policy": "best"}, )" +
         R"("tries": [{"name": "t", "changes": [{"path": "rate.boot.sack", "set": 0.1}]}]})";
}

Texts case_seeds() {
  return {case_with(R"({"name": "A", "charts": ["new-starter-C4-second-chart.csv"]})"),
          case_with(R"({"name": "A", "charts": [{"name": "c", "csv": "game,level,down\n"}]})"),
          file("profiles/demo/case.json")};
}

}  // namespace

const std::vector<Loader>& loaders() {
  const auto demo = [](const std::string& name) { return file("profiles/demo/" + name); };
  static const std::vector<Loader> all{
      {"chart", false, read_chart,
       [=] {
         return Texts{head(demo("new-starter.csv"), 900), head(demo("coordinator-calls.csv"), 600)};
       }},
      {"drives", false, read_drives,
       [] {
         return Texts{
             "season,game,quarter,start_yards_to_goal,plays,result,points,kneel_only\n"
             "2025,2,1,86,9,td,6.97,0\n2025,2,3,,3,punt,0,1\n"};
       }},
      {"quarterback_games", false, read_games,
       [] { return Texts{head(unpacked("data/quarterbacks/quarterback_games.csv.gz"), 1200)}; }},
      {"words", false, read_words,
       [] {
         return Texts{"rate.boot.completion=40%", "a.b=x1.2", "rate.boot.sack=0:1e-1:7"};
       }},
      {"glossary", false, read_glossary, [] { return Texts{file("docs/glossary.md")}; }},
      {"image", false, read_image, image_seeds},
      {"scheme", true, read_scheme,
       [] {
         return Texts{file("schemes/balanced.json"), file("schemes/quick-middle-option.json")};
       }},
      {"families", true, read_families, [] { return Texts{file("schemes/families.json")}; }},
      {"setting", true, read_setting, [] { return json_files("settings"); }},
      {"profile", true, read_profile, profile_seeds},
      {"case", true, read_case, case_seeds},
      {"kept", true, read_kept, kept_seeds},
      {"scenario", true, read_scenario,
       [] {
         return Texts{R"({"format": "callfit-scenario/1", "name": "a", "changes": [)"
                      R"({"path": "rate.boot.sack", "set": 0.1}, {"path": "x", "scale": 2}]})"};
       }},
      {"observed", true, read_observed, [] { return json_files("settings/observed"); }},
      {"net_values", true, read_net_values, [] { return json_files("settings/derived"); }},
      {"style", true, read_style, style_seeds},
      {"request", true, read_request, request_seeds},
  };
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
