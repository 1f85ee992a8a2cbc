#include "cli/console.hpp"
#include "cli/dressing.hpp"
#include "cli/inputs.hpp"
#include "report/tape_json.hpp"

#include <callfit/chart/measure_name.hpp>
#include <callfit/graphic/from_results.hpp>
#include <callfit/graphic/trend.hpp>
#include <callfit/report/tape_reports.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <functional>
#include <iostream>
#include <utility>

namespace callfit::cli {
namespace {

constexpr std::size_t most_pictured = 9;  // small charts in one picture

Options trend_options() {
  Options options(
      {"trend CHART... --scheme NAME|FILE [--before CHART...] [-o FILE]",
       "Follows a season: after each game of the charts, what is known of the rates "
       "that the scheme demands, the fit and the net points, with 90% intervals. "
       "--before names earlier tape, whose answer stands first. -o draws fit, points and "
       "rates as small charts (.svg, .png or .pdf).",
       "  callfit trend season.csv --before camp.csv --scheme balanced -o trend.svg"});
  options.with_json().with_draws(400);
  add_matchup_options(options);
  add_dress_options(options);
  options.add()("chart", po::value<Words>()->value_name("CHART"), "charts of the season (CSV)")(
      "before", po::value<Words>()->multitoken()->value_name("CHART"), "earlier charts")(
      "name", po::value<std::string>()->value_name("NAME"), "the quarterback")(
      "half-life", po::value<double>()->default_value(0)->value_name("GAMES"),
      "a game counts half as much so many games later; 0: no decay")(
      "output,o", po::value<Words>()->value_name("FILE"), "draw into this file; may be repeated");
  options.positional("chart");
  return options;
}

// The family without what its label adds in brackets.
std::string label_of(const Followed& followed, const Setting& setting) {
  const std::string& family = setting.families[followed.family].label;
  return measure_name(followed.measure, followed.cell) + ": " + family.substr(0, family.find(" ("));
}

TrendSeries series_of(const std::string& label, Unit unit, const std::vector<TrendStep>& steps,
                      const std::function<const UncertainValue&(const TrendStep&)>& value_of) {
  TrendSeries series{label, unit, {}, std::nullopt};
  for (const TrendStep& step : steps)
    series.steps.push_back(
        {step.game.empty() ? "before" : step.game, step.snaps, reading_of(value_of(step))});
  return series;
}

// Fit and points come first, then what has left its first interval, so that the most telling ones
// are among those that have room.
TrendPicture picture_of(const std::string& name, const std::vector<TrendStep>& steps,
                        const std::vector<Followed>& followed, const Setting& setting) {
  const Player usual = average_player(setting);
  std::vector<TrendSeries> series;
  series.push_back(series_of("fit, 0 to 100", Unit::fit, steps,
                             [](const TrendStep& s) -> const UncertainValue& { return s.fit; }));
  series.push_back(
      series_of("net points per drive", Unit::points, steps,
                [](const TrendStep& s) -> const UncertainValue& { return s.net_points; }));
  for (std::size_t w = 0; w < followed.size(); ++w) {
    const Followed& f = followed[w];
    series.push_back(
        series_of(label_of(f, setting), as_rate(f.measure) ? Unit::share : Unit::yards, steps,
                  [w](const TrendStep& s) -> const UncertainValue& { return s.followed[w]; }));
    series.back().usual = measure_of(usual, setting, f.family, f.measure, f.cell);
  }
  std::stable_partition(series.begin() + 2, series.end(),
                        [](const TrendSeries& one) { return !one.held(); });
  series.resize(std::min(series.size(), most_pictured));
  return {name, std::move(series)};
}

}  // namespace

int trend_command(const Words& words) {
  Files disk;
  const auto values = trend_options().parse(words, disk);
  if (!values) return exit_ok;
  const Words files = texts_of(*values, "chart");
  if (files.empty()) throw po::required_option("CHART");
  const Words pictures = texts_of(*values, "output");
  for (const std::string& file : pictures) require_picture_ending(file);

  const Dress dress = dress_from(disk, *values);
  const Matchup matchup = load_matchup(disk, *values);
  const auto aliases = aliases_of(matchup.scheme());
  std::string name = text_of(*values, "name");
  if (name.empty()) name = std::filesystem::path(files.front()).stem().string();
  Weighting weighting = weighting_of(matchup.setting);
  weighting.half_life_games = (*values)["half-life"].as<double>();
  if (!(weighting.half_life_games >= 0)) throw po::error("--half-life takes a number, 0 or more");

  const auto followed = demands_to_follow(matchup.bound);
  const auto steps = trend_of(
      name, load_charts(disk, texts_of(*values, "before"), matchup.setting, aliases),
      load_charts(disk, files, matchup.setting, aliases), matchup, weighting, aliases, followed,
      {seed_of(*values), draws_of(*values), threads_of(*values)}, progress_line("game by game"));
  if (!pictures.empty()) {
    const Panel panel =
        trend_panel(picture_of(name, steps, followed, matchup.setting), dress.wording);
    write_pictures(disk, figure(panel, dress), dress.frame, pictures);
  }
  if (wants_json(*values))
    print_json("trend",
               {{"charts", files}, {"scheme", matchup.scheme().id}, {"seed", seed_of(*values)}},
               trend_json(steps, followed, matchup.setting));
  else
    std::cout << trend_text(steps, followed, matchup.setting);
  return exit_ok;
}

}  // namespace callfit::cli
