// One case in memory: every number once, whatever is asked in whatever order.
#include "demo_case.hpp"
#include "toy.hpp"

#include <callfit/ask/kept.hpp>
#include <callfit/ask/study.hpp>
#include <callfit/base/finding.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>

using namespace callfit;
using namespace callfit::testing;
using toy::set;

namespace {

bool same(const Number& a, const Number& b) {
  return a.centre == b.centre && a.low == b.low && a.high == b.high && a.draws == b.draws &&
         a.error == b.error;
}

template <class Wanted>
Wanted answer_of(Study& study, const Request& request) {
  return std::get<Wanted>(study.answer(request));
}

const std::string screen_weight = "demand.screen.completion.weight";
const std::string deep = "rate.deep_outside.completion";

}  // namespace

TEST_CASE("the same question has one answer, in whatever kind it is asked", "[plain]") {
  Study study(demo_case());
  const auto compare = answer_of<CompareAnswer>(study, CompareRequest{{}, {0}});
  const auto brief = answer_of<BriefAnswer>(study, BriefRequest{{0, 0, {}}, {1, 0, {}}});
  const auto even =
      answer_of<BreakEvenAnswer>(study, BreakEvenRequest{{0, 0, {}}, {1, 0, {}}, deep});
  const auto fit = answer_of<FitAnswer>(study, FitRequest{});
  const auto drives = answer_of<DrivesAnswer>(study, DrivesRequest{});
  const auto tried = answer_of<TryAnswer>(study, TryRequest{{}, {{"deep", {set(deep, 0.5)}}}});
  const auto next = answer_of<NextAnswer>(study, NextRequest{});

  const Number& net = compare.differences.front().net_points_per_game;
  CHECK(same(net, brief.difference.net_points_per_game));
  CHECK(same(net, even.now_difference.net_points_per_game));
  CHECK(compare.differences.front().ahead.odds == brief.difference.ahead.odds);
  CHECK(compare.entries[0].odds_best == Approx(compare.differences.front().ahead.odds));
  CHECK(same(compare.entries[0].place, fit.place));
  CHECK(same(compare.entries[0].place, brief.first_place));
  CHECK(same(compare.entries[0].place, tried.tries[0].place.before));
  CHECK(same(compare.entries[0].place, next.place));
  CHECK(same(compare.entries[0].net_points, drives.net_points));
  CHECK(same(drives.net_points_per_game, tried.tries[0].drives->net_points_per_game.before));
  CHECK(same(drives.net_points_per_game, next.net_points_per_game));
}

TEST_CASE("answers do not depend on what was asked before, nor on threads", "[plain]") {
  Study first(demo_case(), 1);
  Study second(demo_case(), 2);
  const auto drives = answer_of<DrivesAnswer>(first, DrivesRequest{});
  answer_of<TryAnswer>(second, TryRequest{{1, 0, {}}, {{"deep", {set(deep, 0.5)}}}});
  answer_of<FitAnswer>(second, FitRequest{{1, 0, {}}, false});
  const auto later = answer_of<DrivesAnswer>(second, DrivesRequest{});
  CHECK(same(drives.points, later.points));
  for (std::size_t r = 0; r < drives.results.size(); ++r)
    CHECK(same(drives.results[r].number, later.results[r].number));
  const auto levers = answer_of<LeversAnswer>(first, LeversRequest{});
  const auto shared = answer_of<LeversAnswer>(second, LeversRequest{});
  REQUIRE(levers.levers.size() == shared.levers.size());
  for (std::size_t i = 0; i < levers.levers.size(); ++i)
    CHECK(same(levers.levers[i].net_points_per_game, shared.levers[i].net_points_per_game));
}

TEST_CASE("men worked out on threads of their own come to the same numbers") {
  Study alone(demo_case(), 1);
  Study together(demo_case(), 2);
  const std::vector<Change> calls{set("call.all.screen", 0.1)};
  const SayRequest request{{0, 0, calls}, Stand{1, 0, calls}};
  const auto one = answer_of<SayAnswer>(alone, request);
  const auto two = answer_of<SayAnswer>(together, request);
  REQUIRE((one.difference && two.difference));
  CHECK(same(one.difference->net_points_per_game, two.difference->net_points_per_game));
  CHECK(same(one.difference->points_per_drive, two.difference->points_per_drive));
  CHECK(alone.exact_solves() == together.exact_solves());
}

