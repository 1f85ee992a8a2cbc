#include <callfit/telling/telling.hpp>

#include <callfit/base/isolated.hpp>
#include <callfit/report/number_text.hpp>
#include <report/phrases.hpp>
#include <telling/family_rows.hpp>
#include <telling/sentences.hpp>

#include <algorithm>
#include <string>

namespace callfit {
namespace {

// Clear verdicts first, then those that lean; the costliest of each.
const FamilyRow* most_telling(const std::vector<FamilyRow>& rows) {
  const auto sure = [](const FamilyRow& row) { return row.costliest().reaches.lean(); };
  const auto at =
      std::min_element(rows.begin(), rows.end(),
                       [&](const FamilyRow& a, const FamilyRow& b) { return sure(a) < sure(b); });
  return at == rows.end() ? nullptr : &*at;
}

bool gives_all(const std::vector<FamilyRow>& rows) {
  return std::all_of(rows.begin(), rows.end(), [](const FamilyRow& row) {
    return std::all_of(row.demands.begin(), row.demands.end(), [](const DemandAnswer& demand) {
      return demand.reaches.yes() && demand.reaches.lean() == Lean::clear;
    });
  });
}

bool asks_nothing(const FitAnswer& fit) {
  return std::none_of(fit.demands.begin(), fit.demands.end(),
                      [](const DemandAnswer& demand) { return demand.weight > 0; });
}

std::string headline_alone(const FitAnswer& fit, const std::vector<FamilyRow>& rows,
                           const Wording& wording) {
  const std::string player = isolated(fit.about.quarterback), scheme = isolated(fit.about.scheme);
  const FamilyRow* row = most_telling(rows);
  if (fit.about.snaps <= 0) return wording("fit_unseen", {{"player", player}, {"scheme", scheme}});
  if (asks_nothing(fit)) return wording("fit_asks_nothing", {{"scheme", scheme}});
  if (row == nullptr || gives_all(rows))
    return wording("fit_all", {{"player", player}, {"scheme", scheme}});
  const Verdict& reaches = row->costliest().reaches;
  return wording(reaches.lean() == Lean::open ? "fit_open" : "fit_demand",
                 {{"player", player},
                  {"scheme", scheme},
                  {"demand", row->name()},
                  {"reach", reach_words(reaches)},
                  {"side", wording(reaches.yes() ? "reaches" : "falls_short")},
                  {"odds", odds_words(reaches.odds)}});
}

// The strongest thing that can be said: who is ahead, unless that is open and a demand is not.
std::string headline(const FitAnswer& fit, const std::vector<FamilyRow>& rows,
                     const DifferenceAnswer* against, const Wording& wording) {
  const FamilyRow* row = most_telling(rows);
  const bool open = against == nullptr || against->ahead.lean() == Lean::open;
  const bool told = row != nullptr && row->costliest().reaches.lean() != Lean::open;
  return against == nullptr || (open && told) ? headline_alone(fit, rows, wording)
                                              : ahead_sentence(*against, fit.about.scheme, wording);
}

// A family's verdict without where it comes from.
std::string group_of(const FamilyRow& row, const Wording& wording) {
  if (row.family.unseen) return wording("group_unseen");
  Verdict plain = row.costliest().reaches;
  plain.level_odds.reset();
  return reach_words(plain);
}

// In the order that tells most: short before there, clear before leaning, then open, then unseen.
int rank_of(const FamilyRow& row) {
  const Verdict& reaches = row.costliest().reaches;
  if (row.family.unseen) return 5;
  if (reaches.lean() == Lean::open) return 4;
  return (reaches.lean() == Lean::clear ? 0 : 1) + (reaches.yes() ? 2 : 0);
}

std::vector<NameGroup> groups_of(std::vector<FamilyRow> rows, const Wording& wording) {
  std::stable_sort(rows.begin(), rows.end(),
                   [](const FamilyRow& a, const FamilyRow& b) { return rank_of(a) < rank_of(b); });
  std::vector<NameGroup> groups;
  for (const FamilyRow& row : rows) {
    const std::string how = group_of(row, wording);
    if (groups.empty() || groups.back().how != how) groups.push_back({how, {}});
    groups.back().names.push_back(wording("family_demand", {{"family", isolated(row.family.label)},
                                                            {"demand", row.costliest().label}}));
  }
  return groups;
}

std::string line_of(const FamilyRow& row, const DemandAnswer& demand, const Wording& wording) {
  const Unit unit = demand.in_yards ? Unit::yards : Unit::share;
  return isolated(row.family.label) + ", " + demand.label + ": " +
         number_text(unit, demand.estimate) + ", " +
         wording("asked", {{"value", value_text(unit, demand.asked)}}) + ", " +
         reach_words(demand.reaches) + ".";
}

}  // namespace

std::string place_sentence(const FitAnswer& fit, const Wording& wording) {
  return wording("place", {{"place", value_text(Unit::place, fit.place.centre)},
                           {"population", wording("population")},
                           {"range", range_text(Unit::place, fit.place)}});
}

Telling fit_telling(const FitAnswer& fit, const std::optional<DifferenceAnswer>& against,
                    const Wording& wording) {
  const auto rows = rows_by_cost(fit);
  const bool versus = against && fit.about.snaps > 0;
  std::vector<std::string> deck;
  if (versus) deck = seed_caution(against->ahead, wording);
  for (const std::string& group : group_sentences(groups_of(rows, wording), wording))
    deck.push_back(group);
  std::string description = place_sentence(fit, wording) + ".";
  if (against)
    description += " " + wording("against_label", {{"other", isolated(against->second)}}) + ": " +
                   difference_text(*against, wording) + ".";
  for (const FamilyRow& row : rows)
    for (const DemandAnswer& demand : row.demands)
      description += "\n" + line_of(row, demand, wording);
  return {wording("fit_kicker", {{"player", isolated(fit.about.quarterback)},
                                 {"scheme", isolated(fit.about.scheme)}}),
          headline(fit, rows, versus ? &*against : nullptr, wording),
          deck,
          {lean_note(wording), wording("fit_note")},
          description};
}

}  // namespace callfit
