#include "graphic/fit_rows.hpp"

#include "graphic/ball_chart.hpp"
#include "report/phrases.hpp"

#include <callfit/report/number_text.hpp>

#include <algorithm>
#include <cmath>
#include <string>

namespace callfit {

namespace {

constexpr double farthest_steps = 6;

std::size_t line_count(const std::vector<FamilyRow>& rows) {
  std::size_t lines = 0;
  for (const FamilyRow& row : rows) lines += row.demands.size();
  return lines;
}

double largest_share(const std::vector<FamilyRow>& rows) {
  double largest = 0;
  for (const FamilyRow& row : rows) largest = std::max(largest, row.family.call_share);
  return largest > 0 ? largest : 1;
}

BallLine line_of(const FamilyRow& row, const DemandAnswer& demand, double largest,
                 const Wording& wording) {
  const Unit unit = demand.in_yards ? Unit::yards : Unit::share;
  return {scaled(demand.short_by, -1),
          demand.label + ": " + reach_odds_words(demand.reaches) +
              (demand.reaches.is_the_levels() ? " *" : ""),
          value_text(unit, demand.estimate.centre),
          wording("asked", {{"value", value_text(unit, demand.asked)}}),
          row.family.call_share / largest,
          ink_of(demand.reaches, Ink::first, Ink::second),
          row.family.unseen ? Fill::dashed : fill_of(demand.reaches),
          std::nullopt,
          demand.own_path,
          demand.asked_path,
          std::nullopt};
}

// Where the demand's ball began, unless it is there still.
std::optional<double> began_at(const DemandAnswer& demand, const FitAnswer* start) {
  if (start == nullptr) return std::nullopt;
  constexpr double seen = 0.01;  // spreads
  for (const DemandAnswer& was : start->demands)
    if (was.asked_path == demand.asked_path &&
        std::abs(was.short_by.centre - demand.short_by.centre) > seen)
      return -was.short_by.centre;
  return std::nullopt;
}

// One demand a family: the costliest, of where it began if that is known.
DemandAnswer chosen_of(const FamilyRow& row, const FamilyRow& began) {
  const std::string& path = began.costliest().asked_path;
  const auto same = std::find_if(row.demands.begin(), row.demands.end(),
                                 [&](const auto& one) { return one.asked_path == path; });
  return same == row.demands.end() ? row.costliest() : *same;
}

// As `fit` has them, in the order of `began`: nothing changes places under a hand.
std::vector<FamilyRow> in_order_of(const std::vector<FamilyRow>& began,
                                   std::vector<FamilyRow> rows) {
  std::vector<FamilyRow> out;
  for (const FamilyRow& place : began)
    for (FamilyRow& row : rows)
      if (row.family.id == place.family.id) out.push_back(std::move(row));
  return out;
}

BallBlock block_of(const FamilyRow& row, double largest, const FitAnswer* start,
                   const Wording& wording) {
  const std::string share = percent(row.family.call_share);
  const std::string snaps = fixed(row.family.snaps, 0);
  const bool unseen = row.family.unseen;
  BallBlock block{
      row.family.label,
      wording(unseen ? "family_unseen" : "family_calls", {{"share", share}, {"snaps", snaps}}),
      wording(unseen ? "family_unseen_short" : "family_calls_short",
              {{"share", share}, {"snaps", snaps}}),
      {},
      "",
      row.family.call_path};
  for (const DemandAnswer& demand : row.demands) {
    block.lines.push_back(line_of(row, demand, largest, wording));
    block.lines.back().was = began_at(demand, start);
  }
  return block;
}

}  // namespace

void paint_families(Canvas& canvas, const Box& box, const FitAnswer& fit, const FitAnswer* start,
                    const Wording& wording) {
  auto rows = rows_by_cost(fit);
  auto began = rows;
  if (start != nullptr) {
    began = rows_by_cost(*start);
    rows = in_order_of(began, std::move(rows));
  }
  const std::size_t all = line_count(rows);
  const double needed = static_cast<double>(all) * comfortable_line(canvas.sizes());
  if (needed > box.height - 6 * canvas.sizes().body)
    for (std::size_t i = 0; i < rows.size(); ++i)
      rows[i].demands = std::vector<DemandAnswer>{start == nullptr ? rows[i].costliest()
                                                                   : chosen_of(rows[i], began[i])};
  BallChart chart;
  chart.stick = 0;
  chart.below = {wording("short_head"), Ink::second};
  chart.above = {wording("there_head"), Ink::first};
  chart.short_note_head = wording("family_calls_head");
  chart.least = {-1, 1};
  chart.farthest = farthest_steps;
  chart.tick_text = signed_fixed;
  chart.axis_note = wording("step_axis");
  if (line_count(rows) < all) chart.axis_note += " " + wording("costliest");
  for (const FamilyRow& row : rows)
    chart.blocks.push_back(block_of(row, largest_share(rows), start, wording));
  paint_ball_chart(canvas, box, chart, wording);
}

}  // namespace callfit
