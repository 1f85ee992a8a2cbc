#include <callfit/ask/brief.hpp>
#include <callfit/stats/interval.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

constexpr std::size_t told_reasons = 3;
constexpr std::size_t lever_draws = 100;  // each costs a sweep there and back
constexpr std::size_t reason_draws = 100;

DrawOptions fewer(const DrawOptions& options, std::size_t most) {
  return {options.seed, std::min(options.draws, most), options.threads};
}

// Draws of the second quarterback are independent of the first's.
std::uint64_t second_seed(const DrawOptions& options) { return options.seed + 1; }

double net_of(const Matchup& matchup, const Player& player) {
  return drive_points(matchup, player).net_points;
}

Player borrowing(const Player& first, const Player& second, std::size_t family) {
  Player mixed = first;
  mixed.families[family] = second.families[family];
  return mixed;
}

class Reasons {
 public:
  Reasons(const Question& first, const Question& second, const DrawOptions& options)
      : first_(first),
        second_(second),
        options_(fewer(options, reason_draws)),
        matchup_(matchup_of(first)) {}

  std::vector<Reason> all() const {
    std::vector<Reason> reasons;
    std::vector<bool> seen(first_.mean.families.size(), false);
    for (std::size_t f = 0; f < matchup_.scheme().families.size(); ++f) {
      const std::size_t family = matchup_.bound.setting_family[f];
      if (matchup_.bound.call_share[f] <= 0 || seen[family]) continue;
      seen[family] = true;
      reasons.push_back({matchup_.scheme().families[f].label, worth_of_family(family)});
    }
    std::stable_sort(reasons.begin(), reasons.end(), [](const Reason& a, const Reason& b) {
      return std::abs(a.net_per_game.value) > std::abs(b.net_per_game.value);
    });
    if (reasons.size() > told_reasons) reasons.resize(told_reasons);
    return reasons;
  }

 private:
  UncertainValue worth_of_family(std::size_t family) const {
    const double drives = first_.setting.drives_per_game;
    std::vector<double> gaps(options_.draws);
    for_each_unit(options_.draws, options_.threads, [&](std::size_t i) {
      const Player a = question_draw(first_, options_.seed, i);
      const Player b = question_draw(second_, second_seed(options_), i);
      gaps[i] = drives * (net_of(matchup_, a) - net_of(matchup_, borrowing(a, b, family)));
    });
    const Player a = first_.mean_player();
    const Player mixed = borrowing(a, second_.mean_player(), family);
    return {drives * (net_of(matchup_, a) - net_of(matchup_, mixed)),
            interval90_of(std::move(gaps))};
  }

  const Question& first_;
  const Question& second_;
  DrawOptions options_;
  Matchup matchup_;
};

// "rate.FAMILY.RATE" of the profile, nullptr for other paths and for cells.
const RateEstimate* estimate_of(const Question& question, const std::string& path) {
  for (const FamilyProfile& family : question.profile.families)
    for (std::size_t r = 0; r < rate_count; ++r)
      if (family.rates[r] && path == "rate." + family.id + '.' + std::string(enum_words<Rate>[r]))
        return &*family.rates[r];
  return nullptr;
}

std::optional<Doubt> largest_doubt(const Question& question,
                                   const std::vector<LeverValue>& levers) {
  std::optional<Doubt> largest;
  for (const LeverValue& lever : levers) {
    const RateEstimate* estimate = estimate_of(question, lever.path);
    if (estimate == nullptr) continue;
    const Interval interval = estimate->interval90();
    const double swing = std::abs(lever.net_slope) * (interval.high - interval.low) *
                         question.setting.drives_per_game;
    if (!largest || swing > largest->swing)
      largest = Doubt{lever.about, estimate->mean, interval, estimate->counts.of, swing};
  }
  return largest;
}

std::optional<LeverValue> best_wrinkle(const std::vector<LeverValue>& levers) {
  const auto found = std::find_if(levers.begin(), levers.end(), [](const LeverValue& lever) {
    return lever.is_call && lever.step > 0 && lever.net_per_game.interval90.low > 0;
  });
  return found == levers.end() ? std::nullopt : std::optional(*found);
}

Worth worth_of(const Standing& standing) {
  Worth worth;
  worth.points.value = standing.drive.points;
  worth.net_points.value = standing.drive.net_points;
  worth.draws = standing.draws;
  return worth;
}

}  // namespace

Brief make_brief(const Question& first, const Question& second, const DrawOptions& options,
                 const Progress& progress) {
  const Standing a = stand(first, options, progress);
  const Standing b =
      stand(second, {second_seed(options), options.draws, options.threads}, progress);
  const auto levers = levers_of(first, fewer(options, lever_draws), progress);
  Brief brief;
  brief.first = first.profile.name;
  brief.second = second.profile.name;
  brief.scheme = first.scheme.name;
  brief.difference = difference_of(worth_of(a), worth_of(b), first.setting.drives_per_game);
  brief.first_fit = median_of(a.fit_draws);
  brief.second_fit = median_of(b.fit_draws);
  brief.first_snaps = first.profile.snaps();
  brief.second_snaps = second.profile.snaps();
  brief.reasons = Reasons(first, second, options).all();
  brief.doubt = largest_doubt(first, levers);
  brief.wrinkle = best_wrinkle(levers);
  return brief;
}

}  // namespace callfit
