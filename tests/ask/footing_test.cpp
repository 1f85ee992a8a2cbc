// What an answer rests on, and what is turned as if learned.
#include "demo_case.hpp"

#include <ask/learned.hpp>
#include <callfit/ask/study.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/population/posterior.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <string>

using namespace callfit;
using namespace callfit::testing;
using nlohmann::json;

namespace {

const std::string demo_file = std::string(CALLFIT_SOURCE_DIR) + "/profiles/demo/case.json";

Case case_of(const json& document) {
  Files disk;
  Findings notices;
  return parse_case(document.dump(), demo_file, shipped_texts(disk), disk.beside(), notices);
}

json demo_document() {
  json document = json::parse(Files().read(demo_file));
  document["options"]["draws"] = 1000;
  return document;
}

template <class Wanted>
Wanted told(Study& study, const Request& request) {
  return std::get<Wanted>(study.answer(request));
}

// Three quantities on two traits with one factor.
Population small() {
  Population population;
  population.factors = 1;
  population.traits = {{"a", 0.5, {0.8}, 0, 0, 0, {1, 1, 1, 1}},
                       {"b", 0.3, {-0.6}, 0, 0, 0, {1, 1, 1, 1}}};
  population.quantities = {
      {"a.1", 0, 1, 0.2, {0.4}}, {"a.2", 0, 1, 0, {0.1}}, {"b", 1, 2, 0.1, {-1.0}}};
  return population;
}

}  // namespace

// E(y | x) = E y + cov(x, y) / var(x) (x - E x), any textbook.
TEST_CASE("what is learned of one normal moves the others along the regression") {
  const Population population = small();
  const Posterior posterior = posterior_of(population, {});
  const auto moves = callfit::ask::moves_given(population, posterior, {{0, 0.35}});
  const double variance = .25 + .04;
  CHECK(moves[0] == 0.35);
  CHECK(moves[1] == Approx(.25 / variance * .35).epsilon(1e-6));
  CHECK(moves[2] == Approx(2 * .5 * .3 * .8 * -.6 / variance * .35).epsilon(1e-6));
}

// With x = (x1, x2) known, weights are S_yx S_xx^-1.
TEST_CASE("what is learned of two normals counts once") {
  const Population population = small();
  const Posterior posterior = posterior_of(population, {});
  const auto moves = callfit::ask::moves_given(population, posterior, {{0, 0.35}, {2, 0.1}});
  const double xx = .29, xy = 2 * .5 * .3 * .8 * -.6, yy = 4 * .09 + .01;
  const double zx = .25, zy = xy;
  const double det = xx * yy - xy * xy;
  const double expected = (zx * yy - zy * xy) / det * .35 + (zy * xx - zx * xy) / det * .1;
  CHECK(moves[1] == Approx(expected).epsilon(1e-6));
}

TEST_CASE("a rate that is turned moves alone, or what goes with it too") {
  Study study(demo_case());
  const Change change{"rate.quick_outside.completion", Change::Way::set, 0.8, ""};
  const auto tried = [&](bool as_learned) {
    return told<TryAnswer>(study, TryRequest{{0, 0, {}, as_learned}, {{"t", {change}}}});
  };
  const TryAnswer alone = tried(false);
  const TryAnswer learned = tried(true);
  CHECK_FALSE(alone.about.as_learned);
  CHECK(learned.about.as_learned);
  REQUIRE(alone.tries[0].moved.size() == 1);
  CHECK(learned.tries[0].moved.size() > 5);
  for (const Moved& moved : learned.tries[0].moved) {
    if (moved.path == "rate.quick_middle.completion") CHECK(moved.after > moved.before);
    if (moved.path == "rate.quick_middle.interception") CHECK(moved.after < moved.before);
    if (moved.asked) CHECK(moved.after == Approx(0.8));
  }
  CHECK(learned.tries[0].drives->net_points_per_game.change.centre >
        alone.tries[0].drives->net_points_per_game.change.centre);
  CHECK_THROWS_AS(study.answer(LeversRequest{{0, 0, {}, true}}), InputError);
}

TEST_CASE("an answer tells what its interval owes to the move", "[plain]") {
  json document = demo_document();
  Study plain(case_of(document));
  const auto before = told<DrivesAnswer>(plain, DrivesRequest{});
  REQUIRE(before.about.footing);
  const double by_level = before.about.footing->moves->net_points.value();
  CHECK(by_level > 0);  // a part of the demo's tape is of another level
  CHECK_FALSE(before.about.footing->moves->place);
  CHECK_FALSE(before.about.footing->schedule);

  Files disk;
  std::string text = disk.read(std::string(CALLFIT_SOURCE_DIR) + "/profiles/demo/new-starter.csv");
  std::string with_season;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    const std::string line = text.substr(at, end - at);
    with_season += line +
                   (at == 0                    ? ",season"
                    : line.find("college") < 8 ? ",2025"
                                               : ",2024") +
                   '\n';
    at = end + 1;
  }
  document["quarterbacks"][0]["charts"] = {{{"name", "s.csv"}, {"csv", with_season}}};
  document["quarterbacks"][0]["moves"] = {{{"season", "2025"}, {"change", "new_team"}}};
  Study moved(case_of(document));
  const auto after = told<DrivesAnswer>(moved, DrivesRequest{});
  CHECK(after.about.footing->moves->net_points.value() > by_level);
  CHECK(after.net_points.high - after.net_points.low >
        before.net_points.high - before.net_points.low);
}

