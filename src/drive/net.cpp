// What a possession is worth when the other team's possessions are counted, to a fixed point.
#include <callfit/base/finding.hpp>
#include <drive/exact.hpp>

#include <Eigen/LU>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <string>

namespace callfit {
namespace drive {
namespace {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;

/// Rows: first and ten at yards_to_goal 1 to 99 (row y - 1).
struct DriveEnds {
  Matrix slot;       ///< columns: slots; a row sums to 1
  Vector own_score;  ///< own points of a drive
  Vector safety;     ///< share of drives
};

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

DriveEnds drive_ends(const Table& table) {
  DriveEnds ends;
  std::vector<Column> columns{table.plan->points, share_column(DriveResult::safety)};
  for (Slot slot = 0; slot < slot_count; ++slot) columns.push_back(slot_column(slot));
  const std::vector<double> values = first_and_ten(table, policies_of(table), columns);
  const auto count = static_cast<Eigen::Index>(columns.size());
  using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
  const Eigen::Map<const RowMajor> all(values.data(), field_length, count);
  ends.own_score = all.col(0).tail(last_spot);
  ends.safety = all.col(1).tail(last_spot);
  ends.slot = all.bottomRightCorner(last_spot, slot_count);
  return ends;
}

// Weights of first-and-ten values (entry y - 1) for a team that starts at these own yards.
Vector at_own_yards(const YardPmf& own_yard) {
  Vector weight = Vector::Zero(last_spot);
  for (int own = own_yard.first; own <= own_yard.last(); ++own)
    weight(std::clamp(field_length - own, 1, last_spot) - 1) += own_yard.at(own);
  return weight;
}

// Entry (y - 1, z - 1): chance that after a drive from y the opponent starts at z yards to goal.
Matrix takeovers(const DriveEnds& ends) {
  return ends.slot.middleCols(1, last_spot).rowwise().reverse();
}

Table average_table(const Setting& setting, const Scheme& scheme, double half_hazard) {
  NetValues unvalued{std::vector<double>(field_length, 0.0), 0, 0, half_hazard};
  DriveOptions options;
  options.end_of_half = half_hazard > 0;
  return compile_drives(average_player(setting), scheme, families_in(setting, scheme), setting,
                        unvalued, options)
      .table();
}

std::vector<double> by_yards_to_goal(const Vector& values) {
  std::vector<double> out(field_length, 0.0);
  std::copy(values.begin(), values.end(), out.begin() + 1);
  return out;
}

double half_share(const Setting& setting, const Scheme& scheme, double hazard) {
  const Table table = average_table(setting, scheme, hazard);
  const std::vector<double> share =
      first_and_ten(table, policies_of(table), {share_column(DriveResult::end_of_half)});
  const std::vector<double> starts = start_shares(setting);
  return std::inner_product(starts.begin(), starts.end(), share.begin(), 0.0);
}

// The chance per snap that makes the half cut off the setting's share of its average drives
// (secant steps; the share is nearly proportional to the chance).
double half_hazard_of(const Setting& setting, const Scheme& scheme) {
  const double wanted = setting.end_of_half_share;
  if (wanted <= 0) return 0;
  double before = 0;
  double share_before = 0;
  double hazard = wanted / 6;
  for (int step = 0; step < 20; ++step) {
    const double share = half_share(setting, scheme, hazard);
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
// Points are handed back and forth for ever; every possession is followed by one, so T (with the
// kicks) has the eigenvalue 1 and N = s - T s + T^2 s - ... does not converge. The system still has
// one solution, its Abel sum: I + T is singular only if T has the eigenvalue -1, that is if the
// spots fell into two sets that possessions strictly alternate between (period 2, Perron &
// Frobenius). Kickoffs and punts from anywhere spread over common spots, so they do not.
NetValues average_net_values(const Setting& setting, const Scheme& average_scheme,
                             bool end_of_half) {
  using namespace drive;
  const DriveEnds ends = drive_ends(average_table(setting, average_scheme, 0));
  const GameRules& rules = setting.rules;
  const double td = rules.touchdown + rules.try_mean;
  const double r = setting.kickoff.return_touchdown;
  const Vector kickoff = at_own_yards(setting.kickoff.own_yard) * ((1 - r) / (1 + r));
  const double kickoff_constant = r * td / (1 + r);
  const Vector free_kick = at_own_yards(rules.safety_kick_start);
  const Vector returned = ends.slot.col(return_score_slot);
  const Vector to_kickoff = ends.slot.col(kickoff_slot) - returned;  // we kick, less he kicks

  const Matrix system = Matrix::Identity(last_spot, last_spot) + takeovers(ends) +
                        to_kickoff * kickoff.transpose() + ends.safety * free_kick.transpose();
  const Vector constant =
      ends.own_score - td * returned - rules.safety * ends.safety - kickoff_constant * to_kickoff;
  const Vector net = system.partialPivLu().solve(constant);
  return {by_yards_to_goal(net), kickoff.dot(net) + kickoff_constant, free_kick.dot(net),
          end_of_half ? half_hazard_of(setting, average_scheme) : 0.0};
}

// As above, but the first score of either side ends the count.
std::vector<double> next_score_points(const Setting& setting, const Scheme& average_scheme,
                                      bool end_of_half) {
  using namespace drive;
  const double hazard = end_of_half ? half_hazard_of(setting, average_scheme) : 0.0;
  const DriveEnds ends = drive_ends(average_table(setting, average_scheme, hazard));
  const GameRules& rules = setting.rules;
  const Vector scored = ends.own_score - rules.safety * ends.safety -
                        (rules.touchdown + rules.try_mean) * ends.slot.col(return_score_slot);
  const Matrix system = Matrix::Identity(last_spot, last_spot) + takeovers(ends);
  return by_yards_to_goal(system.partialPivLu().solve(scored));
}

}  // namespace callfit
