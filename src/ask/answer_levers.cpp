#include <ask/answers.hpp>
#include <ask/carrier.hpp>
#include <ask/levers.hpp>
#include <ask/slopes.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

namespace callfit::ask {
namespace {

using Slope = std::function<double(const DriveGradient&, const Player&)>;

// A knob that drives depend on, and how its derivative is put together.
struct Handle {
  std::string path;
  double step = 0;
  bool is_call = false;
  Slope slope;
  bool of_handoffs = false;
};

constexpr double call_step = 0.1;
constexpr double rounding = 1e-12;  // a slope below it is none, whichever way it seems to go
constexpr std::array played{Rate::sack, Rate::scramble, Rate::completion, Rate::interception,
                            Rate::fumble};
// Slopes are worked out for that many draws (exact within each play, first order in what follows)
// and carried to all.
constexpr std::size_t slope_draws = 12;

class Handles {
 public:
  explicit Handles(const Question& question)
      : population_(question.ground->setting), scheme_(question.scheme) {
    for (std::size_t f = 0; f < population_.families.size(); ++f) add_family(f);
    add_gain("gain.scramble", 0, GainPart::scramble, false);
    add_gain("gain.sack", 0, GainPart::sack, false);
    for (std::size_t s = 0; s < scheme_.situations.size(); ++s) add_calls(s);
  }

  const std::vector<Handle>& all() const { return handles_; }

 private:
  void add_family(std::size_t f) {
    const FamilyPopulation& family = population_.families[f];
    const CellTable cells = population_.cell_table(family);
    const bool handoff = family.kind == FamilyKind::handoff;
    for (const Rate rate : played) {
      const auto r = static_cast<std::size_t>(rate);
      if (!family.rates[r]) continue;
      add_rate(f, rate, handoff);
      for (std::size_t s = 0; s < shell_count; ++s)
        if (cells[s][r]) add_shell(f, rate, s, handoff);
    }
    const std::string path = "gain." + family.id + '.';
    add_gain(path + "depth", f, GainPart::depth, handoff);
    add_gain(path + "yac", f, GainPart::yac, handoff);
    add_gain(path + "run", f, GainPart::run, handoff);
  }

  std::string rate_path(std::size_t f, Rate rate) const {
    return "rate." + population_.families[f].id + '.' + std::string(word(rate));
  }

  void add_rate(std::size_t f, Rate rate, bool handoff) {
    const double step = spread_of(population_, f, static_cast<Measure>(rate));
    handles_.push_back(
        {rate_path(f, rate), step, false,
         [&population = population_, f, rate](const DriveGradient& g, const Player& p) {
           return rate_slope(g, p, population, f, rate);
         },
         handoff});
  }

  void add_shell(std::size_t f, Rate rate, std::size_t shell, bool handoff) {
    const Cell cell = cell_of(static_cast<Shell>(shell));
    const double step = spread_of(population_, f, static_cast<Measure>(rate), cell);
    handles_.push_back({rate_path(f, rate) + '.' + std::string(word(cell)), step, false,
                        [f, rate, shell](const DriveGradient& g, const Player&) {
                          return shell_slope(g, f, rate, shell);
                        },
                        handoff});
  }

  void add_gain(const std::string& path, std::size_t f, GainPart part, bool handoff) {
    const GainPopulation* gain = population_of(population_, f, part);
    if (gain == nullptr) return;
    handles_.push_back(
        {path, gain_spread(*gain), false,
         [&population = population_, f, part](const DriveGradient& g, const Player& p) {
           return gain_slope(g, p, population, f, part);
         },
         handoff});
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
                          return call_slope(g, scheme, s, f, shell);
                        },
                        false});
  }

  const Setting& population_;
  const Scheme& scheme_;
  std::vector<Handle> handles_;
};

// A share has nowhere to go below 0 and above 1.
double possible_step(KnobUnit unit, double now, double step) {
  if (unit != KnobUnit::share) return step;
  return std::clamp(now + step, 0.0, 1.0) - now;
}

class LeverTeller {
 public:
  LeverTeller(Memory& memory, Standing& standing)
      : memory_(memory), standing_(standing), knobs_(memory.knobs(standing)) {}

