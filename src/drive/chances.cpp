#include <callfit/stats/logit.hpp>
#include <drive/chances.hpp>

#include <algorithm>

namespace callfit::drive {
double own_rate(const Play& play, const PlayerFamily& own, Rate rate) {
  return play.shell == any_shell ? own.at(rate)
                                 : own.at(rate, cell_of(static_cast<Shell>(play.shell)));
}

double fumble_odds(const Play& play, const PlayerFamily& own, const FamilyPopulation& population) {
  constexpr auto fumble = static_cast<std::size_t>(Rate::fumble);
  const auto& mean = population.rates[fumble];
  const double against_mean =
      mean ? odds(own_rate(play, own, Rate::fumble)) / odds(mean->mean) : 1.0;
  return against_mean * play.odds[fumble];
}

namespace {

double played_rate(const Play& play, const PlayerFamily& family, Rate rate) {
  return at_odds(own_rate(play, family, rate), play.odds[static_cast<std::size_t>(rate)]);
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
  chances.sack_fumble = at_odds(lost.sack, fumbled);
  chances.scramble_fumble = at_odds(lost.scramble, fumbled);
  chances.completion_fumble = at_odds(lost.completion, fumbled);
  return chances;
}

}  // namespace

Chances chances_of(const Play& play, const Player& player, const Setting& setting) {
  const FamilyPopulation& population = setting.families[play.family];
  const PlayerFamily& own = player.families[play.family];
  const double fumbled = fumble_odds(play, own, population);
  if (population.kind == FamilyKind::pass)
    return pass_chances(play, own, setting.fumble_lost, fumbled);
  Chances chances;
  chances.run = 1;
  chances.run_fumble = at_odds(population.kind == FamilyKind::handoff ? setting.fumble_lost.handoff
                                                                      : setting.fumble_lost.qb_run,
                               fumbled);
  return chances;
}

}  // namespace callfit::drive
