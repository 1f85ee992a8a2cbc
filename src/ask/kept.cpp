#include <ask/estimates.hpp>
#include <callfit/ask/kept.hpp>
#include <callfit/base/names.hpp>
#include <callfit/stats/beta.hpp>
#include <callfit/stats/logit.hpp>
#include <callfit/stats/normal.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace callfit {
namespace {

constexpr int belief_nodes = 200;

// Odds that a season's count of `of` trials falls on the side of what is asked; on the line counts
// half.
double odds_of_count(const KeptVerdict& said, double of) {
  const double middle = logit(said.estimate.centre);
  const double spread =
      (logit(said.estimate.high) - logit(said.estimate.low)) / (2 * normal_quantile(0.95));
  const double line = said.asked * of;
  // P(count >= k) of a binomial is the Beta(k, n - k + 1) distribution at its rate.
  const auto at_least = [of](double k, double rate) {
    if (k <= 0) return 1.0;
    return k > of ? 0.0 : cdf(Beta{k, of - k + 1}, rate);
  };
  double sum = 0;
  for (int i = 0; i < belief_nodes; ++i) {
    const double rate = logistic(middle + spread * normal_quantile((i + 0.5) / belief_nodes));
    const double above = at_least(std::floor(line) + 1, rate);
    sum += (above + at_least(std::ceil(line), rate)) / 2;
  }
  const double reached = sum / belief_nodes;
  return said.more_is_better ? reached : 1 - reached;
}

double came_out(const KeptVerdict& said, const RateCounts& counts) {
  const double gap = counts.made - said.asked * counts.of;
  if (std::abs(gap) < 1e-9) return 0.5;
  return (gap > 0) == said.more_is_better ? 1 : 0;
}

RateCounts counted(const KeptVerdict& said, const Profile& season) {
  for (std::size_t f = 0; f < season.families.size(); ++f)
    if (season.families[f].id == said.family)
      return ask::counts_behind(season, f, said.measure, said.cell);
  return {};
}

void add(KeptGroup& group, const KeptOutcome& outcome) {
  const Verdict side{outcome.odds, 0, {}};
  group.verdicts += 1;
  group.said += side.of_side();
  group.came += side.yes() ? outcome.came : 1 - outcome.came;
}

// What is left of the charts without what was charted of each game by then, in the charts' order.
std::vector<Chart> charts_since(const KeptAnswer& kept, const std::vector<Chart>& charts) {
  std::map<std::string, double> known;
  for (const KeptGame& game : kept.games) known[game.game] += game.snaps;
  std::vector<Chart> out;
  for (const Chart& chart : charts) {
    Chart rest{chart.source, {}};
    for (const Snap& snap : chart.snaps) {
      if (snap.result == Result::no_play) continue;
      double& snaps = known[std::string(snap.game)];
      if (snaps > 0)
        snaps -= 1;
      else
        rest.snaps.push_back(snap);
    }
    if (!rest.snaps.empty()) out.push_back(std::move(rest));
  }
  return out;
}

KeptScore none_scored() {
  KeptScore score;
  for (std::size_t l = 0; l < score.groups.size(); ++l) score.groups[l].lean = static_cast<Lean>(l);
  return score;
}

void add(KeptScore& score, const KeptAnswer& answer, const Profile& season) {
  for (const KeptVerdict& said : answer.verdicts) {
    const RateCounts counts = counted(said, season);
    if (counts.of < fewest_scored) {
      ++score.left_out;
      continue;
    }
    const KeptOutcome outcome{
        answer.date,           said, counts.made, counts.of, odds_of_count(said, counts.of),
        came_out(said, counts)};
    const double miss = outcome.odds - outcome.came;
    score.brier += miss * miss;
    score.expected_brier += outcome.odds * (1 - outcome.odds);
    add(score.groups[static_cast<std::size_t>(Verdict{said.odds, 0, {}}.lean())], outcome);
    score.outcomes.push_back(outcome);
  }
}

KeptScore averaged(KeptScore score) {
  if (score.outcomes.empty()) return score;
  const auto count = static_cast<double>(score.outcomes.size());
  score.brier /= count;
  score.expected_brier /= count;
  return score;
}

}  // namespace

KeptAnswer kept_answer(const FitAnswer& fit, const Profile& profile, const std::string& date) {
  KeptAnswer kept{date, fit.about.quarterback, fit.about.scheme, fit.about.snaps, {}, {}};
  for (const GameContribution& game : profile.games) kept.games.push_back({game.game, game.snaps});
  for (const DemandAnswer& demand : fit.demands) {
    if (demand.in_yards) continue;
    const FamilyAnswer& family = fit.families[demand.family];
    kept.verdicts.push_back({family.id, family.label, demand.measure, demand.cell, demand.label,
                             demand.asked, demand.more_is_better, demand.estimate,
                             demand.reaches.odds});
  }
  return kept;
}

KeptScore score_of(const std::vector<KeptAnswer>& kept, const Profile& season) {
  KeptScore score = none_scored();
  for (const KeptAnswer& answer : kept) add(score, answer, season);
  return averaged(std::move(score));
}

std::optional<KeptScore> score_since(const std::vector<KeptAnswer>& kept,
                                     const Quarterback& quarterback, const Setting& setting) {
  if (!quarterback.tape) return std::nullopt;
  Weighting weighting = quarterback.profile.weighting;
  weighting.around = {};  // counts alone are asked for
  KeptScore score = none_scored();
  bool is_any = false;
  for (const KeptAnswer& answer : kept) {
    const std::vector<Chart> since = charts_since(answer, quarterback.tape->charts);
    if (since.empty()) continue;
    is_any = true;
    add(score, answer,
        build_profile(quarterback.profile.name, since, setting, weighting, quarterback.tape->like));
  }
  return is_any ? std::optional(averaged(std::move(score))) : std::nullopt;
}

}  // namespace callfit
