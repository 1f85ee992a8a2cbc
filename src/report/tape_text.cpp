#include <callfit/report/reports.hpp>
#include <callfit/report/table.hpp>
#include <callfit/report/tape_reports.hpp>

namespace callfit {
namespace {

std::string with_range(const UncertainValue& value, int decimals) {
  return fixed(value.value, decimals) + " (" + range(value.interval90, decimals) + ")";
}

std::string share_text(const SobolIndex& share) {
  return percent(share.first < 0 ? 0 : share.first);
}

std::string name_of(const Followed& followed, const Setting& setting) {
  std::string name = setting.families[followed.family].label + ", " + plain(word(followed.measure));
  if (followed.cell) name += ", " + plain(word(*followed.cell));
  return name;
}

std::string followed_text(const UncertainValue& value, Measure measure) {
  if (!as_rate(measure)) return with_range(value, 1);
  return percent(value.value) + " (" + percent_range(value.interval90) + ")";
}

std::string advice_sentence(const ChartingAdvice& advice, const Setting& setting) {
  if (advice.rows.empty() || advice.rows.front().net_points.narrowing <= 0)
    return "No family's tape would narrow the answer.\n";
  const ChartingRow& first = advice.rows.front();
  return wrapped("Chart " + setting.families[first.family].label +
                     " next: ten more snaps are expected to take " +
                     percent(first.net_points.narrowing) +
                     " off the width of the points interval, " + percent(first.fit.narrowing) +
                     " off that of the fit.",
                 100);
}

// One table a followed number: long names stay readable at 100 columns.
std::string followed_table(const std::vector<TrendStep>& steps,
                           const std::vector<Followed>& followed, const Setting& setting) {
  std::string text;
  for (std::size_t w = 0; w < followed.size(); ++w) {
    text += "\n" + name_of(followed[w], setting) + "\n";
    Table table({{"  after", Align::left, 30}, {"value (90% interval)"}});
    for (const TrendStep& step : steps)
      table.add({"  " + (step.game.empty() ? "before" : step.game),
                 followed_text(step.followed[w], followed[w].measure)});
    text += table.text();
  }
  return text;
}

}  // namespace

std::string charting_text(const ChartingAdvice& advice, const Profile& profile,
                          const Matchup& matchup) {
  Table table({{"family", Align::left, 30},
               {"calls"},
               {"snaps"},
               {"points"},
               {"narrower"},
               {"fit"},
               {"narrower"}});
  for (const ChartingRow& row : advice.rows)
    table.add({matchup.setting.families[row.family].label, percent(row.call_share),
               row.snaps > 0 ? fixed(row.snaps, 0) : "unseen", share_text(row.net_points.share),
               percent(row.net_points.narrowing), share_text(row.fit.share),
               percent(row.fit.narrowing)});
  return profile.name + ": net points per drive " + range(advice.net_points90, 2, true) + ", fit " +
         range(advice.fit90, 0) + " (90% intervals).\n" + advice_sentence(advice, matchup.setting) +
         "\n" + table.text() +
         wrapped(
             "points, fit: the part of the variance of net points and of fit that the family "
             "causes on its own (first-order Sobol index); narrower: what ten more charted "
             "snaps are expected to take off the interval.",
             100);
}

std::string trend_text(const std::vector<TrendStep>& steps, const std::vector<Followed>& followed,
                       const Setting& setting) {
  Table table({{"after", Align::left, 30},
               {"snaps"},
               {"effective"},
               {"fit, middle (90%)"},
               {"net points per drive (90%)"}});
  for (const TrendStep& step : steps)
    table.add({step.game.empty() ? "before" : step.game, fixed(step.snaps, 0),
               fixed(step.effective_snaps, 0), with_range(step.fit, 0),
               with_range(step.net_points, 2)});
  const std::string verdict =
      first_answer_held(steps)
          ? "The first answer held: every value still lies within its first interval.\n"
          : "The first answer did not hold: a value has left its first interval.\n";
  return table.text() + followed_table(steps, followed, setting) + "\n" + verdict;
}

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
