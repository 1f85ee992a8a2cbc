#include <callfit/ask/trend.hpp>

#include <algorithm>
#include <utility>

namespace callfit {
namespace {

std::vector<std::string> games_in_order(const std::vector<Chart>& season) {
  std::vector<std::string> games;
  for (const Chart& chart : season)
    for (const Snap& snap : chart.snaps)
      if (std::find(games.begin(), games.end(), snap.game) == games.end())
        games.push_back(snap.game.str());
  return games;
}

// The snaps of the season's first `count` games.
std::vector<Chart> up_to(const std::vector<Chart>& season, const std::vector<std::string>& games,
                         std::size_t count) {
  const auto last = games.begin() + static_cast<std::ptrdiff_t>(count);
  std::vector<Chart> out;
  for (const Chart& chart : season) {
    Chart part{chart.source, {}};
    std::copy_if(
        chart.snaps.begin(), chart.snaps.end(), std::back_inserter(part.snaps),
        [&](const Snap& snap) { return std::find(games.begin(), last, snap.game) != last; });
    out.push_back(std::move(part));
  }
  return out;
}

UncertainValue uncertain(double value, std::vector<double> sample) {
  return {value, interval90_of(std::move(sample))};
}

TrendStep step_of(const Profile& profile, const Matchup& matchup,
                  const std::vector<Followed>& followed, const DrawOptions& options) {
  const Setting& setting = matchup.setting;
  std::vector<std::vector<double>> watched(followed.size(), std::vector<double>(options.draws));
  std::vector<double> fits(options.draws);
  std::vector<double> points(options.draws);
  const auto value = [&](const Player& player, const Followed& f) {
    return measure_of(player, setting, f.family, f.measure, f.cell);
  };
  for_each_unit(options.draws, options.threads, [&](std::size_t i) {
    const Player player = draw_player(profile, setting, options.seed, i);
    for (std::size_t w = 0; w < followed.size(); ++w) watched[w][i] = value(player, followed[w]);
    fits[i] = fit_of(player, matchup.bound, setting).fit;
    points[i] = drive_points(matchup, player).net_points;
  });
  const Player centre = mean_player(profile, setting);
  TrendStep step;
  for (const GameContribution& game : profile.games) step.effective_snaps += game.effective_snaps;
  for (std::size_t w = 0; w < followed.size(); ++w)
    step.followed.push_back(uncertain(value(centre, followed[w]), std::move(watched[w])));
  const double middle = median_of(fits);
  step.fit = uncertain(middle, std::move(fits));
  step.net_points = uncertain(drive_points(matchup, centre).net_points, std::move(points));
  return step;
}

bool within(double value, const Interval& interval) {
  return interval.low <= value && value <= interval.high;
}

}  // namespace

bool first_answer_held(const std::vector<TrendStep>& steps) {
  const TrendStep& first = steps.front();
  const TrendStep& last = steps.back();
  bool held = within(last.fit.value, first.fit.interval90) &&
              within(last.net_points.value, first.net_points.interval90);
  for (std::size_t w = 0; w < first.followed.size(); ++w)
    held = held && within(last.followed[w].value, first.followed[w].interval90);
  return held;
}

std::vector<Followed> demands_to_follow(const BoundScheme& scheme) {
  std::vector<Followed> out;
  for (const Demand& demand : scheme.scheme.demands) {
    const Followed next{scheme.setting_family[demand.family], demand.measure, demand.cell};
    const bool known = std::any_of(out.begin(), out.end(), [&](const Followed& f) {
      return f.family == next.family && f.measure == next.measure && f.cell == next.cell;
    });
    if (!known) out.push_back(next);
  }
  return out;
}

std::vector<TrendStep> trend_of(const std::string& name, const std::vector<Chart>& before,
                                const std::vector<Chart>& season, const Matchup& matchup,
                                const Weighting& weighting, const std::vector<FamilyAlias>& like,
                                const std::vector<Followed>& followed, const DrawOptions& options,
                                const Progress& progress) {
  const std::vector<std::string> games = games_in_order(season);
  std::vector<TrendStep> steps;
  for (std::size_t count = 0; count <= games.size(); ++count) {
    std::vector<Chart> tape = before;
    for (Chart& chart : up_to(season, games, count)) tape.push_back(std::move(chart));
    const Profile profile = build_profile(name, tape, matchup.setting, weighting, like);
    TrendStep step = step_of(profile, matchup, followed, options);
    if (count > 0) {
      step.game = games[count - 1];
      for (const GameContribution& game : profile.games)
        if (game.game == step.game) step.snaps += game.snaps;
    }
    steps.push_back(std::move(step));
    if (progress) progress(count + 1, games.size() + 1);
  }
  return steps;
}

}  // namespace callfit
