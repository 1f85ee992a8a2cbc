// Every kind of question through the real program, with the fewest draws: what the text says is
// what the JSON holds.
#include "../support/schema_check.hpp"
#include "program.hpp"

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <sstream>
#include <string>
#include <vector>

using namespace callfit::test;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

using Words = std::vector<std::string>;

const std::string demo = source_file("profiles/demo");

// As one line, so that a sentence is found however it was wrapped.
std::string one_line(const std::string& text) {
  std::istringstream words(text);
  std::string out;
  for (std::string word; words >> word;) out += word + ' ';
  return out;
}

std::string number(double value, int digits) {
  std::array<char, 64> text{};
  std::snprintf(text.data(), text.size(), "%.*f", digits, value);
  return text.data();
}

// "+1.82", "0.00": points as a change or a lead.
std::string lead(double value) {
  const std::string text = number(value, 2);
  if (text == "-0.00" || text == "0.00") return "0.00";
  return value > 0 ? '+' + text : text;
}

std::string lead_range(const json& n) { return lead(n["low"]) + " to " + lead(n["high"]); }

std::string lead_with_range(const json& n) {
  return lead(n["centre"]) + " (" + lead_range(n) + ')';
}

std::string place_with_range(const json& n) {
  return number(n["centre"], 0) + " (" + number(n["low"], 0) + " to " + number(n["high"], 0) + ')';
}

std::string sentence(const json& n, const std::string& between) {
  return lead(n["centre"]) + between + ", 90% interval " + lead_range(n);
}

Words fit_lines(const json& a) {
  const json& place = a["place_of_100"];
  const json& squared = a["distance_squared"];
  return {number(place["centre"], 0) + " of 100 quarterbacks of this level fit it worse; " +
              number(place["low"], 0) + " to " + number(place["high"], 0),
          "D² " + number(squared["centre"], 3) + " (" + number(squared["low"], 3) + " to " +
              number(squared["high"], 3) + ')',
          "its mean over the draws, " + number(a["mean_distance_squared"], 3)};
}

Words drives_lines(const json& a) {
  const json& points = a["points_per_drive"];
  return {number(points["centre"], 2) + " (" + number(points["low"], 2) + " to " +
              number(points["high"], 2) + ") points per drive",
          "net " + lead_with_range(a["net_points_per_drive"]),
          "net " + lead_with_range(a["net_points_per_game"]),
          number(a["drives_per_game"], 1) + " drives",
          number(a["sampled"]["points_per_drive"]["standard_error"], 4)};
}

Words compare_lines(const json& a) {
  Words lines{
      sentence(a["differences"][0]["net_points_per_game"],
               " net points a game for " + a["differences"][0]["first"].get<std::string>())};
  for (const json& entry : a["entries"])
    lines.push_back(lead(entry["net_points_per_drive"]["centre"]) + ' ' +
                    lead_range(entry["net_points_per_drive"]) + ' ' +
                    number(100 * entry["odds_best"].get<double>(), 0) + '%');
  return lines;
}

Words brief_lines(const json& a) {
  Words lines{sentence(a["first_minus_second"]["net_points_per_game"],
                       " net points a game for New starter"),
              place_with_range(a["first_place_of_100"]) + " fit worse than New starter"};
  for (const json& reason : a["reasons"])
    lines.push_back(lead_with_range(reason["net_points_per_game"]) + " net points a game, mean " +
                    lead(reason["mean_part_net_points_per_game"]));
  return lines;
}

Words effect_lines(const json& effect) {
  return {"net points a game change by " + sentence(effect["net_points_per_game"]["change"], "")};
}

Words try_lines(const json& a) {
  Words lines;
  for (const json& one : a["tries"]) {
    const Words more = effect_lines(one);
    lines.insert(lines.end(), more.begin(), more.end());
  }
  return lines;
}

Words sweep_lines(const json& a) {
  Words lines;
  for (const json& row : a["cells"])
    for (const json& cell : row) {
      lines.push_back(lead_with_range(cell["net_points_per_game_change"]));
      lines.push_back(number(cell["place_of_100"]["centre"], 0) + ' ' +
                      number(cell["points_per_drive"]["centre"], 2) + ' ' +
                      lead(cell["net_points_per_drive"]["centre"]));
    }
  return lines;
}

