#include "toy.hpp"

#include <callfit/ask/brief.hpp>
#include <callfit/ask/knob.hpp>
#include <callfit/report/question_reports.hpp>

#include <catch2/catch.hpp>

using namespace callfit;

namespace {

Question called(const Question& question, const std::string& name) {
  Question out = question;
  out.profile.name = name;
  return out;
}

}  // namespace

TEST_CASE("a brief of a toss-up says so and claims nobody ahead") {
  const Question somebody = toy::question();
  const Brief brief = make_brief(called(somebody, "Adam"), called(somebody, "Ben"), {1, 60, 1});
  for (const bool markdown : {false, true}) {
    const std::string text = brief_text(brief, markdown);
    CHECK_THAT(text, Catch::Contains("toss-up"));
    CHECK_THAT(text, !Catch::Contains("Adam is worth"));
    CHECK_THAT(text, !Catch::Contains("Ben is worth"));
    CHECK_THAT(text, !Catch::Contains("is ahead,"));
    CHECK_THAT(text, Catch::Contains("does not tell them apart"));
    CHECK_THAT(text, Catch::Contains("small sample"));
  }
}

TEST_CASE("a brief of a clear case names who is ahead, by how much, and why") {
  const Question somebody = toy::question();
  const Question better =
      changed(somebody, {{"rate.quick.completion", Change::Way::set, 0.85, ""},
                         {"rate.quick.interception", Change::Way::set, 0.004, ""},
                         {"rate.quick.sack", Change::Way::set, 0.01, ""}});
  const Brief brief = make_brief(called(better, "Adam"), called(somebody, "Ben"), {1, 60, 1});
  REQUIRE(brief.reasons.size() == 3);
  CHECK(brief.reasons[0].family == "Slant");
  CHECK(brief.reasons[0].net_per_game.interval90.low > 0);
  const std::string text = brief_text(brief, false);
  CHECK_THAT(text, Catch::Contains("Adam is worth"));
  CHECK_THAT(text, !Catch::Contains("toss-up"));
  CHECK_THAT(text, Catch::Contains("Slant: Adam is ahead"));
  REQUIRE(brief.doubt);
  CHECK(brief.doubt->swing > 0);
}