  std::vector<LeverAnswer> tell() {
    const Handles handles(standing_.question);
    const Worth& worth = memory_.worth(standing_);
    const Carrier carrier(worth, slope_draws);
    const auto slopes = slopes_over_draws(handles.all(), carrier, memory_.outcomes(standing_));
    std::vector<LeverAnswer> levers;
    for (std::size_t h = 0; h < handles.all().size(); ++h)
      levers.push_back(lever(handles.all()[h], carrier, slopes[h]));
    // What differs by rounding alone keeps its place: every build lists the same.
    const auto gain = [](const LeverAnswer& one) {
      return std::round(one.net_points_per_game.centre * 1e9);
    };
    std::stable_sort(levers.begin(), levers.end(),
                     [&](const auto& a, const auto& b) { return gain(a) > gain(b); });
    return levers;
  }

 private:
  // [handle][draw]: net points and points per unit.
  struct Slopes {
    Column net, points;
  };

  std::vector<Slopes> slopes_over_draws(const std::vector<Handle>& handles, const Carrier& carrier,
                                        const OutcomeWorth& outcomes) {
    std::vector<Slopes> slopes(handles.size(), {Column(slope_draws), Column(slope_draws)});
    standing_.sample->fill();
    for_each_unit(slope_draws, memory_.threads(), [&](std::size_t i) {
      const Player player = standing_.sample->player_at(carrier.chosen()[i]);
      const PointGradients gradient = differentiate(outcomes, player);
      for (std::size_t h = 0; h < handles.size(); ++h) {
        slopes[h].net[i] = handles[h].slope(gradient.net_points, player);
        slopes[h].points[i] = handles[h].slope(gradient.points, player);
      }
    });
    memory_.count_solves(slope_draws);
    return slopes;
  }

  LeverAnswer lever(const Handle& handle, const Carrier& carrier, const Slopes& slopes) {
    const Knob& knob = find_knob(knobs_, handle.path);
    LeverAnswer lever;
    lever.path = handle.path;
    lever.label = knob.about;
    lever.unit = knob.unit;
    lever.is_call = handle.is_call;
    lever.of_handoffs = handle.of_handoffs;
    lever.now = knob.get(standing_.question);
    const double slope = handle.slope(standing_.tangent->gradient.net_points, *standing_.mean);
    lever.step =
        possible_step(knob.unit, lever.now, slope < -rounding ? -handle.step : handle.step);
    const double per_game = lever.step * standing_.drives_per_game();
    lever.net_points_per_game = scaled(carrier.carried(slopes.net), per_game);
    lever.points_per_game = scaled(carrier.carried(slopes.points), per_game);
    lever.place = place_gained(knob, lever);
    return lever;
  }

  // Change of the middle place when the step is made: only what is demanded moves it.
  double place_gained(const Knob& knob, const LeverAnswer& lever) {
    if (lever.is_call || lever.step == 0 || !demanded(knob.path)) return 0;
    Turned turned{with_knob(standing_.question, knob,
                            std::clamp(lever.now + lever.step, knob.low, knob.high)),
                  knob.stale};
    Standing after = memory_.turned(standing_, std::move(turned.question), turned.stale);
    return number_of(memory_.place(after)).centre - number_of(memory_.place(standing_)).centre;
  }

  // "rate.FAMILY.MEASURE..." or "gain.FAMILY.yac|run" of something that the scheme demands.
  bool demanded(const std::string& path) const {
    const BoundScheme& bound = standing_.matchup->bound;
    const Setting& setting = standing_.question.ground->setting;
    return std::any_of(
        bound.scheme.demands.begin(), bound.scheme.demands.end(), [&](const Demand& demand) {
          const std::string& id = setting.families[bound.setting_family[demand.family]].id;
          const std::string rate = "rate." + id + '.' + std::string(word(demand.measure));
          const char* part = demand.measure == Measure::run_gain ? ".run" : ".yac";
          return as_rate(demand.measure) ? path.starts_with(rate) : path == "gain." + id + part;
        });
  }

  Memory& memory_;
  Standing& standing_;
  const Knobs& knobs_;
};

}  // namespace

const std::vector<LeverAnswer>& levers_of(Memory& memory, Standing& standing) {
  if (!standing.levers)
    standing.levers =
        std::make_shared<const std::vector<LeverAnswer>>(LeverTeller(memory, standing).tell());
  return *standing.levers;
}

LeversAnswer answer(Memory& memory, const LeversRequest& request, const Progress&) {
  if (request.stand.as_learned)
    throw InputError(Finding{{"", 0, "/as_learned"},
                             "levers turn one thing alone",
                             "leave it out, or try a rate as learned"});
  Standing& standing = memory.standing(request.stand);
  return {about_of(memory, standing), levers_of(memory, standing)};
}

}  // namespace callfit::ask
