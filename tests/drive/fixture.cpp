#include "fixture.hpp"

#include <callfit/profile/draws.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace fixture {
namespace {

void normalise(std::vector<double>& p) {
  const double sum = std::accumulate(p.begin(), p.end(), 0.0);
  for (double& value : p) value /= sum;
}

SituationRule when(Band down, Band to_go, Band spot) { return {down, to_go, spot}; }

constexpr Band any{};

std::optional<RatePopulation>& rate(FamilyPopulation& family, Rate r) {
  return family.rates[static_cast<std::size_t>(r)];
}

GainPopulation gain(const YardPmf& shape, std::vector<int> starts) {
  return {shape, std::move(starts), 60};
}

FamilyPopulation pass_family(const std::string& id, double completion, double interception,
                             const YardPmf& depth) {
  FamilyPopulation family;
  family.id = id;
  family.label = id;
  family.kind = FamilyKind::pass;
  rate(family, Rate::completion) = RatePopulation{completion, 0.04};
  rate(family, Rate::interception) = RatePopulation{interception, 0.008};
  rate(family, Rate::sack) = RatePopulation{0.06, 0.015};
  rate(family, Rate::scramble) = RatePopulation{0.05, 0.02};
  rate(family, Rate::fumble) = RatePopulation{0.01, 0.004};
  family.depth = gain(depth, {depth.first, depth.first + 4});
  family.yac = gain(hump(-4, 70, 3, 0.4, 0.86), {-4, 0, 5, 15});
  family.interception_depth = hump(depth.first, depth.last() + 5, depth.first + 6, 0.8, 0.9);
  return family;
}

FamilyPopulation run_family(const std::string& id, FamilyKind kind, const YardPmf& gains) {
  FamilyPopulation family;
  family.id = id;
  family.label = id;
  family.kind = kind;
  rate(family, Rate::fumble) = RatePopulation{0.012, 0.004};
  family.run = gain(gains, {gains.first, 1, 6, 12});
  return family;
}

CellPopulation shell_cell(Cell cell, double completion, double depth) {
  CellPopulation population;
  population.cell = cell;
  population.who.kinds = {FamilyKind::pass};
  population.rates[static_cast<std::size_t>(Rate::completion)] = CellRate{completion, 80};
  population.gain_shift[static_cast<std::size_t>(GainPart::depth)] = depth;
  return population;
}

Shifts shifts(double completion, double sack, double yac, double run) {
  Shifts s;
  s.rate[static_cast<std::size_t>(Rate::completion)] = completion;
  s.rate[static_cast<std::size_t>(Rate::sack)] = sack;
  s.gain[static_cast<std::size_t>(GainPart::yac)] = yac;
  s.gain[static_cast<std::size_t>(GainPart::run)] = run;
  return s;
}

Penalty penalty(Side side, double probability, int yards, bool automatic) {
  Penalty p;
  p.id = word(side);
  p.side = side;
  p.probability = probability;
  p.yards = {yards, {1}};
  p.automatic_first_down = automatic;
  return p;
}

std::vector<Penalty> penalties() {
  std::vector<Penalty> all{
      penalty(Side::offence, 0.025, 5, false), penalty(Side::offence, 0.02, 10, false),
      penalty(Side::defence, 0.012, 5, false), penalty(Side::defence, 0.008, 5, true)};
  Penalty spot = penalty(Side::defence, 0.006, 0, true);
  spot.yards = {8, {0.4, 0.0, 0.0, 0.3, 0.0, 0.0, 0.0, 0.2, 0.0, 0.1}};
  spot.spot_foul = true;
  spot.when = when({1, 3}, any, any);
  Penalty late = penalty(Side::offence, 0.004, 0, false);
  late.yards = {};
  late.move = {-12, {0.3, 0, 0, 0, 0, 0, 0.4, 0, 0, 0, 0, 0, 0, 0, 0.2, 0, 0, 0, 0, 0.1}};
  late.down_counts = true;
  Penalty replay = late;
  replay.down_counts = false;
  all.insert(all.end(), {spot, late, replay});
  return all;
}

void add_kicks(Setting& s) {
  s.field_goal = {6.1, -0.105, 62};
  s.punts = {{{1, 60}, 0.3, 0.0, hump(15, 45, 32, 0.8, 0.7)},
             {{61, 99}, 0.05, 0.01, hump(20, 60, 41, 0.85, 0.85)}};
  s.kickoff = {hump(10, 45, 25, 0.7, 0.8), 0.004};
  s.rules.safety_kick_start = hump(30, 55, 40, 0.8, 0.8);
  s.turnovers = {hump(-2, 40, 0, 0.3, 0.85), 0.1, hump(-10, 30, 0, 0.6, 0.6), 0.08};
  s.fourth_down = {{when(any, {1, 1}, {1, 45}), 0.6, 0, 0.4},
                   {when(any, any, {1, 35}), 0.15, 0, 0.85},
                   {when(any, {1, 2}, {36, 55}), 0.5, 0.5, 0},
                   {when(any, any, any), 0.02, 0.98, 0}};
}

}  // namespace

