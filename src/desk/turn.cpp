#include <callfit/base/finding.hpp>
#include <callfit/format/scenario.hpp>
#include <desk/turn.hpp>

#include <algorithm>
#include <cmath>

namespace callfit::desk {
namespace {

double rounded(double value, double step) { return std::round(value / step) * step; }

// How much of the path's value one unit of the axis is; the axis runs toward what is better.
double value_of_unit(const std::string& path, const FitAnswer& fit) {
  const auto demand = std::find_if(fit.demands.begin(), fit.demands.end(),
                                   [&path](const auto& one) { return one.own_path == path; });
  if (demand == fit.demands.end())
    throw InputError(
        Finding{{"", 0, "/turn/units"}, path + " has no place on the axis", "turn it by steps"});
  return demand->more_is_better ? demand->spread : -demand->spread;
}

double moved_to(const KnobValue& knob, double by) {
  const double step = step_of(knob);
  return std::clamp(rounded(knob.now + by, step), knob.low, knob.high);
}

}  // namespace

double step_of(const KnobValue& knob) {
  if (knob.unit == KnobUnit::share) return std::min(knob.now, 1 - knob.now) < 0.1 ? 0.001 : 0.01;
  return 0.1;
}

Change change_of(const Turn& turn, const KnobValue& knob, const FitAnswer& fit) {
  if (const auto* typed = std::get_if<std::string>(&turn.move)) {
    Change change = parse_change("value=" + *typed);
    change.path = turn.path;
    return change;
  }
  double by = 0;
  if (const auto* steps = std::get_if<Steps>(&turn.move))
    by = steps->count * step_of(knob);
  else
    by = std::get<Units>(turn.move).count * value_of_unit(turn.path, fit);
  return {turn.path, Change::Way::set, moved_to(knob, by), ""};
}

std::vector<Change> with_change(std::vector<Change> changes, const Change& change, double start,
                                double near) {
  std::erase_if(changes, [&change](const Change& one) { return one.path == change.path; });
  const bool back = change.way == Change::Way::set && std::abs(change.amount - start) < near;
  if (!back) changes.push_back(change);
  return changes;
}

}  // namespace callfit::desk
