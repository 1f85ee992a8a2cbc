#include <ask/snap_numbers.hpp>

#include <ask/knob.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/chart/measure_name.hpp>

#include <algorithm>
#include <array>
#include <utility>

namespace callfit::ask {
namespace {

void add_results(std::vector<NumberPlace>& out) {
  using Kind = ResultNumber::Kind;
  out.push_back({{"place", "place of 100", SnapUnit::place}, ResultNumber{Kind::place}});
  out.push_back(
      {{"net_points", "net points a game", SnapUnit::net_points}, ResultNumber{Kind::net_points}});
  out.push_back({{"points", "points a game", SnapUnit::points}, ResultNumber{Kind::points}});
  out.push_back({{"distance", "distance from what is asked (D²)", SnapUnit::distance},
                 ResultNumber{Kind::distance}});
}

void add_demands(const Standing& standing, std::vector<NumberPlace>& out) {
  const Scheme& scheme = standing.question.scheme;
  for (std::size_t d = 0; d < scheme.demands.size(); ++d) {
    const Demand& demand = scheme.demands[d];
    const std::string path = demand_path(scheme, d);
    const bool is_known = std::any_of(out.begin(), out.end(), [&path](const NumberPlace& one) {
      return one.number.address == path;
    });
    if (is_known) continue;
    out.push_back({{path,
                    "demand on " + measure_name(demand.measure, demand.cell) + ", " +
                        scheme.families[demand.family].label + ", its part of D²",
                    SnapUnit::distance},
                   ResultNumber{ResultNumber::Kind::demand}});
  }
}

void add_family(const Setting& setting, std::size_t f, std::vector<NumberPlace>& out) {
  const FamilyPopulation& family = setting.families[f];
  const CellTable cells = setting.cell_table(family);
  out.push_back(
      {{"family." + family.id, "snaps, " + family.label, SnapUnit::snaps}, FamilyNumber{f}});
  for (std::size_t r = 0; r < rate_count; ++r) {
    if (!family.rates[r]) continue;
    const auto measure = static_cast<Measure>(r);
    const auto add = [&](const std::optional<Cell>& cell) {
      out.push_back({{measure_path(family, measure, cell),
                      measure_name(measure, cell) + ", " + family.label, SnapUnit::share},
                     MeasureNumber{f, static_cast<Rate>(r), cell}});
    };
    add({});
    for (std::size_t c = 0; c < cell_count; ++c)
      if (cells[c][r]) add(static_cast<Cell>(c));
  }
  const auto add_gain = [&](GainPart part, const std::string& label) {
    if (population_of(setting, f, part) != nullptr)
      out.push_back({{"gain." + family.id + '.' + std::string(word(part)),
                      label + ", " + family.label, SnapUnit::yards},
                     GainNumber{f, part}});
  };
  add_gain(GainPart::depth, "mean depth of completions");
  add_gain(GainPart::yac, "mean yards after the catch");
  add_gain(GainPart::run, "mean gain of runs");
}

// What a rate's trials are, to say of a snap that is none.
std::string no_trial(const Snap& snap, Rate rate) {
  const auto charted = [rate](bool is_kind, const char* kind) {
    return is_kind ? plain(word(rate)) + " not charted" : "no " + std::string(kind);
  };
  switch (rate) {
    case Rate::sack:
    case Rate::scramble:
      return "no dropback";
    case Rate::pressured:
      return charted(is_dropback(snap.result), "dropback");
    case Rate::on_time:
    case Rate::catchable:
      return charted(is_throw(snap.result), "throw");
    case Rate::evaded:
      return charted(is_touch(snap.result), "touch");
    default:
      return "no throw";
  }
}

// The first cell of the condition that the cell is one of.
Cell condition_of(Cell cell) {
  constexpr std::array firsts{Cell::short_throw, Cell::left, Cell::clean, Cell::pocket,
                              Cell::one_high};
  return *std::find_if(firsts.begin(), firsts.end(), [cell](Cell first) { return first <= cell; });
}

// What it was instead, or that nobody charted it.
std::string not_in_cell(const Snap& snap, Cell cell) {
  for (std::size_t c = 0; c < cell_count; ++c) {
    const auto other = static_cast<Cell>(c);
    if (condition_of(other) == condition_of(cell) && in_cell(snap, other))
      return plain(word(other));
  }
  return "not charted whether " + plain(word(cell));
}

Counting counted_in(const MeasureNumber& number, const Snap& snap, const SuccessRule& rule) {
  const auto made = trial(snap, number.rate, rule);
  if (!made) return {false, no_trial(snap, number.rate), {}};
  if (number.cell && !in_cell(snap, *number.cell))
    return {false, not_in_cell(snap, *number.cell), {}};
  return {true, "", made};
}

Counting counted_in(const GainNumber& number, const Snap& snap, const SuccessRule&) {
  const auto counted = [](bool counts, const char* why_not) {
    return Counting{counts, counts ? "" : why_not, {}};
  };
  switch (number.part) {
    case GainPart::scramble:
      return counted(snap.result == Result::scramble, "no scramble");
    case GainPart::sack:
      return counted(snap.result == Result::sack, "no sack");
    case GainPart::run:
      return counted(snap.result == Result::run, "no run");
    default:
      return counted(snap.result == Result::complete, "no completion");
  }
}

Counting counted_in(const ResultNumber&, const Snap&, const SuccessRule&) { return {}; }
Counting counted_in(const FamilyNumber&, const Snap&, const SuccessRule&) { return {}; }

}  // namespace

std::vector<NumberPlace> snap_numbers(const Standing& standing) {
  const Setting& setting = standing.question.ground->setting;
  std::vector<NumberPlace> out;
  add_results(out);
  add_demands(standing, out);
  for (std::size_t f = 0; f < setting.families.size(); ++f) add_family(setting, f, out);
  out.push_back({{"gain.scramble", "mean gain of scrambles", SnapUnit::yards},
                 GainNumber{0, GainPart::scramble}});
  out.push_back({{"gain.sack", "mean yards of sacks (below 0)", SnapUnit::yards},
                 GainNumber{0, GainPart::sack}});
  return out;
}

NumberPlace find_number(const std::vector<NumberPlace>& numbers, const std::string& words) {
  Knobs named;
  named.reserve(numbers.size());
  for (const NumberPlace& one : numbers)
    named.push_back(Knob{one.number.address, one.number.label});
  const Knob& found = find_knob(named, words);
  return numbers[static_cast<std::size_t>(&found - named.data())];
}

bool is_about(const NumberPlace& number, std::size_t family, const Snap& snap) {
  if (const auto* measure = std::get_if<MeasureNumber>(&number.what))
    return measure->family == family;
  if (const auto* one = std::get_if<FamilyNumber>(&number.what)) return one->family == family;
  if (const auto* gain = std::get_if<GainNumber>(&number.what)) {
    if (gain->part == GainPart::scramble) return snap.result == Result::scramble;
    if (gain->part == GainPart::sack) return snap.result == Result::sack;
    return gain->family == family;
  }
  return true;
}

Counting counting_of(const NumberPlace& number, const Snap& snap, double weight,
                     const SuccessRule& rule) {
  if (snap.result == Result::no_play) return {false, "a foul wiped it out", {}};
  if (!(weight > 0)) return {false, "its level counts for nothing here", {}};
  return std::visit([&](const auto& one) { return counted_in(one, snap, rule); }, number.what);
}

}  // namespace callfit::ask