YardPmf hump(int first, int last, int peak, double down, double up) {
  YardPmf pmf{first, {}};
  for (int g = first; g <= last; ++g)
    pmf.p.push_back(g < peak ? std::pow(down, peak - g) : std::pow(up, g - peak));
  normalise(pmf.p);
  return pmf;
}

Setting setting() {
  Setting s;
  s.id = "toy";
  s.label = "Toy league";
  s.families = {pass_family("quick", 0.68, 0.018, hump(-3, 12, 4, 0.8, 0.8)),
                pass_family("deep", 0.40, 0.05, hump(15, 55, 22, 0.6, 0.88)),
                run_family("draw", FamilyKind::qb_run, hump(-6, 75, 3, 0.6, 0.84)),
                run_family("handoff", FamilyKind::handoff, hump(-8, 80, 3, 0.6, 0.82))};
  s.scramble_gain = gain(hump(-2, 50, 4, 0.5, 0.88), {-2, 5});
  s.sack_gain = gain(hump(-18, 0, -7, 0.75, 0.6), {-18, -8});
  s.fumble_lost = {0.07, 0.006, 0.004, 0.02, 0.006};
  s.cells = {shell_cell(Cell::one_high, 0.05, 0.1), shell_cell(Cell::two_high, -0.1, -0.15),
             shell_cell(Cell::none_high, 0.0, 0.2)};
  s.shells = {{when(any, any, {1, 8}), {0.5, 0.1, 0.4}}, {when(any, any, any), {0.5, 0.4, 0.1}}};
  s.adjustments = {{when({3, 4}, {7, 99}, any), {}, shifts(-0.15, 0.3, 0.1, 0.3)},
                   {when(any, any, {1, 10}), {}, shifts(-0.3, 0, -0.3, -0.1)},
                   {when(any, any, {11, 20}), {{FamilyKind::pass}, {}}, shifts(-0.1, 0, -0.1, 0)},
                   {when({2, 4}, {1, 3}, any), {{}, {"handoff"}}, shifts(0, 0, 0, -0.2)}};
  s.quality = {{0.4, shifts(-0.3, 0.25, -0.1, -0.15)}, {0.6, shifts(0.2, -0.15, 0.1, 0.1)}};
  s.bad_snap = {0.004, 0.25};
  s.spotted_short = 0.35;
  s.spotted_at_goal = 0.3;
  s.own_goal = {{{97, 99}, 0.4}, {{90, 98}, 0.7}};
  s.penalties = penalties();
  add_kicks(s);
  s.starts = {{"kickoff", 0.5, s.kickoff.own_yard}, {"punt", 0.5, hump(5, 60, 22, 0.9, 0.93)}};
  s.end_of_half_share = 0.06;
  return s;
}

Scheme scheme() {
  Scheme s;
  s.id = "toy";
  s.name = "Toy scheme";
  s.families = {{"slant", "Slant", FamilyKind::pass, "", "quick"},
                {"handoff", "Handoff", FamilyKind::handoff, "", ""},
                {"deep", "Deep", FamilyKind::pass, "", ""},
                {"draw", "Draw", FamilyKind::qb_run, "", ""}};
  CallSituation goal{"goal", "", when(any, any, {1, 5}), {0.4, 0.4, 0.0, 0.2}, {}};
  CallSituation third{"third", "", when({3, 4}, {6, 99}, any), {0.5, 0.05, 0.35, 0.1}, {}};
  third.share_by_shell[1] = std::vector<double>{0.4, 0.05, 0.2, 0.35};
  CallSituation rest{"rest", "", when(any, any, any), {0.35, 0.45, 0.15, 0.05}, {}};
  s.situations = {goal, third, rest};
  return s;
}

