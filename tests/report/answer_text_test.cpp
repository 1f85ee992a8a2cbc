#include "../support/schema_check.hpp"
#include "sample_answers.hpp"

#include <callfit/report/answer_text.hpp>
#include <callfit/report/cautions.hpp>
#include <callfit/report/door.hpp>
#include <callfit/report/number_text.hpp>
#include <callfit/report/table.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <fstream>
#include <limits>
#include <sstream>

using namespace callfit;
using namespace callfit::test;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

json document_of(const Asked& asked) {
  return json::parse(answer_document(asked.request, asked.answer, sample_case()));
}

// As one line, so that a sentence is found however it was wrapped.
std::string one_line(const std::string& text) {
  std::istringstream words(text);
  std::string out;
  for (std::string word; words >> word;) out += word + ' ';
  return out;
}

Number number_at(const json& answer, const std::string& pointer) {
  const json& value = answer.at(json::json_pointer(pointer));
  return {value.at("centre"), value.at("low"), value.at("high"), value.at("draws"),
          value.at("error")};
}

/// A number of the JSON answer that its text shows too.
struct Shown {
  const char* pointer;
  Unit unit;
  bool with_range = true;
};

void check_shown(const Answer& answer, const std::vector<Shown>& list) {
  const json document = document_of({samples().at(0).request, answer});
  const std::string text = one_line(text_of(answer));
  for (const Shown& shown : list) {
    INFO(shown.pointer);
    const Number number = number_at(document.at("answer"), shown.pointer);
    CHECK_THAT(text, Contains(value_text(shown.unit, number.centre)));
    if (shown.with_range) CHECK_THAT(text, Contains(range_text(shown.unit, number)));
  }
}

constexpr auto signed_points = Unit::signed_points;

}  // namespace

TEST_CASE("every answer document fits its schema") {
  std::ifstream file(CALLFIT_SOURCE_DIR "/docs/formats/callfit-answer-1.schema.json");
  const json schema = json::parse(file);
  for (const Asked& asked : samples()) {
    INFO(kind_of(asked.request));
    CHECK(schema_faults(document_of(asked), schema) == std::vector<std::string>{});
  }
  json broken = document_of(samples().front());
  broken["answer"]["place_of_100"]["centre"] = "54";
  broken["answer"]["demands"][0].erase("label");
  CHECK(schema_faults(broken, schema).size() == 3);  // two faults and the choice that none fits
}

TEST_CASE("texts are at most 100 columns wide and end no line in spaces") {
  for (const Asked& asked : samples()) {
    std::istringstream lines(text_of(asked.answer));
    for (std::string line; std::getline(lines, line);) {
      INFO(line);
      CHECK(code_points(line) <= text_width);
      CHECK((line.empty() || line.back() != ' '));
    }
  }
}

TEST_CASE("text and JSON say the same numbers: fit, drives, comparison") {
  check_shown(sample_fit(), {{"/place_of_100", Unit::place},
                             {"/distance_squared", Unit::distance},
                             {"/demands/0/estimate", Unit::share},
                             {"/demands/1/estimate", Unit::share},
                             {"/demands/3/estimate", Unit::yards},
                             {"/unused_strengths/0/estimate", Unit::yards}});
  check_shown(sample_drives(), {{"/points_per_drive", Unit::points},
                                {"/net_points_per_drive", signed_points},
                                {"/points_per_game", Unit::points},
                                {"/net_points_per_game", signed_points},
                                {"/results/1/share_of_drives", Unit::share},
                                {"/first_downs_per_drive", Unit::count},
                                {"/plays_per_drive", Unit::count},
                                {"/first_and_ten/74/points_per_drive", Unit::points},
                                {"/first_and_ten/98/net_points_per_drive", signed_points}});
  CHECK_THAT(drives_text(sample_drives()),
             Catch::Contains("First and ten") && Catch::Contains(value_text(Unit::count, 2.625)));
  check_shown(sample_compare(), {{"/entries/1/place_of_100", Unit::place},
                                 {"/entries/0/points_per_drive", Unit::points, false},
                                 {"/entries/1/net_points_per_drive", signed_points},
                                 {"/differences/0/net_points_per_game", signed_points}});
}

TEST_CASE("text and JSON say the same numbers: tries, sweeps, levers") {
  const std::vector<Shown> effects{{"/tries/0/place_of_100/before", Unit::place, false},
                                   {"/tries/0/place_of_100/change", Unit::signed_place},
                                   {"/tries/0/points_per_drive/change", signed_points},
                                   {"/tries/0/net_points_per_drive/after", signed_points, false},
                                   {"/tries/0/points_per_game/before", Unit::points, false},
                                   {"/tries/0/net_points_per_game/change", signed_points}};
  check_shown(sample_try(1), effects);
  check_shown(sample_try(3), {{"/tries/2/net_points_per_game/change", signed_points},
                              {"/tries/1/net_points_per_game/after", signed_points, false},
                              {"/tries/2/place_of_100/after", Unit::place, false}});
  check_shown(sample_sweep(1), {{"/cells/1/0/place_of_100", Unit::place, false},
                                {"/cells/1/0/points_per_drive", Unit::points, false},
                                {"/cells/2/0/net_points_per_game_change", signed_points}});
  check_shown(sample_sweep(2), {{"/cells/2/1/net_points_per_game_change", signed_points, false}});
  check_shown(sample_levers(), {{"/levers/0/net_points_per_game", signed_points},
                                {"/levers/1/net_points_per_game", signed_points}});
}

