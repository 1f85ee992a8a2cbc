#include <callfit/base/parallel.hpp>
#include <callfit/fit/fit.hpp>

#include <algorithm>
#include <array>
#include <numeric>

namespace callfit {
namespace {

// What counts as a strength, and which way round.
struct Strength {
  Measure measure;
  bool more_is_better;
};
constexpr std::array strengths{Strength{Measure::completion, true},
                               Strength{Measure::interception, false},
                               Strength{Measure::sack, false},
                               Strength{Measure::pressured, false},
                               Strength{Measure::on_time, true},
                               Strength{Measure::catchable, true},
                               Strength{Measure::success, true},
                               Strength{Measure::explosive, true},
                               Strength{Measure::yards_after_catch, true},
                               Strength{Measure::run_gain, true},
                               Strength{Measure::evaded, true}};

double share_of_calls(const BoundScheme& scheme, std::size_t setting_family) {
  double share = 0;
  for (std::size_t f = 0; f < scheme.setting_family.size(); ++f)
    if (scheme.setting_family[f] == setting_family) share += scheme.call_share[f];
  return share;
}

std::vector<UnusedStrength> unused_strengths(const Profile& profile, const BoundScheme& scheme,
                                             const Setting& setting) {
  const Player player = mean_player(profile, setting);
  const Player average = average_player(setting);
  std::vector<UnusedStrength> unused;
  for (std::size_t f = 0; f < setting.families.size(); ++f) {
    const double calls = share_of_calls(scheme, f);
    if (profile.families[f].unseen() || calls >= unused_below ||
        setting.families[f].kind == FamilyKind::handoff)
      continue;
    for (const Strength& strength : strengths) {
      const double spread = spread_of(setting, f, strength.measure);
      if (spread <= 0) continue;
      const double own = measure_of(player, setting, f, strength.measure);
      const double usual = measure_of(average, setting, f, strength.measure);
      const double surplus = (strength.more_is_better ? own - usual : usual - own) / spread;
      if (surplus >= strength_from)
        unused.push_back({f, strength.measure, own, usual, surplus, calls});
    }
  }
  std::stable_sort(
      unused.begin(), unused.end(),
      [](const UnusedStrength& a, const UnusedStrength& b) { return a.surplus > b.surplus; });
  return unused;
}

// Mean over `own` of the share of `others` below it, ties counting half; `others` sorted.
double chance_below(const std::vector<double>& own, const std::vector<double>& others) {
  double sum = 0;
  for (const double fit : own) {
    const auto [first, last] = std::equal_range(others.begin(), others.end(), fit);
    sum += static_cast<double>(first - others.begin()) + 0.5 * static_cast<double>(last - first);
  }
  return sum / static_cast<double>(own.size()) / static_cast<double>(others.size());
}

}  // namespace

FitReport fit_report(const Profile& profile, const BoundScheme& scheme, const Setting& setting,
                     const FitOptions& options) {
  const std::size_t demands = scheme.scheme.demands.size();
  std::vector<double> own(options.draws);
  std::vector<double> others(options.draws);
  std::vector<std::vector<double>> estimates(demands, std::vector<double>(options.draws));
  for_each_unit(options.draws, options.threads, [&](std::size_t i) {
    const FitResult fit = fit_of(draw_player(profile, setting, options.seed, i), scheme, setting);
    own[i] = fit.fit;
    for (std::size_t d = 0; d < demands; ++d) estimates[d][i] = fit.demands[d].estimate;
    others[i] = fit_of(draw_from_population(setting, options.seed, i), scheme, setting).fit;
  });

  FitReport report;
  report.at_mean = fit_of(mean_player(profile, setting), scheme, setting);
  report.fit90 = interval90_of(own);
  std::sort(own.begin(), own.end());
  std::sort(others.begin(), others.end());
  report.fit_median = quantile_of(own, 0.5);
  report.worse_share = chance_below(own, others);
  for (std::vector<double>& sample : estimates)
    report.estimate90.push_back(interval90_of(std::move(sample)));
  report.unused = unused_strengths(profile, scheme, setting);
  return report;
}

}  // namespace callfit
