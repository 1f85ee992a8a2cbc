#include "sample_answers.hpp"

namespace callfit::test {
namespace {

constexpr std::size_t draws = 4000;

// Every call gives other digits, so that a number found in a text is that number.
class Numbers {
 public:
  Number share() { return around(0.3 + 0.0101 * step(), 0.071); }
  Number points() { return around(2.0 + 0.0107 * step(), 0.43); }
  Number signed_points() { return around(-0.6 + 0.0703 * step(), 0.37); }
  Number place() { return around(40.0 + step(), 17.0); }
  Number distance() { return around(0.4 + 0.0137 * step(), 0.11); }
  Number yards() { return around(5.0 + 0.1 * step(), 1.2); }

 private:
  double step() { return static_cast<double>(++step_ % 37); }
  static Number around(double centre, double half) {
    return {centre, centre - half, centre + 1.1 * half, draws, half / 40};
  }
  int step_ = 0;
};

About about(const std::string& quarterback = "new-starter") {
  About about;
  about.quarterback = quarterback;
  about.scheme = "Quick middle";
  about.level = "college";
  about.snaps = 308;
  about.tape = {{"college", 197}, {"high_school", 111}};
  about.footing = Footing{VarianceShares{0.11, 0.07},
                          {0.082, -0.031},
                          ScheduleEffect{3, {-0.42, -2}},
                          MeansMoved{0.61, 1.5}};
  about.assumed_scale = 1.5;
  about.departures = {{"2025", "college", BoxRate::completion, {71, 90}, {180, 310}, 3.14}};
  return about;
}

Effect effect(Numbers& numbers, Number (Numbers::*of)(), Number (Numbers::*change)()) {
  const Number before = (numbers.*of)();
  const Number after = (numbers.*of)();
  return {before, after, (numbers.*change)()};
}

DifferenceAnswer difference(Numbers& numbers, double odds) {
  return {"new-starter",      "last-starter",          numbers.signed_points(),
          numbers.points(),   numbers.signed_points(), numbers.signed_points(),
          Verdict{odds, 0.01}};
}

TryResult try_result(Numbers& numbers, const std::string& name) {
  TryResult result;
  result.name = name;
  result.moved = {
      {"rate.boot.completion", "completion, boot", KnobUnit::share, 0.61, 0.72, "", "", true},
      {"policy", "fourth downs", KnobUnit::word, 0, 1, "table", "best", true},
      {"call.first.dive", "dive on first down", KnobUnit::share, 0.41, 0.37, "", "", false}};
  result.place = effect(numbers, &Numbers::place, &Numbers::signed_points);
  DrivesMoved& drives = result.drives.emplace();
  drives.points_per_drive = effect(numbers, &Numbers::points, &Numbers::signed_points);
  drives.net_points_per_drive = effect(numbers, &Numbers::signed_points, &Numbers::signed_points);
  drives.points_per_game = effect(numbers, &Numbers::points, &Numbers::signed_points);
  drives.net_points_per_game = effect(numbers, &Numbers::signed_points, &Numbers::signed_points);
  drives.better = {0.83, 0.012};
  return result;
}

LeverAnswer lever(Numbers& numbers, const std::string& path, const std::string& label) {
  LeverAnswer one;
  one.path = path;
  one.label = label;
  one.now = 0.31;
  one.step = 0.07;
  one.net_points_per_game = numbers.signed_points();
  one.points_per_game = numbers.signed_points();
  one.place = 2.7;
  return one;
}

Family family(const std::string& id, const std::string& label) {
  Family one;
  one.id = id;
  one.label = label;
  return one;
}

Scheme scheme(const std::string& id, const std::string& name) {
  Scheme one;
  one.id = id;
  one.name = name;
  one.families = {family("boot", "Boot, rollout"), family("dive", "Inside run")};
  for (const char* situation : {"first", "rest"}) {
    CallSituation calls;
    calls.id = situation;
    calls.label = situation;
    calls.share = {0.5, 0.5};
    one.situations.push_back(calls);
  }
  return one;
}

Quarterback quarterback(const std::string& name) {
  Quarterback one;
  one.profile.name = name;
  return one;
}

DemandAnswer demand(Numbers& numbers, const std::string& label, double odds,
                    std::optional<double> level_odds) {
  DemandAnswer one;
  one.label = label;
  one.asked = 0.62;
  one.spread = 0.05;
  one.made = 23;
  one.of = 31;
  one.usual = 0.57;
  one.estimate = numbers.share();
  one.short_by = numbers.signed_points();
  one.weight = 0.5;
  one.part = 0.211;
  one.reaches = {odds, 0.01, level_odds};
  return one;
}

Stand turned() {
  return {0,
          1,
          {{"rate.boot.completion", Change::Way::scale, 1.25, ""},
           {"policy", Change::Way::word, 0, "best"},
           {"call.first.dive", Change::Way::set, 0.4, ""}}};
}

}  // namespace

Case sample_case() {
  Case about;
  about.name = "Sample";
  about.schemes = {scheme("quick-middle", "Quick middle"), scheme("balanced", "Balanced")};
  about.quarterbacks = {quarterback("new-starter"), quarterback("last-starter"),
                        quarterback("last-starter")};
  return about;
}

FitAnswer sample_fit() {
  Numbers numbers;
  FitAnswer answer;
  answer.about = about();
  answer.place = {54, 21, 80, draws, 1.4};
  answer.distance = numbers.distance();
  answer.mean_distance = 0.734;
  answer.families = {{"boot", "Boot, rollout", "call.all.boot", 0.18, 45, 0.523, 0.87, false},
                     {"post", "Deep middle", "call.all.post", 0.04, 0, 0.211, -0.19, true}};
  answer.demands = {demand(numbers, "completion, two high", 0.03, 0.4),
                    demand(numbers, "sack", 0.97, 0.98), demand(numbers, "success", 0.6, {})};
  answer.demands[0].cell = Cell::two_high;
  answer.demands[0].costs = numbers.signed_points();
  answer.demands[1].measure = Measure::sack;
  answer.demands[1].more_is_better = false;
  answer.demands[2].family = 1;
  DemandAnswer yards = demand(numbers, "yards after catch", 0.8, {});
  yards.measure = Measure::yards_after_catch;
  yards.in_yards = true;
  yards.asked = 6.1;
  yards.estimate = numbers.yards();
  yards.made = yards.of = 0;
  answer.demands.push_back(yards);
  answer.unused = {{"Draw", "run gain", Measure::run_gain, true, numbers.yards(), 4.3, 1.1, 0.02}};
  return answer;
}

DrivesAnswer sample_drives() {
  Numbers numbers;
  DrivesAnswer answer;
  answer.about = about();
  answer.points = numbers.points();
  answer.net_points = numbers.signed_points();
  answer.points_per_game = numbers.points();
  answer.net_points_per_game = numbers.signed_points();
  answer.drives_per_game = 11.6;
  for (const DriveResult result : {DriveResult::touchdown, DriveResult::punt})
    answer.results.push_back({std::string(word(result)), plain(word(result)), numbers.share()});
  answer.first_downs = numbers.points();
  answer.plays = numbers.yards();
  for (int yards = 1; yards <= 99; ++yards) {
    answer.points_at.push_back(numbers.points());
    answer.net_points_at.push_back(numbers.signed_points());
  }
  answer.situations = {{"first", "First and ten", 2.625}};
  answer.method = {416, false, 0.0023};
  answer.handoffs = HandoffAnswer{numbers.share(), 0.46};
  return answer;
}

CompareAnswer sample_compare() {
  Numbers numbers;
  CompareAnswer answer;
  answer.quarterbacks = {"new-starter", "last-starter"};
  answer.schemes = {"Quick middle"};
  for (const std::string& name : answer.quarterbacks)
    answer.entries.push_back({about(name),
                              numbers.place(),
                              numbers.points(),
                              numbers.signed_points(),
                              0.5,
                              {416, false, 0.0023}});
  answer.entries.back().method = {8000, true, 0.021};
  answer.differences = {difference(numbers, 0.98)};
  answer.drives_per_game = 11.6;
  return answer;
}

TryAnswer sample_try(std::size_t tries) {
  Numbers numbers;
  TryAnswer answer{about(), {}};
  for (std::size_t i = 0; i < tries; ++i)
    answer.tries.push_back(try_result(numbers, "try " + std::to_string(i + 1)));
  return answer;
}

SweepAnswer sample_sweep(std::size_t axes) {
  Numbers numbers;
  SweepAnswer answer;
  answer.about = about();
  answer.axes = {
      {"rate.boot.completion", "completion, boot", KnobUnit::share, 0.61, {0.5, 0.6, 0.7}},
      {"gain.boot.yac", "yards after catch, boot", KnobUnit::yards, 5.2, {4, 6}}};
  answer.axes.resize(axes);
  for (std::size_t r = 0; r < 3; ++r) {
    answer.cells.emplace_back();
    for (std::size_t c = 0; c < (axes == 2 ? 2U : 1U); ++c) {
      const Number place = numbers.place();
      const Number points = numbers.points();
      const Number net = numbers.signed_points();
      answer.cells.back().push_back({place, points, net, numbers.signed_points()});
    }
  }
  return answer;
}

LeversAnswer sample_levers() {
  Numbers numbers;
  LeversAnswer answer{about(), {}};
  answer.levers.push_back(lever(numbers, "rate.dive.fumble", "lost fumble, inside run"));
  answer.levers.back().of_handoffs = true;
  answer.levers.push_back(lever(numbers, "rate.boot.completion", "completion, boot"));
  return answer;
}

BreakEvenAnswer sample_break_even(bool found) {
  Numbers numbers;
  BreakEvenAnswer answer;
  answer.first = about();
  answer.second = about("last-starter");
  answer.path = "rate.boot.completion";
  answer.label = "completion, boot";
  answer.now = 0.61;
  answer.low = 0.4;
  answer.high = 0.8;
  answer.net_at_low = -2.31;
  answer.net_at_high = 3.17;
  if (found) {
    answer.value = 0.57;
    answer.residual = 1e-9;
    answer.ahead_of_it = Verdict{0.81, 0.01};
  }
  answer.now_difference = difference(numbers, 0.2);
  return answer;
}

PackageAnswer sample_package() {
  Numbers numbers;
  PackageAnswer answer;
  answer.package = {"first", 10, "dive", Shell::two_high, 0.12, 2};
  answer.family = "Inside run";
  answer.surprising = 0.091;
  answer.about = about();
  answer.effect = try_result(numbers, "");
  answer.before = {1.23, 2.34, 1.98};
  answer.after = {3.45, 4.56, 2.07};
  return answer;
}

TailorAnswer sample_tailor() {
  Numbers numbers;
  TailorAnswer answer;
  answer.about = about();
  answer.limits = {0.05, 0.03, 1.5};
  answer.advised = true;
  answer.own_net_points_per_game = numbers.signed_points();
  answer.own = {0.91, 0.01};
  answer.effect = try_result(numbers, "");
  return answer;
}

NextAnswer sample_next() {
  Numbers numbers;
  NextAnswer answer;
  answer.about = about();
  answer.net_points_per_game = numbers.signed_points();
  answer.place = numbers.place();
  answer.families = {{"post", "Deep middle", 0, 0.04, 0.31, 0.22, 0.27, 14, {}},
                     {"boot", "Boot, rollout", 45, 0.18, 0.11, 0.09, 0.36, 16, 52.4}};
  return answer;
}

TrendAnswer sample_trend() {
  Numbers numbers;
  TrendAnswer answer;
  answer.about = about();
  answer.followed = {{"Boot, rollout", "completion", false, 0.57}};
  for (const char* game : {"", "C1", "C2"}) {
    const Number place = numbers.place();
    const Number net = numbers.signed_points();
    answer.steps.push_back({game, 100, 80.5, place, net, {numbers.share()}});
  }
  answer.held = false;
  return answer;
}

BriefAnswer sample_brief() {
  Numbers numbers;
  BriefAnswer answer;
  answer.first = about();
  answer.second = about("last-starter");
  answer.difference = difference(numbers, 0.55);
  answer.first_place = numbers.place();
  answer.second_place = numbers.place();
  answer.change.parts = {
      {ChangePart::Cause::man, 0.47, numbers.signed_points(), 3.1, numbers.signed_points()},
      {ChangePart::Cause::scheme, -0.22, numbers.signed_points(), 5.3, numbers.signed_points()},
      {ChangePart::Cause::surroundings, 0, {0, -2.97, 2.97, 0, 0}, {}, {}}};
  answer.change.mean_net_points_per_game = 0.25;
  answer.change.net_points_per_game = numbers.signed_points();
  answer.change.ahead = {0.53, 0.01};
  answer.reasons = {{"Boot, rollout", 0.71, numbers.signed_points(), {0.96, 0.01}},
                    {"Inside run", -0.13, numbers.signed_points(), {0.4, 0.01}}};
  answer.rest = -0.09;
  answer.doubt = DoubtAnswer{"completion, boot", numbers.share(), 23, 31, 1.87};
  answer.wrinkle = lever(numbers, "call.first.boot", "boot, first and ten");
  return answer;
}

SayAnswer sample_say() {
  Numbers numbers;
  SayAnswer answer;
  answer.about = about();
  answer.place = numbers.place();
  answer.demands = {{"Boot, rollout", demand(numbers, "completion", 0.07, {})},
                    {"Inside run", demand(numbers, "success", 0.83, 0.85)}};
  answer.demands.front().demand.costs = numbers.signed_points();
  answer.difference = difference(numbers, 0.83);
  return answer;
}

SnapsAnswer sample_snaps() {
  SnapsAnswer answer;
  answer.about = about();
  answer.number = {"rate.boot.completion", "completion, boot", SnapUnit::share};
  answer.shown = Numbers().share();
  answer.moves = SnapMoves{0.6, 0.63, 0.02, 0.011, -0.0024, 0.0014};
  SnapRow caught{"charts/new-starter.csv", 41, {}, "boot", true, "", 0.5, true, 0.013};
  caught.snap.game = SharedText("G1");
  caught.snap.level = SharedText("college");
  caught.snap.opponent = SharedText("Vexley");
  caught.snap.family = SharedText("boot");
  caught.snap.down = 3;
  caught.snap.to_go = 8;
  caught.snap.yards_to_goal = 40;
  caught.snap.result = Result::complete;
  caught.snap.yards = 12;
  caught.snap.clip = SharedText("half.mp4");
  caught.snap.start = 83.5F;
  caught.snap.end = 90.0F;
  SnapRow missed = caught;
  missed.line = 42;
  missed.snap.result = Result::incomplete;
  missed.snap.yards = 0;
  missed.made = false;
  missed.weight = 1;
  missed.moved = -0.007;
  SnapRow sacked = missed;
  sacked.line = 43;
  sacked.snap.result = Result::sack;
  sacked.snap.yards = -7;
  sacked.counts = false;
  sacked.why_not = "no throw";
  sacked.weight = 0;
  sacked.made.reset();
  sacked.moved = 0.014;
  answer.rows = {caught, missed, sacked};
  answer.most_up = {2, 0};
  answer.most_down = {1};
  return answer;
}

std::vector<Asked> samples() {
  FitAnswer weighed = sample_fit();
  weighed.weights = WeightAgreement{200, 0.81, 0.62, 0.93};
  DrivesAnswer from = sample_drives();
  from.from = DriveState{1, 10, 75};
  from.points_at.clear();
  from.net_points_at.clear();
  SampledValues sampled{100'000, {}, {}};
  sampled.mean.points = 2.07;
  sampled.mean.share[0] = 0.22;
  from.sampled = sampled;
  BriefAnswer bare = sample_brief();
  bare.doubt.reset();
  bare.wrinkle.reset();
  KeptAnswer said{"2026-08-30", "new-starter", "Quick middle", 308, {{"opener", 308}}, {}};
  said.verdicts = {{"boot", "Boot, rollout", Measure::completion, Cell::two_high,
                    "completion, two high", 0.62, true, Numbers().share(), 0.21}};
  TrendAnswer scored = sample_trend();
  KeptScore& score = scored.kept.emplace();
  score.outcomes = {{said.date, said.verdicts.front(), 14, 27, 0.17, 0}};
  score.groups = {{{Lean::clear, 0, 0, 0}, {Lean::leans, 1, 0.83, 1}, {Lean::open, 0, 0, 0}}};
  score.brier = 0.0289;
  score.expected_brier = 0.1411;
  score.left_out = 3;
  SayAnswer alone = sample_say();
  alone.difference.reset();
  TailorAnswer no_advice = sample_tailor();
  no_advice.advised = false;
  SnapsAnswer no_charts = sample_snaps();
  no_charts.rows.clear();
  no_charts.most_up.clear();
  no_charts.most_down.clear();
  no_charts.moves.reset();
  no_charts.has_charts = false;
  SnapsAnswer of_result = sample_snaps();
  of_result.number = {"net_points", "net points a game", SnapUnit::net_points};
  const Stand plain_stand{};
  const Stand other{1, 0, {}};
  const Try one{"longer", turned().changes};
  const SweepRange range{"rate.boot.completion", 0.5, 0.7, 3};
  const SweepRange second{"gain.boot.yac", 4, 6, 2};
  return {
      {FitRequest{turned(), false}, sample_fit()},
      {FitRequest{plain_stand, true}, weighed},
      {DrivesRequest{plain_stand, {}, 0}, sample_drives()},
      {DrivesRequest{plain_stand, DriveState{1, 10, 75}, 100'000}, from},
      {CompareRequest{{0, 1}, {}}, sample_compare()},
      {TryRequest{plain_stand, {one}}, sample_try(1)},
      {TryRequest{plain_stand, {one, one, one}}, sample_try(3)},
      {SweepRequest{plain_stand, {range}}, sample_sweep(1)},
      {SweepRequest{plain_stand, {range, second}}, sample_sweep(2)},
      {LeversRequest{plain_stand}, sample_levers()},
      {BreakEvenRequest{plain_stand, other, "rate.boot.completion", true}, sample_break_even(true)},
      {BreakEvenRequest{plain_stand, other, "rate.boot.completion", false},
       sample_break_even(false)},
      {PackageRequest{plain_stand, sample_package().package}, sample_package()},
      {TailorRequest{plain_stand, {0.05, 0.03, 1.5}}, sample_tailor()},
      {TailorRequest{plain_stand, {}}, no_advice},
      {NextRequest{plain_stand, 10}, sample_next()},
      {TrendRequest{plain_stand, 2, {}}, sample_trend()},
      {TrendRequest{plain_stand, 2, {said}}, scored},
      {BriefRequest{plain_stand, other}, sample_brief()},
      {BriefRequest{plain_stand, other}, bare},
      {SayRequest{plain_stand, other}, sample_say()},
      {SayRequest{plain_stand, {}}, alone},
      {SnapsRequest{plain_stand, "rate.boot.completion"}, sample_snaps()},
      {SnapsRequest{plain_stand, "rate.boot.completion"}, no_charts},
      {SnapsRequest{plain_stand, "net_points"}, of_result}};
}

}  // namespace callfit::test
