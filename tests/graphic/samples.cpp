#include "samples.hpp"

#include <callfit/draw/raster.hpp>
#include <callfit/draw/svg.hpp>

#include <cmath>
#include <tuple>

namespace callfit::samples {

Dress dress(Frame frame, Theme theme) {
  Dress made;
  made.frame = frame;
  made.style = house_style(theme);
  made.tape_source = "invented league, made up for this demonstration";
  made.tape = {{"New starter", {{"high school", 182}, {"college", 141}}},
               {"Last starter", {{"college", 423}}}};
  return made;
}

FitPicture fit_picture() {
  FitPicture picture;
  picture.player = "New starter";
  picture.scheme = "Wide zone and boot";
  picture.fit = {72, 58, 84};
  picture.worse_share = 0.63;
  picture.population = "college quarterbacks";
  picture.families = {
      {"Handoffs", 0.34, 61, {}},
      {"Boot and rollout",
       0.16,
       44,
       {{"completion", Unit::share, {0.66, 0.58, 0.73}, 0.62, 0.05, true, 2},
        {"on time", Unit::share, {0.71, 0.63, 0.79}, 0.72, 0.06, true, 1}}},
      {"Quick middle",
       0.14,
       71,
       {{"completion", Unit::share, {0.74, 0.68, 0.80}, 0.66, 0.05, true, 2},
        {"yards after catch", Unit::yards, {5.9, 5.1, 6.8}, 4.8, 0.7, true, 1}}},
      {"Intermediate from the pocket",
       0.12,
       39,
       {{"completion", Unit::share, {0.49, 0.41, 0.57}, 0.56, 0.05, true, 2}}},
      {"Deep outside",
       0.09,
       27,
       {{"completion", Unit::share, {0.28, 0.20, 0.36}, 0.38, 0.05, true, 2},
        {"interception", Unit::share, {0.052, 0.025, 0.089}, 0.04, 0.012, false, 1}}},
      {"Quick outside",
       0.08,
       33,
       {{"completion", Unit::share, {0.70, 0.61, 0.78}, 0.68, 0.05, true, 1}}},
      {"Zone read keep",
       0.07,
       0,
       {{"success", Unit::share, {0.44, 0.33, 0.55}, 0.46, 0.07, true, 1}}}};
  picture.against = PointsAgainst{"Last starter", {0.14, -0.12, 0.41}, {1.5, -1.3, 4.5}};
  return picture;
}

ThrowMap throw_map() {
  ThrowMap map{"New starter", "college quarterbacks", {}};
  map.cells = {
      {0, 0, 38, 0.19, {0.71, 0.62, 0.79}, 0.69}, {1, 0, 63, 0.31, {0.78, 0.72, 0.84}, 0.71},
      {2, 0, 34, 0.17, {0.66, 0.56, 0.75}, 0.68}, {0, 1, 14, 0.07, {0.52, 0.36, 0.67}, 0.54},
      {1, 1, 21, 0.10, {0.60, 0.46, 0.72}, 0.58}, {2, 1, 12, 0.06, {0.44, 0.28, 0.60}, 0.53},
      {0, 2, 11, 0.05, {0.22, 0.11, 0.34}, 0.36}, {1, 2, 3, 0.015, {0.41, 0.22, 0.61}, 0.42},
      {2, 2, 8, 0.04, {0.31, 0.17, 0.46}, 0.35}};
  return map;
}

DriveResults drive_results() {
  return {"New starter",
          "Last starter",
          "Wide zone and boot",
          {2.21, 1.98, 2.45},
          {2.07, 1.91, 2.24},
          {0.14, -0.12, 0.41},
          {{"touchdown", {0.26, 0.22, 0.30}, {0.24, 0.21, 0.27}},
           {"field goal", {0.13, 0.11, 0.15}, {0.13, 0.12, 0.15}},
           {"missed field goal", {0.04, 0.03, 0.05}, {0.04, 0.03, 0.05}},
           {"punt", {0.36, 0.32, 0.40}, {0.38, 0.35, 0.41}},
           {"interception", {0.09, 0.06, 0.12}, {0.08, 0.06, 0.10}},
           {"fumble", {0.05, 0.03, 0.07}, {0.05, 0.04, 0.06}},
           {"downs", {0.06, 0.05, 0.07}, {0.07, 0.06, 0.08}},
           {"safety", {0.004, 0.002, 0.007}, {0.004, 0.003, 0.006}}}};
}

PointsByYard points_by_yard() {
  PointsByYard picture{"Wide zone and boot", true, {}};
  for (const auto& [name, lift, width] :
       {std::tuple{"New starter", 0.25, 0.42}, std::tuple{"Last starter", 0.0, 0.26}}) {
    Curve curve{name, {}};
    for (int y = 1; y <= 99; ++y) {
      const double value = 5.9 - 0.078 * y + 0.9 * std::exp(-y / 6.0) + lift * (1 - y / 160.0);
      const double half = width * (0.5 + y / 200.0);
      curve.points.push_back({static_cast<double>(y), {value, value - half, value + half}});
    }
    picture.curves.push_back(curve);
  }
  return picture;
}

SweepCurve sweep() {
  SweepCurve curve;
  curve.player = "New starter";
  curve.quantity = "completion of deep outside throws";
  curve.answer = "points a drive";
  curve.curve.label = "New starter";
  for (int i = 0; i <= 20; ++i) {
    const double x = 0.20 + 0.015 * i;
    const double value = 1.86 + 1.3 * (x - 0.20) + 0.4 * (x - 0.2) * (x - 0.2);
    curve.curve.points.push_back({x, {value, value - 0.21, value + 0.22}});
  }
  curve.now = 0.28;
  curve.now_range = Reading{0.28, 0.21, 0.36};
  curve.reach = 2.07;
  curve.reach_label = "Last starter";
  return curve;
}

LeverPicture levers() {
  return {"New starter",
          "Wide zone and boot",
          "points a game",
          "one usual gap between quarterbacks",
          {{"Boot: completion", "66% to 71%", {0.92, 0.61, 1.22}},
           {"Quick middle: yards after catch", "5.9 to 6.6", {0.61, 0.38, 0.84}},
           {"Deep outside: completion", "28% to 33%", {0.55, 0.21, 0.90}},
           {"All dropbacks: sacks", "7% to 5%", {0.71, 0.44, 0.99}},
           {"Intermediate: interceptions", "3.1% to 2.2%", {0.40, 0.12, 0.67}},
           {"Zone read keep: success", "44% to 51%", {0.18, -0.09, 0.45}},
           {"More shots deep", "9% to 14% of calls", {-0.22, -0.61, 0.16}}}};
}

ComparisonMap comparison() {
  return {"fit",
          0,
          "quarterback",
          "scheme",
          {"New starter", "Last starter", "Third in line"},
          {"Wide zone and boot", "Quick-middle option pass", "Vertical play-action",
           "Spread option run", "Dropback timing", "Balanced"},
          {{{72, 58, 84}, {91, 82, 97}, {38, 22, 55}, {64, 45, 82}, {58, 44, 71}, {77, 66, 87}},
           {{81, 71, 89}, {70, 60, 79}, {49, 36, 62}, {35, 21, 52}, {74, 64, 82}, {79, 70, 87}},
           {{55, 31, 78}, {60, 35, 82}, {66, 41, 86}, {48, 22, 76}, {52, 28, 77}, {63, 40, 83}}},
          true};
}

TrendPicture trend() {
  struct Course {
    const char* label;
    Unit unit;
    double first, last, half;  // half width of the first interval
    std::optional<double> usual;
  };
  const Course courses[] = {{"fit, 0 to 100", Unit::fit, 49, 61, 26, std::nullopt},
                            {"net points per drive", Unit::points, 1.2, 1.31, 0.24, std::nullopt},
                            {"completion, quick middle", Unit::share, 0.71, 0.74, 0.07, 0.71},
                            {"on time, boot", Unit::share, 0.72, 0.54, 0.11, 0.7},
                            {"depth, deep shot", Unit::yards, 24, 27, 5, 25},
                            {"completion, deep shot", Unit::share, 0.38, 0.33, 0.12, 0.36}};
  TrendPicture picture{"New starter", {}};
  for (const Course& course : courses) {
    TrendSeries made{course.label, course.unit, {}, course.usual};
    int salt = 3;
    for (int game = 0; game <= 9; ++game) {
      salt = (salt * 37 + 11) % 101;
      const double half = course.half / std::sqrt(1 + 0.5 * game);
      const double wobble = game == 0 || game == 9 ? 0 : (salt - 50) / 400.0 * course.half;
      const double value = course.first + (course.last - course.first) * game / 9 + wobble;
      made.steps.push_back({game == 0 ? "before" : "game " + std::to_string(game),
                            game == 0 ? 0.0 : 20.0 + salt % 23,
                            {value, value - half, value + half}});
    }
    picture.series.push_back(made);
  }
  return picture;
}

ValidationPicture validation() {
  return {"drive results",
          "the invented league's held-out games",
          {{"touchdown", 0.24, {0.25, 0.21, 0.29}, true},
           {"field goal", 0.13, {0.12, 0.09, 0.15}, true},
           {"punt", 0.38, {0.36, 0.31, 0.41}, true},
           {"interception", 0.08, {0.09, 0.07, 0.12}, true},
           {"fumble", 0.05, {0.05, 0.03, 0.07}, true},
           {"downs", 0.06, {0.09, 0.07, 0.12}, true}}};
}

namespace {

std::vector<std::pair<std::string, Panel>> all_panels(const Wording& wording) {
  return {{"fit", fit_panel(fit_picture(), wording)},
          {"throws", throw_map_panel(throw_map(), wording)},
          {"results", drive_results_panel(drive_results(), wording)},
          {"points", points_by_yard_panel(points_by_yard(), wording)},
          {"sweep", sweep_panel(sweep(), wording)},
          {"levers", lever_panel(levers(), wording)},
          {"map", comparison_panel(comparison(), wording)},
          {"trend", trend_panel(trend(), wording)},
          {"validation", validation_panel(validation(), wording)}};
}

}  // namespace

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
  int turn = 0;
  for (std::size_t i = 0; i < 10; ++i, ++turn) {
    const Frame frame = static_cast<Frame>(turn % 3);
    const Theme theme = static_cast<Theme>(turn % 2);
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
