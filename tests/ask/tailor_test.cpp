// The bent mix against brute force, its bound, and the linear choice against enumeration.
#include "toy.hpp"

#include <ask/answers.hpp>
#include <ask/mix.hpp>
#include <callfit/base/finding.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>

using namespace callfit;
using namespace callfit::ask;

namespace {

// One situation for the whole field, so that a grid can be searched.
Scheme one_situation() {
  Scheme scheme = fixture::scheme();
  CallSituation all = scheme.situations.back();
  all.share = {0.3, 0.4, 0.2, 0.1};
  scheme.situations = {all};
  return scheme;
}

double net_with(Memory& memory, const std::vector<double>& share) {
  Question question = toy::question(memory);
  question.scheme.situations[0].share = share;
  return toy::net_of(question);
}

// Every mix on a grid of `step` within the limits.
double brute_force(Memory& memory, const TailorLimits& limits, double step) {
  const MixBounds bounds = mix_bounds(memory.about().schemes[0], {0, std::nullopt}, limits);
  double best = -100;
  for (double a = bounds.low[0]; a <= bounds.high[0] + 1e-9; a += step)
    for (double b = bounds.low[1]; b <= bounds.high[1] + 1e-9; b += step)
      for (double c = bounds.low[2]; c <= bounds.high[2] + 1e-9; c += step) {
        const double d = 1 - a - b - c;
        const double passes = a + c;
        if (d < bounds.low[3] - 1e-9 || d > bounds.high[3] + 1e-9) continue;
        if (passes < bounds.pass_low - 1e-9 || passes > bounds.pass_high + 1e-9) continue;
        best = std::max(best, net_with(memory, {a, b, c, d}));
      }
  return best;
}

}  // namespace

TEST_CASE("the bent mix is at least what brute force finds on a coarse grid") {
  Memory memory(toy::about(one_situation()), 1);
  const TailorLimits limits{0.1, 0.05, 0};
  const double best = brute_force(memory, limits, 0.05);
  const TailorAnswer result = answer(memory, TailorRequest{{}, limits}, {});
  CHECK(result.net_after > best - 1e-6);
  CHECK(result.net_after > result.net_before);
  CHECK(result.net_bound >= result.net_after - 1e-6);
  double calls = 0;
  for (const Moved& moved : result.effect.moved)
    if (moved.path.starts_with("call.")) calls += moved.after - moved.before;
  CHECK(std::abs(calls) < 1e-9);
}

TEST_CASE("fading surprise leaves less to gain") {
  Memory memory(toy::about(), 1);
  const TailorAnswer free = answer(memory, TailorRequest{{}, {0.08, 0.03, 0}}, {});
  CHECK(free.net_bound > free.net_after - 1e-6);
  const TailorAnswer faded = answer(memory, TailorRequest{{}, {0.08, 0.03, 10}}, {});
  CHECK(faded.net_after < free.net_after);
  CHECK(faded.net_after > faded.net_before);
}

TEST_CASE("limits out of range are refused") {
  Memory memory(toy::about(), 1);
  for (const TailorLimits& limits :
       {TailorLimits{0, 0.1, 0}, TailorLimits{0.1, -0.1, 0}, TailorLimits{0.1, 0.1, 11}})
    CHECK_THROWS_AS(answer(memory, TailorRequest{{}, limits}, {}), InputError);
}

// By hand: the base (0.3, 0.4, 0.2, 0.1) with moves of 0.1 leaves 0.4 above the lower bounds.
TEST_CASE("the linear choice fills up the best families within the bounds") {
  const Scheme scheme = one_situation();
  const MixBounds loose = mix_bounds(scheme, {0, std::nullopt}, {0.1, 1, 0});
  // Families: slant and deep are passes, handoff and draw are runs.
  const auto mix = best_mix(loose, {3, 2, 4, 1});
  CHECK(mix[0] == Approx(0.4));
  CHECK(mix[1] == Approx(0.3));
  CHECK(mix[2] == Approx(0.3));
  CHECK(mix[3] == Approx(0.0).margin(1e-12));
  const MixBounds tight = mix_bounds(scheme, {0, std::nullopt}, {0.1, 0.05, 0});
  const auto bound = best_mix(tight, {3, 2, 4, 1});
  CHECK(bound[0] + bound[2] == Approx(0.55));
  CHECK(bound[2] == Approx(0.3));
  CHECK(bound[1] == Approx(0.45));
}

// With fade, the last unit of two families that share the room is worth the same (first order
// condition of a concave sum), worked out by hand: 3 - 2 f a (3 - u) = 4 - 2 f b (4 - u).
TEST_CASE("the choice with fade balances what is left of worth") {
  const Scheme scheme = one_situation();
  const TailorLimits limits{0.2, 1, 2};
  const std::vector<double> was{0.3, 0.4, 0.2, 0.1};
  const std::vector<double> worth{3, 0, 4, 0};
  const MixBounds bounds = mix_bounds(scheme, {0, std::nullopt}, limits);
  const auto mix = best_mix(bounds, worth, was, limits);
  const double usual = 0.3 * 3 + 0.2 * 4;
  const double first = 3 - 2 * limits.fade * (mix[0] - 0.3) * (3 - usual);
  const double second = 4 - 2 * limits.fade * (mix[2] - 0.2) * (4 - usual);
  CHECK(std::accumulate(mix.begin(), mix.end(), 0.0) == Approx(1).epsilon(1e-9));
  const bool inside =
      mix[0] > 0.3 && mix[0] < bounds.high[0] - 1e-3 && mix[2] < bounds.high[2] - 1e-3;
  if (inside) CHECK(first == Approx(second).margin(0.02));
  CHECK(mix[2] - 0.2 >= mix[0] - 0.3 - 1e-9);
}
