#include <callfit/base/names.hpp>
#include <callfit/report/number_text.hpp>
#include <callfit/report/reports.hpp>
#include <callfit/report/table.hpp>

namespace callfit {

std::string population_text(const PopulationFit& fit, const Setting& setting) {
  Table table({{"family", Align::left, 23},
               {"rate", Align::left, 14},
               {"players"},
               {"snaps"},
               {"mean (90%)"},
               {"spread (90%)"},
               {"setting"}});
  for (const RatePopulationFit& rate : fit.rates) {
    if (rate.snaps <= 0) continue;
    const FamilyPopulation& family = setting.families[rate.family];
    const RatePopulation& old = *family.rates[static_cast<std::size_t>(rate.rate)];
    const std::string before = percent(old.mean) + " ± " + percent(old.spread);
    if (!rate.fit) {
      table.add({family.label, plain(word(rate.rate)), std::to_string(rate.quarterbacks),
                 fixed(rate.snaps, 0), "too little", "-", before});
      continue;
    }
    const BetaBinomialFit& found = *rate.fit;
    table.add({family.label, plain(word(rate.rate)), std::to_string(rate.quarterbacks),
               fixed(rate.snaps, 0), percent(found.mean) + " (" + percent_range(found.mean90) + ")",
               found.told_apart()
                   ? percent(found.spread) + " (" + percent_range(found.spread90) + ")"
                   : "below " + percent(found.spread90.high),
               before});
  }
  return table.text() +
         wrapped(fixed(fit.snaps, 0) + " snaps used, " + fixed(fit.other_levels, 0) +
                     " of other levels left out. \"Below\": the charts do not tell the "
                     "quarterbacks apart, so the setting's spread is kept.",
                 100);
}

}  // namespace callfit
