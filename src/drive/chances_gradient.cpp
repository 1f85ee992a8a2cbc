#include <callfit/stats/logit.hpp>
#include <drive/chances_gradient.hpp>

namespace callfit::drive {
namespace {

bool moves(double share) { return share > 0 && share < 1; }

// A rate as played, and its slope by the player's own.
struct Played {
  double share = 0, slope = 1;
};

Played played_at(double own, double factor) {
  const double share = at_odds(own, factor);
  if (factor == 1 || !moves(own)) return {share, 1};
  return {share, share * (1 - share) / (own * (1 - own))};
}

// Slope of at_odds(share, factor) by the factor's logarithm.
double slope_by_shift(double share, double factor) {
  const double p = at_odds(share, factor);
  return moves(share) ? p * (1 - p) : 0.0;
}

class Reverse {
 public:
  Reverse(const Play& play, const Player& player, const Setting& setting)
      : play_(play),
        own_(player.families[play.family]),
        population_(setting.families[play.family]) {
    const FumbleLost& lost = setting.fumble_lost;
    const double factor = fumble_odds(play_, own_, population_);
    if (population_.kind == FamilyKind::pass) {
      sack_ = played(Rate::sack);
      scramble_ = played(Rate::scramble);
      interception_ = played(Rate::interception);
      completion_ = played(Rate::completion);
      by_sack_fumble_ = slope_by_shift(lost.sack, factor);
      by_scramble_fumble_ = slope_by_shift(lost.scramble, factor);
      by_completion_fumble_ = slope_by_shift(lost.completion, factor);
    } else {
      const bool handoff = population_.kind == FamilyKind::handoff;
      by_run_fumble_ = slope_by_shift(handoff ? lost.handoff : lost.qb_run, factor);
    }
  }

  void add(const Chances& by, FamilyGradient& out) const {
    if (population_.kind == FamilyKind::pass) {
      add_pass(by, out);
      add_fumbled(by.sack_fumble * by_sack_fumble_ + by.scramble_fumble * by_scramble_fumble_ +
                      by.completion_fumble * by_completion_fumble_,
                  out);
    } else {
      add_fumbled(by.run_fumble * by_run_fumble_, out);
    }
  }

 private:
  double own(Rate rate) const { return own_rate(play_, own_, rate); }
  double factor(Rate rate) const { return play_.odds[static_cast<std::size_t>(rate)]; }
  Played played(Rate rate) const { return played_at(own(rate), factor(rate)); }

  void add_own(Rate rate, double by, FamilyGradient& out) const {
    const auto r = static_cast<std::size_t>(rate);
    if (play_.shell == any_shell)
      out.rate[r] += by;
    else
      out.shell[static_cast<std::size_t>(play_.shell)][r] += by;
  }

  void add_pass(const Chances& by, FamilyGradient& out) const {
    const double sack = sack_.share;
    const double intercepted = interception_.share;
    const bool scramble_capped = scramble_.share > 1 - sack;
    const bool complete_capped = completion_.share > 1 - intercepted;
    const double scramble = std::min(scramble_.share, 1 - sack);
    const double complete = std::min(completion_.share, 1 - intercepted);
    const double thrown = 1 - sack - scramble;

    const double by_thrown = by.intercepted * intercepted + by.complete * complete +
                             by.incomplete * (1 - intercepted - complete);
    const double by_scramble = by.scramble - by_thrown;
    const double by_complete = thrown * (by.complete - by.incomplete);
    const double by_sack = by.sack - by_thrown - (scramble_capped ? by_scramble : 0);
    const double by_intercepted =
        thrown * (by.intercepted - by.incomplete) - (complete_capped ? by_complete : 0);
    add_own(Rate::sack, by_sack * sack_.slope, out);
    if (!scramble_capped) add_own(Rate::scramble, by_scramble * scramble_.slope, out);
    add_own(Rate::interception, by_intercepted * interception_.slope, out);
    if (!complete_capped) add_own(Rate::completion, by_complete * completion_.slope, out);
  }

  void add_fumbled(double by, FamilyGradient& out) const {
    const double rate = own(Rate::fumble);
    const bool known = population_.rates[static_cast<std::size_t>(Rate::fumble)].has_value();
    if (known && rate > smallest_share && rate < 1 - smallest_share)
      add_own(Rate::fumble, by / (rate * (1 - rate)), out);
  }

  const Play& play_;
  const PlayerFamily& own_;
  const FamilyPopulation& population_;
  Played sack_, scramble_, interception_, completion_;
  double by_sack_fumble_ = 0, by_scramble_fumble_ = 0, by_completion_fumble_ = 0;
  double by_run_fumble_ = 0;
};

}  // namespace

void add_chances_gradient(const Play& play, const Player& player, const Setting& setting,
                          const std::array<Chances, 2>& by,
                          const std::array<FamilyGradient*, 2>& out) {
  const Reverse reverse(play, player, setting);
  for (std::size_t c = 0; c < by.size(); ++c) reverse.add(by[c], *out[c]);
}

}  // namespace callfit::drive