Words levers_lines(const json& a) {
  Words lines;
  for (std::size_t i = 0; i < 8; ++i) {
    const json& worth = a["levers"][i]["net_points_per_game"];
    lines.push_back(lead(worth["centre"]) + ' ' + lead_range(worth));
  }
  return lines;
}

Words even_lines(const json& a) {
  return {"is " + number(100 * a["break_even"].get<double>(), 0) + "%; now it is " +
              number(100 * a["now"].get<double>(), 0) + '%',
          sentence(a["now_first_minus_second"]["net_points_per_game"],
                   " net points a game for Last starter"),
          lead(a["net_points_per_game_at_low"]), lead(a["net_points_per_game_at_high"])};
}

Words package_lines(const json& a) {
  Words lines = effect_lines(a["effect"]);
  lines.push_back(number(a["mean_per_game_before"]["package_calls"], 2) + ' ' +
                  number(a["mean_per_game_after"]["package_calls"], 2));
  return lines;
}

Words tailor_lines(const json& a) {
  Words lines = effect_lines(a["effect"]);
  lines.push_back(lead(a["net_points_per_drive_before"]) + " as called, " +
                  lead(a["net_points_per_drive_after"]) + " with one mix a situation");
  lines.push_back(lead(a["net_points_per_drive_bound"]) + " at most");
  return lines;
}

Words next_lines(const json& a) {
  Words lines{"net points a game " + lead_with_range(a["net_points_per_game"]),
              "place of 100 " + place_with_range(a["place_of_100"])};
  for (const json& family : a["families"])
    lines.push_back("±" + number(family["half_width_after_net_points_per_game"], 2));
  return lines;
}

Words trend_lines(const json& a) {
  Words lines{a["first_answer_held"].get<bool>() ? "the first answer held"
                                                 : "the first answer did not hold"};
  for (const json& step : a["steps"])
    lines.push_back(place_with_range(step["place_of_100"]) + ' ' +
                    lead_with_range(step["net_points_per_drive"]));
  return lines;
}

struct Question {
  std::string kind;
  std::string words;
  std::function<Words(const json&)> lines;  ///< of the text, made from the JSON's numbers
};

const std::vector<Question> questions{
    {"fit", "answer case.json --part fit", fit_lines},
    {"drives", "answer case.json --part drives --sample 20000", drives_lines},
    {"compare", "answer case.json --part compare", compare_lines},
    {"brief", "answer case.json --part brief", brief_lines},
    {"try", "try case.json --saved --set rate.boot.completion=70%", try_lines},
    {"sweep", "try case.json --sweep rate.deep_outside.completion=30%:50%:2", sweep_lines},
    {"levers", "try case.json --levers 8", levers_lines},
    {"break_even", "try case.json --even rate.deep_outside.completion --who 2 --against 1",
     even_lines},
    {"package", "try case.json --add qb_draw=15% --inside 10", package_lines},
    {"tailor", "try case.json --bend", tailor_lines},
    {"next", "next case.json --snaps 20", next_lines},
    {"trend", "trend new-starter-C4-second-chart.csv --scheme balanced", trend_lines},
};

json answer_of(const std::string& words) {
  const Outcome outcome = run(words + " --draws 500 --json", demo);
  CAPTURE(words, outcome.err);
  REQUIRE(outcome.code == 0);
  return json::parse(outcome.out)["answer"];
}

}  // namespace

TEST_CASE(
    "every question prints one JSON document that the schema takes, and a text that says it") {
  const json schema = json::parse(slurp(source_file("docs/formats/callfit-answer-1.schema.json")));
  std::vector<std::string> asked;
  for (const Question& question : questions) {
    CAPTURE(question.words);
    const Outcome text = run(question.words + " --draws 500", demo);
    const Outcome data = run(question.words + " --draws 500 --json", demo);
    REQUIRE(text.code == 0);
    REQUIRE(data.code == 0);
    CHECK(text.err.empty());
    CHECK(data.err.empty());
    const json document = json::parse(data.out);
    CHECK(document["kind"] == question.kind);
    CHECK(schema_faults(document, schema) == std::vector<std::string>{});
    const std::string said = one_line(text.out);
    for (const std::string& line : question.lines(document["answer"]))
      CHECK_THAT(said, Contains(line));
    CHECK_THAT(said, Contains("Cautions:"));
    for (const char* fault : {"nan", "inf ", "-0.00 "}) CHECK_THAT(said, !Contains(fault));
    asked.push_back(question.kind);
  }
  const json& kinds = schema["properties"]["kind"]["enum"];
  std::sort(asked.begin(), asked.end());
  auto known = kinds.get<std::vector<std::string>>();
  std::sort(known.begin(), known.end());
  CHECK(asked == known);
}

