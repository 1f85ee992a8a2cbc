#include "graphic/fit_rows.hpp"

#include "graphic/ball_chart.hpp"

#include <algorithm>
#include <string>

namespace callfit {
namespace {

constexpr double farthest_steps = 6;

std::vector<FamilyStrip> by_call_share(const FitPicture& values) {
  auto families = values.families;
  std::stable_sort(families.begin(), families.end(),
                   [](const auto& a, const auto& b) { return a.call_share > b.call_share; });
  return families;
}

void keep_costliest(FamilyStrip& family) {
  const auto worse = [](const DemandLine& a, const DemandLine& b) {
    const double p = cost_of(a), q = cost_of(b);
    return p == q ? a.weight < b.weight : p < q;
  };
  const auto at = std::max_element(family.demands.begin(), family.demands.end(), worse);
  if (at != family.demands.end()) family.demands = {*at};
}

std::size_t line_count(const std::vector<FamilyStrip>& families) {
  std::size_t lines = 0;
  for (const FamilyStrip& family : families)
    lines += std::max<std::size_t>(family.demands.size(), 1);
  return lines;
}

double largest_share(const std::vector<FamilyStrip>& families) {
  double largest = 0;
  for (const FamilyStrip& family : families)
    if (!family.demands.empty()) largest = std::max(largest, family.call_share);
  return largest > 0 ? largest : 1;
}

BallLine line_of(const FamilyStrip& family, const DemandLine& demand, double largest,
                 const Wording& wording) {
  const Reading at = beyond(demand);
  return {at,
          demand.label,
          value_text(demand.estimate.value, demand.unit),
          wording("asked", {{"value", value_text(demand.asked, demand.unit)}}),
          family.call_share / largest,
          at.value < 0 ? Ink::second : Ink::first,
          family.snaps > 0 ? fill_of(at, 0) : Fill::dashed,
          std::nullopt};
}

BallBlock block_of(const FamilyStrip& family, double largest, const Wording& wording) {
  const std::string share = percent_text(family.call_share);
  BallBlock block{
      family.label,
      family.snaps > 0
          ? wording("family_calls", {{"share", share}, {"snaps", number_text(family.snaps, 0)}})
          : wording("family_unseen", {{"share", share}}),
      family.snaps > 0 ? wording("family_calls_short",
                                 {{"share", share}, {"snaps", number_text(family.snaps, 0)}})
                       : wording("family_unseen_short", {{"share", share}}),
      {},
      wording("family_no_demand")};
  for (const DemandLine& demand : family.demands)
    block.lines.push_back(line_of(family, demand, largest, wording));
  return block;
}

}  // namespace

void paint_families(Canvas& canvas, const Box& box, const FitPicture& values,
                    const Wording& wording) {
  auto families = by_call_share(values);
  const std::size_t all = line_count(families);
  const double needed = static_cast<double>(all) * comfortable_line(canvas.sizes());
  if (needed > box.height - 6 * canvas.sizes().body)
    for (FamilyStrip& family : families) keep_costliest(family);
  BallChart chart;
  chart.stick = 0;
  chart.below = {wording("short_head"), Ink::second};
  chart.above = {wording("there_head"), Ink::first};
  chart.short_note_head = wording("family_calls_head");
  chart.least = {-1, 1};
  chart.farthest = farthest_steps;
  chart.tick_text = [](double tick, int decimals) { return signed_text(tick, decimals); };
  chart.axis_note = wording("step_axis");
  if (line_count(families) < all) chart.axis_note += " " + wording("costliest");
  for (const FamilyStrip& family : families)
    chart.blocks.push_back(block_of(family, largest_share(families), wording));
  paint_ball_chart(canvas, box, chart, wording);
}

}  // namespace callfit
