// Cases: read from a file that names its parts, written whole, read back the same; what is wrong is
// told with its JSON path.
#include "../ask/demo_case.hpp"
#include "../support/schema_check.hpp"

#include <callfit/ask/study.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/case.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <string>

using namespace callfit;
using namespace callfit::testing;
using nlohmann::json;

namespace {

const std::string demo_file = std::string(CALLFIT_SOURCE_DIR) + "/profiles/demo/case.json";

json demo_document() { return json::parse(Files().read(demo_file)); }

Case read(const json& document, const CaseTexts& texts, Files& disk) {
  Findings notices;
  return parse_case(document.dump(), demo_file, texts, disk.beside(), notices);
}

// Every finding's place and text, one a line.
std::string faults_of(const json& document) {
  Files disk;
  try {
    read(document, shipped_texts(disk), disk);
  } catch (const InputError& error) {
    std::string all;
    for (const Finding& finding : error.findings()) all += to_text(finding) + '\n';
    return all;
  }
  return "";
}

json schema() {
  return json::parse(
      Files().read(std::string(CALLFIT_SOURCE_DIR) + "/docs/formats/callfit-case-1.schema.json"));
}

std::string faults_by_schema(const json& document) {
  std::string all;
  for (const std::string& fault : test::schema_faults(document, schema())) all += fault + '\n';
  return all;
}

}  // namespace

TEST_CASE("a case written whole names nothing and is the same case", "[plain]") {
  Files disk;
  const Case about = demo_case();
  const std::string text =
      whole_case(about, demo_document().dump(), demo_file, shipped_texts(disk), disk.beside());
  const CaseTexts none = [](CasePart part, const std::string& name,
                            const std::string&) -> std::optional<SourceText> {
    if (part == CasePart::net_values || part == CasePart::record) return std::nullopt;
    throw InputError(Finding{{name, 0, ""}, "nothing is here", "hold it"});
  };
  Case back = read(json::parse(text), none, disk);
  back.options = about.options;
  back.net = about.net;
  CHECK(back.quarterbacks[0].profile.name == about.quarterbacks[0].profile.name);
  CHECK(back.tries.size() == about.tries.size());
  Study first(about);
  Study second(std::move(back));
  const auto one = std::get<CompareAnswer>(first.answer(CompareRequest{}));
  const auto two = std::get<CompareAnswer>(second.answer(CompareRequest{}));
  const Number& net = one.differences[0].net_points_per_game;
  CHECK(two.differences[0].net_points_per_game.centre == Approx(net.centre).margin(1e-9));
  CHECK(two.entries[0].place.low == Approx(one.entries[0].place.low).margin(1e-9));
}

TEST_CASE("a whole case keeps the opponents to come, and a case may give a profile others") {
  Files disk;
  const auto coming = [](const std::string& better_than) {
    return json{{"name", "o.csv"},
                {"csv", "opponent,better_than\nFarrow," + better_than + "\nTarn,0.4\n"}};
  };
  json document = demo_document();
  document["coming_opponents"] = coming("0.05");
  const Case about = read(document, shipped_texts(disk), disk);
  const json whole = json::parse(
      whole_case(about, document.dump(), demo_file, shipped_texts(disk), disk.beside()));
  const auto effects = [](const Case& one) { return one.quarterbacks[0].profile.evidence.coming; };
  REQUIRE_FALSE(effects(about).empty());
  const Case back = read(whole, shipped_texts(disk), disk);
  REQUIRE(effects(back).size() == effects(about).size());
  CHECK(effects(back)[0].mean == effects(about)[0].mean);
  CHECK(back.quarterbacks[0].profile.joint->marginals[0].mean ==
        Approx(about.quarterbacks[0].profile.joint->marginals[0].mean));
  json other = whole, charts = document;
  other["coming_opponents"] = charts["coming_opponents"] = coming("0.9");
  const Case by_profile = read(other, shipped_texts(disk), disk);
  const Case by_charts = read(charts, shipped_texts(disk), disk);
  const auto rate = [](const Case& one) {
    return one.quarterbacks[0]
        .profile.families[0]
        .rates[static_cast<std::size_t>(Rate::completion)]
        .value();
  };
  CHECK(rate(by_profile).mean == Approx(rate(by_charts).mean));
  CHECK(rate(by_profile).strength == Approx(rate(by_charts).strength));
  CHECK(rate(by_profile).mean != rate(about).mean);
}

TEST_CASE("a profile whose counts do not come to rest is refused, and no number given") {
  Files disk;
  json whole = json::parse(whole_case(demo_case(), demo_document().dump(), demo_file,
                                      shipped_texts(disk), disk.beside()));
  json& counts = whole["quarterbacks"][0]["profile"]["evidence"]["counts"];
  counts.push_back({{"quantity", "quick_outside.completion"}, {"counts", {0, 1e9}}});
  counts.push_back({{"quantity", "quick_outside.completion"}, {"counts", {1e9, 0}}});
  const std::string faults = faults_of(whole);
  CHECK(faults.find("/quarterbacks/0/profile") != std::string::npos);
  CHECK(faults.find("does not come to rest") != std::string::npos);
  CHECK(faults.find("no number is given") != std::string::npos);
}

