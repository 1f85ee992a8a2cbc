// What is special about a quarterback bends the scheme; what is true of everybody does not.
#include "demo_case.hpp"
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

constexpr TailorLimits anything{0.1, 0.1, 0, true};

Case with_snaps(const std::vector<Snap>& snaps) {
  Case about = toy::about();
  about.setting.levels = {{"toy", 1, {}}};
  const Chart chart{"few.csv", snaps};
  about.quarterbacks.front().profile =
      build_profile("Few", {chart}, about.setting, weighting_of(about.setting));
  return about;
}

// "call.<situation>.<family>" or "call.<situation>.<shell>.<family>".
std::string family_of(const Moved& moved) { return moved.path.substr(moved.path.rfind('.') + 1); }

}  // namespace

TEST_CASE("the setting's own average man gets no advice") {
  Memory memory(toy::about(), 1);
  const TailorAnswer result = answer(memory, TailorRequest{{}, anything}, {});
  CHECK_FALSE(result.advised);
  CHECK(result.effect.moved.empty());
  CHECK(result.own.lean() == Lean::open);
}

TEST_CASE("one snap is nothing to go by") {
  Snap snap;
  snap.family = "quick";
  snap.result = Result::complete;
  snap.yards = 7;
  snap.level = "toy";
  Memory memory(with_snaps({snap}), 1);
  for (const bool uncharted : {false, true}) {
    TailorLimits limits = anything;
    limits.uncharted = uncharted;
    const TailorAnswer result = answer(memory, TailorRequest{{}, limits}, {});
    CHECK_FALSE(result.advised);
    CHECK(result.effect.moved.empty());
  }
}

TEST_CASE("who is special in one family is called that one more") {
  Memory memory(toy::about(), 1);
  const Stand stand{0, 0, {toy::set("rate.quick.completion", 0.9)}};
  const TailorAnswer result = answer(memory, TailorRequest{stand, anything}, {});
  REQUIRE(result.advised);
  REQUIRE_FALSE(result.effect.moved.empty());
  Scheme bent = memory.about().schemes.front();
  for (const Moved& moved : result.effect.moved) {
    CHECK((moved.after > moved.before) == (family_of(moved) == "slant"));
    CHECK(std::abs(moved.after - moved.before) <= anything.move + 1e-9);
  }
  // His gain by hand: exact points at the means, his less the average man's.
  for (CallSituation& situation : bent.situations)
    for (const Moved& moved : result.effect.moved)
      for (std::size_t f = 0; f < bent.families.size(); ++f) {
        const std::string& family = bent.families[f].id;
        if (moved.path == "call." + situation.id + '.' + family) situation.share[f] = moved.after;
        for (std::size_t s = 0; s < shell_count; ++s)
          if (situation.share_by_shell[s] &&
              moved.path == "call." + situation.id + '.' +
                                std::string(word(static_cast<Shell>(s))) + '.' + family)
            (*situation.share_by_shell[s])[f] = moved.after;
      }
  Question turned = toy::question(memory, stand.changes);
  const Player special = turned.mean_player();
  const Matchup was = matchup_of(turned);
  turned.scheme = bent;
  const Matchup is = matchup_of(turned);
  const auto gain = [&](const Player& player) {
    return drive_points(is, player).net_points - drive_points(was, player).net_points;
  };
  const double own =
      (gain(special) - gain(memory.average())) * memory.about().setting.drives_per_game;
  const Number& told = result.own_net_points_per_game;
  CHECK(own > 0);
  CHECK(told.centre == Approx(own).epsilon(0.1));
}

TEST_CASE("nothing uncharted is called more unless asked") {
  Memory memory(toy::about(), 1);
  const Stand stand{0, 0, {toy::set("rate.quick.completion", 0.9)}};
  TailorLimits limits = anything;
  limits.uncharted = false;
  for (const Moved& moved : answer(memory, TailorRequest{stand, limits}, {}).effect.moved)
    CHECK(moved.after <= moved.before);
}

