#include <callfit/report/record_text.hpp>

#include <catch2/catch.hpp>

using namespace callfit;

TEST_CASE("what odds came to is told with its pairs and its error") {
  const Record record{"made-up men",
                      "made up",
                      {{.5, .75, 2000, .62, .59, .026},
                       {.75, .95, 700, .82, .78, .047},
                       {.95, 1, 15, .96, .87, .1}}};
  CHECK(record_text(record) ==
        "Record: of two made-up men, with the season before as tape, the one ahead by the odds, "
        "surroundings and a season's chance counted, scored more points per drive, at odds below "
        "3 in 4: 59% of 2000 pairs (standard error 3%, the odds had said 62%); at odds from 3 in 4 "
        "to 19 in 20: 78% of 700 pairs (standard error 5%, the odds had said 82%); at odds from 19 "
        "in 20 on: 87% of 15 pairs (standard error 10%, the odds had said 96%).");
}

TEST_CASE("the record stands beside answers that hold two men against each other") {
  Case about;
  const auto told = [&about](const Answer& answer) { return record_beside(answer, about); };
  CHECK(told(BriefAnswer{}).empty());
  about.record = Record{"made-up men", "made up", {{.5, 1, 20, .6, .6, .1}}};
  const std::string text = record_text(*about.record);
  CHECK(told(BriefAnswer{}) == text);
  CHECK(told(BreakEvenAnswer{}) == text);
  CHECK(told(FitAnswer{}).empty());
  CompareAnswer compared;
  compared.quarterbacks = {"A"};
  CHECK(told(compared).empty());
  compared.quarterbacks = {"A", "B"};
  CHECK(told(compared) == text);
  SayAnswer say;
  CHECK(told(say).empty());
  say.difference = DifferenceAnswer{};
  CHECK(told(say) == text);
}
