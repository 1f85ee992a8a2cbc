#include <callfit/ask/charting.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <optional>

namespace callfit {
namespace {

struct Answers {
  std::vector<double> fit, net_points;

  explicit Answers(std::size_t draws) : fit(draws), net_points(draws) {}
  void put(std::size_t at, const Matchup& matchup, const Player& player) {
    fit[at] = fit_of(player, matchup.bound, matchup.setting).fit;
    net_points[at] = drive_points(matchup, player).net_points;
  }
};

// One number of a family that tape teaches: a rate or a mean gain.
struct Learnable {
  std::function<double(const Player&)> value;
  double strength = 0;         // what is known of it, in trials
  double trials_per_snap = 0;  // of the family
};

double mean_of(const FamilyProfile& family, Rate rate) {
  const auto& estimate = family.rates[static_cast<std::size_t>(rate)];
  return estimate ? estimate->mean : 0;
}

// Trials of a rate on one snap, from the estimates: what an average snap of the family brings.
double trials_per_snap(const FamilyProfile& family, FamilyKind kind, Rate rate) {
  if (kind != FamilyKind::pass) return 1;
  const double scrambles = mean_of(family, Rate::scramble);
  const double throws = 1 - mean_of(family, Rate::sack) - scrambles;
  switch (rate) {
    case Rate::completion:
    case Rate::interception:
    case Rate::on_time:
    case Rate::catchable:
      return throws;
    case Rate::evaded:
      return throws * mean_of(family, Rate::completion) + scrambles;
    default:
      return 1;
  }
}

double strength_of(const GainEstimate& gain) {
  return std::accumulate(gain.alpha.begin(), gain.alpha.end(), 0.0);
}

std::vector<Learnable> learnables(const Profile& profile, const Setting& setting, std::size_t f) {
  const FamilyProfile& family = profile.families[f];
  const FamilyPopulation& population = setting.families[f];
  std::vector<Learnable> out;
  for (std::size_t r = 0; r < rate_count; ++r)
    if (family.rates[r])
      out.push_back({[f, r](const Player& p) { return p.families[f].rate[r]; },
                     family.rates[r]->strength,
                     trials_per_snap(family, population.kind, static_cast<Rate>(r))});
  const double catches = trials_per_snap(family, population.kind, Rate::completion) *
                         mean_of(family, Rate::completion);
  const auto add_gain = [&](const std::optional<GainEstimate>& gain,
                            const std::optional<GainPopulation>& shape,
                            std::vector<double> PlayerFamily::*bins, double trials) {
    if (!gain || !shape) return;
    const GainPopulation* known = &*shape;
    out.push_back(
        {[f, known, bins](const Player& p) { return mean(gain_pmf(*known, p.families[f].*bins)); },
         strength_of(*gain), trials});
  };
  add_gain(family.depth, population.depth, &PlayerFamily::depth_bins, catches);
  add_gain(family.yac, population.yac, &PlayerFamily::yac_bins, catches);
  add_gain(family.run, population.run, &PlayerFamily::run_bins, 1);
  return out;
}

double squared_correlation(const std::vector<double>& x, const std::vector<double>& y) {
  const auto n = static_cast<double>(x.size());
  const double mean_x = std::accumulate(x.begin(), x.end(), 0.0) / n;
  const double mean_y = std::accumulate(y.begin(), y.end(), 0.0) / n;
  double xx = 0;
  double yy = 0;
  double xy = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    xx += (x[i] - mean_x) * (x[i] - mean_x);
    yy += (y[i] - mean_y) * (y[i] - mean_y);
    xy += (x[i] - mean_x) * (y[i] - mean_y);
  }
  return xx > 0 && yy > 0 ? xy * xy / (xx * yy) : 0;
}

// A family with what its numbers were in the draws.
struct Group {
  std::size_t family = 0;
  std::vector<Learnable> parts;
  std::vector<std::vector<double>> samples;  // [part][draw]
  Answers frozen;                            // results that share this family alone
};

// Part of the family's variance that more snaps are expected to remove: n / (strength + n) of each
// of its numbers, weighted by how much of the result each explains beyond chance (1 / draws).
double removed_share(const Group& group, const std::vector<double>& result) {
  double weights = 0;
  double removed = 0;
  const double chance = 1 / static_cast<double>(result.size());
  for (std::size_t p = 0; p < group.parts.size(); ++p) {
    const double weight = std::max(0.0, squared_correlation(group.samples[p], result) - chance);
    const double trials = more_snaps * group.parts[p].trials_per_snap;
    weights += weight;
    removed += weight * trials / (group.parts[p].strength + trials);
  }
  return weights > 0 ? removed / weights : 0;
}

TapeWorth worth(const Group& group, const std::vector<double>& result,
                const std::vector<double>& frozen) {
  TapeWorth worth;
  worth.share = sobol_index(result, frozen);
  const double share = std::clamp(worth.share.first, 0.0, 1.0);
  worth.narrowing = 1 - std::sqrt(1 - share * removed_share(group, result));
  return worth;
}

std::vector<Group> groups_of(const Profile& profile, const Matchup& matchup, std::size_t draws) {
  std::vector<std::size_t> families = matchup.bound.setting_family;
  std::sort(families.begin(), families.end());
  families.erase(std::unique(families.begin(), families.end()), families.end());
  std::vector<Group> groups;
  for (const std::size_t family : families) {
    auto parts = learnables(profile, matchup.setting, family);
    std::vector<std::vector<double>> samples(parts.size(), std::vector<double>(draws));
    groups.push_back({family, std::move(parts), std::move(samples), Answers(draws)});
  }
  return groups;
}

double calls_of(const BoundScheme& bound, std::size_t family) {
  double share = 0;
  for (std::size_t f = 0; f < bound.setting_family.size(); ++f)
    if (bound.setting_family[f] == family) share += bound.call_share[f];
  return share;
}

}  // namespace

ChartingAdvice what_to_chart(const Profile& profile, const Matchup& matchup,
                             const DrawOptions& options, const Progress& progress) {
  std::vector<Group> groups = groups_of(profile, matchup, options.draws);
  Answers whole(options.draws);
  for_each_unit(
      options.draws, options.threads,
      [&](std::size_t s) {
        const Player one = draw_player(profile, matchup.setting, options.seed, s);
        const Player other = draw_player(profile, matchup.setting, options.seed, options.draws + s);
        whole.put(s, matchup, one);
        for (Group& group : groups) {
          for (std::size_t p = 0; p < group.parts.size(); ++p)
            group.samples[p][s] = group.parts[p].value(one);
          Player mixed = other;
          mixed.families[group.family] = one.families[group.family];
          group.frozen.put(s, matchup, mixed);
        }
      },
      progress);

  ChartingAdvice advice;
  advice.fit90 = interval90_of(whole.fit);
  advice.net_points90 = interval90_of(whole.net_points);
  for (const Group& group : groups)
    advice.rows.push_back({group.family, profile.families[group.family].snaps,
                           calls_of(matchup.bound, group.family),
                           worth(group, whole.fit, group.frozen.fit),
                           worth(group, whole.net_points, group.frozen.net_points)});
  std::stable_sort(advice.rows.begin(), advice.rows.end(),
                   [](const ChartingRow& a, const ChartingRow& b) {
                     return a.net_points.narrowing > b.net_points.narrowing;
                   });
  return advice;
}

}  // namespace callfit