TEST_CASE("a call that cannot be made somewhere in a situation does not grow there", "[plain]") {
  Case about = testing::demo_case();
  Memory memory(std::move(about), 1);
  const Stand stand{0, 0, {toy::set("rate.deep_outside.completion", 0.7)}};
  Standing& standing = memory.standing(stand);
  const TailorAnswer result = answer(memory, TailorRequest{stand, anything}, {});
  REQUIRE(result.advised);
  bool grows = false;
  for (const Moved& moved : result.effect.moved) {
    if (family_of(moved) != "deep_outside" || moved.after <= moved.before) continue;
    grows = true;
    for (const CallPlace& place : standing.matchup->call_places) {
      const Scheme& scheme = standing.matchup->scheme();
      const std::string in = "call." + scheme.situations[place.situation].id + '.';
      if (!moved.path.starts_with(in)) continue;
      for (const std::size_t f : place.out_of_reach) CHECK(scheme.families[f].id != "deep_outside");
    }
  }
  CHECK(grows);
}

TEST_CASE("fading surprise leaves less to gain") {
  Memory memory(toy::about(), 1);
  const Stand stand{0, 0, {toy::set("rate.quick.completion", 0.9)}};
  TailorLimits fading = anything;
  fading.fade = 8;
  const auto gain = [&](const TailorLimits& limits) {
    return answer(memory, TailorRequest{stand, limits}, {}).own_net_points_per_game.centre;
  };
  CHECK(gain(fading) < gain(anything));
  CHECK(gain(fading) > 0);
}

TEST_CASE("limits out of range are refused") {
  Memory memory(toy::about(), 1);
  for (const TailorLimits& limits :
       {TailorLimits{0, 0.1, 0}, TailorLimits{0.1, -0.1, 0}, TailorLimits{0.1, 0.1, 11}})
    CHECK_THROWS_AS(answer(memory, TailorRequest{{}, limits}, {}), InputError);
}

TEST_CASE("a bent mix keeps its sum and its limits") {
  const std::vector<double> share{0.3, 0.4, 0.2, 0.1};
  const std::vector<bool> passes{true, false, true, false};
  const auto bent = [&](const std::vector<Turn>& turns, const TailorLimits& limits) {
    return bent_mix(share, turns, passes, limits);
  };
  using enum Turn;
  // By hand: the first grows by 0.1, which the others give in proportion to 0.4, 0.2, 0.1.
  const auto plain = bent({more, stay, stay, stay}, {0.1, 1, 0});
  CHECK(plain[0] == Approx(0.4));
  CHECK(plain[1] == Approx(0.4 - 0.1 * 4 / 7));
  CHECK(plain[2] == Approx(0.2 - 0.1 * 2 / 7));
  // Two ways: what grows and what shrinks settle it between them.
  const auto both = bent({more, stay, stay, less}, {0.1, 1, 0});
  CHECK(both[0] == Approx(0.4));
  CHECK(both[3] == Approx(0).margin(1e-12));
  CHECK(both[1] == Approx(0.4));
  // Nothing stays: 0.15 and 0.1 shrink, so what grows by 0.15 each shrinks to 0.125.
  const auto tight = bent({more, more, less, less}, {0.15, 1, 0});
  CHECK(tight[2] + tight[3] == Approx(0.3 - 0.25));
  CHECK(tight[0] - 0.3 == Approx(0.125));
  // Passes may move by 0.02 only: all moves shrink alike.
  const auto few = bent({more, stay, stay, stay}, {0.1, 0.02, 0});
  CHECK(few[0] + few[2] - 0.5 == Approx(0.02));
  CHECK((few[0] - 0.3) / (plain[0] - 0.3) == Approx((few[1] - 0.4) / (plain[1] - 0.4)));
  for (const auto& mix : {plain, both, tight, few})
    CHECK(std::accumulate(mix.begin(), mix.end(), 0.0) == Approx(1).epsilon(1e-12));
  // What holds neither gives nor takes: the third alone pays for the first.
  const auto held = bent({more, hold, stay, hold}, {0.1, 1, 0});
  CHECK(held[1] == share[1]);
  CHECK(held[3] == share[3]);
  CHECK(held[2] == Approx(0.1));
  // All that should grow, and nothing to take from: nothing moves.
  CHECK(bent({more, more, more, more}, {0.1, 1, 0}) == share);
}
