#include <callfit/chart/measure_name.hpp>
#include <callfit/report/reports.hpp>
#include <callfit/report/table.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace callfit {
namespace {

bool is_yards(Measure measure) { return !as_rate(measure); }

std::string amount(double value, Measure measure) {
  return is_yards(measure) ? fixed(value, 1) + " yd" : percent(value);
}

std::string amount_range(const Interval& interval, Measure measure) {
  return is_yards(measure) ? range(interval, 1) : percent_range(interval);
}

std::string met(const DemandResult& result) {
  if (result.shortfall > 0) return "short " + fixed(result.shortfall, 2);
  return "met +" + fixed(result.surplus, 2);
}

std::string demands_table(const FitReport& report, const Profile& profile,
                          const BoundScheme& bound) {
  Table table({{"family", Align::left, 26},
               {"calls"},
               {"snaps"},
               {"demand", Align::left, 22},
               {"asked"},
               {"estimate"},
               {"90%"},
               {"in spreads"},
               {"of D²"}});
  std::size_t shown = bound.scheme.families.size();
  for (std::size_t i = 0; i < report.at_mean.demands.size(); ++i) {
    const DemandResult& result = report.at_mean.demands[i];
    const Demand& demand = bound.scheme.demands[result.demand];
    const bool same = result.family == shown;
    shown = result.family;
    const FamilyProfile& seen = profile.families[bound.setting_family[result.family]];
    table.add({same ? "" : bound.scheme.families[result.family].label,
               same ? "" : percent(bound.call_share[result.family]),
               same ? "" : (seen.unseen() ? "unseen" : fixed(seen.snaps, 0)),
               measure_name(demand.measure, demand.cell),
               (demand.more_is_better ? "≥ " : "≤ ") + amount(result.level, demand.measure),
               amount(result.estimate, demand.measure),
               amount_range(report.estimate90[i], demand.measure), met(result),
               fixed(result.contribution, 3)});
  }
  return table.text();
}

std::string unused_text(const FitReport& report, const Setting& setting) {
  if (report.unused.empty()) return "";
  std::string text = "\nStrengths that the scheme leaves unused\n";
  for (const UnusedStrength& strength : report.unused)
    text += "  " + setting.families[strength.family].label + ", " + plain(word(strength.measure)) +
            ": " + amount(strength.estimate, strength.measure) + " (usual " +
            amount(strength.population, strength.measure) + "), called on " +
            percent(strength.call_share) + " of snaps\n";
  return text;
}

std::string start_text(const DrivesReport& report) {
  if (!report.start) return "averaged over where drives start";
  const DriveState& s = *report.start;
  return "from down " + std::to_string(s.down) + ", " + std::to_string(s.to_go) + " to go, " +
         std::to_string(s.yards_to_goal) + " yards from the goal";
}

struct DriveLine {
  std::string name;
  double exact, sampled, error;
  int decimals;
  bool share;
};

std::vector<DriveLine> drive_lines(const DrivesReport& report) {
  const DriveValues none;
  const DriveValues& mean = report.sampled ? report.sampled->mean : none;
  const DriveValues& error = report.sampled ? report.sampled->standard_error : none;
  const DriveValues& exact = report.exact;
  std::vector<DriveLine> lines{
      {"points", exact.points, mean.points, error.points, 3, false},
      {"net points", exact.net_points, mean.net_points, error.net_points, 3, false}};
  for (std::size_t i = 0; i < drive_result_count; ++i)
    lines.push_back({plain(enum_words<DriveResult>[i]), exact.share[i], mean.share[i],
                     error.share[i], 2, true});
  lines.push_back(
      {"first downs", exact.first_downs, mean.first_downs, error.first_downs, 2, false});
  lines.push_back({"plays", exact.plays, mean.plays, error.plays, 2, false});
  return lines;
}

std::string drives_table(const DrivesReport& report) {
  std::vector<Column> columns{{"per drive", Align::left}, {"exact"}};
  if (report.sampled) columns.insert(columns.end(), {{"sampled"}, {"std. error"}});
  Table table(std::move(columns));
  for (const DriveLine& line : drive_lines(report)) {
    const auto show = [&](double v) {
      return line.share ? fixed(100 * v, line.decimals) + '%' : fixed(v, line.decimals);
    };
    std::vector<std::string> cells{line.name, show(line.exact)};
    if (report.sampled) {
      cells.push_back(show(line.sampled));
      cells.push_back(line.share ? fixed(100 * line.error, 3) + '%' : fixed(line.error, 4));
    }
    table.add(std::move(cells));
  }
  return table.text();
}

}  // namespace

