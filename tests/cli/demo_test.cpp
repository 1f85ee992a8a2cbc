// The demo's main job through the real program, start to end.
#include "../support/schema_check.hpp"
#include "headlines.hpp"
#include "program.hpp"

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

using namespace callfit::test;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

const std::string new_chart = source_file("profiles/demo/new-starter.csv");
const std::string last_chart = source_file("profiles/demo/last-starter.csv");
const std::string one_game = source_file("profiles/demo/new-starter-C4-second-chart.csv");
const std::string calls = source_file("profiles/demo/coordinator-calls.csv");

json answer_schema() {
  return json::parse(slurp(source_file("docs/formats/callfit-answer-1.schema.json")));
}

// Shares that are read back are made to sum to 1 once more: the last digit may differ.
bool same_but_rounding(const json& a, const json& b) {
  if (a.is_number() && b.is_number())
    return a.get<double>() == Approx(b.get<double>()).epsilon(1e-11);
  if (a.type() != b.type() || a.size() != b.size()) return false;
  if (!a.is_structured()) return a == b;
  if (a.is_array()) return std::equal(a.begin(), a.end(), b.begin(), same_but_rounding);
  for (const auto& [key, value] : a.items())
    if (!b.contains(key) || !same_but_rounding(value, b[key])) return false;
  return true;
}

}  // namespace

TEST_CASE("one command goes from a case to answers, its parts and pictures in a folder",
          "[plain]") {
  const Scratch scratch;
  const Outcome outcome =
      run("answer '" + source_file("profiles/demo/case.json") + "' --draws 500 -o results",
          scratch.path());
  CAPTURE(outcome.err);
  REQUIRE(outcome.code == 0);
  CHECK(outcome.err.empty());
  for (const char* name :
       {"answer.txt", "answers.json", "case.json", "new-starter.profile.json",
        "last-starter.profile.json", "new-coordinator-s-scheme.scheme.json", "fit.svg", "fit.png",
        "results.svg", "results.png", "points.svg", "points.png"}) {
    CAPTURE(name);
    CHECK(scratch.read(std::string("results/") + name).size() > 100);
    CHECK_THAT(outcome.out, Contains(std::string(" ") + name));
  }
  for (const char* name : {"fit", "results", "points"}) {
    CHECK_THAT(scratch.read(std::string("results/") + name + ".svg"), Contains("<svg"));
    CHECK(scratch.read(std::string("results/") + name + ".png").starts_with("\x89PNG\r\n\x1a\n"));
  }
  const std::string written = scratch.read("results/answer.txt");
  CHECK(outcome.out.starts_with(written.substr(0, written.rfind("\n[callfit "))));
  CHECK_THAT(outcome.out, Contains("Cautions:"));

  const json all = json::parse(scratch.read("results/answers.json"));
  CHECK(all["format"] == "callfit-answers/1");
  std::vector<std::string> kinds;
  const json schema = answer_schema();
  for (const json& one : all["answers"]) {
    kinds.push_back(one["kind"]);
    CHECK(schema_faults(one, schema) == std::vector<std::string>{});
  }
  REQUIRE(kinds == std::vector<std::string>{"say", "fit", "compare", "brief"});
  const std::string said = one_line(outcome.out);
  const auto& answers = all["answers"];
  for (const Words& lines :
       {say_lines(answers[0]["answer"]), fit_lines(answers[1]["answer"]),
        compare_lines(answers[2]["answer"]), brief_lines(answers[3]["answer"])})
    for (const std::string& line : lines) CHECK_THAT(said, Contains(line));

  const std::string paragraph = one_line(answers[0]["answer"]["paragraph"].get<std::string>());
  for (const char* name : {"fit", "results", "points"})
    CHECK_THAT(one_line(scratch.read(std::string("results/") + name + ".txt")),
               Contains(paragraph));

  SECTION("what lies in the folder gives the same answers again") {
    const std::string fit = " --part fit --json";
    const json again =
        json::parse(run("answer results/case.json" + fit, scratch.path()).out)["answer"];
    CHECK(same_but_rounding(again, all["answers"][1]["answer"]));
    const json parts =
        json::parse(run("answer results/new-starter.profile.json --draws 500 --scheme "
                        "results/new-coordinator-s-scheme.scheme.json" +
                            fit,
                        scratch.path())
                        .out)["answer"];
    CHECK(same_but_rounding(parts, all["answers"][1]["answer"]));
    CHECK(run("check results/case.json results/new-starter.profile.json "
              "results/new-coordinator-s-scheme.scheme.json",
              scratch.path())
              .code == 0);
  }
}

TEST_CASE("two schemes whose names differ in signs alone keep a file each") {
  const Scratch scratch;
  json scheme = json::parse(slurp(source_file("schemes/balanced.json")));
  scheme["families"] = source_file("schemes/families.json");
  for (const char* name : {"Quick game", "Quick-game"}) {
    scheme["name"] = name;
    scratch.write(std::string(name) + ".json", scheme.dump());
  }
  const Outcome outcome =
      run("answer '" + one_game +
              "' --scheme 'Quick game.json' --scheme Quick-game.json --part fit "
              "--draws 500 -o results",
          scratch.path());
  CAPTURE(outcome.err);
  REQUIRE(outcome.code == 0);
  std::size_t schemes = 0;
  for (const auto& entry : std::filesystem::directory_iterator(scratch.path() / "results"))
    if (entry.path().string().ends_with(".scheme.json")) ++schemes;
  CHECK(schemes == 2);
}

