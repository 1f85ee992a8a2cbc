#include <ask/learned.hpp>

#include <population/skewed.hpp>
#include <profile/joint.hpp>

#include <Eigen/Cholesky>
#include <Eigen/Core>

#include <algorithm>
#include <string>

namespace callfit::ask {
namespace {

void move_all(Question& question, const std::vector<double>& moves) {
  const JointPlaces places = joint_places(question.ground->setting);
  for (std::size_t f = 0; f < places.rates.size(); ++f) {
    for (std::size_t r = 0; r < rate_count; ++r)
      if (const auto q = places.rates[f][r]) question.player.families[f].rate[r] = moves[*q];
    for (std::size_t p = 0; p < gain_part_count; ++p)
      if (const auto q = places.gains[f][p])
        gain_move(question.player, f, static_cast<GainPart>(p)) = moves[*q];
  }
}

bool is_joint(const Question& question) {
  return question.ground->setting.population && question.profile->joint;
}

}  // namespace

std::vector<double> moves_given(const Population& population, const Posterior& posterior,
                                const std::map<std::size_t, double>& learned) {
  constexpr double ridge = 1e-9;  // two quantities that are one
  const auto count = static_cast<Eigen::Index>(learned.size());
  Eigen::MatrixXd known = Eigen::MatrixXd::Identity(count, count) * (1 + ridge);
  Eigen::VectorXd score(count);
  Eigen::Index i = 0;
  for (const auto& [a, move] : learned) {
    const Marginal& marginal = posterior.marginals[a];
    score(i) = Skewed(marginal).score_of(marginal.mean + move);
    Eigen::Index j = 0;
    for (const auto& [b, other] : learned) {
      if (j < i) known(i, j) = known(j, i) = score_correlation(population, posterior, a, b);
      ++j;
    }
    ++i;
  }
  const Eigen::LDLT<Eigen::MatrixXd> factor(known);
  const Eigen::VectorXd pull = factor.solve(score);
  std::vector<double> moves;
  for (std::size_t q = 0; q < posterior.marginals.size(); ++q) {
    if (const auto own = learned.find(q); own != learned.end()) {
      moves.push_back(own->second);
      continue;
    }
    Eigen::VectorXd with(count);
    i = 0;
    for (const auto& entry : learned)
      with(i++) = score_correlation(population, posterior, q, entry.first);
    const double left = std::max(0.0, 1 - with.dot(factor.solve(with)));
    const Marginal& marginal = posterior.marginals[q];
    moves.push_back(Skewed(marginal).mean_at(with.dot(pull), left) - marginal.mean);
  }
  return moves;
}

std::optional<std::size_t> rate_quantity(const Question& question, std::size_t family,
                                         std::size_t rate) {
  return joint_places(question.ground->setting).rates[family][rate];
}

std::optional<std::size_t> gain_quantity(const Question& question, std::size_t family,
                                         GainPart part) {
  return joint_places(question.ground->setting).gains[family][static_cast<std::size_t>(part)];
}

bool learn(Question& question, std::optional<std::size_t> quantity, double move) {
  if (!question.as_learned || !is_joint(question) || !quantity) return false;
  question.learned[*quantity] = move;
  move_all(question, moves_given(with_assumed_spreads(*question.ground->setting.population),
                                 *question.profile->joint, question.learned));
  return true;
}

}  // namespace callfit::ask