TEST_CASE("the schema takes what the reader takes") {
  CHECK(faults_by_schema(demo_document()).empty());
  Files disk;
  const std::string whole = whole_case(demo_case(), demo_document().dump(), demo_file,
                                       shipped_texts(disk), disk.beside());
  CHECK(faults_by_schema(json::parse(whole)).empty());
}

TEST_CASE("what is wrong in a case is told with its path, by reader and schema", "[plain]") {
  const auto wrong = [](const std::string& pointer, const json& value, const std::string& told) {
    json document = demo_document();
    document[json::json_pointer(pointer)] = value;
    const std::string faults = faults_of(document);
    INFO(pointer << ": " << faults);
    CHECK(faults.find(told) != std::string::npos);
  };
  wrong("/schemes/0", "no-such-scheme", "/schemes/0");
  wrong("/schemes/0/calls/0", "missing.csv", "/schemes/0/calls/0");
  wrong("/setting", "collage", "/setting");
  wrong("/quarterbacks/0/charts/0", "missing.csv", "/quarterbacks/0/charts/0");
  wrong("/quarterbacks/0/profile", "also.json", "/quarterbacks/0: has both");
  wrong("/quarterbacks", json::array(), "/quarterbacks");
  wrong("/options", {{"draws", 3}}, "/options/draws");
  wrong("/options", {{"policy", "bold"}}, "/options/policy");
  wrong("/tries/0/changes/0/set", nullptr, "/tries/0/changes/0");
  wrong("/quarterbacks/0/level_weights", {{"varsity", 1}}, "/quarterbacks/0/level_weights/varsity");
  wrong("/options", {{"assumed", 0}}, "/options/assumed");
  wrong(
      "/quarterbacks/0/moves", {{{"season", "1999"}, {"change", "new_team"}}},
      "/quarterbacks/0/moves/0: no snap is of season 1999; the charts have no season and no team");
  wrong("/quarterbacks/0/moves", {{{"change", "new_team"}}},
        "/quarterbacks/0/moves/0: names no snaps");
  wrong("/quarterbacks/0/moves", {{{"season", "1"}, {"change", "moved"}}},
        "/quarterbacks/0/moves/0/change");
  const json season{
      {"season", "2025"}, {"level", "college"}, {"attempts", 300}, {"completions", 190}};
  wrong("/quarterbacks/0/season_totals", json::array({season}),
        "/quarterbacks/0/season_totals/0/season: 160 charted snaps of college have no season");
  json other = season;
  other["completions"] = 301;
  wrong("/quarterbacks/0/season_totals", json::array({other}),
        "/quarterbacks/0/season_totals/0/attempts: fewer than completions and interceptions");
  other = season;
  other["level"] = "varsity";
  wrong("/quarterbacks/0/season_totals", json::array({other}),
        "/quarterbacks/0/season_totals/0/level: the setting has no level varsity");
  wrong("/quarterbacks/0/season_totals", {season, season},
        "/quarterbacks/0/season_totals/1/season: season 2025 is given twice");
  const auto table = [](const std::string& rows) {
    return json{{"name", "s.csv"}, {"csv", "season,level,attempts,completions\n" + rows}};
  };
  wrong("/quarterbacks/0/season_totals", table("2025,college,300,301\n"),
        "s.csv:2: attempts: fewer than completions and interceptions");
  wrong("/quarterbacks/0/season_totals", table("2025,college,300,190\n"),
        "s.csv:2: season: 160 charted snaps of college have no season");
  wrong("/quarterbacks/0/season_totals", table("2025,college,300,190\n2025,college,300,190\n"),
        "s.csv:3: season: season 2025 is given twice");
  wrong("/quarterbacks/0/season_totals", table("2025,varsity,300,190\n"),
        "s.csv:2: level: the setting has no level varsity");
  wrong("/quarterbacks/0/season_totals", "missing.csv", "/quarterbacks/0/season_totals");
  wrong("/coming_opponents",
        {{"name", "o.csv"}, {"csv", "opponent,level,better_than\nQ,varsity,0.5\n"}},
        "/coming_opponents: names Q of level varsity");
  wrong("/opponents", "missing.csv", "/opponents");
  wrong("/opponents", {{"name", "o.csv"}, {"csv", "opponent,level,better_than\nQ,varsity,0.5\n"}},
        "/opponents: names Q of level varsity");
  wrong("/colour", "red", "/colour");
  CHECK_FALSE(faults_by_schema({{"format", "callfit-case/1"}}).empty());
}
