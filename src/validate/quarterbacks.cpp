#include <callfit/base/finding.hpp>
#include <callfit/base/parallel.hpp>
#include <callfit/base/random.hpp>
#include <callfit/population/posterior.hpp>
#include <callfit/stats/beta.hpp>
#include <callfit/stats/logit.hpp>
#include <callfit/validate/quarterbacks.hpp>
#include <validate/league.hpp>

#include <boost/math/distributions/binomial.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <utility>

namespace callfit {
namespace {

constexpr double least_before = 50, least_after = 100, least_season = 100;  // dropbacks

/// Games of one man that predict others of his.
struct Split {
  std::string quarterback;
  int league = 0;  ///< season of the games that predict
  Games before, after;
};

/// The first games of every man, by season: what a league is known by at that time.
std::map<int, Games> leagues(const std::map<SeasonKey, Games>& seasons, std::size_t first) {
  std::map<int, Games> out;
  for (const auto& [key, games] : seasons) {
    Games& league = out[key.second];
    league.insert(league.end(), games.begin(),
                  games.begin() + static_cast<std::ptrdiff_t>(std::min(first, games.size())));
  }
  return out;
}

std::vector<Split> within_season(const std::map<SeasonKey, Games>& seasons, std::size_t first) {
  std::vector<Split> out;
  for (const auto& [key, games] : seasons) {
    if (games.size() <= first) continue;
    const auto middle = games.begin() + static_cast<std::ptrdiff_t>(first);
    Split split{key.first, key.second, {games.begin(), middle}, {middle, games.end()}};
    if (dropbacks_of(split.before) >= least_before && dropbacks_of(split.after) >= least_after)
      out.push_back(std::move(split));
  }
  return out;
}

std::vector<Split> next_season(const std::map<SeasonKey, Games>& seasons) {
  std::vector<Split> out;
  for (const auto& [key, games] : seasons) {
    const auto next = seasons.find({key.first, key.second + 1});
    if (next != seasons.end() && dropbacks_of(games) >= least_season &&
        dropbacks_of(next->second) >= least_season)
      out.push_back({key.first, key.second, games, next->second});
  }
  return out;
}

double log_score(const MemberCounts& counts, double p) {
  return counts.made * std::log(p) + (counts.of - counts.made) * std::log1p(-p);
}

/// What was predicted of one rate of one man, and what came.
struct Predicted {
  MemberCounts counts;
  double joint = 0, league = 0, raw = 0, independent = 0;  ///< log-likelihood of the counts
  bool inside90 = false;
};

/// Probability of fewer than `made`, and of exactly `made`, of `of` trials under a rate whose
/// log-odds are threshold + marginal.
std::pair<double, double> below_and_at(double threshold, const Marginal& marginal, double made,
                                       double of) {
  constexpr int half = 20;
  constexpr double step = 0.25;
  double total = 0;
  double below = 0;
  double at = 0;
  for (int i = -half; i <= half; ++i) {
    const double score = step * i;
    const double weight = std::exp(-score * score / 2);
    const boost::math::binomial chance(of, logistic(threshold + marginal.at(score)));
    total += weight;
    at += weight * pdf(chance, made);
    if (made > 0) below += weight * cdf(chance, made - 1);
  }
  return {below / total, at / total};
}

/// How far the games to come move the rate of all of them together, on the log-odds scale.
double spread_of_games(const Games& games, std::size_t rate, double of, double game_spread) {
  double squares = 0;
  for (const QuarterbackGame* game : games)
    squares += game->counts[rate].of * game->counts[rate].of;
  return game_spread * std::sqrt(squares) / of;
}

Predicted predict(const League& league, const Split& split, const Means& means,
                  const Population& population, const Posterior& posterior, std::size_t place,
                  Stream& stream) {
  const std::size_t rate = league.rates()[place];
  const MemberCounts before = total(split.before, rate);
  Predicted out;
  out.counts = total(split.after, rate);
  const double threshold = population.quantities[place].thresholds.front();
  Marginal marginal = posterior.marginals[place];
  const double theta_sd = marginal.sd;
  marginal.sd = std::hypot(theta_sd, league.game_spread(place));
  out.joint = log_score(out.counts, mean_rate(threshold, marginal));
  out.league = log_score(out.counts, means[rate]);
  out.raw = log_score(out.counts, (before.made + 0.5) / (before.of + 1));
  const double mean = means[rate];
  const double spread = league.trait(place).spread * mean * (1 - mean);
  const Beta alone = Beta::of_moments(mean, spread * spread);
  out.independent = log_score(out.counts, (alone.a + before.made) / (alone.strength() + before.of));
  marginal.sd = std::hypot(
      theta_sd, spread_of_games(split.after, rate, out.counts.of, league.game_spread(place)));
  const auto [below, at] = below_and_at(threshold, marginal, out.counts.made, out.counts.of);
  const double place_in = below + stream.uniform() * at;
  out.inside90 = place_in >= 0.05 && place_in <= 0.95;
  return out;
}

/// All predictions of one split, by place in League::rates(); none where nothing came.
using SplitPredicted = std::vector<std::optional<Predicted>>;

SplitPredicted predict(const League& league, const Split& split, const Means& means,
                       bool of_last_season, std::uint64_t seed, std::size_t unit) {
  const Population population = league.around(means);
  const TapeSource source = of_last_season ? league.last_season() : league.earlier_this_season();
  const Posterior posterior = posterior_of(population, evidence_of(league, split.before, source));
  Stream stream(seed, Purpose::sampling, unit, of_last_season ? 1 : 0);
  SplitPredicted out(league.rates().size());
  for (std::size_t i = 0; i < out.size(); ++i)
    if (total(split.after, league.rates()[i]).of > 0)
      out[i] = predict(league, split, means, population, posterior, i, stream);
  return out;
}

/// Sums by man, for errors that take his trials as one cluster.
class ScoreSum {
 public:
  void add(const std::string& man, const Predicted& predicted) {
    Sums& sums = men_[man];
    sums.trials += predicted.counts.of;
    sums.league += predicted.joint - predicted.league;
    sums.raw += predicted.joint - predicted.raw;
    sums.independent += predicted.joint - predicted.independent;
  }