std::vector<std::size_t> families() { return {0, 3, 1, 2}; }

Setting bare_setting(const YardPmf& run_gain) {
  Setting s;
  s.id = "bare";
  s.families = {run_family("run", FamilyKind::handoff, run_gain)};
  s.scramble_gain = gain({0, {1}}, {0});
  s.sack_gain = gain({0, {1}}, {0});
  s.rules.safety_kick_start = {35, {1}};
  s.kickoff = {{25, {1}}, 0};
  s.punts = {{any, 0, 0, {40, {1}}}};
  s.turnovers = {{0, {1}}, 0, {0, {1}}, 0};
  s.fourth_down = {{when(any, any, any), 1, 0, 0}};
  s.starts = {{"kickoff", 1, {25, {1}}}};
  return s;
}

Scheme bare_scheme() {
  Scheme s;
  s.id = "bare";
  s.families = {{"run", "Run", FamilyKind::handoff, "", ""}};
  s.situations = {{"all", "", when(any, any, any), {1}, {}}};
  return s;
}

namespace {

class Shaker {
 public:
  explicit Shaker(std::uint32_t seed) : engine_(seed) {}

  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_()) / 4294967296.0;
  }
  void shares(std::vector<double>& p) {
    for (double& value : p) value *= between(0.3, 1.7);
    normalise(p);
  }
  void shares(YardPmf& pmf) { shares(pmf.p); }
  void shake(Shifts& s) {
    for (double& value : s.rate) value += between(-0.2, 0.2);
    for (double& value : s.gain) value += between(-0.2, 0.2);
  }

 private:
  std::mt19937 engine_;
};

void shake_families(Setting& s, Shaker& by) {
  for (FamilyPopulation& family : s.families) {
    for (auto& population : family.rates)
      if (population) population->mean *= by.between(0.7, 1.3);
    if (family.depth) by.shares(family.depth->shape);
    if (family.yac) by.shares(family.yac->shape);
    if (family.run) by.shares(family.run->shape);
    if (family.interception_depth) by.shares(*family.interception_depth);
  }
}

}  // namespace

Setting random_setting(std::uint32_t seed) {
  Setting s = setting();
  Shaker by(seed);
  shake_families(s, by);
  by.shares(s.scramble_gain.shape);
  by.shares(s.sack_gain.shape);
  for (Adjustment& adjustment : s.adjustments) by.shake(adjustment.shifts);
  for (QualityClass& quality : s.quality) by.shake(quality.shifts);
  for (Penalty& p : s.penalties) p.probability *= by.between(0.2, 2);
  for (PuntRule& punt : s.punts) by.shares(punt.net);
  for (FourthDownRule& rule : s.fourth_down) {
    std::vector<double> shares{rule.go + 0.05, rule.punt, rule.field_goal};
    by.shares(shares);
    rule.go = shares[0];
    rule.punt = shares[1];
    rule.field_goal = shares[2];
  }
  s.rules.missed_kick_behind_line = seed % 2 == 0 ? 8 : 0;
  return s;
}

Scheme random_scheme(std::uint32_t seed) {
  Scheme s = scheme();
  Shaker by(seed + 1);
  for (CallSituation& situation : s.situations) by.shares(situation.share);
  return s;
}

DriveModel Game::model() const {
  return compile_drives(player, scheme, families(), setting, net, options);
}

Game game(const DriveOptions& options) {
  const Setting s = setting();
  static const NetValues net = average_net_values(s, scheme(), true);  // same for every option
  return {s, scheme(), net, average_player(s), options};
}

Game random_game(std::uint32_t seed, const DriveOptions& options) {
  Setting s = random_setting(seed);
  s.quality = {{1, s.quality[seed % 2].shifts}};
  const Scheme c = random_scheme(seed);
  const NetValues net = average_net_values(s, c, options.end_of_half);
  return {s, c, net, PlayerDraws::of_population(s, {seed}, 1).player_at(0), options};
}

}  // namespace fixture
