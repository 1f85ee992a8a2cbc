#include <validate/odds.hpp>

#include <callfit/ask/verdict.hpp>
#include <callfit/stats/logit.hpp>

#include <algorithm>
#include <cmath>
#include <set>

namespace callfit {
namespace {

/// Two men of one year, the one with the better odds first.
struct Duel {
  std::pair<std::string, std::string> men;
  int year = 0;
  double odds = 0;
  double gap = 0;
  double came_true = 0;  ///< 1, or a half where they had the same points
};

double chance_above(double difference, double sd) {
  return sd > 0 ? std::erfc(-difference / sd / std::sqrt(2.0)) / 2 : 0.5;
}

Duel duel(const Rival& one, const Rival& other) {
  const double ahead = chance_above(one.expected - other.expected, std::hypot(one.sd, other.sd));
  if (ahead < 0.5) return duel(other, one);
  const double better = one.points > other.points ? 1 : one.points < other.points ? 0 : 0.5;
  return {{one.man, other.man}, one.year, ahead, one.gap_of - other.gap_of, better};
}

std::vector<Duel> duels_of(const std::vector<Rival>& rivals) {
  std::vector<Duel> out;
  for (std::size_t i = 0; i < rivals.size(); ++i)
    for (std::size_t j = i + 1; j < rivals.size(); ++j)
      if (rivals[i].year == rivals[j].year) out.push_back(duel(rivals[i], rivals[j]));
  return out;
}

OddsBand band_of(const std::vector<Duel>& duels, double low, double high) {
  OddsBand band{low, high, 0, 0, 0, 0};
  std::vector<PairValue> off;
  for (const Duel& duel : duels) {
    if (duel.odds < low || (duel.odds >= high && high < 1)) continue;
    band.pairs += 1;
    band.odds += duel.odds;
    band.came_true += duel.came_true;
    off.push_back({duel.men, duel.came_true - duel.odds});
  }
  if (off.empty()) return band;
  band.odds /= band.pairs;
  band.came_true /= band.pairs;
  band.standard_error = error_of_mean(off);
  return band;
}

std::vector<OddsBand> bands_of(const std::vector<Duel>& duels, const std::vector<double>& ends) {
  std::vector<OddsBand> out;
  for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
    const OddsBand band = band_of(duels, ends[i], ends[i + 1]);
    if (band.pairs > 0) out.push_back(band);
  }
  return out;
}

/// Logistic regression of who came out ahead on the gap, without a constant since who stands first
/// does not matter, fitted to the years but one: Newton's method.
double slope_without(const std::vector<Duel>& duels, int year) {
  double slope = 0;
  for (int step = 0; step < 30; ++step) {
    double score = 0;
    double information = 1e-9;
    for (const Duel& duel : duels) {
      if (duel.year == year) continue;
      const double p = logistic(slope * duel.gap);
      score += duel.gap * (duel.came_true - p);
      information += duel.gap * duel.gap * p * (1 - p);
    }
    slope += score / information;
  }
  return slope;
}

void add_brier(OddsReport& report, const std::vector<Duel>& duels) {
  std::set<int> years;
  for (const Duel& duel : duels) years.insert(duel.year);
  if (years.size() < 2) return;
  std::vector<PairValue> differences;
  for (const int year : years) {
    const double slope = slope_without(duels, year);
    for (const Duel& duel : duels) {
      if (duel.year != year) continue;
      const double ours = std::pow(duel.odds - duel.came_true, 2);
      const double theirs = std::pow(logistic(slope * duel.gap) - duel.came_true, 2);
      report.brier += ours / static_cast<double>(duels.size());
      report.regression_brier += theirs / static_cast<double>(duels.size());
      differences.push_back({duel.men, ours - theirs});
    }
  }
  report.brier_difference_error = error_of_mean(differences);
}

}  // namespace

OddsReport odds_between(const std::vector<Rival>& rivals) {
  const std::vector<Duel> duels = duels_of(rivals);
  std::set<std::string> men;
  for (const Rival& rival : rivals) men.insert(rival.man);
  OddsReport report;
  report.pairs = duels.size();
  report.quarterbacks = men.size();
  report.tenths = bands_of(duels, {.5, .6, .7, .8, .9, 1});
  report.verdicts = bands_of(duels, {.5, leans_from, clear_from, 1});
  add_brier(report, duels);
  return report;
}

}  // namespace callfit