TEST_CASE("text and JSON say the same numbers: the other questions") {
  check_shown(sample_break_even(true),
              {{"/now_first_minus_second/net_points_per_game", signed_points}});
  check_shown(sample_package(), {{"/effect/net_points_per_game/change", signed_points},
                                 {"/effect/points_per_drive/change", signed_points}});
  check_shown(sample_tailor(), {{"/effect/net_points_per_game/change", signed_points}});
  check_shown(sample_next(),
              {{"/net_points_per_game", signed_points}, {"/place_of_100", Unit::place}});
  check_shown(sample_trend(), {{"/steps/2/place_of_100", Unit::place},
                               {"/steps/2/net_points_per_drive", signed_points},
                               {"/steps/1/followed/0", Unit::share}});
  check_shown(sample_brief(), {{"/first_minus_second/net_points_per_game", signed_points},
                               {"/reasons/1/net_points_per_game", signed_points},
                               {"/second_place_of_100", Unit::place},
                               {"/doubt/estimate", Unit::share},
                               {"/wrinkle/net_points_per_game", signed_points}});
}

TEST_CASE("wherever net points are shown, it is said what they are") {
  for (const Asked& asked : samples()) {
    const std::string text = one_line(text_of(asked.answer));
    INFO(text);
    if (text.find("net ") != std::string::npos)
      CHECK_THAT(text, Contains("his points less what the opponent then expects"));
  }
}

TEST_CASE("the fit is a place among 100, its parts add up, short and met are told by odds") {
  const std::string text = one_line(text_of(sample_fit()));
  CHECK_THAT(text, Contains("54 of 100 quarterbacks of this level fit it worse; 21 to 80."));
  CHECK_THAT(text, !Contains("better than"));
  CHECK_THAT(text,
             Contains("Clearly short (odds 19 in 20 and more) on 1 of 4 demands: completion, two "
                      "high (Boot, rollout)."));
  CHECK_THAT(text, Contains("clearly there *") && Contains("*: as most of his level are"));
  CHECK_THAT(text, Contains("23 of 31"));
  CHECK_THAT(text, Contains("mean part of D² 0.523") && Contains("its mean over the draws, 0.734"));
}

TEST_CASE("what an answer rests on is told below its tape") {
  const std::string text = one_line(text_of(samples().at(0).answer));
  CHECK_THAT(text,
             Contains("Were assumed spreads half as wide, the interval of net points would be 8.2% "
                      "narrower, that of his distance from what is asked 3.1% wider (they are "
                      "taken 1.50 times as wide); 11% "
                      "of the variance of net points, 7.0% of the place's comes from what changed "
                      "since he was charted."));
  CHECK_THAT(text, Contains("Numbers are against the opponents to come, which moved net points a "
                            "game by +0.61, the place by +1.5; what is known of 3 charted "
                            "opponents moved net points a game by -0.42, the place by -2"));
  CHECK_THAT(text,
             Contains("Charted games depart from their season 2025: completion 71 of 90 (79%) "
                      "charted, 180 of 310 (58%) in the rest, 3.1 standard errors apart"));
}

TEST_CASE("a try says whether a rate was turned alone or as if learned") {
  for (const Asked& asked : samples())
    if (const auto* tried = std::get_if<TryAnswer>(&asked.answer)) {
      TryAnswer answer = *tried;
      CHECK_THAT(one_line(text_of(answer)), Contains("Turned alone: his other rates stay."));
      answer.about.as_learned = true;
      CHECK_THAT(one_line(text_of(answer)),
                 Contains("Turned as if it had been learned: what goes with it moves along."));
    }
}

TEST_CASE("a difference is told as far as its odds go") {
  CompareAnswer answer = sample_compare();
  CHECK_THAT(one_line(text_of(answer)),
             Contains("new-starter is clearly ahead of last-starter (odds 19 in 20)"));
  answer.differences[0].ahead = {0.2, 0.001};
  CHECK_THAT(one_line(text_of(answer)), Contains("It leans to last-starter (odds 4 in 5)"));
  answer.differences[0].ahead = {0.62, 0.001};
  CHECK_THAT(one_line(text_of(answer)),
             Contains("Open between new-starter and last-starter (odds 3 in 5 for new-starter)"));
  answer.differences[0].ahead = {0.5, 0.001};
  CHECK_THAT(one_line(text_of(answer)), Contains("last-starter (odds about even)"));
  answer.differences[0].ahead = {0.951, 0.01};
  CHECK_THAT(one_line(text_of(answer)), Contains("near the line, another seed may say it"));
}