TEST_CASE("a quarterback's draws hang on his place, not on his name", "[plain]") {
  Case about = demo_case();
  Case renamed = about;
  renamed.quarterbacks[0].profile.name = "Somebody else";
  Case swapped = about;
  std::swap(swapped.quarterbacks[0], swapped.quarterbacks[1]);
  Study one(std::move(about));
  Study two(std::move(renamed));
  Study three(std::move(swapped));
  const Number own = answer_of<FitAnswer>(one, FitRequest{}).place;
  CHECK(same(own, answer_of<FitAnswer>(two, FitRequest{}).place));
  CHECK_FALSE(same(own, answer_of<FitAnswer>(three, FitRequest{{1, 0, {}}, false}).place));
}

TEST_CASE("what is not stale is not computed again") {
  Study study(demo_case());
  answer_of<DrivesAnswer>(study, DrivesRequest{});
  const std::size_t before = study.exact_solves();
  const auto fit = answer_of<FitAnswer>(study, FitRequest{{0, 0, {set(screen_weight, 9)}}, false});
  const auto tried =
      answer_of<TryAnswer>(study, TryRequest{{}, {{"weight", {set(screen_weight, 9)}}}});
  CHECK(study.exact_solves() == before);
  CHECK(same(fit.place, tried.tries[0].place.after));
  CHECK_FALSE(tried.tries[0].drives);

  answer_of<TryAnswer>(study, TryRequest{{}, {{"deep", {set(deep, 0.5)}}}});
  const std::size_t turned = study.exact_solves();
  CHECK(turned > before);
  answer_of<TryAnswer>(study, TryRequest{{}, {{"again", {set(deep, 0.5)}}}});
  CHECK(study.exact_solves() == turned);
}

TEST_CASE("what to chart next tells the film it takes where rows carry times") {
  Case about = demo_case();
  Tape tape = *about.quarterbacks[0].tape;
  std::size_t boots = 0;
  float at = 0;
  for (Snap& snap : tape.charts.front().snaps) {
    snap.clip = "all.mp4";
    snap.start = at;
    snap.end = at + 6;
    at += 30;
    if (snap.family == "boot") ++boots;
  }
  const double film = at - 24;
  about.quarterbacks[0].tape = std::make_shared<const Tape>(std::move(tape));
  Study study(std::move(about));
  const auto minutes = [](const NextAnswer& next) {
    const auto boot = std::find_if(next.families.begin(), next.families.end(),
                                   [](const NextFamily& f) { return f.id == "boot"; });
    return boot->film_minutes;
  };
  NextRequest request;
  request.snaps = 25;
  CHECK(minutes(answer_of<NextAnswer>(study, request)).value() ==
        Approx(film * 25 / static_cast<double>(boots) / 60));
  Study without(demo_case());
  CHECK_FALSE(minutes(answer_of<NextAnswer>(without, request)).has_value());
}

TEST_CASE("parts add up to the whole") {
  Study study(demo_case());
  const auto fit = answer_of<FitAnswer>(study, FitRequest{});
  const double parts = std::accumulate(fit.demands.begin(), fit.demands.end(), 0.0,
                                       [](double sum, const auto& d) { return sum + d.part; });
  const double families = std::accumulate(fit.families.begin(), fit.families.end(), 0.0,
                                          [](double sum, const auto& f) { return sum + f.part; });
  CHECK(parts == Approx(fit.mean_distance).epsilon(1e-12));
  CHECK(families == Approx(fit.mean_distance).epsilon(1e-12));
  const auto brief = answer_of<BriefAnswer>(study, BriefRequest{{0, 0, {}}, {1, 0, {}}});
  double sum = brief.rest;
  double largest = 0;
  for (const ReasonAnswer& reason : brief.reasons) {
    sum += reason.part;
    largest = std::max(largest, std::abs(reason.part));
  }
  const Number& net = brief.difference.net_points_per_game;
  CHECK(sum == Approx(net.centre).margin((net.high - net.low) / 20));  // mean against median
  CHECK(std::abs(brief.rest) < 0.1 * largest);
}

