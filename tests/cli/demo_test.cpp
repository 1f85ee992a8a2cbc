// The demo's main job through the real program, start to end.
#include "program.hpp"

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include <cmath>
#include <string>

using namespace callfit::test;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

const std::string new_chart = source_file("profiles/demo/new-starter.csv");
const std::string last_chart = source_file("profiles/demo/last-starter.csv");
const std::string calls = source_file("profiles/demo/coordinator-calls.csv");

}  // namespace

TEST_CASE("one command goes from charts to fit, points and pictures") {
  const Scratch scratch;
  const Outcome outcome = run("answer " + new_chart + " --last " + last_chart + " --calls " +
                                  calls + " --scheme quick-middle-option --draws 40 -o results",
                              scratch.path());
  CAPTURE(outcome.err);
  REQUIRE(outcome.code == 0);
  CHECK(outcome.err.empty());
  CHECK_THAT(outcome.out, Contains("90% interval"));
  for (const char* name :
       {"new.profile.json", "last.profile.json", "scheme.json", "comparison.txt", "fit.svg",
        "fit.png", "drive-results.svg", "points-by-yard.png", "new.results.json"}) {
    CAPTURE(name);
    CHECK(scratch.read(std::string("results/") + name).size() > 100);
  }
  CHECK(scratch.read("results/fit.png").starts_with("\x89PNG"));
}

TEST_CASE("profiles are saved, read back, and give the same fit as their charts") {
  const Scratch scratch;
  REQUIRE(run("profile " + new_chart + " -o new.profile.json", scratch.path()).code == 0);
  const std::string rest = " --scheme quick-middle-option --draws 50 --json";
  const json from_chart = json::parse(run("fit " + new_chart + rest).out)["result"];
  const json from_file =
      json::parse(run("fit new.profile.json" + rest, scratch.path()).out)["result"];
  CHECK(from_chart["fit"].get<double>() == Approx(from_file["fit"].get<double>()).epsilon(1e-9));
  double sum = 0;
  for (const json& demand : from_file["demands"]) sum += demand["contribution"].get<double>();
  CHECK(sum == Approx(from_file["distance_squared"].get<double>()).epsilon(1e-12));
  CHECK(from_file["fit"].get<double>() == Approx(100 * std::exp(-0.5 * sum)).epsilon(1e-12));
}

TEST_CASE("the same seed gives the same bytes for any number of threads") {
  const std::string words =
      "drives average --scheme balanced --sample 200000 --seed 5 --json --threads ";
  const Outcome one = run(words + "1");
  REQUIRE(one.code == 0);
  CHECK(one.out == run(words + "2").out);
  CHECK(one.out == run(words + "3").out);
  CHECK(one.out != run("drives average --scheme balanced --sample 200000 --seed 6 --json").out);
}

TEST_CASE("drive results of the demo are shares that sum to one") {
  const json result =
      json::parse(run("drives " + new_chart + " --scheme balanced --json").out)["result"]["exact"];
  double sum = 0;
  for (const auto& [name, share] : result["results"].items()) sum += share.get<double>();
  CHECK(sum == Approx(1.0).epsilon(1e-9));
}

TEST_CASE("all commands answer bad input with exit code 1 and write nothing") {
  const Scratch scratch;
  scratch.write("bad.csv",
                "game,level,down,to_go,yards_to_goal,family,result,yards\n"
                "G1,college,1,10,8,boot,complete,5\n");
  for (const std::string words :
       {"profile bad.csv -o out.json", "fit bad.csv --scheme balanced",
        "drives bad.csv --scheme balanced", "compare bad.csv bad.csv --scheme balanced",
        "graphic bad.csv --scheme balanced -o out.svg", "check bad.csv",
        "scheme bad.csv --like balanced -o out.json", "fit missing.json --scheme balanced",
        "fit bad.csv --scheme ballanced"}) {
    CAPTURE(words);
    const Outcome outcome = run(words, scratch.path());
    CHECK(outcome.code == 1);
    CHECK_FALSE(outcome.err.empty());
  }
  CHECK_THAT(run("check bad.csv", scratch.path()).err, Contains("bad.csv:2: to_go"));
  CHECK_THAT(run("fit bad.csv --scheme ballanced", scratch.path()).err,
             Contains("did you mean balanced?"));
  CHECK_FALSE(std::filesystem::exists(scratch.path() / "out.json"));
  CHECK_FALSE(std::filesystem::exists(scratch.path() / "out.svg"));
}