TEST_CASE("words say what a case says", "[plain]") {
  const Scratch scratch;
  const Outcome words =
      run("answer '" + new_chart + "' '" + last_chart + "' --name 'New starter' --name 'Last " +
              "starter' --scheme quick-middle-option --calls '" + calls +
              "' --calls-name \"New coordinator's scheme\" --draws 500 --part fit --json --save "
              "saved.json",
          scratch.path());
  REQUIRE(words.code == 0);
  const json from_words = json::parse(words.out)["answer"];
  const Outcome from_case = run("answer case.json --draws 500 --part fit --json", demo_folder());
  CHECK(json::parse(from_case.out)["answer"] == from_words);
  const Outcome saved = run("answer saved.json --part fit --json", scratch.path());
  CAPTURE(saved.err);
  REQUIRE(saved.code == 0);
  CHECK(json::parse(saved.out)["answer"] == from_words);
}

TEST_CASE("profiles are saved, read back, and give the same fit as their charts", "[plain]") {
  const Scratch scratch;
  const Outcome read = run("read '" + new_chart + "' -o new-starter.profile.json", scratch.path());
  REQUIRE(read.code == 0);
  const std::string rest = " --scheme quick-middle-option --part fit --draws 500 --json";
  const json from_chart = json::parse(run("answer '" + new_chart + "'" + rest).out)["answer"];
  const json from_file =
      json::parse(run("answer new-starter.profile.json" + rest, scratch.path()).out)["answer"];
  CHECK(from_chart == from_file);
  double sum = 0;
  for (const json& demand : from_file["demands"])
    sum += demand["mean_part_of_distance_squared"].get<double>();
  CHECK(sum == Approx(from_file["mean_distance_squared"].get<double>()).epsilon(1e-12));
}

TEST_CASE("schemes and settings read from charts are taken by the other commands") {
  const Scratch scratch;
  REQUIRE(run("read '" + calls + "' --as scheme --scheme quick-middle-option -o coordinator.json",
              scratch.path())
              .code == 0);
  REQUIRE(run("read '" + new_chart + "' '" + last_chart + "' --as setting --id ours -o ours.json",
              scratch.path())
              .code == 0);
  const Outcome checked = run("check coordinator.json ours.json", scratch.path());
  CAPTURE(checked.err);
  CHECK(checked.code == 0);
  const Outcome fit = run("answer '" + new_chart +
                              "' --scheme coordinator.json --setting ours.json --part fit "
                              "--draws 500",
                          scratch.path());
  CAPTURE(fit.err);
  CHECK(fit.code == 0);
}

TEST_CASE("drives: one seed gives the same bytes for any number of threads, and the text says them",
          "[plain]") {
  const std::string words =
      "answer case.json --part drives --sample 200000 --draws 500 --json --seed ";
  const Outcome one = run(words + "5 --threads 1", demo_folder());
  REQUIRE(one.code == 0);
  CHECK(one.out == run(words + "5 --threads 3", demo_folder()).out);
  const auto fit_by_seed = [](const std::string& seed) {
    return json::parse(
        run("answer case.json --part fit --draws 500 --json --seed " + seed, demo_folder())
            .out)["answer"];
  };
  CHECK(fit_by_seed("5") != fit_by_seed("6"));

  const json document = json::parse(one.out);
  CHECK(schema_faults(document, answer_schema()) == std::vector<std::string>{});
  const json& answer = document["answer"];
  const Outcome text =
      run("answer case.json --part drives --sample 200000 --draws 500 --seed 5", demo_folder());
  for (const std::string& line : drives_lines(answer))
    CHECK_THAT(one_line(text.out), Contains(line));
  double sum = 0;
  for (const json& result : answer["results"])
    sum += result["share_of_drives"]["centre"].get<double>();
  CHECK(sum == Approx(1.0).margin(0.01));  // of medians: close to 1, not 1
  sum = 0;
  for (const auto& [name, share] : answer["sampled"]["mean"]["results"].items())
    sum += share.get<double>();
  CHECK(sum == Approx(1.0).epsilon(1e-9));
}

TEST_CASE("all commands answer bad input with exit code 1 and write nothing") {
  const Scratch scratch;
  scratch.write("bad.csv",
                "game,level,down,to_go,yards_to_goal,family,result,yards\n"
                "G1,college,1,10,8,boot,complete,5\n");
  for (const std::string words :
       {"read bad.csv -o out.json", "read bad.csv --as scheme --scheme balanced -o out.json",
        "read bad.csv --as setting -o out.json", "answer bad.csv --scheme balanced -o out",
        "answer bad.csv --scheme balanced -o out.svg --save out.json",
        "try bad.csv --scheme balanced --levers -o out.svg", "next bad.csv --scheme balanced",
        "trend bad.csv --scheme balanced -o out.svg", "check bad.csv",
        "check bad.csv bad.csv --same-snaps", "answer missing.json -o out",
        "validate missing.json -o out.svg", "validate bad.csv -o out.svg"}) {
    CAPTURE(words);
    const Outcome outcome = run(words, scratch.path());
    CHECK(outcome.code == 1);
    CHECK_FALSE(outcome.err.empty());
  }
  std::size_t files = 0;
  for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator(scratch.path()))
    ++files;
  CHECK(files == 1);
  CHECK_THAT(run("check bad.csv", scratch.path()).err, Contains("bad.csv:2: to_go"));
  CHECK_THAT(run("answer '" + new_chart + "' --scheme ballanced").err,
             Contains("did you mean balanced?"));
}
