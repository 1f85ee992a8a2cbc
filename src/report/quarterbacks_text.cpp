#include <callfit/report/number_text.hpp>
#include <callfit/report/quarterbacks_report.hpp>
#include <callfit/report/table.hpp>

namespace callfit {
namespace {

std::string gain(const ScoreGain& gain) {
  return signed_fixed(gain.per_1000, 2) + " (" + fixed(gain.standard_error, 2) + ")";
}

std::string share(const Coverage& coverage) { return fixed(100 * coverage.share(), 1) + "%"; }

void add(Table& table, const std::string& name, const PredictionScore& score,
         const Coverage& coverage) {
  table.add({name, fixed(score.trials, 0), gain(score.league), gain(score.raw),
             gain(score.independent), share(coverage)});
}

std::string predictions_text(const std::string& title, const Predictions& predictions) {
  if (predictions.seasons == 0) return {};
  Table table({{"", Align::left, 30},
               {"trials"},
               {"over league"},
               {"over raw"},
               {"over independent"},
               {"in 90%"}});
  for (const RatePredictions& rate : predictions.rates)
    if (rate.coverage90.of > 0) add(table, plain(word(rate.rate)), rate.score, rate.coverage90);
  add(table, "all rates", predictions.score, predictions.coverage90);
  std::string text = title + ": " + std::to_string(predictions.seasons) + " seasons of " +
                     std::to_string(predictions.quarterbacks) + " quarterbacks\n\n" + table.text();
  text += "  In 90% by dropbacks before:";
  for (const SnapGroup& group : predictions.groups) {
    if (group.seasons == 0) continue;
    text += " " + fixed(group.least_dropbacks, 0);
    if (group.most_dropbacks > 0)
      text += "-" + fixed(group.most_dropbacks, 0);
    else
      text += "+";
    text += ": " + share(group.coverage90) + " (" + std::to_string(group.seasons) + ")";
  }
  return text + "\n";
}

}  // namespace

std::string quarterbacks_text(const QuarterbackReport& report) {
  return wrapped("The population of \"" + report.setting + "\" against " +
                 std::to_string(report.games) + " games of " + report.source + ": " +
                 std::to_string(report.seasons) + " seasons of " +
                 std::to_string(report.quarterbacks) + " quarterbacks.") +
         wrapped(
             "Gains in log-likelihood per 1000 trials of one man's joint posterior over the "
             "league's mean, his raw rate and independent rates (standard error by man); how "
             "often a randomised count lay in its 90% interval.") +
         "\n" + predictions_text("First four games, the rest of the season", report.first_four) +
         "\n" + predictions_text("First eight games, the rest of the season", report.first_eight) +
         "\n" + predictions_text("A season, the next one", report.next_season);
}

}  // namespace callfit
