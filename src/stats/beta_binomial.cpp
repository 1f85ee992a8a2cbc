#include <callfit/stats/beta_binomial.hpp>

#include <callfit/stats/beta.hpp>
#include <callfit/stats/logit.hpp>

#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <stdexcept>

namespace callfit {
namespace {

// Searched in log strength and logit mean. Beyond 1e7 the members are alike for any tape; below
// 0.05 each would be all or nothing.
const double least_log_strength = std::log(0.05);
const double most_log_strength = std::log(1e7);
constexpr double widest_logit = 14;
constexpr double half_chi_square90 = 1.3527717;
constexpr int brent_bits = 40;

struct Peak {
  double at = 0;
  double height = 0;
};

template <class Function>
Peak highest(const Function& f, double low, double high) {
  const auto found =
      boost::math::tools::brent_find_minima([&](double x) { return -f(x); }, low, high, brent_bits);
  return {found.first, -found.second};
}

// The marginal likelihood with one parameter profiled out.
class Likelihood {
 public:
  explicit Likelihood(const std::vector<MemberCounts>& members) : members_(members) {}

  double at(double logit_mean, double log_strength) const {
    const Beta beta = Beta::of_mean(logistic(logit_mean), std::exp(log_strength));
    return beta_binomial_log_likelihood(members_, beta.a, beta.b);
  }
  Peak over_mean(double log_strength) const {
    return highest([&](double x) { return at(x, log_strength); }, -widest_logit, widest_logit);
  }
  Peak over_strength(double logit_mean) const {
    return highest([&](double s) { return at(logit_mean, s); }, least_log_strength,
                   most_log_strength);
  }

 private:
  const std::vector<MemberCounts>& members_;
};

// Where the profile falls to `floor` between its peak and an end; the end itself when it does not.
template <class Profile>
double crossing(const Profile& profile, double floor, double peak, double end) {
  const auto above = [&](double x) { return profile(x) - floor; };
  const double at_end = above(end);
  if (at_end >= 0 || peak == end) return end;
  std::uintmax_t rounds = 100;
  const auto close = boost::math::tools::eps_tolerance<double>(30);
  const auto bracket = peak < end
                           ? boost::math::tools::toms748_solve(above, peak, end, close, rounds)
                           : boost::math::tools::toms748_solve(above, end, peak, close, rounds);
  return (bracket.first + bracket.second) / 2;
}

double spread_at(double logit_mean, double log_strength) {
  return std::sqrt(Beta::of_mean(logistic(logit_mean), std::exp(log_strength)).variance());
}

void require_both_outcomes(const std::vector<MemberCounts>& members) {
  double made = 0;
  double of = 0;
  const auto tried = [](const MemberCounts& m) { return m.of > 0; };
  for (const MemberCounts& member : members) {
    made += member.made;
    of += member.of;
  }
  if (std::count_if(members.begin(), members.end(), tried) < 2 || !(made > 0) || !(made < of))
    throw std::invalid_argument(
        "fit_beta_binomial: needs trials of both outcomes from two members");
}

}  // namespace

double beta_binomial_log_likelihood(const std::vector<MemberCounts>& members, double a, double b) {
  const double prior = log_beta_function(a, b);
  double sum = 0;
  for (const MemberCounts& member : members)
    if (member.of > 0)
      sum += log_beta_function(a + member.made, b + member.of - member.made) - prior;
  return sum;
}

BetaBinomialFit fit_beta_binomial(const std::vector<MemberCounts>& members) {
  require_both_outcomes(members);
  const Likelihood likelihood(members);
  const auto by_strength = [&](double s) { return likelihood.over_mean(s).height; };
  const auto by_mean = [&](double x) { return likelihood.over_strength(x).height; };

  const Peak strength = highest(by_strength, least_log_strength, most_log_strength);
  const double mean = likelihood.over_mean(strength.at).at;
  const double floor = strength.height - half_chi_square90;
  const double alike = crossing(by_strength, floor, strength.at, most_log_strength);
  const double apart = crossing(by_strength, floor, strength.at, least_log_strength);
  const bool open = alike == most_log_strength;

  BetaBinomialFit fit;
  fit.mean = logistic(mean);
  fit.spread =
      by_strength(most_log_strength) >= strength.height - 1e-6 ? 0 : spread_at(mean, strength.at);
  fit.mean90 = {logistic(crossing(by_mean, floor, mean, -widest_logit)),
                logistic(crossing(by_mean, floor, mean, widest_logit))};
  fit.spread90 = {open ? 0 : spread_at(likelihood.over_mean(alike).at, alike),
                  spread_at(likelihood.over_mean(apart).at, apart)};
  fit.log_likelihood = strength.height;
  return fit;
}

}  // namespace callfit