  PredictionScore score() const {
    PredictionScore out;
    for (const auto& [man, sums] : men_) out.trials += sums.trials;
    out.league = gain(&Sums::league, out.trials);
    out.raw = gain(&Sums::raw, out.trials);
    out.independent = gain(&Sums::independent, out.trials);
    return out;
  }

 private:
  struct Sums {
    double trials = 0, league = 0, raw = 0, independent = 0;
  };

  ScoreGain gain(double Sums::*which, double trials) const {
    if (!(trials > 0)) return {};
    double sum = 0;
    for (const auto& [man, sums] : men_) sum += sums.*which;
    const double mean = sum / trials;
    double squares = 0;
    for (const auto& [man, sums] : men_) {
      const double off = sums.*which - mean * sums.trials;
      squares += off * off;
    }
    const auto n = static_cast<double>(men_.size());
    const double error = n > 1 ? std::sqrt(squares * n / (n - 1)) / trials : 0.0;
    return {1000 * mean, 1000 * error};
  }

  std::map<std::string, Sums> men_;
};

void add(Coverage& coverage, bool inside) {
  coverage.of += 1;
  if (inside) coverage.inside += 1;
}

std::vector<SnapGroup> groups_between(const std::vector<double>& bounds) {
  std::vector<SnapGroup> groups;
  for (std::size_t i = 0; i < bounds.size(); ++i)
    groups.push_back({bounds[i], i + 1 < bounds.size() ? bounds[i + 1] - 1 : 0.0, 0, {}});
  return groups;
}

SnapGroup& group_of(std::vector<SnapGroup>& groups, double dropbacks) {
  auto found = groups.begin();
  while (found + 1 != groups.end() && dropbacks >= (found + 1)->least_dropbacks) ++found;
  return *found;
}

Predictions summary(const League& league, const std::vector<Split>& splits,
                    const std::vector<SplitPredicted>& predicted,
                    const std::vector<double>& bounds) {
  Predictions out;
  out.seasons = splits.size();
  out.groups = groups_between(bounds);
  ScoreSum all;
  std::vector<ScoreSum> by_rate(league.rates().size());
  for (const std::size_t rate : league.rates())
    out.rates.push_back({static_cast<GameRate>(rate), {}, {}});
  std::set<std::string> men;
  for (std::size_t s = 0; s < splits.size(); ++s) {
    men.insert(splits[s].quarterback);
    SnapGroup& group = group_of(out.groups, dropbacks_of(splits[s].before));
    ++group.seasons;
    for (std::size_t i = 0; i < by_rate.size(); ++i) {
      if (!predicted[s][i]) continue;
      all.add(splits[s].quarterback, *predicted[s][i]);
      by_rate[i].add(splits[s].quarterback, *predicted[s][i]);
      for (Coverage* coverage : {&out.coverage90, &out.rates[i].coverage90, &group.coverage90})
        add(*coverage, predicted[s][i]->inside90);
    }
  }
  out.quarterbacks = men.size();
  out.score = all.score();
  for (std::size_t i = 0; i < by_rate.size(); ++i) out.rates[i].score = by_rate[i].score();
  return out;
}

struct Task {
  std::vector<Split> splits;
  std::map<int, Games> leagues;
  bool of_last_season = false;
  std::vector<double> group_bounds;
};

Predictions predictions(const League& league, const Task& task, std::uint64_t seed) {
  std::map<int, Means> means;
  for (const auto& [season, games] : task.leagues) means[season] = means_of(games);
  std::vector<SplitPredicted> predicted(task.splits.size());
  for_each_unit(task.splits.size(), 0, [&](std::size_t s) {
    predicted[s] = predict(league, task.splits[s], means.at(task.splits[s].league),
                           task.of_last_season, seed, s);
  });
  return summary(league, task.splits, predicted, task.group_bounds);
}

}  // namespace

QuarterbackReport validate_quarterbacks(const std::string& setting, const Population& population,
                                        const std::vector<QuarterbackGame>& games,
                                        const std::string& source, std::uint64_t seed) {
  const League league(population, setting);
  const std::map<SeasonKey, Games> seasons = by_season(games);
  constexpr std::size_t all_games = 1000;
  const auto within = [&](std::size_t first, const std::vector<double>& bounds) {
    return predictions(
        league, {within_season(seasons, first), leagues(seasons, first), false, bounds}, seed);
  };
  QuarterbackReport report;
  report.setting = setting;
  report.source = source;
  report.games = games.size();
  report.seasons = seasons.size();
  std::set<std::string> men;
  for (const auto& [key, list] : seasons) men.insert(key.first);
  report.quarterbacks = men.size();
  report.first_four = within(4, {50, 100, 130, 150});
  if (report.first_four.seasons == 0)
    throw InputError(Finding{{source, 0, ""},
                             "no quarterback has four games with 50 dropbacks and 100 dropbacks in "
                             "the games after",
                             "give the games of a whole season"});
  report.first_eight = within(8, {50, 200, 275, 300});
  report.next_season = predictions(
      league, {next_season(seasons), leagues(seasons, all_games), true, {100, 250, 450}}, seed);
  return report;
}

}  // namespace callfit
