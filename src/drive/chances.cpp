#include <callfit/stats/logit.hpp>
#include <drive/chances.hpp>

#include <algorithm>

namespace callfit::drive {
namespace {

double own_rate(const Play& play, const PlayerFamily& family, Rate rate) {
  return play.shell == any_shell ? family.at(rate)
                                 : family.at(rate, cell_of(static_cast<Shell>(play.shell)));
}

double played_rate(const Play& play, const PlayerFamily& family, Rate rate) {
  return shifted(own_rate(play, family, rate), play.shift[static_cast<std::size_t>(rate)]);
}

// How much more (log-odds) this play is fumbled away than the population's.
double fumble_shift(const Play& play, const PlayerFamily& own, const FamilyPopulation& population) {
  constexpr auto fumble = static_cast<std::size_t>(Rate::fumble);
  const auto& mean = population.rates[fumble];
  const double against_mean =
      mean ? logit(own_rate(play, own, Rate::fumble)) - logit(mean->mean) : 0.0;
  return against_mean + play.shift[fumble];
}

Chances pass_chances(const Play& play, const PlayerFamily& own, const FumbleLost& lost,
                     double fumbled) {
  Chances chances;
  chances.sack = played_rate(play, own, Rate::sack);
  chances.scramble = std::min(played_rate(play, own, Rate::scramble), 1 - chances.sack);
  const double thrown = 1 - chances.sack - chances.scramble;
  const double intercepted = played_rate(play, own, Rate::interception);
  const double complete = std::min(played_rate(play, own, Rate::completion), 1 - intercepted);
  chances.intercepted = thrown * intercepted;
  chances.complete = thrown * complete;
  chances.incomplete = thrown * (1 - intercepted - complete);
  chances.sack_fumble = shifted(lost.sack, fumbled);
  chances.scramble_fumble = shifted(lost.scramble, fumbled);
  chances.completion_fumble = shifted(lost.completion, fumbled);
  return chances;
}

}  // namespace

Chances chances_of(const Play& play, const Player& player, const Setting& setting) {
  const FamilyPopulation& population = setting.families[play.family];
  const PlayerFamily& own = player.families[play.family];
  const double fumbled = fumble_shift(play, own, population);
  if (population.kind == FamilyKind::pass)
    return pass_chances(play, own, setting.fumble_lost, fumbled);
  Chances chances;
  chances.run = 1;
  chances.run_fumble = shifted(population.kind == FamilyKind::handoff ? setting.fumble_lost.handoff
                                                                      : setting.fumble_lost.qb_run,
                               fumbled);
  return chances;
}

}  // namespace callfit::drive