TEST_CASE("a change is split so that its parts add up whichever is changed first", "[plain]") {
  Study study(demo_case());
  const Stand now{0, 0, {}};
  const Stand was{1, 1, {}};
  const auto brief = answer_of<BriefAnswer>(study, BriefRequest{now, was});
  REQUIRE(brief.change.parts.size() == 3);
  double net = 0;
  for (const ChangePart& part : brief.change.parts) net += part.mean_net_points_per_game;
  CHECK(net == Approx(brief.change.mean_net_points_per_game).epsilon(1e-9));
  // The parts of the way back are the same with the other sign.
  const auto back = answer_of<BriefAnswer>(study, BriefRequest{was, now});
  for (std::size_t p = 0; p < 2; ++p) {
    const ChangePart& there = brief.change.parts[p];
    const ChangePart& here = back.change.parts[p];
    CHECK(there.mean_net_points_per_game == Approx(-here.mean_net_points_per_game).epsilon(1e-9));
    CHECK(*there.mean_place == Approx(-*here.mean_place).epsilon(1e-9));
    CHECK(there.net_points_per_game.low == Approx(-here.net_points_per_game.high).epsilon(1e-9));
  }
  // By the four corners: the average of changing the man first and last.
  const auto corner = [&](std::size_t man, std::size_t scheme) {
    const auto all = answer_of<CompareAnswer>(study, CompareRequest{{man}, {scheme}});
    return all.entries.front().net_points.centre * all.drives_per_game;
  };
  const double man = (corner(0, 0) - corner(1, 0) + corner(0, 1) - corner(1, 1)) / 2;
  CHECK(brief.change.parts[0].net_points_per_game.centre == Approx(man).margin(0.25));
  // What is not known of the surroundings widens the whole: variances add up.
  const Setting setting = demo_case().setting;
  const double spread = std::sqrt(2.0) * setting.surroundings_spread * setting.drives_per_game;
  // 1.645 standard deviations: the 95% point of a normal.
  const Number& apart = brief.change.parts[2].net_points_per_game;
  CHECK(apart.high == Approx(1.645 * spread).epsilon(1e-3));
  const auto half = [](const Number& number) { return (number.high - number.low) / 2; };
  const double known = half(brief.difference.net_points_per_game);
  CHECK(half(brief.change.net_points_per_game) ==
        Approx(std::sqrt(known * known + apart.high * apart.high)).epsilon(0.03));
}

TEST_CASE("in one scheme the scheme changes nothing and is left out", "[plain]") {
  Study study(demo_case());
  const auto brief = answer_of<BriefAnswer>(study, BriefRequest{{0, 0, {}}, {1, 0, {}}});
  REQUIRE(brief.change.parts.size() == 2);
  CHECK(brief.change.parts[0].cause == ChangePart::Cause::man);
  const Number& man = brief.change.parts[0].net_points_per_game;
  const Number& all = brief.difference.net_points_per_game;
  CHECK(man.low == Approx(all.low).epsilon(1e-9));
  CHECK(man.centre == Approx(all.centre).epsilon(1e-9));
  CHECK(man.high == Approx(all.high).epsilon(1e-9));
}

TEST_CASE("what a demand costs is what meeting it brings, to first order") {
  Study study(demo_case());
  const auto fit = answer_of<FitAnswer>(study, FitRequest{});
  const DemandAnswer* quick = nullptr;
  for (const DemandAnswer& demand : fit.demands)
    if (fit.families[demand.family].id == "quick_middle" && demand.measure == Measure::completion)
      quick = &demand;
  REQUIRE(quick != nullptr);
  REQUIRE(quick->costs);
  const auto tried = answer_of<TryAnswer>(
      study, TryRequest{{}, {{"meets", {set("rate.quick_middle.completion", quick->asked)}}}});
  CHECK(tried.tries[0].drives->net_points_per_game.change.centre ==
        Approx(quick->costs->centre).epsilon(0.05));
}

