#include <ask/tracked.hpp>

#include <profile/cells.hpp>
#include <profile/joint.hpp>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace callfit::ask {
namespace {

Sample sample_at(const Standing& standing, const TapeStage& stage) {
  return Sample(stage.draws, standing.question.ground_setting(), standing.question.player);
}

// The mean of what the draws have.
Tracked of_draws(const Standing& standing,
                 std::function<Column(const TapeStage&, const Sample&)> draws) {
  Tracked out;
  out.centre = [&standing, draws](const TapeStage& stage) {
    return mean_of(draws(stage, sample_at(standing, stage)));
  };
  out.draws = std::move(draws);
  return out;
}

void add_quantity(Tracked& tracked, std::optional<std::size_t> quantity) {
  if (!quantity) return;
  if (std::find(tracked.quantities.begin(), tracked.quantities.end(), *quantity) ==
      tracked.quantities.end())
    tracked.quantities.push_back(*quantity);
}

// A shell's rate hangs on all three, which are balanced.
void add_cell(Tracked& tracked, const Setting& setting, const CellPlace& place) {
  const CellTable table = setting.cell_table(setting.families[place.family]);
  const auto r = static_cast<std::size_t>(place.rate);
  const auto add = [&](Cell cell) {
    const CellPlace one{place.family, place.rate, cell};
    if (table[static_cast<std::size_t>(cell)][r] &&
        std::find(tracked.cells.begin(), tracked.cells.end(), one) == tracked.cells.end())
      tracked.cells.push_back(one);
  };
  if (static_cast<std::size_t>(place.cell) >= shell_count) return add(place.cell);
  for (std::size_t s = 0; s < shell_count; ++s) add(static_cast<Cell>(s));
}

void add_measure(Tracked& tracked, const Setting& setting, const JointPlaces& places,
                 std::size_t family, const Demand& demand) {
  if (const auto rate = as_rate(demand.measure)) {
    add_quantity(tracked, places.rates[family][static_cast<std::size_t>(*rate)]);
    if (demand.cell) add_cell(tracked, setting, {family, *rate, *demand.cell});
    return;
  }
  const GainPart part =
      demand.measure == Measure::yards_after_catch ? GainPart::yac : GainPart::run;
  add_quantity(tracked, places.gains[family][static_cast<std::size_t>(part)]);
}

// D^2 of every draw; of some demands only their parts.
Column distance_of(const Standing& standing, const Sample& sample, const std::string& only) {
  const BoundScheme& bound = standing.matchup->bound;
  const std::vector<Column> measures = measures_of(sample, bound);
  if (only.empty()) return fit_draws(measures, bound, sample.size()).distance;
  Column out(sample.size(), 0.0);
  DistanceSheet sheet(bound);
  std::vector<double> given(measures.size());
  for (std::size_t i = 0; i < out.size(); ++i) {
    for (std::size_t d = 0; d < given.size(); ++d) given[d] = measures[d][i];
    const std::vector<double>& parts = sheet.parts(given);
    for (std::size_t d = 0; d < parts.size(); ++d)
      if (demand_path(bound.scheme, d) == only) out[i] += parts[d];
  }
  return out;
}

void hang_on_demands(Tracked& tracked, const Standing& standing, const std::string& only) {
  const BoundScheme& bound = standing.matchup->bound;
  const Setting& setting = standing.question.ground->setting;
  const JointPlaces places = joint_places(setting);
  // A family's demands may be weighed together: one part hangs on all of them.
  std::set<std::size_t> families;
  for (std::size_t d = 0; d < bound.scheme.demands.size(); ++d)
    if (only.empty() || demand_path(bound.scheme, d) == only)
      families.insert(bound.scheme.demands[d].family);
  for (const Demand& demand : bound.scheme.demands)
    if (families.contains(demand.family))
      add_measure(tracked, setting, places, bound.setting_family[demand.family], demand);
  tracked.in_pairs = true;
}

// Terms of a stage's gradient, worked out when first asked for.
class TermsByStage {
 public:
  TermsByStage(const Standing& standing, bool net) : standing_(standing), net_(net) {}

  const std::vector<Term>& at(const TapeStage& stage) {
    const auto [entry, is_new] = terms_.try_emplace(stage.at);
    if (is_new)
      entry->second = terms_of(
          differentiate(*standing_.matchup->plan, player_at(stage), standing_.matchup->starts));
    return entry->second;
  }

