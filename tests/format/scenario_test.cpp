#include <callfit/base/finding.hpp>
#include <callfit/format/scenario.hpp>

#include <catch2/catch.hpp>

using namespace callfit;

TEST_CASE("changes as words") {
  CHECK(parse_change("rate.a.completion=0.4").amount == 0.4);
  CHECK(parse_change("rate.a.completion=40%").amount == Approx(0.4));
  CHECK(parse_change("gain.sack=-6.5").amount == -6.5);
  const Change scaled = parse_change("call.first.boot=x1.5");
  CHECK(scaled.way == Change::Way::scale);
  CHECK(scaled.amount == 1.5);
  const Change word = parse_change("policy=best");
  CHECK(word.way == Change::Way::word);
  CHECK(word.word == "best");
  for (const char* wrong : {"", "=", "policy", "policy=", "=0.4"})
    CHECK_THROWS_AS(parse_change(wrong), InputError);
}

TEST_CASE("sweeps as words") {
  const SweepRange range = parse_sweep("rate.a.completion=20%:50%:7");
  CHECK(range.path == "rate.a.completion");
  CHECK(range.from == Approx(0.2));
  CHECK(range.at(6) == Approx(0.5));
  CHECK(range.count == 7);
  for (const char* wrong : {"a=0:1", "a=0:1:1", "a=0:1:2.5", "a=x:1:3", "a=0:1:-2", "a=nan:1:3",
                            "a=0x1:1:3", "a= 0:1:3", "a=1e999:1:3", "a=0:1:3 "})
    CHECK_THROWS_AS(parse_sweep(wrong), InputError);
}

TEST_CASE("scenario files") {
  const Scenario scenario = parse_scenario(R"({"format": "callfit-scenario/1", "name": "Bolder",
    "changes": [{"path": "rate.a.completion", "set": 0.4}, {"path": "call.first.boot", "scale": 2},
                {"path": "policy", "set": "best"}]})",
                                           "s.json");
  CHECK(scenario.name == "Bolder");
  REQUIRE(scenario.changes.size() == 3);
  CHECK(scenario.changes[1].way == Change::Way::scale);
  CHECK(scenario.changes[2].word == "best");
}

TEST_CASE("everything wrong with a scenario is told at once") {
  try {
    parse_scenario(R"({"format": "callfit-scenario/1", "colour": 1, "changes": [{"set": 1},
      {"path": "a", "set": 1, "scale": -2}, {"path": "b", "set": [1]}]})",
                   "s.json");
    FAIL("accepted");
  } catch (const InputError& error) {
    CHECK(error.findings().size() == 4);
    CHECK_THAT(error.what(), Catch::Contains("s.json: /changes/2/set:"));
  }
  CHECK_THROWS_WITH(parse_scenario(R"({"format": "callfit-scenario/1", "changes": [
                      {"path": "a", "set": 1, "scale": 2}, {"path": "b"}]})",
                                   "s.json"),
                    Catch::Contains("s.json: /changes/0: needs either set or scale") &&
                        Catch::Contains("/changes/1"));
  CHECK_THROWS_WITH(parse_scenario("[]", "s.json"), Catch::Contains("callfit-scenario/1"));
  CHECK_THROWS_WITH(parse_scenario(R"({"format": "callfit-scenario/1"})", "s.json"),
                    Catch::Contains("list of changes"));
}
