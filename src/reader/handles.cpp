// Which handles a page has where nobody chose, and whether those that somebody chose fit the case.
#include <callfit/reader/page_case.hpp>

#include <callfit/base/nearest.hpp>
#include <format/json_text.hpp>
#include <telling/family_rows.hpp>

#include <algorithm>
#include <cmath>
#include <map>

namespace callfit {
namespace {

constexpr std::size_t families_turned = 3, beliefs_turned = 2;

using KnobsByPath = std::map<std::string, KnobValue>;

KnobsByPath knobs_of(Study& study, const Stand& stand) {
  KnobsByPath knobs;
  for (KnobValue& knob : study.paths(stand)) knobs.emplace(knob.path, std::move(knob));
  return knobs;
}

// From below to above in steps that show, at most as many as a handle may have.
SweepRange range_over(const KnobValue& knob, double low, double high) {
  const double step = knob.unit == KnobUnit::share
                          ? (std::max(low, 1 - high) < 0.1 || high < 0.1 ? 0.001 : 0.01)
                          : 0.1;
  const double from = std::max(knob.low, std::floor(low / step) * step);
  const double to = std::min(knob.high, std::ceil(high / step) * step);
  const double steps = std::clamp(std::round((to - from) / step), 1.0, most_steps - 1.0);
  return {knob.path, from, to, static_cast<std::size_t>(steps) + 1};
}

void add_calls(const FamilyRow& row, const KnobsByPath& knobs, std::vector<PageHandle>& handles) {
  const auto knob = knobs.find(row.family.call_path);
  if (knob == knobs.end() || knob->second.now <= 0) return;
  handles.push_back({"How often " + row.family.label + " is called",
                     range_over(knob->second, knob->second.now / 2, 2 * knob->second.now)});
}

void add_belief(const FamilyRow& row, const KnobsByPath& knobs, std::vector<PageHandle>& handles) {
  const DemandAnswer& demand = row.costliest();
  const auto knob = knobs.find(demand.own_path);
  if (knob == knobs.end()) return;
  handles.push_back({"What he gives: " + demand.label + " (" + row.family.label + ")",
                     range_over(knob->second, demand.estimate.low, demand.estimate.high)});
}

}  // namespace

std::vector<PageHandle> usual_handles(Study& study, const Stand& stand) {
  const auto fit = std::get<FitAnswer>(study.answer(FitRequest{stand, false}));
  const auto rows = rows_by_cost(fit);
  const KnobsByPath knobs = knobs_of(study, stand);
  std::vector<PageHandle> handles;
  for (const FamilyRow& row : rows)
    if (handles.size() < families_turned) add_calls(row, knobs, handles);
  const std::size_t all = handles.size() + beliefs_turned;
  for (const FamilyRow& row : rows)
    if (handles.size() < all) add_belief(row, knobs, handles);
  return handles;
}

void require_handles(Study& study, const Stand& stand, const std::vector<PageHandle>& handles,
                     const std::string& source) {
  const KnobsByPath knobs = knobs_of(study, stand);
  std::vector<std::string> known;
  for (const auto& [path, knob] : knobs) known.push_back(path);
  Faults faults(source);
  for (std::size_t i = 0; i < handles.size(); ++i) {
    const SweepRange& range = handles[i].range;
    const std::string at = child("/page/handles", i);
    const auto knob = knobs.find(range.path);
    if (knob == knobs.end())
      faults.add(at + "/path", "no path is called " + range.path, suggest(range.path, known));
    else if (knob->second.unit == KnobUnit::word)
      faults.add(at + "/path", range.path + " takes words", "turn a path with numbers");
    else if (range.from < knob->second.low || range.to > knob->second.high)
      faults.add(at, "reaches beyond what can be set", "stay inside what --paths lists");
  }
  faults.settle();
}

}  // namespace callfit