  Player player_at(const TapeStage& stage) const {
    return moved(stage.mean, standing_.question.player, standing_.question.ground->setting);
  }
  double slope_of(const Term& term) const {
    return (net_ ? term.by_net : term.by_points) * standing_.drives_per_game();
  }
  double points_at(const TapeStage& stage) const {
    const DrivePoints points = drive_points(*standing_.matchup, player_at(stage));
    return (net_ ? points.net_points : points.points) * standing_.drives_per_game();
  }

 private:
  const Standing& standing_;
  bool net_;
  std::map<double, std::vector<Term>> terms_;
};

void hang_on_terms(Tracked& tracked, const Setting& setting, const std::vector<Term>& terms) {
  const JointPlaces places = joint_places(setting);
  for (const Term& term : terms) {
    const std::size_t family = term.family == no_family ? 0 : term.family;
    if (term.kind == Term::Kind::bin) {
      add_quantity(tracked, places.gains[family][static_cast<std::size_t>(term.part)]);
      continue;
    }
    add_quantity(tracked, places.rates[family][static_cast<std::size_t>(term.rate)]);
    if (term.kind == Term::Kind::shell)
      add_cell(tracked, setting, {family, term.rate, static_cast<Cell>(term.shell)});
  }
}

}  // namespace

Tracked tracked_rate(const Standing& standing, std::size_t family, Rate rate) {
  Tracked out = of_draws(standing, [family, rate](const TapeStage&, const Sample& sample) {
    return sample.measure(family, static_cast<Measure>(rate), {});
  });
  add_quantity(out, joint_places(standing.question.ground->setting)
                        .rates[family][static_cast<std::size_t>(rate)]);
  return out;
}

Tracked tracked_cell(const Standing& standing, const CellPlace& place) {
  Tracked out = of_draws(standing, [place](const TapeStage&, const Sample& sample) {
    return sample.measure(place.family, static_cast<Measure>(place.rate), place.cell);
  });
  const Setting& setting = standing.question.ground->setting;
  add_quantity(out,
               joint_places(setting).rates[place.family][static_cast<std::size_t>(place.rate)]);
  add_cell(out, setting, place);
  return out;
}

Tracked tracked_gain(const Standing& standing, std::size_t family, GainPart part) {
  Tracked out = of_draws(standing, [family, part](const TapeStage&, const Sample& sample) {
    return sample.gain(part, family);
  });
  add_quantity(out, joint_places(standing.question.ground->setting)
                        .gains[family][static_cast<std::size_t>(part)]);
  return out;
}

Tracked tracked_distance(const Standing& standing, const std::string& demand) {
  Tracked out = of_draws(standing, [&standing, demand](const TapeStage&, const Sample& sample) {
    return distance_of(standing, sample, demand);
  });
  hang_on_demands(out, standing, demand);
  return out;
}

Tracked tracked_place(Memory& memory, Standing& standing) {
  const Column& others = memory.others(standing);
  Tracked out = of_draws(standing, [&standing, &others](const TapeStage&, const Sample& sample) {
    return places_among(distance_of(standing, sample, ""), others);
  });
  hang_on_demands(out, standing, "");
  return out;
}

// Points are close to linear in the plain numbers of a player, so their derivatives at the means
// stand for those of every draw.
Tracked tracked_points(const Standing& standing, bool net) {
  const auto terms = std::make_shared<TermsByStage>(standing, net);
  Tracked out;
  out.centre = [terms](const TapeStage& stage) { return terms->points_at(stage); };
  out.draws = [terms](const TapeStage& stage, const Sample& sample) {
    Column score(sample.size(), 0.0);
    for (const Term& term : terms->at(stage)) {
      const DrawColumn column = term.of(sample);
      for (std::size_t i = 0; i < score.size(); ++i) score[i] += terms->slope_of(term) * column[i];
    }
    return score;
  };
  out.by_cell = [terms](const TapeStage& stage, const Sample& sample, const CellPlace& place) {
    double slope = 0;
    for (const Term& term : terms->at(stage)) {
      if (term.kind != Term::Kind::shell || term.family != place.family ||
          term.rate != place.rate || static_cast<Cell>(term.shell) != place.cell)
        continue;
      const DrawColumn column = term.of(sample);
      double spread = 0;
      for (const double p : column) spread += p * (1 - p);
      slope += terms->slope_of(term) * spread / static_cast<double>(column.size());
    }
    return slope;
  };
  out.solves = 2 + 3 * (stage_count + 1);  // a gradient costs as much as two solves and one
  hang_on_terms(
      out, standing.question.ground->setting,
      terms_of(differentiate(*standing.matchup->plan, *standing.mean, standing.matchup->starts)));
  return out;
}

}  // namespace callfit::ask