TEST_CASE("while a hand moves an answer rests on what its tape does", "[plain]") {
  Study study(case_of(demo_document()), 1, Pace::following);
  const Change completion{"rate.boot.completion", Change::Way::set, 0.7, ""};
  const Change weight{"level.high_school.weight", Change::Way::set, 0.2, ""};
  const auto move_of = [&](const std::vector<Change>& changes) {
    return told<FitAnswer>(study, FitRequest{{0, 0, changes}, false})
        .about.footing->moves->place.value();
  };
  CHECK(move_of({completion}) == move_of({}));
  CHECK(move_of({weight, completion}) != move_of({}));
}

TEST_CASE("assumed spreads can be doubted, and what rests on them is told") {
  json document = demo_document();
  Study plain(case_of(document));
  document["options"]["assumed"] = 2;
  Study doubted(case_of(document));
  const auto once = told<FitAnswer>(plain, FitRequest{});
  const auto twice = told<FitAnswer>(doubted, FitRequest{});
  CHECK(once.about.assumed_scale == 1);
  CHECK(twice.about.assumed_scale == 2);
  // The demo's scheme asks for rates that only a chart counts, whose spreads are assumed.
  CHECK(once.about.footing->assumed.place.value() != 0);
  CHECK(std::abs(once.about.footing->assumed.place.value()) < 0.5);
  CHECK(twice.place.low != once.place.low);
}

TEST_CASE("a finished profile is read under doubted spreads as its charts are") {
  Files disk;
  const json document = demo_document();
  json whole = json::parse(whole_case(case_of(document), document.dump(), demo_file,
                                      shipped_texts(disk), disk.beside()));
  whole["options"]["assumed"] = 2;
  json charts = document;
  charts["options"]["assumed"] = 2;
  Study by_profile(case_of(whole));
  Study by_charts(case_of(charts));
  const Number a = told<FitAnswer>(by_profile, FitRequest{}).place;
  const Number b = told<FitAnswer>(by_charts, FitRequest{}).place;
  // Charts are counted anew under the doubted spreads, which share out yards whose depth nobody
  // charted a little otherwise: a few draws of a thousand may change places.
  CHECK(a.centre == Approx(b.centre).margin(0.1));
  CHECK(a.low == Approx(b.low).margin(0.1));
}

TEST_CASE("known opponents tell how far the schedule moved the numbers") {
  json document = demo_document();
  document["opponents"] = {{"name", "o.csv"},
                           {"csv", "opponent,better_than,give_or_take\nQuillhaven,0.05,0.05\n"}};
  Study study(case_of(document));
  const auto drives = told<DrivesAnswer>(study, DrivesRequest{});
  REQUIRE(drives.about.footing->schedule);
  CHECK(drives.about.footing->schedule->opponents == 1);
  CHECK(drives.about.footing->schedule->moved.net_points_per_game.value() < 0);
}

TEST_CASE("numbers are against the opponents to come, and told is how far these moved them",
          "[plain]") {
  json document = demo_document();
  const auto net = [](const json& one) {
    Study study(case_of(one));
    return told<DrivesAnswer>(study, DrivesRequest{});
  };
  const auto usual = net(document);
  CHECK_FALSE(usual.about.footing->coming);
  document["coming_opponents"] = {{"name", "c.csv"},
                                  {"csv", "opponent,better_than\nFarrow,0.05\nTarn,0.1\n"}};
  const auto coming = net(document);
  REQUIRE(coming.about.footing->coming);
  const double moved = coming.about.footing->coming->net_points_per_game.value();
  CHECK(moved > 0.2);
  // Told to first order over some draws; the bend and what a median is beside a mean are left out.
  CHECK(coming.net_points_per_game.centre - usual.net_points_per_game.centre ==
        Approx(moved).epsilon(0.25));
  CHECK_FALSE(coming.about.footing->schedule);
  // Weak defences who were met take off what they gave, whoever comes.
  document["opponents"] = {{"name", "o.csv"}, {"csv", "opponent,better_than\nQuillhaven,0.05\n"}};
  const auto both = net(document);
  json met = document;
  met.erase("coming_opponents");
  // To first order at his means, which are other ones.
  CHECK(both.about.footing->schedule->moved.net_points_per_game.value() ==
        Approx(net(met).about.footing->schedule->moved.net_points_per_game.value()).epsilon(0.1));
  Study study(case_of(document));
  const auto fit = told<FitAnswer>(study, FitRequest{});
  CHECK(fit.about.footing->coming->place.value() > 0);
}
