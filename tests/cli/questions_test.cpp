// Every kind of question through the real program, with the fewest draws: what the text says is
// what the JSON holds.
#include "../support/schema_check.hpp"
#include "headlines.hpp"
#include "program.hpp"

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <sstream>
#include <string>
#include <vector>

using namespace callfit::test;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

struct Question {
  std::string kind;
  std::string words;
  std::function<Words(const json&)> lines;  ///< of the text, made from the JSON's numbers
};

// demo_test.cpp asks the others: say, fit, drives, compare and brief.
const std::vector<Question> questions{
    {"try", "try case.json --saved --set rate.boot.completion=70%", try_lines},
    {"sweep", "try case.json --sweep rate.deep_outside.completion=30%:50%:2", sweep_lines},
    {"levers", "try case.json --levers 8", levers_lines},
    {"break_even", "try case.json --even rate.intermediate.completion --who 2 --against 1",
     even_lines},
    {"package", "try case.json --add qb_draw=15% --inside 10", package_lines},
    {"tailor", "try case.json --bend", tailor_lines},
    {"next", "next case.json --snaps 20", next_lines},
    {"snaps", "answer case.json --snaps net_points", snaps_lines},
    {"trend", "trend new-starter-C4-second-chart.csv --scheme balanced", trend_lines},
};

json answer_of(const std::string& words) {
  const Outcome outcome = run(words + " --draws 500 --json", demo_folder());
  CAPTURE(words, outcome.err);
  REQUIRE(outcome.code == 0);
  return json::parse(outcome.out)["answer"];
}

}  // namespace

