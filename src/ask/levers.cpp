#include <callfit/ask/levers.hpp>

#include <ask/slopes.hpp>

#include <algorithm>
#include <cmath>
#include <functional>

namespace callfit {
namespace {

using Slope = std::function<double(const DriveGradient&, const Player&)>;

// A knob that drives depend on, and how its derivative is put together.
struct Handle {
  std::string path;
  double step = 0;
  bool is_call = false;
  Slope slope;
  std::size_t family = 0;  // of the setting, for the fit's derivative
  Measure measure = Measure::completion;
  std::optional<Cell> cell = {};
  bool in_fit = false;
};

constexpr double call_step = 0.1;
constexpr std::array played{Rate::sack, Rate::scramble, Rate::completion, Rate::interception,
                            Rate::fumble};

class Handles {
 public:
  explicit Handles(const Question& question)
      : population_(question.ground->setting), scheme_(question.scheme) {
    for (std::size_t f = 0; f < population_.families.size(); ++f) add_family(f);
    add_gain("gain.scramble", 0, GainPart::scramble);
    add_gain("gain.sack", 0, GainPart::sack);
    for (std::size_t s = 0; s < scheme_.situations.size(); ++s) add_calls(s);
  }

  const std::vector<Handle>& all() const { return handles_; }

 private:
  void add_family(std::size_t f) {
    const FamilyPopulation& family = population_.families[f];
    const CellTable cells = population_.cell_table(family);
    for (const Rate rate : played) {
      const auto r = static_cast<std::size_t>(rate);
      if (!family.rates[r]) continue;
      add_rate(f, rate);
      for (std::size_t s = 0; s < shell_count; ++s)
        if (cells[s][r]) add_shell(f, rate, s);
    }
    const std::string path = "gain." + family.id + '.';
    add_gain(path + "depth", f, GainPart::depth);
    add_gain(path + "yac", f, GainPart::yac);
    add_gain(path + "run", f, GainPart::run);
  }

  static std::string rate_path(const FamilyPopulation& family, Rate rate) {
    return "rate." + family.id + '.' + std::string(word(rate));
  }

  void add_rate(std::size_t f, Rate rate) {
    const auto measure = static_cast<Measure>(rate);
    handles_.push_back(
        {rate_path(population_.families[f], rate), spread_of(population_, f, measure), false,
         [&population = population_, f, rate](const DriveGradient& g, const Player& p) {
           return ask::rate_slope(g, p, population, f, rate);
         },
         f, measure, std::nullopt, true});
  }

  void add_shell(std::size_t f, Rate rate, std::size_t shell) {
    const auto measure = static_cast<Measure>(rate);
    const Cell cell = cell_of(static_cast<Shell>(shell));
    handles_.push_back({rate_path(population_.families[f], rate) + '.' + std::string(word(cell)),
                        spread_of(population_, f, measure, cell), false,
                        [f, rate, shell](const DriveGradient& g, const Player&) {
                          return ask::shell_slope(g, f, rate, shell);
                        },
                        f, measure, cell, true});
  }

  void add_gain(const std::string& path, std::size_t f, GainPart part) {
    const GainPopulation* gain = population_of(population_, f, part);
    if (gain == nullptr) return;
    const bool in_fit = part == GainPart::yac || part == GainPart::run;
    handles_.push_back(
        {path, ask::gain_spread(*gain), false,
         [&population = population_, f, part](const DriveGradient& g, const Player& p) {
           return ask::gain_slope(g, p, population, f, part);
         },
         f, part == GainPart::yac ? Measure::yards_after_catch : Measure::run_gain, std::nullopt,
         in_fit});
  }

  // Where the coordinator calls a situation differently by shell, each shell is a lever.
  void add_calls(std::size_t s) {
    const auto& own = scheme_.situations[s].share_by_shell;
    const bool by_shell =
        std::any_of(own.begin(), own.end(), [](const auto& list) { return list.has_value(); });
    for (std::size_t f = 0; f < scheme_.families.size(); ++f) {
      if (!by_shell) add_call(s, f, shell_count);
      for (std::size_t shell = 0; by_shell && shell < shell_count; ++shell) add_call(s, f, shell);
    }
  }

  void add_call(std::size_t s, std::size_t f, std::size_t shell) {
    std::string path = "call." + scheme_.situations[s].id + '.' + scheme_.families[f].id;
    if (shell < shell_count) path += '.' + std::string(enum_words<Shell>[shell]);
    handles_.push_back({path, call_step, true,
                        [&scheme = scheme_, s, f, shell](const DriveGradient& g, const Player&) {
                          return ask::call_slope(g, scheme, s, f, shell);
                        }});
  }

