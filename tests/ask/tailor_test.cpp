// The tailored mix against brute force, its bound, and the linear choice against enumeration.
#include "toy.hpp"

#include <callfit/ask/tailor.hpp>
#include <callfit/base/finding.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>

using namespace callfit;

namespace {

// One situation for the whole field, so that a grid can be searched.
Question one_situation() {
  Setting setting = fixture::setting();
  setting.drives_per_game = 11;
  Scheme scheme = fixture::scheme();
  CallSituation all = scheme.situations.back();
  all.share = {0.3, 0.4, 0.2, 0.1};
  scheme.situations = {all};
  auto ground = std::make_shared<const Matchup>(make_matchup(setting, scheme, scheme));
  return make_question(ground, build_profile("Somebody", {}, setting, weighting_of(setting)));
}

double net_with(const Question& question, const std::vector<double>& share) {
  Scheme scheme = question.scheme;
  scheme.situations[0].share = share;
  const Matchup& m = *question.ground;
  const DrivePlan plan(scheme, m.bound.setting_family, m.setting, m.net, m.options);
  return solve_points(plan.compile(question.mean)).net_over(m.starts);
}

struct Best {
  double net = -100;
  std::vector<double> share;
};

// Every mix on a grid of `step` within the limits.
Best brute_force(const Question& question, const TailorLimits& limits, double step) {
  const MixBounds bounds = mix_bounds(question.scheme, {0, std::nullopt}, limits);
  Best best;
  for (double a = bounds.low[0]; a <= bounds.high[0] + 1e-9; a += step)
    for (double b = bounds.low[1]; b <= bounds.high[1] + 1e-9; b += step)
      for (double c = bounds.low[2]; c <= bounds.high[2] + 1e-9; c += step) {
        const std::vector<double> share{a, b, c, 1 - a - b - c};
        const double passes = a + c;
        if (share[3] < bounds.low[3] - 1e-9 || share[3] > bounds.high[3] + 1e-9) continue;
        if (passes < bounds.pass_low - 1e-9 || passes > bounds.pass_high + 1e-9) continue;
        const double net = net_with(question, share);
        if (net > best.net) best = {net, share};
      }
  return best;
}

}  // namespace

TEST_CASE("tailoring finds what brute force finds on a coarse grid") {
  const Question question = one_situation();
  const TailorLimits limits{0.1, 0.05, 0};
  const Best best = brute_force(question, limits, 0.05);
  const Tailored result = tailor(question, limits, {1, 20, 1});
  CHECK(result.net_after > best.net - 1e-6);
  CHECK(result.net_after > result.net_before);
  for (std::size_t f = 0; f < 4; ++f)
    CHECK(result.called.situations[0].share[f] == Approx(best.share[f]).margin(0.05));
  CHECK(result.net_bound >= result.net_after - 1e-9);
  CHECK(net_with(question, result.surprising.situations[0].share) ==
        Approx(result.net_after).epsilon(1e-9));
}

TEST_CASE("a tailored scheme keeps to its limits, and fading surprise moves it less") {
  const Question question = toy::question();
  const TailorLimits limits{0.08, 0.03, 0};
  const Tailored free = tailor(question, limits, {1, 20, 1});
  for (const MixBlock& block : mix_blocks(question.scheme)) {
    const MixBounds bounds = mix_bounds(question.scheme, block, limits);
    const std::vector<double>& share = shares_of(free.called, block);
    CHECK(std::accumulate(share.begin(), share.end(), 0.0) == Approx(1).epsilon(1e-12));
    double passes = 0;
    for (std::size_t f = 0; f < share.size(); ++f) {
      CHECK(share[f] >= bounds.low[f] - 1e-6);
      CHECK(share[f] <= bounds.high[f] + 1e-6);
      if (bounds.pass[f]) passes += share[f];
    }
    CHECK(passes >= bounds.pass_low - 1e-6);
    CHECK(passes <= bounds.pass_high + 1e-6);
  }
  CHECK(free.net_bound > free.net_after);
  TailorLimits learning = limits;
  learning.fade = 10;
  const Tailored faded = tailor(question, learning, {1, 20, 1});
  CHECK(faded.net_after < free.net_after);
  CHECK(faded.net_after > faded.net_before);
}

TEST_CASE("limits out of range are refused") {
  const Question question = toy::question();
  CHECK_THROWS_AS(tailor(question, {0, 0.1, 0}, {1, 20, 1}), InputError);
  CHECK_THROWS_AS(tailor(question, {0.1, -0.1, 0}, {1, 20, 1}), InputError);
  CHECK_THROWS_AS(tailor(question, {0.1, 0.1, 11}, {1, 20, 1}), InputError);
}

// By hand: the base (0.3, 0.4, 0.2, 0.1) with moves of 0.1 leaves 0.4 above the lower bounds.
TEST_CASE("the linear choice fills up the best families within the bounds") {
  const Question question = one_situation();
  const MixBounds loose = mix_bounds(question.scheme, {0, std::nullopt}, {0.1, 1, 0});
  // Families: slant and deep are passes, handoff and draw are runs.
  const auto mix = best_mix(loose, {3, 2, 4, 1});
  CHECK(mix[0] == Approx(0.4));
  CHECK(mix[1] == Approx(0.3));
  CHECK(mix[2] == Approx(0.3));
  CHECK(mix[3] == Approx(0.0).margin(1e-12));
  const MixBounds tight = mix_bounds(question.scheme, {0, std::nullopt}, {0.1, 0.05, 0});
  const auto bound = best_mix(tight, {3, 2, 4, 1});
  CHECK(bound[0] + bound[2] == Approx(0.55));
  CHECK(bound[2] == Approx(0.3));
  CHECK(bound[1] == Approx(0.45));
}