TEST_CASE("the paragraph has the numbers of the other answers") {
  Study study(demo_case());
  const auto say = answer_of<SayAnswer>(study, SayRequest{{}, Stand{1, 0, {}}});
  const auto fit = answer_of<FitAnswer>(study, FitRequest{});
  const auto compare = answer_of<CompareAnswer>(study, CompareRequest{{}, {0}});
  CHECK(same(say.place, fit.place));
  REQUIRE(say.difference);
  CHECK(same(say.difference->net_points_per_game, compare.differences.front().net_points_per_game));
  REQUIRE(say.demands.size() == 2);
  const Verdict& first = say.demands[0].demand.reaches;
  CHECK(first.lean() <= say.demands[1].demand.reaches.lean());
  for (const DemandAnswer& demand : fit.demands) CHECK(first.lean() <= demand.reaches.lean());
}

TEST_CASE("what was said of one man is not held against another's season") {
  Study study(demo_case());
  const KeptAnswer said{"2026-08-30", "Somebody else", "A scheme", 12, {}, {}};
  CHECK_THROWS_WITH(study.answer(TrendRequest{{}, 0, {said}}),
                    Catch::Contains("/kept/0/quarterback: was said of Somebody else"));
}

TEST_CASE("what was said is held against what was charted since alone") {
  Study before(demo_case());
  const Quarterback& man = before.about().quarterbacks[0];
  const KeptAnswer said =
      kept_answer(answer_of<FitAnswer>(before, FitRequest{}), man.profile, "2026-08-30");
  CHECK(std::accumulate(said.games.begin(), said.games.end(), 0.0,
                        [](double sum, auto& game) { return sum + game.snaps; }) == said.snaps);
  CHECK_THROWS_WITH(before.answer(TrendRequest{{}, 0, {said}}),
                    Catch::Contains("/kept: nothing of him was charted since"));
  // Twenty boots more, all caught, in a game that was charted to a part, and a new game.
  Case later = demo_case();
  Tape tape = *later.quarterbacks[0].tape;
  Chart more{"later.csv", {}};
  Snap boot = *std::find_if(
      tape.charts.front().snaps.begin(), tape.charts.front().snaps.end(),
      [](const Snap& snap) { return snap.family == "boot" && snap.result == Result::complete; });
  for (int i = 0; i < 20; ++i) {
    if (i == 10) boot.game = "a new game";
    more.snaps.push_back(boot);
  }
  tape.charts.push_back(more);
  later.quarterbacks[0].tape = std::make_shared<const Tape>(std::move(tape));
  Study after(std::move(later));
  const auto trend = answer_of<TrendAnswer>(after, TrendRequest{{}, 0, {said}});
  REQUIRE(trend.kept);
  REQUIRE_FALSE(trend.kept->outcomes.empty());
  for (const KeptOutcome& outcome : trend.kept->outcomes) {
    CHECK(outcome.said.family == "boot");
    CHECK(outcome.of == 20);
  }
}

TEST_CASE("a try that changes nothing changes nothing to the last bit") {
  Study study(demo_case());
  const auto tried = answer_of<TryAnswer>(study, TryRequest{{}, {{"nothing", {}}}});
  CHECK(tried.tries[0].place.change.high == 0);
  CHECK_FALSE(tried.tries[0].drives);
  CHECK(tried.tries[0].moved.empty());
}

TEST_CASE("more tries than are remembered leave the turned stand that they are held against") {
  const Stand turned{0, 0, {set("demand.boot.completion.level", 0.6)}};
  TryRequest many{turned, {}};
  for (int i = 0; i < 40; ++i)
    many.tries.push_back({"", {set("demand.boot.completion.weight", 1 + 0.1 * i)}});
  Study study(demo_case());
  const auto all = answer_of<TryAnswer>(study, many);
  Study fresh(demo_case());
  const auto last = answer_of<TryAnswer>(fresh, TryRequest{turned, {many.tries.back()}});
  CHECK(same(all.tries.back().place.before, last.tries[0].place.before));
  CHECK(same(all.tries.back().place.change, last.tries[0].place.change));
}

TEST_CASE("a stand that a question is about stays while others are made") {
  Study study(demo_case());
  const auto weighed = [](double weight) {
    return Stand{0, 0, {set("demand.boot.completion.weight", weight)}};
  };
  constexpr int many = 32;
  for (int i = 0; i < many; ++i)
    answer_of<FitAnswer>(study, FitRequest{weighed(1 + 0.1 * i), false});
  // The oldest of all that are remembered, against one more.
  const SayRequest request{weighed(1), weighed(1 + 0.1 * many)};
  Study fresh(demo_case());
  CHECK(
      same(answer_of<SayAnswer>(study, request).place, answer_of<SayAnswer>(fresh, request).place));
}