  const Setting& population_;
  const Scheme& scheme_;
  std::vector<Handle> handles_;
};

// d fit / d estimate: fit = 100 exp(-D^2 / 2), and a demand's part of D^2 is its multiplier times
// its shortfall (shortfall_distance), so D^2 grows with the shortfall by twice part / shortfall.
double fit_slope(const Handle& handle, const FitResult& fit, const BoundScheme& bound) {
  double slope = 0;
  for (std::size_t d = 0; handle.in_fit && d < fit.demands.size(); ++d) {
    const Demand& demand = bound.scheme.demands[d];
    const DemandResult& result = fit.demands[d];
    const double missing = result.shortfall - result.surplus;
    if (bound.setting_family[demand.family] != handle.family || missing == 0 ||
        demand.measure != handle.measure || demand.cell != handle.cell)
      continue;
    slope += (demand.more_is_better ? 1 : -1) * fit.fit * result.contribution /
             (missing * bound.spread[d]);
  }
  return slope;
}

bool of_handoffs(const Handle& handle, const Setting& setting) {
  const FamilyPopulation& family = setting.families[handle.family];
  return family.kind == FamilyKind::handoff &&
         (handle.path.starts_with("rate." + family.id + '.') ||
          handle.path.starts_with("gain." + family.id + '.'));
}

// A share has nowhere to go below 0 and above 1.
double possible_step(const LeverValue& lever, double step) {
  if (lever.unit != KnobUnit::share) return step;
  return std::clamp(lever.now + step, 0.0, 1.0) - lever.now;
}

using Table = std::vector<std::vector<double>>;  // [draw][handle]

Table net_slopes(const Question& question, const DrivePlan& plan,
                 const std::vector<Handle>& handles, const DrawOptions& options,
                 const Progress& progress) {
  Table table(options.draws);
  for_each_unit(
      options.draws, options.threads,
      [&](std::size_t index) {
        const Player player = question_draw(question, options.seed, index);
        const PointGradients gradient = differentiate(plan, player, question.ground->starts);
        for (const Handle& handle : handles)
          table[index].push_back(handle.slope(gradient.net_points, player));
      },
      progress);
  return table;
}

UncertainValue scaled_column(const Table& table, std::size_t column, double centre, double scale) {
  std::vector<double> sample;
  sample.reserve(table.size());
  for (const auto& row : table) sample.push_back(row[column] * scale);
  return {centre * scale, interval90_of(std::move(sample))};
}

}  // namespace

std::vector<LeverValue> levers_of(const Question& question, const DrawOptions& options,
                                  const Progress& progress) {
  const Matchup matchup = matchup_of(question);
  const Handles handles(question);
  const DrivePlan& plan = matchup.plan.value();
  const Player centre = question.mean_player();
  const PointGradients gradient = differentiate(plan, centre, matchup.starts);
  const FitResult fit = fit_of(centre, matchup.bound, question.ground->setting);
  const Table slopes = net_slopes(question, plan, handles.all(), options, progress);
  const auto knobs = knobs_of(question);

  std::vector<LeverValue> levers;
  for (std::size_t h = 0; h < handles.all().size(); ++h) {
    const Handle& handle = handles.all()[h];
    const Knob& knob = find_knob(knobs, handle.path);
    LeverValue lever{handle.path,
                     knob.about,
                     knob.unit,
                     handle.is_call,
                     of_handoffs(handle, question.setting),
                     knob.get(question)};
    lever.points_slope = handle.slope(gradient.points, centre);
    lever.net_slope = handle.slope(gradient.net_points, centre);
    lever.fit_slope = fit_slope(handle, fit, matchup.bound);
    lever.step = possible_step(lever, lever.net_slope < 0 ? -handle.step : handle.step);
    lever.net_per_game =
        scaled_column(slopes, h, lever.net_slope, lever.step * question.setting.drives_per_game);
    levers.push_back(std::move(lever));
  }
  std::stable_sort(levers.begin(), levers.end(), [](const LeverValue& a, const LeverValue& b) {
    return a.net_per_game.value > b.net_per_game.value;
  });
  return levers;
}

std::vector<double> points_per_spread(const Matchup& matchup) {
  const Setting& setting = matchup.setting;
  const Player average = average_player(setting);
  const DriveGradient gradient =
      differentiate(matchup.plan.value(), average, matchup.starts).net_points;
  std::vector<double> slopes;
  for (std::size_t d = 0; d < matchup.scheme().demands.size(); ++d) {
    const Demand& demand = matchup.scheme().demands[d];
    const std::size_t family = matchup.bound.setting_family[demand.family];
    double slope = 0;
    if (const auto rate = as_rate(demand.measure)) {
      const bool shell = demand.cell && static_cast<std::size_t>(*demand.cell) < shell_count;
      if (!demand.cell) slope = ask::rate_slope(gradient, average, setting, family, *rate);
      if (shell)
        slope = ask::shell_slope(gradient, family, *rate, static_cast<std::size_t>(*demand.cell));
    } else if (!demand.cell) {
      const bool yac = demand.measure == Measure::yards_after_catch;
      slope =
          ask::gain_slope(gradient, average, setting, family, yac ? GainPart::yac : GainPart::run);
    }
    slopes.push_back((demand.more_is_better ? 1 : -1) * slope * matchup.bound.spread[d]);
  }
  return slopes;
}

}  // namespace callfit