std::string fit_text(const FitReport& report, const Profile& profile, const BoundScheme& bound,
                     const Setting& setting) {
  return wrapped(profile.name + " in " + bound.scheme.name + ": fit " +
                     fixed(report.fit_median, 0) + " of 100, 90% interval " +
                     range(report.fit90, 0) + "; " + percent(report.worse_share) +
                     " of quarterbacks of this level fit worse.",
                 100) +
         wrapped("If every estimate below were exact: fit " + fixed(report.at_mean.fit, 0) +
                     ", D² = " + fixed(report.at_mean.distance_squared, 3) +
                     ", the sum of the last column. What the tape leaves open costs fit, since "
                     "shortfalls count squared.",
                 100) +
         "\n" + demands_table(report, profile, bound) + unused_text(report, setting);
}

std::string drives_text(const DrivesReport& report, const Profile& profile, const Scheme& scheme) {
  std::string text = profile.name + " in " + scheme.name + ", " + start_text(report) + "\n\n" +
                     drives_table(report);
  if (!report.start)
    text += "\nPer game of " + fixed(report.drives_per_game, 1) +
            " drives: " + fixed(report.exact.points * report.drives_per_game, 1) + " points\n";
  if (report.sampled)
    text += std::to_string(report.sampled->drives) +
            " sampled drives; the error is the sampling's alone, not the tape's\n";
  return text;
}

std::string verdict(const std::string& first, const std::string& second,
                    const Difference& difference) {
  const UncertainValue& game = difference.net_per_game;
  const std::string amount_text = fixed(std::abs(game.value), 1) + " net points a game";
  const std::string interval_text = "90% interval " + range(game.interval90, 1, true);
  const double chance = difference.chance_first_better;
  if (game.interval90.low > 0 || game.interval90.high < 0) {
    const bool ahead = game.value > 0;
    return (ahead ? first : second) + " is worth " + amount_text + " more than " +
           (ahead ? second : first) + " (" + interval_text + ").";
  }
  const bool leaning = chance > 0.75 || chance < 0.25;
  const std::string lead = chance >= 0.5 ? first : second;
  const std::string lean = leaning ? "The tape leans to " + lead + " but does not settle it"
                                   : "A toss-up between " + first + " and " + second;
  return lean + ": " + signed_fixed(game.value, 1) + " net points a game for " + first + ", " +
         interval_text + "; the chance that " + lead + " is ahead is " +
         percent(std::max(chance, 1 - chance)) + ".";
}

std::string comparison_text(const ComparisonReport& report) {
  Table table({{"quarterback", Align::left, 24},
               {"scheme", Align::left, 26},
               {"fit"},
               {"90%"},
               {"points"},
               {"90%"},
               {"net"},
               {"best"}});
  for (const Entry& entry : report.entries)
    table.add({entry.profile, entry.scheme, fixed(entry.fit.fit_median, 0),
               range(entry.fit.fit90, 0), fixed(entry.worth.points.value, 2),
               range(entry.worth.points.interval90, 2),
               signed_fixed(entry.worth.net_points.value, 2), percent(entry.chance_best)});
  std::string text = table.text() +
                     "\npoints, net: per drive, net of what the opponent then expects; "
                     "best: chance of most net points\n"
                     "fit: in the middle of what the tape allows\n";
  if (report.first_two)
    text += '\n' + wrapped(verdict(report.entries[0].profile, report.entries[1].profile,
                                   *report.first_two),
                           100);
  return text;
}

}  // namespace callfit