TEST_CASE("what is turned of a man goes with him, what is turned of the scheme with that",
          "[plain]") {
  Study study(demo_case());
  const Stand was{1, 0, {}};
  const Change better = set("rate.quick_middle.completion", 0.8);
  const Change calls = set("call.all.screen", 0.02);
  const auto parts_of = [&](const std::vector<Change>& changes) {
    const auto brief = answer_of<BriefAnswer>(study, BriefRequest{{0, 0, changes}, was});
    double sum = 0;
    for (const ChangePart& part : brief.change.parts) sum += part.mean_net_points_per_game;
    CHECK(sum == Approx(brief.change.mean_net_points_per_game).epsilon(1e-9));
    // What families say of the men is but a little off, whoever is turned.
    CHECK(std::abs(brief.rest) < 0.05 * std::abs(brief.change.mean_net_points_per_game));
    return brief.change.parts;
  };
  const auto alone = parts_of({better});
  REQUIRE(alone.size() == 2);
  CHECK(alone[1].cause == ChangePart::Cause::surroundings);
  const auto both = parts_of({calls, better});
  REQUIRE(both.size() == 3);
  CHECK(both[1].cause == ChangePart::Cause::scheme);
  CHECK(std::abs(both[1].mean_net_points_per_game) > 0.1);
  CHECK(both[0].mean_net_points_per_game == Approx(alone[0].mean_net_points_per_game).epsilon(0.1));
}

TEST_CASE("numbers a game follow the drives that a game has") {
  Study study(demo_case());
  const double usual = study.about().setting.drives_per_game;
  const Change few = set("drives_per_game", usual / 2);
  const auto tried = answer_of<TryAnswer>(study, TryRequest{{}, {{"few", {few}}}});
  REQUIRE(tried.tries[0].drives);
  const DrivesMoved& moved = *tried.tries[0].drives;
  CHECK(moved.net_points_per_drive.change.high == 0);
  CHECK(moved.points_per_game.after.centre == Approx(moved.points_per_game.before.centre / 2));
  const auto whole = answer_of<BriefAnswer>(study, BriefRequest{{0, 0, {}}, {1, 0, {}}});
  const auto half = answer_of<BriefAnswer>(study, BriefRequest{{0, 0, {few}}, {1, 0, {few}}});
  CHECK(half.change.mean_net_points_per_game == Approx(whole.change.mean_net_points_per_game / 2));
  CHECK(half.change.parts[1].net_points_per_game.high ==
        Approx(whole.change.parts[1].net_points_per_game.high / 2));
}

TEST_CASE("a finished profile may know other levels than another man's charts") {
  Case about = demo_case();
  about.quarterbacks[1].tape = nullptr;
  about.quarterbacks[1].profile.weighting.levels.clear();
  Study study(std::move(about));
  const std::string level = "level.high_school.weight";
  CHECK(study.path({0, 0, {}}, level));
  CHECK_FALSE(study.path({1, 0, {}}, level));
  const auto tried =
      answer_of<TryAnswer>(study, TryRequest{{1, 0, {}}, {{"screens", {set(screen_weight, 3)}}}});
  CHECK(tried.tries[0].moved.size() == 1);
}

TEST_CASE("what would go along changes nothing where nothing is turned") {
  Study study(demo_case());
  const auto plain = answer_of<DrivesAnswer>(study, DrivesRequest{});
  const std::size_t spent = study.exact_solves();
  const auto fit = answer_of<FitAnswer>(study, FitRequest{{0, 0, {}, true}, false});
  const auto say = answer_of<SayAnswer>(study, SayRequest{{0, 0, {}, true}, {}});
  CHECK(same(fit.place, say.place));
  CHECK(study.exact_solves() == spent);
  CHECK(fit.about.as_learned);
}

