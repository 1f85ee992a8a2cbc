#include "samples.hpp"

#include <callfit/chart/measure_name.hpp>
#include <callfit/draw/raster.hpp>
#include <callfit/draw/svg.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

namespace callfit::samples {
namespace {

constexpr std::size_t draws = 2000;
constexpr double drives_a_game = 11.2;

Number number(double centre, double low, double high) { return {centre, low, high, draws, 0.01}; }

About new_starter() {
  return {"New starter",
          "Wide zone and boot",
          "college",
          323,
          {{"high_school", 182}, {"college", 141}}};
}
About last_starter() {
  return {"Last starter", "Wide zone and boot", "college", 423, {{"college", 423}}};
}

}  // namespace

Verdict above(const Number& number, double line) {
  const double side =
      number.centre > line ? number.centre - number.low : number.high - number.centre;
  const double sd = std::max(side, 1e-9) / 1.6449;
  return {0.5 * std::erfc(-(number.centre - line) / sd / std::sqrt(2.0)), 0.005, {}};
}

DemandAnswer demand(std::size_t family, Measure measure, const Number& estimate, double asked,
                    double spread, double part, std::optional<double> level_odds) {
  DemandAnswer made;
  made.family = family;
  made.measure = measure;
  made.label = measure_name(measure, std::nullopt);
  made.in_yards = !as_rate(measure);
  made.more_is_better = measure != Measure::interception && measure != Measure::sack;
  made.asked = asked;
  made.spread = spread;
  made.estimate = estimate;
  made.usual = asked;
  made.short_by = scaled(moved(estimate, -asked), (made.more_is_better ? -1 : 1) / spread);
  made.part = part;
  made.weight = 0.1;
  made.reaches = above(scaled(made.short_by, -1), 0);
  made.reaches.level_odds = level_odds;
  return made;
}

FitAnswer fit() {
  FitAnswer answer;
  answer.about = new_starter();
  answer.place = number(54, 21, 80);
  answer.distance = number(0.41, 0.18, 0.92);
  answer.families = {
      {"handoff", "Handoffs", "call.all.handoff", 0.34, 61, 0, 0, false},
      {"boot", "Boot and rollout", "call.all.boot", 0.16, 44, 0.021, 0.31, false},
      {"quick_middle", "Quick middle", "call.all.quick_middle", 0.14, 71, 0.002, -0.12, false},
      {"intermediate", "Intermediate from the pocket", "call.all.intermediate", 0.12, 39, 0.15,
       0.92, false},
      {"deep_outside", "Deep outside", "call.all.deep_outside", 0.09, 27, 0.24, 1.15, false},
      {"quick_outside", "Quick outside", "call.all.quick_outside", 0.08, 33, 0.018, 0.22, false},
      {"keep", "Zone read keep", "call.all.keep", 0.07, 0, 0.03, 0.05, true}};
  answer.demands = {
      demand(1, Measure::completion, number(0.66, 0.58, 0.73), 0.62, 0.05, 0.006),
      demand(1, Measure::on_time, number(0.71, 0.63, 0.79), 0.72, 0.06, 0.015),
      demand(2, Measure::completion, number(0.74, 0.68, 0.80), 0.66, 0.05, 0.001),
      demand(2, Measure::yards_after_catch, number(5.9, 5.1, 6.8), 4.8, 0.7, 0.001),
      demand(3, Measure::completion, number(0.49, 0.41, 0.57), 0.53, 0.05, 0.15),
      demand(4, Measure::completion, number(0.286, 0.213, 0.361), 0.38, 0.05, 0.21),
      demand(4, Measure::interception, number(0.036, 0.017, 0.062), 0.025, 0.012, 0.03),
      demand(5, Measure::completion, number(0.70, 0.61, 0.78), 0.68, 0.05, 0.018),
      demand(6, Measure::success, number(0.44, 0.33, 0.55), 0.46, 0.07, 0.03, 0.5)};
  for (const FamilyAnswer& family : answer.families) answer.mean_distance += family.part;
  return answer;
}

DifferenceAnswer difference_of(double centre, double half) {
  DifferenceAnswer made{"New starter", "Last starter", {}, {}, {}, {}, {}};
  made.net_points_per_drive = number(centre, centre - half, centre + half);
  made.points_per_drive = scaled(made.net_points_per_drive, 0.7);
  made.net_points_per_game = scaled(made.net_points_per_drive, drives_a_game);
  made.points_per_game = scaled(made.points_per_drive, drives_a_game);
  made.ahead = above(made.net_points_per_drive, 0);
  return made;
}

DifferenceAnswer difference() { return difference_of(0.17, 0.255); }

std::vector<ThrowZone> throws() {
  std::vector<ThrowZone> zones;
  const auto add = [&](Lane lane, Cell depth, double count, double share, double mean,
                       double strength, double usual) {
    const RateCounts counts{std::round(mean * count), count, 0.9 * mean * count, 0.9 * count};
    zones.push_back({lane, depth, count, share, {mean, strength, counts}, usual});
  };
  add(Lane::left, Cell::short_throw, 38, 0.19, 0.71, 90, 0.69);
  add(Lane::middle, Cell::short_throw, 63, 0.31, 0.78, 120, 0.71);
  add(Lane::right, Cell::short_throw, 34, 0.17, 0.66, 80, 0.68);
  add(Lane::left, Cell::intermediate_throw, 14, 0.07, 0.52, 40, 0.54);
  add(Lane::middle, Cell::intermediate_throw, 21, 0.10, 0.64, 50, 0.58);
  add(Lane::right, Cell::intermediate_throw, 12, 0.06, 0.44, 38, 0.53);
  add(Lane::left, Cell::deep_throw, 11, 0.055, 0.22, 40, 0.36);
  add(Lane::right, Cell::deep_throw, 8, 0.042, 0.31, 36, 0.35);
  return zones;
}

namespace {

DrivesAnswer drives_of(const About& about, double lift, double width,
                       const std::array<double, 8>& shares) {
  DrivesAnswer answer;
  answer.about = about;
  answer.points = number(2.07 + lift, 2.07 + lift - width, 2.07 + lift + width);
  answer.net_points = number(0.11 + lift, 0.11 + lift - width, 0.11 + lift + width);
  answer.points_per_game = scaled(answer.points, drives_a_game);
  answer.net_points_per_game = scaled(answer.net_points, drives_a_game);
  answer.drives_per_game = drives_a_game;
  constexpr std::array ids{"touchdown", "field_goal",   "missed_field_goal",
                           "punt",      "interception", "fumble",
                           "downs",     "safety"};
  for (std::size_t i = 0; i < ids.size(); ++i) {
    const double half = width * 0.8 * std::sqrt(shares[i] * (1 - shares[i])) * 0.4;
    answer.results.push_back(
        {ids[i], plain(ids[i]),
         number(shares[i], std::max(shares[i] - half, 0.2 * shares[i]), shares[i] + half)});
  }
  for (int y = 1; y <= 99; ++y) {
    const double value = 5.9 - 0.078 * y + 0.9 * std::exp(-y / 6.0) + lift * (1.6 - y / 100.0);
    const double half = 1.5 * width * (0.5 + y / 200.0);
    answer.net_points_at.push_back(number(value, value - half, value + half));
  }
  return answer;
}

}  // namespace

DrivesAnswer drives() {
  return drives_of(new_starter(), 0.17, 0.23,
                   {0.26, 0.13, 0.042, 0.36, 0.091, 0.052, 0.061, 0.004});
}

DrivesAgainst against() {
  return {
      drives_of(last_starter(), 0, 0.16, {0.24, 0.134, 0.043, 0.381, 0.078, 0.051, 0.069, 0.004}),
      difference()};
}

SweepAnswer sweep() {
  SweepAnswer answer;
  answer.about = new_starter();
  SweepAxis axis{
      "rate.deep_outside.completion", "completion, deep outside", KnobUnit::share, 0.286, {}};
  for (int i = 0; i <= 12; ++i) {
    const double at = 0.20 + 0.025 * i,
                 change = 14 * (at - axis.now) + 9 * std::pow(at - axis.now, 2);
    const double half = 0.25 * std::abs(change) + 0.02;
    axis.at.push_back(at);
    SweepCell cell;
    cell.net_points_per_game_change = number(change, change - half, change + half);
    answer.cells.push_back({cell});
  }
  answer.axes.push_back(axis);
  return answer;
}

SweepAnswer grid() {
  SweepAnswer answer;
  answer.about = new_starter();
  answer.axes = {
      {"call.all.boot", "share of boot", KnobUnit::share, 0.16, {0.10, 0.16, 0.22, 0.28}},
      {"rate.boot.completion",
       "completion, boot",
       KnobUnit::share,
       0.66,
       {0.58, 0.62, 0.66, 0.70, 0.74}}};
  for (const double call : answer.axes[0].at) {
    answer.cells.emplace_back();
    for (const double rate : answer.axes[1].at) {
      const double change = 12 * (rate - 0.66) * call / 0.16 + 7 * (call - 0.16);
      SweepCell cell;
      cell.net_points_per_game_change = number(change, change - 0.32, change + 0.35);
      answer.cells.back().push_back(cell);
    }
  }
  return answer;
}

LeversAnswer levers() {
  LeversAnswer answer{new_starter(), {}};
  const auto add = [&](const char* label, double now, double step, KnobUnit unit, double gain,
                       double half, bool call, bool runner) {
    answer.levers.push_back({"", label, unit, call, runner, now, step,
                             number(gain, gain - half, gain + half), number(gain, gain, gain),
                             1.0});
  };
  add("boot, completion", 0.66, 0.05, KnobUnit::share, 0.92, 0.31, false, false);
  add("all dropbacks, sack", 0.068, -0.018, KnobUnit::share, 0.71, 0.28, false, false);
  add("handoff, run gain", 4.3, 0.4, KnobUnit::yards, 0.64, 0.2, false, true);
  add("quick middle, yards after catch", 5.9, 0.7, KnobUnit::yards, 0.61, 0.23, false, false);
  add("deep outside, completion", 0.286, 0.05, KnobUnit::share, 0.55, 0.34, false, false);
  add("intermediate, interception", 0.031, -0.009, KnobUnit::share, 0.40, 0.27, false, false);
  add("zone read keep, success", 0.44, 0.07, KnobUnit::share, 0.18, 0.27, false, false);
  add("call deep outside on first down", 0.09, 0.1, KnobUnit::share, 0.12, 0.41, true, false);
  return answer;
}

CompareAnswer comparison() {
  CompareAnswer answer;
  answer.quarterbacks = {"New starter", "Last starter", "Third in line"};
  answer.schemes = {"Wide zone and boot", "Quick-middle option pass", "Vertical play-action",
                    "Spread option run", "Dropback timing"};
  const double net[3][5] = {{0.28, 0.41, -0.12, 0.05, 0.09},
                            {0.11, 0.06, -0.04, -0.31, 0.14},
                            {-0.18, -0.22, -0.05, -0.36, -0.24}};
  const double place[3][5] = {{54, 71, 22, 48, 51}, {62, 40, 49, 18, 66}, {35, 38, 52, 30, 33}};
  const double best[3][5] = {
      {0.18, 0.52, 0.02, 0.06, 0.08}, {0.04, 0.03, 0.02, 0, 0.04}, {0, 0, 0.01, 0, 0}};
  const double half[3] = {0.21, 0.13, 0.29};
  for (std::size_t q = 0; q < 3; ++q)
    for (std::size_t s = 0; s < 5; ++s) {
      EntryAnswer entry;
      entry.about = new_starter();
      entry.about.quarterback = answer.quarterbacks[q];
      entry.about.scheme = answer.schemes[s];
      entry.place = number(place[q][s], place[q][s] - 17, place[q][s] + 19);
      entry.net_points = number(net[q][s], net[q][s] - half[q], net[q][s] + half[q]);
      entry.points = moved(entry.net_points, 2);
      entry.odds_best = best[q][s];
      answer.entries.push_back(entry);
    }
  answer.differences = {difference(), difference_of(0.46, 0.35)};
  answer.differences[1].second = "Third in line";
  answer.drives_per_game = drives_a_game;
  return answer;
}

namespace {

// A value's way over nine games, its interval narrowing.
Number on_the_way(double first, double last, double half, int game, double wobble) {
  const double width = half / std::sqrt(1 + 0.5 * game);
  const double value = first + (last - first) * game / 9 + wobble * half;
  return number(value, value - width, value + width);
}

}  // namespace

TrendAnswer trend() {
  TrendAnswer answer;
  answer.about = new_starter();
  answer.followed = {{"Quick middle", "completion", false, 0.71},
                     {"Boot and rollout", "on time", false, 0.7},
                     {"Deep shot", "yards after catch", true, 5.1},
                     {"Deep shot", "completion", false, 0.36}};
  int salt = 3;
  for (int game = 0; game <= 9; ++game) {
    salt = (salt * 37 + 11) % 101;
    const double wobble = game == 0 || game == 9 ? 0 : (salt - 50) / 400.0;
    answer.steps.push_back(
        {game == 0 ? "" : "game " + std::to_string(game),
         game == 0 ? 0.0 : 20.0 + salt % 23,
         game == 0 ? 0.0 : 20.0,
         on_the_way(49, 58, 26, game, wobble),
         on_the_way(-0.05, 0.08, 0.24, game, wobble),
         {on_the_way(0.71, 0.74, 0.07, game, wobble), on_the_way(0.72, 0.54, 0.11, game, wobble),
          on_the_way(4.9, 5.4, 0.9, game, wobble), on_the_way(0.38, 0.33, 0.12, game, wobble)}});
  }
  answer.held = false;
  return answer;
}

ValidationReport validation() {
  ValidationReport report;
  report.setting = "an invented league";
  report.about = "drives of its held-out games.";
  report.source = "made up for this demonstration";
  DrivesCompared all;
  all.observed.start = "ALL";
  all.observed.n = 412;
  all.observed.share = {0.25, 0.12, 0.034, 0.36, 0.09, 0.05, 0.092, 0.004, 0};
  all.model.share = {0.241, 0.133, 0.041, 0.379, 0.082, 0.052, 0.066, 0.006, 0};
  report.drives.push_back(all);
  return report;
}

Dress dress(Frame frame, Theme theme) {
  Dress made;
  made.frame = frame;
  made.style = house_style(theme);
  made.tape_source = "invented league, made up for this demonstration";
  made.tape = {new_starter(), last_starter()};
  return made;
}

std::vector<std::pair<std::string, Panel>> all_panels(const Wording& wording) {
  return {{"fit", fit_panel(fit(), difference(), wording)},
          {"throws", throws_panel(new_starter(), throws(), 40, wording)},
          {"results", drive_results_panel(drives(), against(), wording)},
          {"points", points_by_yard_panel(drives(), against(), wording)},
          {"sweep", sweep_panel(sweep(), wording)},
          {"levers", levers_panel(levers(), 15, wording)},
          {"map", comparison_panel(comparison(), wording)},
          {"trend", trend_panel(trend(), wording)},
          {"validation", validation_panel(validation(), wording)},
          {"grid", sweep_panel(grid(), wording)}};
}

std::vector<std::pair<std::string, Figure>> all_figures(const Dress& dress,
                                                        const TextRuler& ruler) {
  std::vector<std::pair<std::string, Figure>> figures;
  const auto panels = all_panels(dress.wording);
  for (const auto& [name, panel] : panels) figures.emplace_back(name, figure(panel, dress, ruler));
  Telling telling = panels[0].second.telling;
  telling.kicker = "Two quarterbacks, one scheme";
  telling.headline = "New and last starter, side by side";
  telling.deck = {"What the scheme asks of the one, and what both make of their drives."};
  telling.description = "Two pictures.";
  figures.emplace_back("sheet", sheet(telling, {panels[0].second, panels[2].second}, dress, ruler));
  return figures;
}

std::vector<std::pair<std::string, Figure>> golden_figures() {
  const TextRuler ruler;
  std::vector<std::pair<std::string, Figure>> figures;
  const std::size_t count = all_panels({}).size() + 1;
  for (std::size_t i = 0; i < count; ++i) {
    const Frame frame = static_cast<Frame>(i % 3);
    const Theme theme = static_cast<Theme>(i % 2);
    auto all = all_figures(dress(frame, theme), ruler);
    auto& [name, made] = all.at(i);
    figures.emplace_back(name + "-" + std::string(word(frame)) + "-" + std::string(word(theme)),
                         made);
  }
  return figures;
}

std::string png_of_width(const Figure& figure, int width) {
  return to_png(
      to_svg(figure), width,
      static_cast<int>(std::lround(static_cast<double>(width) * figure.height / figure.width)));
}

}  // namespace callfit::samples
