// How often families are called, against visits pushed through the sparse chain and the rules of
// the scheme and the setting read state by state.
#include "chain.hpp"
#include "fixture.hpp"

#include <callfit/ask/matchup.hpp>
#include <callfit/drive/adjoint.hpp>
#include <drive/exact.hpp>
#include <drive/table.hpp>

#include <callfit/files/files.hpp>

#include <catch2/catch.hpp>

#include <numeric>
#include <string>
#include <vector>

using namespace callfit;

namespace {

using Shares = std::vector<double>;

bool in_reach(const FamilyPopulation& family, const DriveState& state, const GameRules& rules) {
  if (family.kind != FamilyKind::pass) return true;
  const YardPmf& depth = family.depth->shape;
  for (int g = depth.first; g <= state.yards_to_goal + rules.end_zone_depth - 1; ++g)
    if (depth.at(g) > 0) return true;
  return false;
}

struct Called {
  Setting setting;
  Scheme scheme;
  std::vector<std::size_t> families;
  DriveModel model;
};

void add_snaps(const Called& subject, const DriveState& state, double plays, Shares& calls) {
  const auto& [down, to_go, spot] = state;
  const Setting& setting = subject.setting;
  const auto& situations = subject.scheme.situations;
  const CallSituation& situation = situations[first_match(situations, down, to_go, spot)];
  const ShellRule& shells = setting.shells[first_match(setting.shells, down, to_go, spot)];
  for (std::size_t s = 0; s < shell_count; ++s) {
    Shares share = situation.against(static_cast<Shell>(s));
    const Shares all = share;
    for (std::size_t f = 0; f < share.size(); ++f)
      if (!in_reach(setting.families[subject.families[f]], state, setting.rules)) share[f] = 0;
    double sum = std::accumulate(share.begin(), share.end(), 0.0);
    if (sum == 0) {
      share = all;
      sum = 1;
    }
    for (std::size_t f = 0; f < share.size(); ++f)
      calls[f] += plays * shells.share[s] * share[f] / sum;
  }
}

double chance_of_foul(const Setting& setting, const DriveState& state) {
  double sum = 0;
  for (const Penalty& penalty : setting.penalties)
    if (penalty.when.matches(state.down, state.to_go, state.yards_to_goal))
      sum += penalty.probability;
  return sum;
}

// Visits of every state: start + Q' start + Q'Q' start + ..., until nothing is left in the field.
Eigen::VectorXd pushed(const Eigen::SparseMatrix<double>& q, const Eigen::VectorXd& start) {
  Eigen::VectorXd visits = start;
  for (Eigen::VectorXd now = start; now.sum() > 1e-15;) {
    now = q.transpose() * now;
    visits += now;
  }
  return visits;
}

Shares counted(const Called& subject) {
  const drive::Table& table = subject.model.table();
  const auto starts = start_shares(subject.setting);
  Eigen::VectorXd start = Eigen::VectorXd::Zero(drive::state_count);
  for (int y = 1; y < 100; ++y)
    start(static_cast<Eigen::Index>(drive::state_index(first_down_at(y)))) =
        starts[static_cast<std::size_t>(y)];
  Shares calls(subject.scheme.families.size(), 0.0);
  const auto policies = drive::policies_of(table);
  for (std::size_t k = 0; k < table.classes.size(); ++k) {
    const Eigen::VectorXd visits = pushed(chain::list_outcomes(table, k, policies[k]).q, start);
    for (int down = 1; down <= 4; ++down)
      for (int y = 1; y <= 99; ++y)
        for (int to_go = 1; to_go <= y; ++to_go) {
          const DriveState state{down, to_go, y};
          double plays = visits(static_cast<Eigen::Index>(drive::state_index(state))) *
                         subject.setting.quality[k].weight;
          plays *= 1 - chance_of_foul(subject.setting, state);
          if (down == 4) plays *= policies[k][drive::place_index(y - to_go, 100 - y)].go;
          add_snaps(subject, state, plays, calls);
        }
  }
  return calls;
}

Shares holds(const Called& subject) {
  const Shares expected = counted(subject);
  const DriveCounts counts = counts_over(subject.model, start_shares(subject.setting));
  const Shares share = call_shares(subject.scheme, counts.places);
  const double plays = std::accumulate(expected.begin(), expected.end(), 0.0);
  for (std::size_t f = 0; f < expected.size(); ++f) {
    INFO(subject.scheme.families[f].id);
    CHECK_THAT(counts.calls[f], Catch::WithinAbs(expected[f], 1e-10));
    CHECK_THAT(share[f], Catch::WithinAbs(expected[f] / plays, 1e-11));
  }
  return share;
}

}  // namespace

TEST_CASE("calls are counted snap by snap, by shell and within reach") {
  // Its deep throws begin at 15 yards: none within 5 yards of the goal.
  const Setting setting = fixture::random_setting(5);
  const Scheme scheme = fixture::random_scheme(5);
  holds({setting, scheme, fixture::families(),
         compile_drives(average_player(setting), scheme, fixture::families(), setting,
                        {Shares(100, 0.0), 0, 0, 0})});
}

TEST_CASE("call shares of turned calls are those of a scheme that calls so", "[plain]") {
  const std::string root = CALLFIT_SOURCE_DIR;
  const Setting setting = Files().setting(root + "/settings/college.json");
  Scheme scheme = Files().scheme(root + "/schemes/balanced.json");
  const Matchup ground = make_matchup(setting, scheme, scheme);
  std::vector<double>& shares = scheme.situations.back().share;
  const double moved = shares[0] / 2;
  shares[0] -= moved;
  shares[1] += moved;
  const Matchup turned = with_calls(ground, setting, scheme);
  const Matchup fresh = with_scheme(ground, setting, scheme, ground.options);
  REQUIRE(turned.bound.call_share.size() == fresh.bound.call_share.size());
  for (std::size_t f = 0; f < fresh.bound.call_share.size(); ++f)
    CHECK_THAT(turned.bound.call_share[f], Catch::WithinAbs(fresh.bound.call_share[f], 1e-10));
  CHECK(std::abs(turned.bound.call_share[0] - ground.bound.call_share[0]) > 1e-3);
}

TEST_CASE("a scheme's call shares are what its average quarterback is called", "[plain]") {
  const std::string root = CALLFIT_SOURCE_DIR;
  const Setting setting = Files().setting(root + "/settings/college.json");
  const Scheme scheme = Files().scheme(root + "/schemes/spread-option-run.json");
  const Scheme average = Files().scheme(root + "/schemes/" + setting.average_scheme);
  const Matchup matchup = make_matchup(setting, scheme, average);
  const Called subject{setting, scheme, matchup.bound.setting_family,
                       compile_drives(matchup, average_player(setting))};
  CHECK(matchup.bound.call_share == holds(subject));
}
