#include <callfit/base/finding.hpp>
#include <desk/turn.hpp>

#include <catch2/catch.hpp>

using namespace callfit;
using namespace callfit::desk;

namespace {

KnobValue share_at(double now) {
  return {"rate.boot.completion", "completion, boot", KnobUnit::share, now, 0, 1, {}};
}

FitAnswer one_demand(bool more_is_better) {
  FitAnswer fit;
  DemandAnswer demand;
  demand.own_path = "rate.boot.completion";
  demand.more_is_better = more_is_better;
  demand.spread = 0.05;
  fit.demands = {demand};
  return fit;
}

double turned(const Turn& turn, double now, bool more_is_better = true) {
  return change_of(turn, share_at(now), one_demand(more_is_better)).amount;
}

}  // namespace

TEST_CASE("a step is the smallest change that shows") {
  CHECK(step_of(share_at(0.6)) == 0.01);
  CHECK(step_of(share_at(0.03)) == 0.001);
  CHECK(step_of(share_at(0.97)) == 0.001);
  CHECK(turned({"rate.boot.completion", Steps{3}}, 0.6) == Approx(0.63));
  CHECK(turned({"rate.boot.completion", Steps{-1}}, 0.6) == Approx(0.59));
}

TEST_CASE("a move along the axis is told in spreads, toward what is better") {
  CHECK(turned({"rate.boot.completion", Units{2}}, 0.6) == Approx(0.7));
  CHECK(turned({"rate.boot.completion", Units{2}}, 0.6, false) == Approx(0.5));
  CHECK_THROWS_AS(change_of({"call.all.boot", Units{1}}, share_at(0.1), one_demand(true)),
                  InputError);
}

TEST_CASE("no turn leaves what can be set") {
  CHECK(turned({"rate.boot.completion", Steps{1000}}, 0.6) == 1);
  CHECK(turned({"rate.boot.completion", Units{-100}}, 0.6) == 0);
}

TEST_CASE("a typed value is read as on the command line") {
  CHECK(turned({"rate.boot.completion", "62%"}, 0.6) == Approx(0.62));
  CHECK(turned({"rate.boot.completion", "0.62"}, 0.6) == Approx(0.62));
  CHECK(change_of({"rate.boot.completion", "x1.1"}, share_at(0.6), one_demand(true)).way ==
        Change::Way::scale);
  CHECK(change_of({"policy", "best"}, share_at(0.6), one_demand(true)).word == "best");
}

TEST_CASE("a path is turned once, and not at all where it began") {
  const auto set = [](const char* path, double to) {
    return Change{path, Change::Way::set, to, ""};
  };
  auto changes = with_change({}, set("a", 0.5), 0.4);
  changes = with_change(changes, set("b", 0.2), 0.1);
  changes = with_change(changes, set("a", 0.6), 0.4);
  REQUIRE(changes.size() == 2);
  CHECK(changes[0].path == "b");
  CHECK(changes[1].amount == 0.6);
  CHECK(with_change(changes, set("a", 0.4), 0.4).size() == 1);
}