TEST_CASE("every question prints one JSON document that the schema takes, and a text that says it",
          "[plain]") {
  const json schema = json::parse(slurp(source_file("docs/formats/callfit-answer-1.schema.json")));
  std::vector<std::string> asked{"say", "fit", "drives", "compare", "brief"};
  for (const Question& question : questions) {
    CAPTURE(question.words);
    const Outcome text = run(question.words + " --draws 500", demo_folder());
    const Outcome data = run(question.words + " --draws 500 --json", demo_folder());
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

TEST_CASE("numbers that rest on snaps are listed, and found by their words") {
  const Outcome list = run("answer case.json --numbers boot", demo_folder());
  REQUIRE(list.code == 0);
  CHECK_THAT(list.out, Contains("demand.boot.sack") && Contains("rate.boot.completion.moving"));
  CHECK_THAT(list.out, !Contains("screen"));
  CHECK(answer_of("answer case.json --snaps 'deep outside completion'")["number"] ==
        "rate.deep_outside.completion");
  const Outcome unknown = run("answer case.json --snaps net_pionts --draws 500", demo_folder());
  CHECK(unknown.code != 0);
  CHECK(unknown.out.empty());
  CHECK_THAT(unknown.err, Contains("net_points"));
}

TEST_CASE("what is turned to where it is changes nothing") {
  const json answer = answer_of("try case.json --set call.all.screen=x1");
  CHECK(answer["tries"][0]["drives_moved"] == false);
  const json& change = answer["tries"][0]["place_of_100"]["change"];
  for (const char* key : {"centre", "low", "high"}) CHECK(change[key] == 0.0);
}

TEST_CASE("the number of --levers is how many are listed") {
  const Outcome three = run("try case.json --levers 3 --draws 500", demo_folder());
  REQUIRE(three.code == 0);
  const std::size_t rule = three.out.rfind("-----\n");
  const std::size_t end = three.out.find("\n\n", rule);
  REQUIRE(rule < end);
  const std::string table = three.out.substr(rule, end - rule);
  std::size_t rows = 0;
  for (std::size_t at = table.find(" to +"); at != std::string::npos;
       at = table.find(" to +", at + 1))
    ++rows;
  CHECK(rows == 3);
}

TEST_CASE("paths are listed, by their words too, as text and JSON") {
  const Outcome text = run("try case.json --paths 'deep outside completion'", demo_folder());
  const json document =
      json::parse(run("try case.json --paths 'deep outside completion' --json", demo_folder()).out);
  REQUIRE(document.is_object());
  const json& list = document["result"];
  REQUIRE(list.size() >= 10);
  for (const json& one : list) CHECK_THAT(text.out, Contains(one["path"].get<std::string>()));
  CHECK_THAT(text.out, Contains("rate.deep_outside.completion"));
  CHECK_THAT(text.out, !Contains("rate.boot.completion"));
}

TEST_CASE("what is known around charts is the same by words, in a case and in a profile",
          "[plain]") {
  const Scratch folder;
  std::string chart;
  bool is_head = true;
  std::istringstream lines(slurp(source_file("profiles/demo/new-starter.csv")));
  for (std::string line; std::getline(lines, line);) {
    const bool is_college = line.find(",college,") != std::string::npos;
    chart += line + (is_head ? ",season" : is_college ? ",2025" : ",2024") + '\n';
    is_head = false;
  }
  folder.write("s.csv", chart);
  folder.write("t.csv", "season,level,attempts,completions\n2025,college,410,250\n");
  folder.write("o.csv", "opponent,better_than\nQuillhaven,0.2\n");
  folder.write("c.csv", "opponent,better_than\nFarrow,0.1\nTarn,0.4\n");
  folder.write("case.json", R"({"format": "callfit-case/1", "setting": "college",
    "schemes": ["balanced"], "opponents": "o.csv", "coming_opponents": "c.csv",
    "quarterbacks": [{"name": "s", "charts": ["s.csv"],
      "moves": [{"season": "2025", "change": "new_team"},
                {"season": "2024", "change": "new_level"}],
      "season_totals": [{"season": "2025", "level": "college", "attempts": 410,
                         "completions": 250}]}]})");
  const auto told = [&folder](const std::string& words) {
    const Outcome outcome = run(words, folder.path());
    CAPTURE(words, outcome.err);
    REQUIRE(outcome.code == 0);
    return outcome.out;
  };
  const std::string how = " --part fit --draws 500 --json";
  const std::string moves = " --changed 'season 2025=new_team' --changed 'season 2024=new_level'";
  const std::string around = moves + " --opponents o.csv";
  const std::string by_case = told("answer case.json" + how);
  const std::string words = "answer s.csv --scheme balanced --coming c.csv" + around;
  CHECK(told(words + " --totals 'season 2025, level college, attempts 410, completions 250'" +
             how) == by_case);
  std::filesystem::create_directories(folder.path() / "deep");
  CHECK(told(words + " --totals t.csv --save deep/case.json" + how) == by_case);
  CHECK(told("answer deep/case.json" + how) == by_case);
  const auto rests_on = [](const std::string& text) {
    return json::parse(text)["answer"]["about"]["rests_on"];
  };
  CHECK(rests_on(by_case)["coming"]["place_of_100"].get<double>() != 0);
  CHECK(rests_on(by_case)["schedule"]["known_opponents"] == 1);
  CHECK(rests_on(by_case).contains("moves"));
  told("read s.csv --totals t.csv -o p.json" + around);
  const json by_profile =
      json::parse(told("answer p.json --scheme balanced --coming c.csv" + how))["answer"];
  const json place = json::parse(by_case)["answer"]["place_of_100"];
  CHECK(by_profile["place_of_100"]["centre"].get<double>() ==
        Approx(place["centre"].get<double>()).margin(0.3));
  CHECK(told("read s.csv") != told("read s.csv" + moves));
  told("trend s.csv --scheme balanced --draws 500" + moves);
  told("next s.csv --scheme balanced --draws 500" + moves);
}

TEST_CASE("what asks nothing of a case prints a result document", "[plain]") {
  for (const std::string words :
       {"check new-starter.csv case.json", "read new-starter.csv",
        "read coordinator-calls.csv --as scheme --scheme quick-middle-option",
        "read new-starter.csv last-starter.csv --as setting",
        "check new-starter.csv new-starter-C4-second-chart.csv --same-snaps",
        "try case.json --paths boot", "validate pro"}) {
    CAPTURE(words);
    const Outcome outcome = run(words + " --json", demo_folder());
    REQUIRE(outcome.code == 0);
    const json document = json::parse(outcome.out);
    REQUIRE(document.is_object());
    CHECK(document["format"] == "callfit-result/1");
    CHECK(document["command"] == words.substr(0, words.find(' ')));
    CHECK(document["request"].is_object());
    CHECK_FALSE(document["result"].empty());
  }
}

TEST_CASE("a population is held against a table of quarterbacks", "[plain]") {
  const Scratch folder;
  const std::string table = source_file("data/quarterbacks/quarterback_games.csv.gz");
  const Outcome data = run("validate pro --quarterbacks " + table + " --json");
  CAPTURE(data.err);
  REQUIRE(data.code == 0);
  const json found = json::parse(data.out)["result"]["quarterbacks"];
  for (const char* part : {"within_season", "next_season"}) {
    CAPTURE(part);
    for (const char* other : {"league", "raw", "independent"})
      CHECK(found[part]["log_score_gain_per_1000_trials"][other].get<double>() > 0);
    CHECK(found[part]["coverage90"]["overall"].get<double>() == Approx(.9).margin(.02));
    CHECK(found[part]["rates"].size() >= 8);
    for (const json& rate : found[part]["rates"])
      CHECK(rate["log_score_gain_per_1000_trials"].contains("league"));
  }
  const Outcome text = run("validate pro --quarterbacks " + table);
  CHECK(text.code == 0);
  CHECK_THAT(text.out, Contains("First four games, the rest of the season: 337 seasons"));
  const std::string seasons = source_file("data/quarterbacks/quarterback_seasons.csv");
  const Outcome points =
      run("validate pro --quarterbacks " + table + " --seasons " + seasons + " --json");
  REQUIRE(points.code == 0);
  const json made = json::parse(points.out)["result"]["quarterbacks"]["points"];
  CHECK(made["same_season"]["weights"].size() == 7);
  double together = 0, alone = 0;
  for (const json& season : made["same_season"]["each"]) {
    const double model = season["model"];
    together += season["points"].get<double>() * model;
    alone += model * model;
  }
  CHECK(together / alone == Approx(made["same_season"]["slope"].get<double>()));
  CHECK(made["odds"]["verdicts"].size() == 3);
  for (const char* what : {"rest_rates", "rest_points"}) {
    CAPTURE(what);
    const json& rest = made["first_eight"][what];
    CHECK(rest["seasons"].get<int>() > 200);
    CHECK(rest["correlation"].get<double>() > 0.2);
    // Two standard errors and a little: what is told is neither too bold nor too shy.
    CHECK(std::abs(rest["slope"].get<double>() - 1) <
          2.5 * rest["slope_standard_error"].get<double>());
  }
  CHECK(run("validate pro --seasons " + seasons).code != 0);
  folder.write("broken.csv.gz", slurp(table).substr(0, 40000));
  const Outcome broken = run("validate pro --quarterbacks broken.csv.gz", folder.path());
  CHECK(broken.code != 0);
  CHECK_THAT(broken.err, Contains("broken.csv.gz:") && Contains("the packed data break off"));
  CHECK(run("validate pro --quarterbacks x.csv --drives y.csv").code != 0);
}

// Of the 9,406 drives (data/college/SOURCES.md) 4,662 began in quarters 1 and 3, with 2.37815
// points each: data/college/drive_results_by_start_2025.csv, version started_q1_or_q3.
TEST_CASE("a setting is held against a table of drives, which the text and the JSON tell alike",
          "[plain]") {
  const std::string words =
      "validate pro --drives '" + source_file("data/college/drives_2025_even.csv.gz") + "'";
  const Outcome outcome = run(words + " --json", demo_folder());
  REQUIRE(outcome.code == 0);
  const json result = json::parse(outcome.out)["result"];
  const json& drives = result["drives"];
  CHECK(drives["points"]["data"].get<double>() == Approx(2.37815).margin(5e-6));
  CHECK(drives["left_out"][0]["n"] == 9406 - 4662);
  double model = 0, data = 0;
  for (const auto& [name, share] : drives["results"].items()) {
    CAPTURE(name);
    CHECK(share["se"].is_number());
    model += share["model"].get<double>();
    data += share["data"].get<double>();
  }
  CHECK(drives["results"].size() == 9);
  CHECK(model == Approx(1).epsilon(1e-9));
  CHECK(data == Approx(1).epsilon(1e-9));
  const Outcome text = run(words, demo_folder());
  REQUIRE(text.code == 0);
  for (const char* count : {"4662", "4744", "88", "2.378"}) CHECK_THAT(text.out, Contains(count));
}

TEST_CASE(
    "sweeps, levers, trends and validations are drawn, and the picture says what the text says",
    "[plain]") {
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
  CHECK_THAT(picture, Contains("net points a drive"));
}

TEST_CASE("wrong questions get one clear line and write nothing", "[plain]") {
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
      {"try case.json --set 'deep completion=50%'",
       "fits 16 paths; name one, such as rate.deep_middle.completion"},
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
      {"try case.json --bend --move 0", "/limits/move: shares cannot move by that much"},
      {"try case.json --scenario case.json", "give a file of format \"callfit-scenario/1\""},
      {"try case.json --paths nowhere", "nowhere"},
      {"trend case.json --before 9", "more charts before the season than there are"},
      {"answer case.json --part drives --from 5,10,40", "/from: no such down"},
      {"answer new-starter.csv --scheme balanced --changed 'season 1999=new_team'",
       "/quarterbacks/0/moves/0: no snap is of season 1999; the charts have no season"},
      {"answer new-starter.csv --scheme balanced --changed new-starter.csv=moved",
       "/quarterbacks/0/moves/0/change: unknown word \"moved\""},
      {"answer new-starter.csv --scheme balanced --totals "
       "'season 2025, level college, attempts 3, completion 2'",
       "/quarterbacks/0/season_totals/0/completion: unknown key; did you mean completions?"},
      {"answer new-starter.csv --scheme balanced --coming none.csv", "/coming_opponents: names"},
      {"validate pros", "did you mean pro?"},
      {"validate pro --observed pro-2015", "pro-2015-2018"},
      {"validate pro --drives new-starter.csv", "no column season"},
      {"validate high-school", "nothing is shipped of what real drives of this setting did"},
      {"validate pro --drives none.csv.gz", "no such file"},
  };
  for (const Wrong& one : cases) {
    CAPTURE(one.words);
    const bool asks = !one.words.starts_with("check") && !one.words.starts_with("validate");
    const Outcome outcome = run(one.words + (asks ? " --draws 500" : ""), demo_folder());
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
