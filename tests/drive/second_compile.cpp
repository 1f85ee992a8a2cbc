#include "second_compile.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace second {
namespace {

using Gains = std::map<int, double>;

template <class List, class Value>
bool any_or_listed(const List& list, const Value& value) {
  return list.empty() || std::count(list.begin(), list.end(), value) > 0;
}

bool meant(const FamilyFilter& who, const FamilyPopulation& family) {
  return any_or_listed(who.kinds, family.kind) && any_or_listed(who.families, family.id);
}

bool between(const Band& band, int value) { return value >= band.low && value <= band.high; }

bool matches(const SituationRule& when, const DriveState& at) {
  return between(when.down, at.down) && between(when.to_go, at.to_go) &&
         between(when.yards_to_goal, at.yards_to_goal);
}

template <class Rules>
const auto& first_of(const Rules& rules, const DriveState& at) {
  return *std::find_if(rules.begin(), rules.end(),
                       [&](const auto& rule) { return matches(rule.when, at); });
}

double log_odds(double p) { return std::log(p) - std::log1p(-p); }
double share(double log_odds) { return 1 / (1 + std::exp(-log_odds)); }

double moved(double p, double shift) { return p <= 0 || p >= 1 ? p : share(log_odds(p) + shift); }

// Proportional odds: every P(G >= g) above the smallest g moves.
Gains moved(const Gains& gains, double shift) {
  Gains out;
  double from_here = 0;  // P(G >= g), moved
  double before = 0;     // P(G >= g), as it was
  for (auto at = gains.rbegin(); at != gains.rend(); ++at) {
    before += at->second;
    const bool smallest = std::next(at) == gains.rend();
    const double now = smallest ? 1 : moved(std::min(before, 1.0), shift);
    out[at->first] = now - from_here;
    from_here = now;
  }
  return out;
}

// The setting's yards with the player's probabilities of the bins.
Gains gains_of(const GainPopulation& population, const std::vector<double>& bins, double shift) {
  const auto bin_of = [&](int g) {
    std::size_t bin = 0;
    while (bin + 1 < population.bin_start.size() && g >= population.bin_start[bin + 1]) ++bin;
    return bin;
  };
  std::vector<double> usual(population.bin_start.size(), 0.0);
  for (int g = population.shape.first; g <= population.shape.last(); ++g)
    usual[bin_of(g)] += population.shape.at(g);
  Gains gains;
  for (int g = population.shape.first; g <= population.shape.last(); ++g) {
    const std::size_t bin = bin_of(g);
    gains[g] = usual[bin] > 0 ? population.shape.at(g) / usual[bin] * bins[bin] : 0.0;
  }
  return moved(gains, shift);
}

// Everything that is known when a family is called against a shell.
class Snap {
 public:
  Snap(const Setting& setting, const Player& player, const Shifts& quality, const DriveState& state,
       Outcomes& out)
      : setting_(setting), player_(player), quality_(quality), state_(state), out_(out) {}

  void call(std::size_t f, std::size_t shell, double chance) {
    family_ = &setting_.families[f];
    own_ = &player_.families[f];
    index_ = f;
    shell_ = shell;
    if (family_->kind == FamilyKind::pass)
      pass(chance);
    else
      gain(gains_of(*family_->run, own_->run_bins, gain_shift(GainPart::run)), chance,
           family_->kind == FamilyKind::qb_run ? setting_.fumble_lost.qb_run
                                               : setting_.fumble_lost.handoff);
  }

 private:
  double rate_shift(Rate rate) const {
    const auto r = static_cast<std::size_t>(rate);
    double sum = quality_.rate[r];
    for (const Adjustment& adjustment : setting_.adjustments)
      if (matches(adjustment.when, state_) && meant(adjustment.who, *family_))
        sum += adjustment.shifts.rate[r];
    return sum;
  }

  double gain_shift(GainPart part) const {
    const auto g = static_cast<std::size_t>(part);
    double sum = quality_.gain[g];
    for (const Adjustment& adjustment : setting_.adjustments)
      if (matches(adjustment.when, state_) && meant(adjustment.who, *family_))
        sum += adjustment.shifts.gain[g];
    for (const CellPopulation& cell : setting_.cells)
      if (static_cast<std::size_t>(cell.cell) == shell_ && meant(cell.who, *family_))
        sum += cell.gain_shift[g];
    return sum;
  }

  double own_rate(Rate rate) const {
    const auto r = static_cast<std::size_t>(rate);
    return shell_ < shell_count ? own_->cell[shell_][r] : own_->rate[r];
  }
  double rate(Rate which) const { return moved(own_rate(which), rate_shift(which)); }