TEST_CASE("a scenario file, a named try, a path by its words and --set say the same") {
  const Scratch scratch;
  const auto file = scratch.write("bolder.json", R"({"format": "callfit-scenario/1",
    "name": "bolder", "changes": [{"path": "rate.deep_outside.completion", "set": 0.42}]})");
  const json answer =
      answer_of("try case.json --set rate.deep_outside.completion=42% --scenario '" +
                file.string() + "' --try bolder:rate.deep_outside.completion=0.42" +
                " --set 'rate deep_middle completion=x1'");
  json tries = answer["tries"];
  REQUIRE(tries.size() == 3);
  CHECK(tries[1] == tries[2]);
  CHECK(tries[0]["net_points_per_game"] == tries[1]["net_points_per_game"]);
  CHECK(tries[0]["net_points_per_game"]["change"]["low"] > 0);
}

TEST_CASE("what is turned to where it is changes nothing") {
  const json answer = answer_of("try case.json --set call.all.screen=x1");
  const json& change = answer["tries"][0]["net_points_per_game"]["change"];
  for (const char* key : {"centre", "low", "high"}) CHECK(change[key] == 0.0);
}

TEST_CASE("the number of --levers is how many are listed") {
  const Outcome three = run("try case.json --levers 3 --draws 500", demo);
  const Outcome data = run("try case.json --levers 3 --draws 500 --json", demo);
  REQUIRE(three.code == 0);
  const json levers = json::parse(data.out)["answer"]["levers"];
  REQUIRE(levers.size() > 3);
  const std::string said = one_line(three.out);
  for (std::size_t i = 0; i < 5; ++i) {
    CAPTURE(i);
    const json& worth = levers[i]["net_points_per_game"];
    const std::string row = lead(worth["centre"]) + ' ' + lead_range(worth);
    const bool listed = said.find(row) != std::string::npos;
    CHECK(listed == (i < 3));
  }
}

TEST_CASE("paths are listed, by their words too, as text and JSON") {
  const Outcome text = run("try case.json --paths 'deep outside completion'", demo);
  const json list = json::parse(
      run("try case.json --paths 'deep outside completion' --json", demo).out)["result"];
  REQUIRE(list.is_array());
  REQUIRE(list.size() == 10);
  for (const json& one : list) CHECK_THAT(text.out, Contains(one["path"].get<std::string>()));
  CHECK_THAT(text.out, Contains("rate.deep_outside.completion"));
  CHECK_THAT(text.out, !Contains("rate.boot.completion"));
}

TEST_CASE("what asks nothing of a case prints a result document") {
  for (const std::string words :
       {"check new-starter.csv case.json", "read new-starter.csv",
        "read coordinator-calls.csv --as scheme --scheme quick-middle-option",
        "read new-starter.csv last-starter.csv --as setting",
        "check new-starter.csv new-starter-C4-second-chart.csv --same-snaps",
        "try case.json --paths boot", "validate pro"}) {
    CAPTURE(words);
    const Outcome outcome = run(words + " --json", demo);
    REQUIRE(outcome.code == 0);
    const json document = json::parse(outcome.out);
    REQUIRE(document.is_object());
    CHECK(document["format"] == "callfit-result/1");
    CHECK(document["command"] == words.substr(0, words.find(' ')));
    CHECK(document["request"].is_object());
    CHECK_FALSE(document["result"].empty());
  }
}

