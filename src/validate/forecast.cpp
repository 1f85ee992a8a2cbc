#include <validate/forecast.hpp>

#include <callfit/population/posterior.hpp>
#include <callfit/stats/logit.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

/// First-order points by a quantity's move, wherever it is played.
double slope_of(const PointsGround& ground, std::size_t quantity) {
  constexpr double step = 0.05;  // log-odds
  double sum = 0;
  for (const double side : {-1.0, 1.0}) {
    ask::PlayerShift shift = ask::no_shift(ground.setting());
    for (std::size_t f = 0; f < shift.families.size(); ++f) {
      for (std::size_t r = 0; r < rate_count; ++r)
        if (ground.places().rates[f][r] == quantity) shift.families[f].rate[r] = side * step;
      for (std::size_t g = 0; g < gain_part_count; ++g) {
        if (ground.places().gains[f][g] != quantity) continue;
        const auto part = static_cast<GainPart>(g);
        double& moved = part == GainPart::scramble ? shift.scramble
                        : part == GainPart::sack   ? shift.sack
                                                   : shift.families[f].gain[g];
        moved = side * step;
      }
    }
    sum += side * ground.first_order_points(moved(ground.average(), shift, ground.setting()));
  }
  return sum / (2 * step);
}

double dot(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0;
  for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i) sum += a[i] * b[i];
  return sum;
}

}  // namespace

Forecaster::Forecaster(const PointsGround& ground)
    : ground_(ground),
      league_(ground.population(), ground.setting().id),
      handoff_(ground.population().find_trait("handoff")),
      first_(league_.rates().size() + (handoff_ ? 1 : 0)) {
  const auto count = static_cast<Eigen::Index>(ground.population().quantities.size());
  slopes_ = Eigen::VectorXd::Zero(count);
  for (Eigen::Index q = 0; q < count; ++q)
    slopes_[q] = slope_of(ground, static_cast<std::size_t>(q));
}

// The rates of the league, success of handoffs, and then the setting's own quantities.
Population Forecaster::around(const Means& league, const MemberCounts& handoffs) const {
  Population out = league_.around(league);
  if (handoff_) {
    const double mean = (handoffs.made + 0.5) / (handoffs.of + 1);
    out.quantities.push_back({"handoff_success", *handoff_, 1, 0, {logit(mean)}});
  }
  const Population own = with_assumed_spreads(ground_.population());
  out.quantities.insert(out.quantities.end(), own.quantities.begin(), own.quantities.end());
  return out;
}

PointsForecast Forecaster::points_of(const Posterior& posterior, Quantities which) const {
  const auto traits = [&](std::size_t q) { return ground_.population().quantities[q].trait; };
  std::vector<std::size_t> used;
  for (Eigen::Index q = 0; q < slopes_.size(); ++q)
    if (slopes_[q] != 0 &&
        (which == Quantities::all || traits(static_cast<std::size_t>(q)) == handoff_))
      used.push_back(static_cast<std::size_t>(q));
  PointsForecast out;
  double variance = 0;
  for (const std::size_t a : used) {
    const Marginal& marginal = posterior.marginals[first_ + a];
    const double slope = slopes_[static_cast<Eigen::Index>(a)];
    out.mean += slope * marginal.mean;
    for (const std::size_t b : used) {
      const Score& one = posterior.scores[first_ + a];
      const Score& other = posterior.scores[first_ + b];
      double correlation = dot(one.shared, other.shared);
      if (traits(a) == traits(b)) correlation += dot(one.own, other.own);
      variance += slope * marginal.sd * slopes_[static_cast<Eigen::Index>(b)] *
                  posterior.marginals[first_ + b].sd * correlation;
    }
  }
  out.sd = std::sqrt(std::max(variance, 0.0));
  return out;
}

PointsForecast Forecaster::after(const PlayedSeason& season, const Means& league,
                                 const MemberCounts& league_handoffs,
                                 std::optional<bool> new_team) const {
  Evidence evidence = evidence_of(league_, season.games, league_.last_season(new_team));
  const MemberCounts& handoffs = season.counts.handoff_success;
  if (handoff_ && handoffs.of > 0)
    evidence.tallies.push_back(
        {league_.rates().size(), {handoffs.of - handoffs.made, handoffs.made}, 0, {}, 0, {}, {}});
  return points_of(posterior_of(around(league, league_handoffs), evidence));
}

PointsForecast Forecaster::member(Quantities which) const {
  Means even;
  even.fill(0.5);
  return points_of(posterior_of(around(even, {}), {}), which);
}

PointsForecast Forecaster::rest_of_season(const Games& first, const Means& league) const {
  return points_of(
      posterior_of(around(league, {}), evidence_of(league_, first, league_.earlier_this_season())));
}

double Forecaster::population_spread() const { return member(Quantities::all).sd; }

double Forecaster::handoff_spread() const { return member(Quantities::handoffs).sd; }

// How much his evidence settles does not hang on what it says, but for a rate's own curvature.
double Forecaster::carried_spread(PlaceChange change) const {
  constexpr double endless = 1e6;  // trials
  Means even;
  even.fill(0.5);
  Evidence all;
  all.sources = {source_after(ground_.population(), change)};
  for (std::size_t q = 0; q < first_; ++q)
    all.tallies.push_back({q, {endless / 2, endless / 2}, 0, {}, 0, {}, {}});
  const double before = member(Quantities::all).sd;
  const double after = points_of(posterior_of(around(even, {}), all)).sd;
  return std::sqrt(std::max(before * before - after * after, 0.0));
}

}  // namespace callfit
