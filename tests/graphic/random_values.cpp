#include "random_values.hpp"

#include <algorithm>
#include <array>

namespace callfit {
namespace {

constexpr std::array names{
    "New starter",
    "Bo Li",
    "Íñigo Çelik-Åström",
    "דוד בן־חורין",
    "يوسف عبد الرحمن الحسيني",
    "Maximilian-Alexander von Hohenstein-Waldburg zu Oberschwaben the Younger",
    "Llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogogoch",
    "O'Neil & Sons <2nd>",
    "Nguyễn Thị Ngọc Hân",
    "J"};
constexpr std::array families{"Glance",
                              "Quick throws to the middle off a run-pass option, any front",
                              "Boot, rollout and sprint-out",
                              "מסירה עמוקה",
                              "Deep outside",
                              "تمريرة سريعة إلى الوسط",
                              "Quarterback draw",
                              "Zone read keep",
                              "Planificación móvil a la izquierda",
                              "Screens",
                              "Supercalifragilisticexpialidocious",
                              "Handoffs"};
constexpr std::array measures{"completion", "on time", "yards after the catch when moving",
                              "interception, two high", "success"};

class Dice {
 public:
  Dice(std::uint64_t seed, std::uint64_t index) : stream_(seed, Purpose::sampling, index) {}

  double between(double low, double high) { return low + (high - low) * stream_.uniform(); }
  bool one_in(int n) { return stream_() % static_cast<std::uint64_t>(n) == 0; }
  std::size_t count(std::size_t low, std::size_t high) {
    return low + static_cast<std::size_t>(stream_() % (high - low + 1));
  }
  template <class List>
  std::string pick(const List& list) {
    return list[static_cast<std::size_t>(stream_() % list.size())];
  }
  Reading reading(double low, double high) {
    const double value = between(low, high), reach = (high - low) * between(0, 0.5);
    return {value, value - reach * between(0, 1), value + reach * between(0, 1)};
  }
  Reading share() {
    const Reading r = reading(0, 1);
    return {r.value, std::max(r.low, 0.0), std::min(r.high, 1.0)};
  }

