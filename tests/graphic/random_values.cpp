#include "random_values.hpp"

#include <callfit/base/random.hpp>

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
  Number number(double low, double high) {
    const double value = between(low, high), reach = (high - low) * between(0, 0.5);
    return {value, value - reach * between(0, 1), value + reach * between(0, 1), 2000, 0.01};
  }
  Number share() {
    const Number n = number(0, 1);
    return {n.centre, std::max(n.low, 0.0), std::min(n.high, 1.0), 2000, 0.01};
  }
  Number place() { return scaled(share(), 100); }
  About about() {
    About made;
    made.quarterback = pick(names);
    made.scheme = pick(names);
    made.level = "college";
    made.tape = {{"high_school", between(0, 300)}, {"college", between(0, 900)}};
    made.snaps = one_in(8) ? 0 : made.tape[0].snaps + made.tape[1].snaps;
    return made;
  }

 private:
  Stream stream_;
};

DemandAnswer random_demand(Dice& dice, std::size_t family, bool unseen) {
  const double part = dice.one_in(4) ? 0 : dice.between(0, 1);
  const double tape = unseen ? 0 : dice.between(0, 1);
  DemandAnswer made =
      dice.one_in(4)
          ? samples::demand(family, Measure::yards_after_catch, dice.number(0, 12),
                            dice.between(0, 12), dice.between(0.3, 2), part, tape)
          : samples::demand(family, dice.one_in(3) ? Measure::interception : Measure::completion,
                            dice.share(), dice.between(0, 1), dice.between(0.01, 0.2), part, tape);
  made.label = dice.pick(measures);
  return made;
}

DifferenceAnswer random_against(Dice& dice) {
  DifferenceAnswer made = samples::difference_of(dice.between(-1.5, 1.5), dice.between(0, 1.5));
  made.first = dice.pick(names);
  made.second = dice.pick(names);
  return made;
}

std::vector<ThrowZone> random_throws(Dice& dice) {
  std::vector<ThrowZone> zones;
  for (const Cell depth : {Cell::short_throw, Cell::intermediate_throw, Cell::deep_throw})
    for (const Lane lane : {Lane::left, Lane::middle, Lane::right}) {
      if (dice.one_in(6)) continue;
      const double throws = dice.between(1, 1500), strength = throws + dice.between(5, 60);
      const RateCounts counts{0.5 * throws, throws, 0.5 * throws, throws};
      zones.push_back({lane,
                       depth,
                       throws,
                       dice.between(0, 0.3),
                       {dice.between(0.02, 0.98), strength, counts},
                       dice.between(0.02, 0.98)});
    }
  return zones;
}

DrivesAnswer random_drives(Dice& dice, std::size_t results) {
  DrivesAnswer drives;
  drives.about = dice.about();
  drives.points = dice.number(0, 5);
  drives.net_points = dice.number(-2, 3);
  for (std::size_t i = 0; i < results; ++i)
    drives.results.push_back({"id", dice.pick(families), dice.share()});
  for (int yards = 1; yards <= 99; ++yards) drives.net_points_at.push_back(dice.number(-3, 7));
  return drives;
}

SweepAxis random_axis(Dice& dice) {
  SweepAxis axis{"a.path",
                 dice.pick(measures),
                 dice.one_in(2) ? KnobUnit::share : KnobUnit::yards,
                 dice.between(0.1, 0.9),
                 {}};
  const std::size_t places = dice.count(2, 9);
  for (std::size_t i = 0; i < places; ++i)
    axis.at.push_back(0.1 + 0.8 * static_cast<double>(i) / static_cast<double>(places - 1));
  return axis;
}

SweepAnswer random_sweep(Dice& dice, std::size_t axes) {
  SweepAnswer sweep;
  sweep.about = dice.about();
  for (std::size_t i = 0; i < axes; ++i) sweep.axes.push_back(random_axis(dice));
  const std::size_t columns = axes > 1 ? sweep.axes[1].at.size() : 1;
  for (std::size_t r = 0; r < sweep.axes[0].at.size(); ++r) {
    sweep.cells.emplace_back(columns);
    for (SweepCell& cell : sweep.cells.back()) cell.net_points_per_game_change = dice.number(-3, 3);
  }
  return sweep;
}

LeversAnswer random_levers(Dice& dice) {
  LeversAnswer answer{dice.about(), {}};
  const std::size_t levers = dice.count(0, 20);
  for (std::size_t i = 0; i < levers; ++i)
    answer.levers.push_back({"", dice.pick(families), KnobUnit::share, dice.one_in(3),
                             dice.one_in(5), dice.between(0, 0.9), dice.between(-0.1, 0.1),
                             dice.number(-2, 2), dice.number(-2, 2), 0});
  return answer;
}

