#include <ask/knob.hpp>

namespace callfit::ask {
namespace {

constexpr double smallest_weight = 0;
constexpr double largest_weight = 1000;

Knob level_knob(const Demand& demand, std::size_t d, const std::string& path,
                const std::string& about) {
  const bool share = as_rate(demand.measure).has_value();
  Knob knob{path + ".level", "demanded " + about, share ? KnobUnit::share : KnobUnit::yards};
  if (!share) {
    knob.low = -farthest_yards;
    knob.high = farthest_yards;
  }
  knob.get = [d](const Question& q) { return q.scheme.demands[d].level; };
  knob.set = [d](Question& q, double value) { q.scheme.demands[d].level = value; };
  return knob;
}

Knob weight_knob(std::size_t d, const std::string& path, const std::string& about) {
  Knob knob{path + ".weight", "weight of the demand on " + about, KnobUnit::number, smallest_weight,
            largest_weight};
  knob.get = [d](const Question& q) { return q.scheme.demands[d].weight; };
  knob.set = [d](Question& q, double value) { q.scheme.demands[d].weight = value; };
  return knob;
}

}  // namespace

std::string demand_path(const Scheme& scheme, std::size_t d) {
  const Demand& demand = scheme.demands[d];
  std::string path =
      "demand." + scheme.families[demand.family].id + '.' + std::string(word(demand.measure));
  if (demand.cell) path += '.' + std::string(word(*demand.cell));
  return path;
}

void add_demand_knobs(const Question& question, Knobs& knobs) {
  const Scheme& scheme = question.scheme;
  for (std::size_t d = 0; d < scheme.demands.size(); ++d) {
    const Demand& demand = scheme.demands[d];
    const Family& family = scheme.families[demand.family];
    const std::string path = demand_path(scheme, d);
    std::string about = plain(word(demand.measure)) + ", " + family.label;
    if (demand.cell) about += ", " + plain(word(*demand.cell));
    knobs.push_back(level_knob(demand, d, path, about));
    knobs.push_back(weight_knob(d, path, about));
  }
}

}  // namespace callfit::ask