 private:
  Stream stream_;
};

DemandLine random_demand(Dice& dice) {
  if (dice.one_in(4))
    return {dice.pick(measures),  Unit::yards, dice.reading(0, 12), dice.between(0, 12),
            dice.between(0.3, 2), true,        dice.between(0.1, 3)};
  return {dice.pick(measures),     Unit::share,     dice.share(),        dice.between(0, 1),
          dice.between(0.01, 0.2), !dice.one_in(3), dice.between(0.1, 3)};
}

ThrowMap random_throws(Dice& dice) {
  ThrowMap map{dice.pick(names), "college quarterbacks", {}};
  for (int depth = 0; depth < 3; ++depth)
    for (int lane = 0; lane < 3; ++lane) {
      if (dice.one_in(6)) continue;
      const double throws = dice.one_in(5) ? 0 : dice.between(1, 1500);
      map.cells.push_back(
          {lane, depth, throws, dice.between(0, 0.3), dice.share(), dice.between(0.02, 0.98)});
    }
  return map;
}

DriveResults random_results(Dice& dice) {
  DriveResults results{dice.pick(names),
                       dice.pick(names),
                       dice.pick(names),
                       dice.reading(-1, 5),
                       dice.reading(-1, 5),
                       dice.reading(-1, 1),
                       {}};
  const std::size_t rows = dice.count(0, 9);
  for (std::size_t i = 0; i < rows; ++i)
    results.results.push_back({dice.pick(families), dice.share(), dice.share()});
  return results;
}

Curve random_curve(Dice& dice, double from, double to) {
  Curve curve{dice.pick(names), {}};
  const std::size_t points = dice.count(2, 60);
  for (std::size_t i = 0; i < points; ++i)
    curve.points.push_back(
        {from + (to - from) * static_cast<double>(i) / static_cast<double>(points - 1),
         dice.reading(-3, 7)});
  return curve;
}

SweepCurve random_sweep(Dice& dice) {
  SweepCurve sweep{dice.pick(names),
                   dice.pick(measures),
                   true,
                   "points a drive",
                   false,
                   random_curve(dice, 0.1, 0.9),
                   std::nullopt,
                   std::nullopt,
                   std::nullopt,
                   ""};
  if (!dice.one_in(3)) {
    sweep.now = dice.between(0.1, 0.9);
    sweep.now_range =
        Reading{*sweep.now, *sweep.now - dice.between(0, 0.1), *sweep.now + dice.between(0, 0.1)};
  }
  if (!dice.one_in(3)) {
    sweep.reach = dice.between(-4, 8);
    sweep.reach_label = dice.pick(names);
  }
  return sweep;
}

LeverPicture random_levers(Dice& dice) {
  LeverPicture picture{dice.pick(names),
                       dice.pick(names),
                       "points a game",
                       "one usual gap between quarterbacks",
                       {}};
  const std::size_t levers = dice.count(0, 20);
  for (std::size_t i = 0; i < levers; ++i)
    picture.levers.push_back({dice.pick(families), dice.pick(measures), dice.reading(-2, 2)});
  return picture;
}

ComparisonMap random_map(Dice& dice) {
  ComparisonMap map;
  map.what = "fit";
  map.row_kind = "quarterback";
  map.column_kind = "scheme";
  const std::size_t rows = dice.count(1, 8), columns = dice.count(1, 8);
  for (std::size_t r = 0; r < rows; ++r) map.row_labels.push_back(dice.pick(names));
  for (std::size_t c = 0; c < columns; ++c) map.column_labels.push_back(dice.pick(families));
  for (std::size_t r = 0; r < rows; ++r) {
    map.cells.emplace_back();
    for (std::size_t c = 0; c < columns; ++c) map.cells.back().push_back(dice.reading(0, 100));
  }
  map.more_is_better = !dice.one_in(3);
  return map;
}

TrendPicture random_trend(Dice& dice) {
  TrendPicture trend{dice.pick(names), {}};
  const std::size_t series = dice.count(0, 12);
  for (std::size_t i = 0; i < series; ++i) {
    const Unit unit = dice.one_in(2) ? Unit::share : Unit::fit;
    TrendSeries made{dice.pick(families), unit, {}, std::nullopt};
    if (dice.one_in(2)) made.usual = dice.between(0, 1);
    const std::size_t steps = dice.count(1, 16);
    for (std::size_t g = 0; g < steps; ++g)
      made.steps.push_back({dice.pick(names), dice.one_in(6) ? 0 : dice.between(1, 50),
                            unit == Unit::share ? dice.share() : dice.reading(0, 100)});
    trend.series.push_back(made);
  }
  return trend;
}

ValidationPicture random_validation(Dice& dice) {
  ValidationPicture picture{"drive results", "open play-by-play data", {}};
  const std::size_t rows = dice.count(0, 14);
  for (std::size_t i = 0; i < rows; ++i)
    picture.rows.push_back({dice.pick(families), dice.between(0, 1), dice.share(), true});
  return picture;
}

}  // namespace

FitPicture random_fit(std::uint64_t seed, std::uint64_t index) {
  Dice dice(seed, index);
  FitPicture picture;
  picture.player = dice.pick(names);
  picture.scheme = dice.pick(names);
  picture.fit = dice.reading(0, 100);
  picture.worse_share = dice.between(0, 1);
  picture.population =
      dice.one_in(2) ? "college quarterbacks" : "quarterbacks of this level of play";
  const bool no_snaps = dice.one_in(8);
  const std::size_t count = 1 + index % 14;
  for (std::size_t i = 0; i < count; ++i) {
    FamilyStrip family{dice.pick(families),
                       dice.between(0, 0.4),
                       no_snaps || dice.one_in(6) ? 0 : dice.between(1, 900),
                       {}};
    const std::size_t demands = dice.count(0, 4);
    for (std::size_t d = 0; d < demands; ++d) family.demands.push_back(random_demand(dice));
    picture.families.push_back(family);
  }
  if (!dice.one_in(3))
    picture.against =
        PointsAgainst{dice.pick(names), dice.reading(-1.5, 1.5), dice.reading(-16, 16)};
  return picture;
}

std::vector<Panel> random_panels(std::uint64_t seed, std::uint64_t index, const Wording& wording) {
  Dice dice(seed, 1'000'000 + index);
  PointsByYard yards{dice.pick(names), true, {}};
  yards.curves.push_back(random_curve(dice, 1, 99));
  if (!dice.one_in(3)) yards.curves.push_back(random_curve(dice, 1, 99));
  return {throw_map_panel(random_throws(dice), wording),
          drive_results_panel(random_results(dice), wording),
          points_by_yard_panel(yards, wording),
          sweep_panel(random_sweep(dice), wording),
          lever_panel(random_levers(dice), wording),
          comparison_panel(random_map(dice), wording),
          trend_panel(random_trend(dice), wording),
          validation_panel(random_validation(dice), wording)};
}

Dress random_dress(std::uint64_t seed, std::uint64_t index, Frame frame) {
  Dice dice(seed, 2'000'000 + index);
  Dress dress;
  dress.frame = frame;
  dress.style = house_style(dice.one_in(2) ? Theme::light : Theme::dark);
  if (!dice.one_in(4))
    dress.tape_source = dice.pick(names) + ", coaches' film and broadcast copies";
  const std::size_t players = dice.count(0, 3);
  for (std::size_t i = 0; i < players; ++i)
    dress.tape.push_back(
        {dice.pick(names),
         {{"high school", dice.between(0, 300)}, {"college", dice.between(0, 900)}}});
  if (dice.one_in(3))
    dress.logo = Logo{"image/svg+xml",
                      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 4 4\">"
                      "<circle cx=\"2\" cy=\"2\" r=\"2\"/></svg>"};
  return dress;
}

}  // namespace callfit
