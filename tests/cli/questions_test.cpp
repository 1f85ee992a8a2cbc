// The question commands through the real program, with few draws.
#include "program.hpp"

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

using namespace callfit::test;
using nlohmann::json;

namespace {

std::string words(const std::string& command, const std::string& rest) {
  return command + ' ' + source_file("profiles/demo/new-starter.csv") + " --scheme balanced " +
         rest + " --draws 20";
}

}  // namespace

TEST_CASE("whatif without changes repeats drives") {
  const Outcome drives =
      run("drives " + source_file("profiles/demo/new-starter.csv") + " --scheme balanced --json");
  const Outcome whatif = run(words("whatif", "--json"));
  REQUIRE(drives.code == 0);
  REQUIRE(whatif.code == 0);
  const json a = json::parse(drives.out)["result"];
  const json b = json::parse(whatif.out)["result"];
  CHECK(b["points_per_drive"]["before"]["value"] == a["exact"]["points"]);
  CHECK(b["net_points_per_game"]["change"]["value"] == 0);
  CHECK(b["moved"].empty());
}

TEST_CASE("a scenario file and --set say the same") {
  const Scratch scratch;
  scratch.write("bolder.json", R"({"format": "callfit-scenario/1", "name": "Bolder", "changes": [
    {"path": "rate.deep_outside.completion", "set": 0.42}]})");
  const Outcome file = run(words("whatif", "--scenario bolder.json --json"), scratch.path());
  const Outcome set = run(words("whatif", "--set rate.deep_outside.completion=42% --json"));
  REQUIRE(file.code == 0);
  CHECK(json::parse(file.out)["result"] == json::parse(set.out)["result"]);
  CHECK(json::parse(set.out)["result"]["points_per_drive"]["change"]["interval90"][0] > 0);
}

TEST_CASE("a sweep is drawn, and nothing is half written") {
  const Scratch scratch;
  const Outcome drawn =
      run(words("whatif", "--sweep rate.deep_outside.completion=30%:50%:2 -o deep.svg"),
          scratch.path());
  CHECK(drawn.code == 0);
  CHECK_THAT(drawn.out, Catch::Contains("at values of rate.deep_outside.completion"));
  CHECK_THAT(scratch.read("deep.svg"), Catch::Contains("<svg"));
}

TEST_CASE("a trend's picture shows fit and points, and says what the table says") {
  const Scratch scratch;
  const Outcome drawn =
      run("trend " + source_file("profiles/demo/new-starter-C4-second-chart.csv") +
              " --scheme balanced --draws 20 -o trend.svg",
          scratch.path());
  REQUIRE(drawn.code == 0);
  const std::string picture = scratch.read("trend.svg");
  CHECK_THAT(picture, Catch::Contains("fit, 0 to 100"));
  CHECK_THAT(picture, Catch::Contains("net points per drive"));
  const bool held = drawn.out.find("The first answer held") != std::string::npos;
  CHECK_THAT(picture, Catch::Contains(held ? "first answer held" : "first answer did not hold"));
}

TEST_CASE("wrong questions get one clear line") {
  const Outcome path = run(words("whatif", "--set rate.deep_outsied.completion=42%"));
  CHECK(path.code == 1);
  CHECK_THAT(path.err, Catch::Contains("did you mean rate.deep_outside.completion"));
  CHECK(run(words("whatif", "--set nonsense")).code == 1);
  CHECK(run(words("whatif", "-o x.svg")).code == 2);
  CHECK(run(words("package", "--add qb_draw=2")).code == 2);
  CHECK(run(words("package", "--add qb_draw=10% --situation nowhere")).code == 1);
  CHECK(run(words("breakeven", "")).code == 2);
  CHECK(run(words("fit", "--weights luck")).code == 2);
  CHECK(run(words("tailor", "--move 0")).code == 1);
}