TEST_CASE("requests that cannot be answered are refused with their place") {
  Study study(demo_case());
  const auto refused = [&study](const Request& request) {
    try {
      study.answer(request);
    } catch (const InputError& error) {
      return error.findings().front().place.field;
    }
    return std::string("answered");
  };
  CHECK(refused(FitRequest{{7, 0, {}}, false}) == "/quarterback");
  CHECK(refused(FitRequest{{0, 3, {}}, false}) == "/scheme");
  CHECK(refused(TryRequest{{}, {}}) == "/tries");
  CHECK(refused(TryRequest{{}, {{"x", {set("rate.nobody.completion", 0.5)}}}}) ==
        "rate.nobody.completion");
  CHECK(refused(SweepRequest{{}, {}}) == "/ranges");
  CHECK(refused(DrivesRequest{{}, DriveState{5, 10, 75}}) == "/from");
  CHECK(refused(BreakEvenRequest{{}, {1, 0, {}}, "policy"}) == "policy");
  CHECK(refused(TrendRequest{{0, 0, {set(deep, 0.5)}}, 0, {}}) == "/changes/0/path");
  Study following(demo_case(), 1, Pace::following);
  CHECK_THROWS_AS(following.answer(FitRequest{{}, true}), InputError);
}

TEST_CASE("a case that contradicts itself is refused") {
  Case about = demo_case();
  about.quarterbacks.clear();
  CHECK_THROWS_AS(Study(std::move(about)), InputError);
  Case few = demo_case();
  few.options.draws = 10;
  CHECK_THROWS_AS(Study(std::move(few)), InputError);
}

// 4,000 pairs of draws of one distribution: the mean place is 50 with a standard error of at most
// 100 sqrt(1 / (6 x 4000)) = 0.65 (the Mann-Whitney statistic under equality); the median of places
// that are uniform has 100 / (2 sqrt(4000)) = 0.8. Four of them.
TEST_CASE("of somebody never charted half the level fits worse, of a good man more") {
  Case about = demo_case(4000);
  const Setting& setting = about.setting;
  Profile nobody = build_profile("Nobody", {}, setting, weighting_of(setting));
  Profile good = nobody;
  const auto turn = [](FamilyProfile& family, Rate which, double toward) {
    auto& rate = family.rates[static_cast<std::size_t>(which)];
    if (!rate) return;
    rate->mean += 0.5 * (toward - rate->mean);
    rate->strength *= 10;
  };
  for (FamilyProfile& family : good.families) {
    turn(family, Rate::completion, 1);
    turn(family, Rate::interception, 0);
  }
  about.quarterbacks = {{nobody, nullptr}, {good, nullptr}};
  Study study(std::move(about));
  const auto unknown = answer_of<FitAnswer>(study, FitRequest{});
  CHECK(std::abs(unknown.place.centre - 50) < 3.2);
  CHECK(unknown.place.high - unknown.place.low > 85);
  CHECK(unknown.unused.empty());
  const auto known = answer_of<FitAnswer>(study, FitRequest{{1, 0, {}}, false});
  CHECK(known.place.centre > 75);
}

// A demand that nearly everybody of the level meets, told of a man who was never charted; his own
// tape speaks where it says otherwise than the level.
TEST_CASE("what the level alone says is not said to be his") {
  Case about = demo_case();
  about.quarterbacks[1].profile = build_profile("Nobody yet", {}, about.setting, {});
  about.quarterbacks[1].tape = nullptr;
  Study study(std::move(about));
  const auto of = [&study](std::size_t man, double asked) {
    const auto fit = answer_of<FitAnswer>(
        study, FitRequest{{man, 0, {set("demand.boot.completion.level", asked)}}, false});
    for (const DemandAnswer& demand : fit.demands)
      if (demand.asked_path == "demand.boot.completion.level") return demand.reaches;
    return Verdict{};
  };
  const Verdict uncharted = of(1, 0.45);
  CHECK(uncharted.yes());
  CHECK(uncharted.is_the_levels());
  const Verdict as_usual = of(1, 0.605);
  CHECK(as_usual.lean() == Lean::open);
  CHECK_FALSE(as_usual.is_the_levels());
  // The new starter's boots fall short of what half the level reaches.
  const Verdict his_own = of(0, 0.61);
  CHECK_FALSE(his_own.yes());
  CHECK_FALSE(his_own.is_the_levels());
}