TEST_CASE("a bare count that says otherwise than the estimate is not left alone") {
  SayAnswer say = sample_say();
  DemandAnswer& demand = say.demands.front().demand;
  demand.asked = 0.72;
  demand.estimate = {0.66, 0.62, 0.7, 4096, 0};
  demand.of = 37;
  demand.made = 20;
  CHECK_THAT(paragraph(say), Contains("with 20 of 37 charted"));
  demand.made = 28;
  CHECK_THAT(paragraph(say), Contains("though 28 of 37 were charted (snaps count by their level"));
}

TEST_CASE("where every draw was solved exactly, it is said") {
  CHECK_THAT(one_line(text_of(sample_compare())),
             Contains("last-starter in Quick middle: Every draw was solved exactly (8000 solves)"));
  CHECK_THAT(one_line(text_of(sample_drives())), Contains("416 exact solves"));
}

TEST_CASE("a try that turns the fit alone claims nothing about points") {
  TryAnswer answer = sample_try(1);
  answer.tries[0].drives.reset();
  const std::string text = one_line(text_of(answer));
  CHECK_THAT(text, Contains("no drive can change, the fit alone is turned"));
  CHECK_THAT(text, !Contains("better"));
}

TEST_CASE("a break-even is a value, or none with both ends") {
  CHECK_THAT(one_line(text_of(sample_break_even(true))),
             Contains("new-starter is worth as much as last-starter when new-starter's "
                      "completion, boot is 57%; now it is 61%") &&
                 Contains("Odds that new-starter's own value lies above it, where new-starter is "
                          "ahead: 4 in 5."));
  CHECK_THAT(one_line(text_of(sample_break_even(false))),
             Contains("No value of new-starter's completion, boot") &&
                 Contains("at 40% the difference is -2.31"));
}

TEST_CASE("a brief is plain text or Markdown") {
  const std::string plain_text = brief_text(sample_brief());
  CHECK_THAT(plain_text, Catch::StartsWith("new-starter or last-starter in Quick middle\n====="));
  const std::string markdown = brief_text(sample_brief(), true);
  CHECK_THAT(markdown, Catch::StartsWith("# new-starter or last-starter in Quick middle\n"));
  CHECK_THAT(markdown, Contains("**Answer.**") && Contains("\n\n- Boot, rollout: "));
}

TEST_CASE("levers are shown up to a count") {
  CHECK_THAT(levers_text(sample_levers(), 1), !Contains("completion, boot  "));
  CHECK_THAT(levers_text(sample_levers(), 2), Contains("completion, boot  "));
}

TEST_CASE("a number that is none reaches neither text nor JSON") {
  FitAnswer fit = sample_fit();
  fit.place.low = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(text_of(fit), std::logic_error);
  CHECK_THROWS_AS(answer_document(FitRequest{}, fit, sample_case()), std::logic_error);
  BriefAnswer brief = sample_brief();
  brief.wrinkle->points_per_game.error = std::numeric_limits<double>::infinity();
  CHECK_THROWS_AS(answer_document(BriefRequest{}, brief, sample_case()), std::logic_error);
}

TEST_CASE("cautions stand in every document, and as one paragraph") {
  for (const Asked& asked : samples())
    CHECK(document_of(asked).at("cautions").size() == cautions.size());
  CHECK_THAT(cautions_text(), Catch::StartsWith("Cautions: A few charted snaps") &&
                                  Contains("Not for medical, eligibility or betting decisions."));
}

TEST_CASE("text and JSON say the same of snaps") {
  const SnapsAnswer answer = sample_snaps();
  check_shown(answer, {{"/shown", Unit::share}});
  const std::string text = text_of(answer);
  const json told = document_of({SnapsRequest{{}, "rate.boot.completion"}, answer}).at("answer");
  REQUIRE(told.at("rows").size() == 3);
  for (const json& row : told.at("rows")) {
    const double moved = row.at("moved");
    INFO(text);
    CHECK(text.find(signed_fixed(100 * moved, 2) + "%") != std::string::npos);
    CHECK(text.find(":" + std::to_string(row.at("line").get<int>())) != std::string::npos);
  }
  CHECK(told.at("rows")[0].at("clip") == "half.mp4");
  CHECK(text.find("1:23.5") != std::string::npos);
  CHECK(told.at("rows")[2].at("why_not") == "no throw");
  CHECK(text.find("1 row is not counted: no throw 1.") != std::string::npos);
  for (const char* part : {"mean_without_tape", "mean_with_tape"})
    CHECK(text.find(fixed(100 * told.at("moves").at(part).get<double>(), 1) + "%") !=
          std::string::npos);
}