  void pass(double chance) {
    const double s = rate(Rate::sack);
    const double r = std::min(rate(Rate::scramble), 1 - s);
    const double i = rate(Rate::interception);
    const double c = std::min(rate(Rate::completion), 1 - i);
    const double thrown = chance * (1 - s - r);
    gain(gains_of(setting_.sack_gain, player_.sack_bins, gain_shift(GainPart::sack)), chance * s,
         setting_.fumble_lost.sack);
    gain(gains_of(setting_.scramble_gain, player_.scramble_bins, gain_shift(GainPart::scramble)),
         chance * r, setting_.fumble_lost.scramble);
    out_.interception[index_] += thrown * i;
    const double caught = completion(thrown * c);
    out_.keep[0] += thrown * (1 - i) - caught;
  }

  // Returns what of `chance` was caught.
  double completion(double chance) {
    Gains depth = gains_of(*family_->depth, own_->depth_bins, gain_shift(GainPart::depth));
    const int back_line = state_.yards_to_goal + setting_.rules.end_zone_depth - 1;
    depth.erase(depth.upper_bound(back_line), depth.end());
    double left = 0;
    for (const auto& [d, p] : depth) left += p;
    if (left <= 0) return 0;
    const Gains yac = gains_of(*family_->yac, own_->yac_bins, gain_shift(GainPart::yac));
    Gains total;
    for (const auto& [d, p] : depth) {
      if (d >= state_.yards_to_goal)
        out_.touchdown += chance * p / left;
      else
        for (const auto& [a, q] : yac) total[d + a] += p / left * q;
    }
    gain(total, chance, setting_.fumble_lost.completion);
    return chance;
  }

  void gain(const Gains& gains, double chance, double usual_lost) {
    const auto r = static_cast<std::size_t>(Rate::fumble);
    const double lost = share(log_odds(usual_lost) + log_odds(own_rate(Rate::fumble)) -
                              log_odds(family_->rates[r]->mean) + rate_shift(Rate::fumble));
    const auto short_of_goal = [&](int g, double p) {
      out_.fumble[g] += chance * p * lost;
      out_.keep[g] += chance * p * (1 - lost);
    };
    for (const auto& [g, p] : gains) {
      if (g < state_.yards_to_goal) {
        short_of_goal(g, p);
        continue;
      }
      const bool just_reached = g == state_.yards_to_goal && g <= 20;
      const double spotted = just_reached ? p * setting_.spotted_at_goal : 0;
      if (spotted > 0) short_of_goal(g - 1, spotted);
      out_.touchdown += chance * (p - spotted);
    }
  }

  const Setting& setting_;
  const Player& player_;
  const Shifts& quality_;
  DriveState state_;
  Outcomes& out_;
  const FamilyPopulation* family_ = nullptr;
  const PlayerFamily* own_ = nullptr;
  std::size_t index_ = 0;
  std::size_t shell_ = 0;
};

bool can_be_called(const Setting& setting, const FamilyPopulation& family, const DriveState& at) {
  if (family.kind != FamilyKind::pass) return true;
  const YardPmf& depth = family.depth->shape;
  for (int d = depth.first; d <= depth.last(); ++d)
    if (depth.at(d) > 0 && d <= at.yards_to_goal + setting.rules.end_zone_depth - 1) return true;
  return false;
}

}  // namespace

Outcomes outcomes_of(const Setting& setting, const Scheme& scheme,
                     const std::vector<std::size_t>& families, const Player& player,
                     const Shifts& quality, const DriveState& state) {
  Outcomes out;
  out.interception.assign(setting.families.size(), 0.0);
  const double bad = setting.bad_snap.probability;
  out.keep[0] += bad * (1 - setting.bad_snap.fumble_lost);
  out.fumble[0] += bad * setting.bad_snap.fumble_lost;

  Snap snap(setting, player, quality, state, out);
  const CallSituation& situation = first_of(scheme.situations, state);
  const auto& shells = first_of(setting.shells, state).share;
  for (std::size_t shell = 0; shell < shell_count; ++shell) {
    const auto& own = situation.share_by_shell[shell];
    const std::vector<double>& calls = own ? *own : situation.share;
    double left = 0;
    for (std::size_t f = 0; f < calls.size(); ++f)
      if (can_be_called(setting, setting.families[families[f]], state)) left += calls[f];
    for (std::size_t f = 0; f < calls.size(); ++f) {
      const bool can = can_be_called(setting, setting.families[families[f]], state);
      if (calls[f] == 0 || (left > 0 && !can)) continue;
      snap.call(families[f], shell, (1 - bad) * shells[shell] * calls[f] / (left > 0 ? left : 1));
    }
  }
  return out;
}

}  // namespace second
