#include <callfit/stats/logit.hpp>
#include <drive/chances_gradient.hpp>

namespace callfit::drive {
namespace {

bool moves(double share) { return share > 0 && share < 1; }

// Slope of shifted(share, shift) by the share.
double slope_by_share(double share, double shift) {
  if (shift == 0 || !moves(share)) return 1;
  const double p = shifted(share, shift);
  return p * (1 - p) / (share * (1 - share));
}

// Slope of shifted(share, shift) by the shift.
double slope_by_shift(double share, double shift) {
  const double p = shifted(share, shift);
  return moves(share) ? p * (1 - p) : 0.0;
}

class Reverse {
 public:
  Reverse(const Play& play, const Player& player, const Setting& setting, FamilyGradient& out)
      : play_(play),
        own_(player.families[play.family]),
        population_(setting.families[play.family]),
        lost_(setting.fumble_lost),
        out_(out) {}

  void add(const Chances& by) {
    if (population_.kind == FamilyKind::pass) {
      add_pass(by);
      add_fumbled(by.sack_fumble * slope_of(lost_.sack) +
                  by.scramble_fumble * slope_of(lost_.scramble) +
                  by.completion_fumble * slope_of(lost_.completion));
    } else {
      const bool handoff = population_.kind == FamilyKind::handoff;
      add_fumbled(by.run_fumble * slope_of(handoff ? lost_.handoff : lost_.qb_run));
    }
  }

 private:
  double own(Rate rate) const {
    return play_.shell == any_shell ? own_.at(rate)
                                    : own_.at(rate, cell_of(static_cast<Shell>(play_.shell)));
  }
  double shift(Rate rate) const { return play_.shift[static_cast<std::size_t>(rate)]; }
  double played(Rate rate) const { return shifted(own(rate), shift(rate)); }

  // `by` is the derivative by the rate as played.
  void add_rate(Rate rate, double by) {
    add_own(rate, by * slope_by_share(own(rate), shift(rate)));
  }

  void add_own(Rate rate, double by) {
    const auto r = static_cast<std::size_t>(rate);
    if (play_.shell == any_shell)
      out_.rate[r] += by;
    else
      out_.shell[static_cast<std::size_t>(play_.shell)][r] += by;
  }

  void add_pass(const Chances& by) {
    const double sack = played(Rate::sack);
    const double intercepted = played(Rate::interception);
    const bool scramble_capped = played(Rate::scramble) > 1 - sack;
    const bool complete_capped = played(Rate::completion) > 1 - intercepted;
    const double scramble = std::min(played(Rate::scramble), 1 - sack);
    const double complete = std::min(played(Rate::completion), 1 - intercepted);
    const double thrown = 1 - sack - scramble;

    const double by_thrown = by.intercepted * intercepted + by.complete * complete +
                             by.incomplete * (1 - intercepted - complete);
    const double by_scramble = by.scramble - by_thrown;
    const double by_complete = thrown * (by.complete - by.incomplete);
    add_rate(Rate::sack, by.sack - by_thrown - (scramble_capped ? by_scramble : 0));
    if (!scramble_capped) add_rate(Rate::scramble, by_scramble);
    add_rate(Rate::interception,
             thrown * (by.intercepted - by.incomplete) - (complete_capped ? by_complete : 0));
    if (!complete_capped) add_rate(Rate::completion, by_complete);
  }

  // How much more (log-odds) the play is fumbled away than the population's.
  double fumble_shift() const {
    const auto& mean = population_.rates[static_cast<std::size_t>(Rate::fumble)];
    return (mean ? logit(own(Rate::fumble)) - logit(mean->mean) : 0.0) + shift(Rate::fumble);
  }
  double slope_of(double share) const { return slope_by_shift(share, fumble_shift()); }

  void add_fumbled(double by) {
    const double rate = own(Rate::fumble);
    const bool known = population_.rates[static_cast<std::size_t>(Rate::fumble)].has_value();
    if (known && rate > smallest_share && rate < 1 - smallest_share)
      add_own(Rate::fumble, by / (rate * (1 - rate)));
  }

  const Play& play_;
  const PlayerFamily& own_;
  const FamilyPopulation& population_;
  const FumbleLost& lost_;
  FamilyGradient& out_;
};

}  // namespace

void add_chances_gradient(const Play& play, const Player& player, const Setting& setting,
                          const Chances& by, FamilyGradient& out) {
  Reverse(play, player, setting, out).add(by);
}

}  // namespace callfit::drive
