// What a possession is worth when the other team's possessions are counted, to a fixed point.
#include <callfit/base/finding.hpp>
#include <drive/exact.hpp>

#include <Eigen/Core>

#include <algorithm>
#include <cmath>
#include <memory>
#include <numeric>
#include <string>
#include <utility>
#include <vector>

namespace callfit {
namespace drive {
namespace {

using Vector = Eigen::VectorXd;  // by yards_to_goal 1 to 99 (entry y - 1)

std::vector<std::size_t> families_in(const Setting& setting, const Scheme& scheme) {
  std::vector<std::size_t> places;
  for (const Family& family : scheme.families) {
    const std::string& id = family.like.empty() ? family.id : family.like;
    const FamilyPopulation* found = setting.find_family(id);
    if (found == nullptr)
      throw InputError(Finding{{},
                               "scheme " + scheme.id + " calls " + id + ", which setting " +
                                   setting.id + " does not know",
                               "add the family to the setting or give it a like"});
    places.push_back(static_cast<std::size_t>(found - setting.families.data()));
  }
  return places;
}

// Weights of first-and-ten values (entry y - 1) for a team that starts at these own yards.
Vector at_own_yards(const YardPmf& own_yard) {
  Vector weight = Vector::Zero(last_spot);
  for (int own = own_yard.first; own <= own_yard.last(); ++own)
    weight(std::clamp(field_length - own, 1, last_spot) - 1) += own_yard.at(own);
  return weight;
}

std::vector<double> by_yards_to_goal(const Vector& values) {
  std::vector<double> out(field_length, 0.0);
  std::copy(values.begin(), values.end(), out.begin() + 1);
  return out;
}

/// The setting's average quarterback in its average scheme, fourth downs by the table.
Table average_table(const Setting& setting, const Scheme& scheme) {
  const NetValues unvalued{std::vector<double>(field_length, 0.0), 0, 0, 0};
  return compile_drives(average_player(setting), scheme, families_in(setting, scheme), setting,
                        unvalued)
      .table();
}

Vector column_of(const Table& table, const Column& column) {
  const std::vector<double> values = first_and_ten(table, table_policies(table), column);
  return Eigen::Map<const Vector>(values.data() + 1, last_spot);
}

// x = F(x) for an affine F, by generalised conjugate residuals (Eisenstat, Elman & Schultz 1983):
// the best combination of all that was tried, whose residual falls fast since drives from anywhere
// end at much the same spots.
template <class Affine>
Vector fixed_point(const Affine& F) {
  constexpr double settled = 1e-13;
  const Vector constant = F(Vector::Zero(last_spot));
  Vector x = Vector::Zero(last_spot);
  Vector residual = constant;
  std::vector<Vector> tried;
  std::vector<Vector> moved;  // what I - F makes of them: orthonormal
  while (residual.lpNorm<Eigen::Infinity>() > settled && tried.size() < last_spot) {
    Vector step = residual;
    Vector effect = step - (F(step) - constant);
    for (std::size_t i = 0; i < tried.size(); ++i) {
      const double part = effect.dot(moved[i]);
      effect -= part * moved[i];
      step -= part * tried[i];
    }
    const double length = effect.norm();
    tried.push_back(step / length);
    moved.push_back(effect / length);
    const double by = residual.dot(moved.back());
    x += by * tried.back();
    residual -= by * moved.back();
  }
  return x;
}

Table with_hazard(const Table& table, double hazard) {
  auto plan = std::make_shared<Plan>(*table.plan);
  plan->half_hazard = hazard;
  find_replays(*plan);
  return {std::move(plan), table.classes};
}

double half_share(const Table& average, double hazard) {
  const Table table = with_hazard(average, hazard);
  const std::vector<double> starts = start_shares(table.plan->setting);
  const std::vector<double> share =
      first_and_ten(table, table_policies(table), share_column(DriveResult::end_of_half));
  return std::inner_product(starts.begin(), starts.end(), share.begin(), 0.0);
}

// The chance per snap that makes the half cut off the setting's share of its average drives
// (secant steps; the share is nearly proportional to the chance).
double half_hazard_of(const Table& average) {
  const double wanted = average.plan->setting.end_of_half_share;
  if (wanted <= 0) return 0;
  double before = 0;
  double share_before = 0;
  double hazard = wanted / 6;
  for (int step = 0; step < 20; ++step) {
    const double share = half_share(average, hazard);
    if (std::abs(share - wanted) < 1e-10) break;
    const double next = hazard + (wanted - share) * (hazard - before) / (share - share_before);
    before = hazard;
    share_before = share;
    hazard = next;
  }
  return hazard;
}

}  // namespace
}  // namespace drive

// Let N be the net values, T the takeovers, s own points, td a touchdown with its try, and K, S
// the values of being about to receive a kickoff and a free kick:
//   N = s - T N - scored K + returned (K - td) - safety (points + S)
//   K = (1 - r) kickoff N + r (td - K),  S = kick N.
// The right side is the net column of a drive after which the opponent is worth N. Points are
// handed back and forth for ever; every possession is followed by one, so T (with the kicks) has
// the eigenvalue 1 and N = s - T s + T^2 s - ... does not converge. The system still has one
// solution, its Abel sum: I + T is singular only if T has the eigenvalue -1, that is if the spots
// fell into two sets that possessions strictly alternate between (period 2, Perron & Frobenius).
// Kickoffs and punts from anywhere spread over common spots, so they do not.
NetValues average_net_values(const Setting& setting, const Scheme& average_scheme,
                             bool end_of_half) {
  using namespace drive;
  const Table average = average_table(setting, average_scheme);
  const GameRules& rules = setting.rules;
  const double r = setting.kickoff.return_touchdown;
  const Vector kickoff = at_own_yards(setting.kickoff.own_yard) * ((1 - r) / (1 + r));
  const double returned = r * (rules.touchdown + rules.try_mean) / (1 + r);
  const Vector free_kick = at_own_yards(rules.safety_kick_start);
  const auto values_of = [&](const Vector& net) {
    return NetValues{by_yards_to_goal(net), kickoff.dot(net) + returned, free_kick.dot(net), 0};
  };
  NetValues values = values_of(fixed_point(
      [&](const Vector& net) { return column_of(average, net_column(rules, values_of(net))); }));
  if (end_of_half) values.half_hazard = half_hazard_of(average);
  return values;
}

// As above, but the first score of either side ends the count.
std::vector<double> next_score_points(const Setting& setting, const Scheme& average_scheme,
                                      bool end_of_half) {
  using namespace drive;
  Table average = average_table(setting, average_scheme);
  if (end_of_half) average = with_hazard(average, half_hazard_of(average));
  return by_yards_to_goal(fixed_point([&](const Vector& net) {
    return column_of(average, net_column(setting.rules, {by_yards_to_goal(net), 0, 0, 0}));
  }));
}

}  // namespace callfit