TEST_CASE(
    "sweeps, levers, trends and validations are drawn, and the picture says what the text says") {
  const Scratch scratch;
  const std::string chart =
      "'" + source_file("profiles/demo/new-starter-C4-second-chart.csv") + "'";
  const std::string rest = chart + " --scheme balanced --draws 500 -o ";
  const std::string sweep = "--sweep rate.deep_outside.completion=30%:50%:2 ";
  REQUIRE(run("try " + sweep + rest + "sweep.svg", scratch.path()).code == 0);
  REQUIRE(run("try --levers=5 " + rest + "levers.svg", scratch.path()).code == 0);
  const Outcome trend = run("trend " + rest + "trend.svg -o trend.pdf", scratch.path());
  REQUIRE(trend.code == 0);
  REQUIRE(run("validate pro -o validate.png", scratch.path()).code == 0);
  CHECK_THAT(scratch.read("sweep.svg"), Contains("<svg"));
  CHECK_THAT(scratch.read("levers.svg"), Contains("<svg"));
  CHECK(scratch.read("trend.pdf").starts_with("%PDF"));
  CHECK(scratch.read("validate.png").starts_with("\x89PNG"));
  const bool held = trend.out.find("the first answer held") != std::string::npos;
  const std::string picture = scratch.read("trend.svg");
  CHECK_THAT(picture, Contains(held ? "first answer held" : "first answer did not hold"));
  CHECK_THAT(picture, Contains("net points per drive"));
}

TEST_CASE("wrong questions get one clear line and write nothing") {
  struct Wrong {
    std::string words;
    std::string told;
  };
  const std::string none_called = [] {
    std::string words = "try case.json";
    for (const char* family :
         {"quick_middle", "quick_outside", "screen", "intermediate", "boot", "deep_middle",
          "deep_outside", "qb_draw", "zone_read", "qb_power", "qb_sneak", "handoff"})
      words += std::string(" --set call.second_short.") + family + "=0";
    return words;
  }();
  const std::vector<Wrong> cases{
      {"try case.json --set rate.deep_outsied.completion=42%",
       "did you mean rate.deep_outside.completion"},
      {"try case.json --set 'deep outside completion=50%'",
       "fits 10 paths; name one, such as demand.deep_outside.completion.level"},
      {"try case.json --set nonsense", "nonsense: is not PATH=VALUE"},
      {"try case.json --set rate.boot.completion=150%", "rate.boot.completion: cannot be 1.5"},
      {"try case.json --set call.all.screen=100%", "call.all.screen: cannot be moved so far"},
      {none_called, "nothing else is called there to take the rest"},
      {"try case.json --sweep rate.boot.completion=40%:60%", "is not PATH=from:to:n"},
      {"try case.json --sweep rate.deep_outsied.completion=40%:60%:2",
       "did you mean rate.deep_outside.completion"},
      {"try case.json --even rate.deep_outsied.completion",
       "did you mean rate.deep_outside.completion"},
      {"try case.json --even rate.boot.completion --against 1", "New starter"},
      {"try case.json --add qb_draw=120%", "/package/share: is no share; take 0 to 1"},
      {"try case.json --add qb_draw=2", "/package/share: is no share; take 0 to 1"},
      {"try case.json --add qb_drow=10%", "did you mean qb_draw?"},
      {"try case.json --add qb_draw=10% --situation nowhere", "no situation nowhere"},
      {"try case.json --add qb_draw=10% --inside 100", "/package/inside_yards: is no yard line"},
      {"try case.json --bend --move 0", "/limits/move: shares cannot move by that much"},
      {"try case.json --bend --fade -1", "/limits/fade"},
      {"try case.json --scenario case.json", "give a file of format \"callfit-scenario/1\""},
      {"try case.json --paths nowhere", "nowhere"},
      {"trend case.json --before 9", "/before: "},
      {"answer case.json --part drives --from 5,10,40", "/from: no such down"},
      {"check new-starter.csv last-starter.csv --same-snaps", "the same game names"},
      {"validate pros", "did you mean pro?"},
      {"validate pro --observed pro-2015", "pro-2015-2018"},
  };
  for (const Wrong& one : cases) {
    CAPTURE(one.words);
    const bool asks = !one.words.starts_with("check") && !one.words.starts_with("validate");
    const Outcome outcome = run(one.words + (asks ? " --draws 500" : ""), demo);
    CHECK(outcome.code == 1);
    CHECK(outcome.out.empty());
    CHECK_THAT(outcome.err, Contains(one.told));
    CHECK(std::count(outcome.err.begin(), outcome.err.end(), '\n') == 1);
  }
}

TEST_CASE("docs/questions.md is what the program prints", "[slow-plain]") {
  const std::string command = "CALLFIT_PROGRAM='" CALLFIT_PROGRAM "' '" +
                              source_file("scripts/show-questions") + "' --check >&2";
  CHECK(std::system(command.c_str()) == 0);
}
