#include <validate/played_season.hpp>

#include <callfit/base/parallel.hpp>

namespace callfit {
namespace {

constexpr double least_dropbacks = 200;

std::vector<PlayedSeason> in_both(const std::map<SeasonKey, Games>& games,
                                  const std::vector<QuarterbackSeason>& seasons) {
  std::map<SeasonKey, const QuarterbackSeason*> drives;
  for (const QuarterbackSeason& season : seasons)
    drives[{season.quarterback, season.season}] = &season;
  std::vector<PlayedSeason> out;
  for (const auto& [key, list] : games) {
    const auto found = drives.find(key);
    if (found == drives.end() || dropbacks_of(list) < least_dropbacks ||
        !(found->second->drives > 0))
      continue;
    PlayedSeason played;
    played.season = found->second;
    played.games = list;
    played.counts = counts_of(list, *found->second);
    out.push_back(std::move(played));
  }
  return out;
}

/// Takes the mean of its year from every season's value.
template <class Member>
void centre(std::vector<PlayedSeason>& seasons, const Member& member) {
  std::map<int, std::pair<double, double>> sums;
  for (PlayedSeason& season : seasons) {
    sums[season.year()].first += member(season);
    sums[season.year()].second += 1;
  }
  for (PlayedSeason& season : seasons) {
    const auto& [sum, count] = sums[season.year()];
    member(season) -= sum / count;
  }
}

void play(PlayedSeason& season, const SeasonCounts& league, const PointsGround& ground) {
  season.points = season.season->points / season.season->drives;
  const Player player = season_player(ground, season.counts, league, all_parts());
  season.model = ground.points(player);
  season.first_order = ground.first_order_points(player);
  for (std::size_t p = 0; p < points_part_count; ++p) {
    const auto part = static_cast<PointsPart>(p);
    if (part != PointsPart::start)
      season.parts[p] =
          ground.first_order_points(season_player(ground, season.counts, league, only(part)));
    else if (season.season->start)
      season.parts[p] = ground.points_from(*season.season->start);
  }
}

}  // namespace

std::vector<PlayedSeason> played_seasons(const std::map<SeasonKey, Games>& games,
                                         const std::vector<QuarterbackSeason>& seasons,
                                         const PointsGround& ground) {
  std::vector<PlayedSeason> out = in_both(games, seasons);
  std::map<int, SeasonCounts> leagues;
  for (const PlayedSeason& season : out) leagues[season.year()] += season.counts;
  for_each_unit(out.size(), 0,
                [&](std::size_t i) { play(out[i], leagues.at(out[i].year()), ground); });
  centre(out, [](PlayedSeason& season) -> double& { return season.points; });
  centre(out, [](PlayedSeason& season) -> double& { return season.model; });
  centre(out, [](PlayedSeason& season) -> double& { return season.first_order; });
  for (std::size_t p = 0; p < points_part_count; ++p)
    centre(out, [p](PlayedSeason& season) -> double& { return season.parts[p]; });
  return out;
}

std::vector<TwoSeasons> consecutive(const std::vector<PlayedSeason>& seasons) {
  std::map<SeasonKey, std::size_t> places;
  for (std::size_t i = 0; i < seasons.size(); ++i)
    places[{seasons[i].man(), seasons[i].year()}] = i;
  std::vector<TwoSeasons> out;
  for (std::size_t i = 0; i < seasons.size(); ++i) {
    const auto next = places.find({seasons[i].man(), seasons[i].year() + 1});
    if (next != places.end()) out.push_back({i, next->second});
  }
  return out;
}

}  // namespace callfit
