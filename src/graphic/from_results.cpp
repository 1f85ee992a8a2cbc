#include <callfit/chart/measure_name.hpp>
#include <callfit/graphic/from_results.hpp>

#include <algorithm>

namespace callfit {
namespace {

DemandLine demand_line(const Demand& demand, const DemandResult& result, const Interval& interval,
                       double spread) {
  DemandLine line;
  line.label = measure_name(demand.measure, demand.cell);
  line.unit = as_rate(demand.measure) ? Unit::share : Unit::yards;
  line.estimate = reading_of({result.estimate, interval});
  line.asked = demand.level;
  line.spread = spread;
  line.more_is_better = demand.more_is_better;
  line.weight = demand.weight;
  return line;
}

CurvePoint curve_point(double x, const UncertainValue& value) { return {x, reading_of(value)}; }

}  // namespace

Reading reading_of(const UncertainValue& value) {
  return {value.value, std::min(value.interval90.low, value.value),
          std::max(value.interval90.high, value.value)};
}

FitPicture fit_picture(const Profile& profile, const FitReport& report, const Matchup& matchup,
                       const std::optional<Against>& against) {
  const BoundScheme& bound = matchup.bound;
  FitPicture picture;
  picture.player = profile.name;
  picture.scheme = matchup.scheme().name;
  picture.fit = reading_of({report.fit_median, report.fit90});
  picture.worse_share = report.worse_share;
  picture.population = plain(matchup.setting.level) + " quarterbacks";
  for (std::size_t f = 0; f < matchup.scheme().families.size(); ++f)
    picture.families.push_back({matchup.scheme().families[f].label,
                                bound.call_share[f],
                                profile.families[bound.setting_family[f]].snaps,
                                {}});
  for (std::size_t i = 0; i < report.at_mean.demands.size(); ++i) {
    const DemandResult& result = report.at_mean.demands[i];
    picture.families[result.family].demands.push_back(
        demand_line(matchup.scheme().demands[result.demand], result, report.estimate90[i],
                    bound.spread[result.demand]));
  }
  // Families that ask nothing of the quarterback have nothing to show.
  std::erase_if(picture.families, [](const FamilyStrip& strip) { return strip.demands.empty(); });
  if (against)
    picture.against = PointsAgainst{against->name, reading_of(against->difference.net_per_drive),
                                    reading_of(against->difference.net_per_game)};
  return picture;
}

ThrowMap throw_map(const std::string& player, const std::vector<ThrowZone>& zones,
                   const Setting& setting) {
  ThrowMap map;
  map.player = player;
  map.population = plain(setting.level) + " quarterbacks";
  for (const ThrowZone& zone : zones)
    map.cells.push_back(
        {static_cast<int>(zone.lane),
         static_cast<int>(zone.depth) - static_cast<int>(Cell::short_throw), zone.throws,
         zone.share, reading_of({zone.completion.mean, zone.completion.interval90()}), zone.usual});
  return map;
}

DriveResults drive_results_picture(const Profile& first, const DriveBands& first_bands,
                                   const Profile& second, const DriveBands& second_bands,
                                   const Difference& difference, const Matchup& matchup) {
  DriveResults picture;
  picture.first = first.name;
  picture.second = second.name;
  picture.scheme = matchup.scheme().name;
  picture.points_first = reading_of(first_bands.points);
  picture.points_second = reading_of(second_bands.points);
  picture.difference = reading_of(difference.points_per_drive);
  for (std::size_t r = 0; r < drive_result_count; ++r) {
    const auto result = static_cast<DriveResult>(r);
    if (result == DriveResult::end_of_half && !matchup.options.end_of_half) continue;
    picture.results.push_back({plain(word(result)), reading_of(first_bands.result[r]),
                               reading_of(second_bands.result[r])});
  }
  return picture;
}

PointsByYard points_by_yard(const std::vector<std::string>& names,
                            const std::vector<DriveBands>& bands, const Matchup& matchup,
                            bool net) {
  PointsByYard picture;
  picture.scheme = matchup.scheme().name;
  picture.net = net;
  for (std::size_t i = 0; i < bands.size(); ++i) {
    const auto& values = net ? bands[i].net_points_at : bands[i].points_at;
    Curve curve{names[i], {}};
    for (std::size_t spot = 1; spot < values.size(); ++spot)
      curve.points.push_back(curve_point(static_cast<double>(spot), values[spot]));
    picture.curves.push_back(std::move(curve));
  }
  return picture;
}

TapeNote tape_note(const Profile& profile) {
  TapeNote note{profile.name, {}};
  for (const GameContribution& game : profile.games) {
    const std::string label = plain(game.level);
    const auto found = std::find_if(note.levels.begin(), note.levels.end(),
                                    [&](const LevelSnaps& l) { return l.label == label; });
    if (found == note.levels.end())
      note.levels.push_back({label, game.snaps});
    else
      found->snaps += game.snaps;
  }
  return note;
}

}  // namespace callfit
