#include <profile/gain_parts.hpp>
#include <profile/joint.hpp>

#include <callfit/profile/edited_cell.hpp>
#include <callfit/stats/logit.hpp>
#include <population/skewed.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>

namespace callfit {
namespace {

constexpr std::array all_gain_parts{GainPart::depth, GainPart::yac, GainPart::run,
                                    GainPart::scramble, GainPart::sack};

/// Calls visit(value, weight) over the marginal; weights sum to 1.
template <class Visit>
void over(const Marginal& marginal, const Visit& visit) {
  constexpr int half = 24;
  constexpr double step = 0.25;
  const double total = std::sqrt(2 * M_PI) / step;
  const Skewed value(marginal);
  for (int i = -half; i <= half; ++i) {
    const double score = step * i;
    visit(value.at(score), std::exp(-score * score / 2) / total);
  }
}

GainEstimate* estimate_of(Profile& profile, std::size_t family, GainPart part) {
  if (part == GainPart::scramble) return &profile.scramble;
  if (part == GainPart::sack) return &profile.sack;
  return own_gain(profile.families[family], part);
}

double variance_of_bins(const std::vector<double>& shares, const std::vector<double>& yards) {
  const double mean = std::inner_product(shares.begin(), shares.end(), yards.begin(), 0.0);
  double variance = 0;
  for (std::size_t b = 0; b < shares.size(); ++b)
    variance += shares[b] * (yards[b] - mean) * (yards[b] - mean);
  return variance;
}

}  // namespace

JointPlaces joint_places(const Setting& setting) {
  JointPlaces places;
  places.rates.resize(setting.families.size());
  places.gains.resize(setting.families.size());
  if (!setting.population) return places;
  for (std::size_t f = 0; f < setting.families.size(); ++f) {
    const std::string& id = setting.families[f].id;
    for (std::size_t r = 0; r < rate_count; ++r)
      if (setting.families[f].rates[r])
        places.rates[f][r] =
            setting.population->find_quantity(id + "." + std::string(word(static_cast<Rate>(r))));
    for (const GainPart part : all_gain_parts)
      places.gains[f][static_cast<std::size_t>(part)] = setting.population->find_quantity(
          (is_shared(part) ? "shared" : id) + "." + std::string(word(part)));
  }
  return places;
}

Beta rate_of(const Quantity& quantity, const Marginal& marginal) {
  const double threshold = quantity.thresholds.front();
  double mean = 0;
  double square = 0;
  over(marginal, [&](double shift, double weight) {
    const double p = logistic(threshold + shift);
    mean += weight * p;
    square += weight * p * p;
  });
  // A rate that nothing is open about is still no certainty to a Beta.
  const double least = 1e-9 * mean * (1 - mean);
  return Beta::of_moments(mean, std::max(square - mean * mean, least));
}

std::vector<double> bins_at(const Quantity& quantity, double shift) {
  std::vector<double> bins;
  double above = 1;
  for (const double threshold : quantity.thresholds) {
    const double next = logistic(threshold + shift);
    bins.push_back(above - next);
    above = next;
  }
  bins.push_back(above);
  return bins;
}

std::vector<double> gain_parameters(const Quantity& quantity, const Marginal& marginal,
                                    const GainPopulation& gain) {
  const std::vector<double> yards = gain.bin_means();
  std::vector<double> shares(yards.size(), 0.0);
  double mean = 0;
  double square = 0;
  over(marginal, [&](double shift, double weight) {
    const std::vector<double> bins = bins_at(quantity, shift);
    double gained = 0;
    for (std::size_t b = 0; b < bins.size(); ++b) {
      shares[b] += weight * bins[b];
      gained += bins[b] * yards[b];
    }
    mean += weight * gained;
    square += weight * gained * gained;
  });
  constexpr double most = 1e6;  // snaps: as good as certain
  const double variance = square - mean * mean;
  const double between = variance_of_bins(shares, yards);
  const double total = variance * most > between ? std::max(between / variance - 1, 1e-3) : most;
  for (double& share : shares) share = std::max(share, smallest_share) * total;
  return shares;
}

void apply_joint_estimates(Profile& profile, const Setting& setting) {
  const JointPlaces places = joint_places(setting);
  for (std::size_t f = 0; f < profile.families.size(); ++f) {
    FamilyProfile& family = profile.families[f];
    for (std::size_t r = 0; r < rate_count; ++r) {
      if (!places.rates[f][r] || !family.rates[r]) continue;
      const std::size_t q = *places.rates[f][r];
      const Beta rate = rate_of(setting.population->quantities[q], profile.joint->marginals[q]);
      family.rates[r]->mean = rate.mean();
      family.rates[r]->strength = rate.strength();
    }
    for (const GainPart part : all_gain_parts) {
      const auto q = places.gains[f][static_cast<std::size_t>(part)];
      GainEstimate* estimate = estimate_of(profile, f, part);
      if (q && estimate != nullptr)
        estimate->alpha =
            gain_parameters(setting.population->quantities[*q], profile.joint->marginals[*q],
                            *population_of(setting, f, part));
    }
  }
}

void apply_joint(Profile& profile, const Setting& setting) {
  apply_joint_estimates(profile, setting);
  const auto mix = shell_mix(setting);
  for (FamilyProfile& family : profile.families) estimate_cells(family, mix);
}

namespace {

bool is_near(double a, double b) {
  constexpr double same = 1e-9;
  return std::abs(a - b) <= same * std::abs(b);
}

bool differ(const std::optional<RateEstimate>& a, const std::optional<RateEstimate>& b) {
  return a && b && !(is_near(a->mean, b->mean) && is_near(a->strength, b->strength));
}

bool differ(const GainEstimate& a, const GainEstimate& b) {
  return !(a.alpha.size() == b.alpha.size() &&
           std::equal(a.alpha.begin(), a.alpha.end(), b.alpha.begin(),
                      [](double x, double y) { return is_near(x, y); }));
}

}  // namespace

TurnedByHand turned_by_hand(const Profile& profile, const Setting& setting) {
  Profile now = profile;
  Profile untouched = profile;
  apply_joint_estimates(untouched, setting);
  TurnedByHand turned;
  for (std::size_t f = 0; f < profile.families.size(); ++f) {
    auto& rates = turned.rates.emplace_back();
    auto& gains = turned.gains.emplace_back();
    for (std::size_t r = 0; r < rate_count; ++r)
      rates[r] = differ(now.families[f].rates[r], untouched.families[f].rates[r]);
    for (const GainPart part : all_gain_parts) {
      const GainEstimate* is = estimate_of(now, f, part);
      const GainEstimate* was = estimate_of(untouched, f, part);
      gains[static_cast<std::size_t>(part)] = is != nullptr && was != nullptr && differ(*is, *was);
    }
  }
  return turned;
}

Profile with_joint(const Profile& profile, const Setting& setting, Posterior joint) {
  const TurnedByHand turned = turned_by_hand(profile, setting);
  Profile kept = profile;
  Profile out = profile;
  out.joint = std::move(joint);
  apply_joint_estimates(out, setting);
  for (std::size_t f = 0; f < profile.families.size(); ++f) {
    for (std::size_t r = 0; r < rate_count; ++r)
      if (turned.rates[f][r]) out.families[f].rates[r] = profile.families[f].rates[r];
    for (const GainPart part : all_gain_parts)
      if (turned.gains[f][static_cast<std::size_t>(part)])
        *estimate_of(out, f, part) = *estimate_of(kept, f, part);
  }
  return out;
}

void settle_spreads(Setting& setting) {
  if (!setting.population) return;
  const JointPlaces places = joint_places(setting);
  const Posterior nothing_known = posterior_of(with_assumed_spreads(*setting.population), {});
  for (std::size_t f = 0; f < setting.families.size(); ++f) {
    FamilyPopulation& family = setting.families[f];
    for (std::size_t r = 0; r < rate_count; ++r) {
      const auto q = places.rates[f][r];
      if (!q) continue;
      const Beta rate = rate_of(setting.population->quantities[*q], nothing_known.marginals[*q]);
      family.rates[r]->spread = std::sqrt(rate.variance());
    }
    for (const GainPart part : all_gain_parts) {
      const auto q = places.gains[f][static_cast<std::size_t>(part)];
      GainPopulation* gain = population_of(setting, f, part);
      if (!q || gain == nullptr) continue;
      const auto alpha =
          gain_parameters(setting.population->quantities[*q], nothing_known.marginals[*q], *gain);
      gain->concentration = std::accumulate(alpha.begin(), alpha.end(), 0.0);
    }
  }
}

}  // namespace callfit
