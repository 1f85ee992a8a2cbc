#include "derived.hpp"

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

double at_least(const YardPmf& pmf, int yards) {
  double total = 0;
  for (int g = std::max(yards, pmf.first); g <= pmf.last(); ++g) total += pmf.at(g);
  return total;
}

// P(depth + after >= yards) for depths up to `deepest`; a catch at or beyond the line of `goal`
// yards gains it all.
double completion_at_least(const YardPmf& depth, const YardPmf& after, int yards, int goal,
                           int deepest) {
  double total = 0;
  double reached = 0;
  for (int d = depth.first; d <= std::min(depth.last(), deepest); ++d) {
    total += depth.at(d);
    reached += depth.at(d) * (d >= goal ? 1.0 : at_least(after, yards - d));
  }
  return total > 0 ? reached / total : 0;
}

// One family of one player, with its gain distributions laid out once.
class Outcomes {
 public:
  Outcomes(const Player& player, const Setting& setting, std::size_t family)
      : own_(player.families[family]), setting_(setting), kind_(setting.families[family].kind) {
    const FamilyPopulation& population = setting.families[family];
    if (kind_ == FamilyKind::pass) {
      depth_ = gain_pmf(*population.depth, own_.depth_bins);
      after_ = gain_pmf(*population.yac, own_.yac_bins);
      ground_ = gain_pmf(setting.scramble_gain, player.scramble_bins);
    } else {
      ground_ = gain_pmf(*population.run, own_.run_bins);
    }
  }

  double success(const Spot& spot) const {
    const double share = setting_.success.share_of_to_go[static_cast<std::size_t>(spot.down - 1)];
    const int needed = static_cast<int>(std::ceil(share * spot.to_go - 1e-9));
    const double enough = chance(needed, needed, spot);
    if (needed < spot.to_go || spot.to_go >= spot.yards_to_goal) return enough;
    const double more = chance(needed + 1, needed + 1, spot);
    return enough - setting_.spotted_short * (enough - more);
  }
  double explosive(const Spot& spot) const {
    return chance(setting_.success.explosive_pass, setting_.success.explosive_run, spot);
  }

 private:
  // P(gain of at least `thrown` yards by a completion or `run` yards on the ground).
  double chance(int thrown, int run, const Spot& spot) const {
    const double ground = run <= spot.yards_to_goal ? at_least(ground_, run) : 0;
    if (kind_ != FamilyKind::pass) return ground;
    const double deepest = spot.yards_to_goal + setting_.rules.end_zone_depth - 1;
    const double air = thrown <= spot.yards_to_goal
                           ? completion_at_least(depth_, after_, thrown, spot.yards_to_goal,
                                                 static_cast<int>(deepest))
                           : 0;
    const double scramble = own_.at(Rate::scramble);
    const double throws = std::max(0.0, 1 - own_.at(Rate::sack) - scramble);
    return scramble * ground + throws * own_.at(Rate::completion) * air;
  }

  const PlayerFamily& own_;
  const Setting& setting_;
  FamilyKind kind_;
  YardPmf depth_, after_, ground_;
};

}  // namespace

std::vector<Spot> spots_of(const std::vector<Chart>& charts, const std::string& family) {
  std::vector<Spot> spots;
  for (const Chart& chart : charts)
    for (const Snap& snap : chart.snaps)
      if (snap.family == family && snap.result != Result::no_play)
        spots.push_back({snap.down, snap.to_go, snap.yards_to_goal});
  return spots;
}

double derived_rate(const Player& player, const Setting& setting, std::size_t family, Rate rate,
                    const std::vector<Spot>& spots) {
  const Outcomes own(player, setting, family);
  double sum = 0;
  for (const Spot& spot : spots)
    sum += rate == Rate::success ? own.success(spot) : own.explosive(spot);
  return sum / static_cast<double>(spots.size());
}

}  // namespace callfit