CompareAnswer random_comparison(Dice& dice) {
  CompareAnswer answer;
  const std::size_t rows = dice.count(1, 8), columns = dice.count(1, 8);
  for (std::size_t r = 0; r < rows; ++r) answer.quarterbacks.push_back(dice.pick(names));
  for (std::size_t c = 0; c < columns; ++c) answer.schemes.push_back(dice.pick(families));
  for (std::size_t i = 0; i < rows * columns; ++i) {
    EntryAnswer entry;
    entry.about = dice.about();
    entry.place = dice.place();
    entry.net_points = dice.number(-2, 2);
    entry.odds_best = dice.between(0, 1);
    answer.entries.push_back(entry);
  }
  const std::size_t others = rows > 1 ? rows - 1 : columns - 1;
  for (std::size_t i = 0; i < others; ++i) answer.differences.push_back(random_against(dice));
  return answer;
}

TrendAnswer random_trend(Dice& dice) {
  TrendAnswer trend;
  trend.about = dice.about();
  const std::size_t followed = dice.count(0, 7);
  for (std::size_t i = 0; i < followed; ++i)
    trend.followed.push_back(
        {dice.pick(families), dice.pick(measures), dice.one_in(4), dice.between(0, 1)});
  const std::size_t steps = dice.count(0, 16);
  for (std::size_t g = 0; g < steps; ++g) {
    TrendStepAnswer step;
    step.game = g == 0 ? "" : dice.pick(names);
    step.snaps = dice.one_in(6) ? 0 : dice.between(1, 50);
    step.place = dice.place();
    step.net_points_per_drive = dice.number(-1, 1);
    for (std::size_t i = 0; i < followed; ++i) step.followed.push_back(dice.share());
    trend.steps.push_back(step);
  }
  trend.held = dice.one_in(2);
  return trend;
}

ValidationReport random_validation(Dice& dice) {
  ValidationReport report = samples::validation();
  report.setting = dice.pick(names);
  if (dice.one_in(6)) report.drives.clear();
  for (DrivesCompared& all : report.drives)
    for (double& share : all.model.share) share = dice.between(0, 1);
  return report;
}

}  // namespace

FitAnswer random_fit(std::uint64_t seed, std::uint64_t index) {
  Dice dice(seed, index);
  FitAnswer fit;
  fit.about = dice.about();
  fit.place = dice.place();
  const std::size_t count = 1 + index % 14;
  for (std::size_t i = 0; i < count; ++i) {
    const bool unseen = fit.about.snaps <= 0 || dice.one_in(6);
    fit.families.push_back({"id", dice.pick(families), "", dice.between(0, 0.4),
                            unseen ? 0 : dice.between(1, 900), dice.between(0, 1),
                            dice.between(-1, 2), unseen});
    const std::size_t demands = dice.count(0, 4);
    for (std::size_t d = 0; d < demands; ++d) fit.demands.push_back(random_demand(dice, i, unseen));
  }
  return fit;
}

std::optional<DifferenceAnswer> random_difference(std::uint64_t seed, std::uint64_t index) {
  Dice dice(seed, 3'000'000 + index);
  if (dice.one_in(3)) return std::nullopt;
  return random_against(dice);
}

std::vector<Panel> random_panels(std::uint64_t seed, std::uint64_t index, const Wording& wording) {
  Dice dice(seed, 1'000'000 + index);
  const std::size_t results = dice.count(0, 9);
  const DrivesAnswer first = random_drives(dice, results);
  const DrivesAgainst against{random_drives(dice, results), random_against(dice)};
  const bool two = !dice.one_in(3);
  return {throws_panel(dice.about(), random_throws(dice), index % 2 == 0 ? 40 : 18.5, wording),
          drive_results_panel(first, against, wording),
          points_by_yard_panel(first, two ? std::optional(against) : std::nullopt, wording),
          sweep_panel(random_sweep(dice, 1), wording),
          sweep_panel(random_sweep(dice, 2), wording),
          levers_panel(random_levers(dice), 15, wording),
          comparison_panel(random_comparison(dice), wording),
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
  for (std::size_t i = 0; i < players; ++i) dress.tape.push_back(dice.about());
  if (dice.one_in(3))
    dress.logo = Logo{"image/svg+xml",
                      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 4 4\">"
                      "<circle cx=\"2\" cy=\"2\" r=\"2\"/></svg>"};
  return dress;
}

}  // namespace callfit
