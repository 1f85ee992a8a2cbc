#include "graphic/fit_rows.hpp"
#include "graphic/parts.hpp"

#include <algorithm>
#include <string>

namespace callfit {

Reading beyond(const DemandLine& demand) {
  const auto steps = [&](double value) { return (value - demand.asked) / demand.spread; };
  const Reading& e = demand.estimate;
  if (demand.more_is_better) return {steps(e.value), steps(e.low), steps(e.high)};
  return {-steps(e.value), -steps(e.high), -steps(e.low)};
}

double cost_of(const DemandLine& demand) {
  const double shortfall = std::max(0.0, -beyond(demand).value);
  return demand.weight * shortfall * shortfall;
}

Verdict verdict_of(const FamilyStrip& family) {
  if (family.snaps <= 0) return Verdict::unseen;
  Verdict verdict = Verdict::there;
  for (const DemandLine& demand : family.demands) {
    const Reading reading = beyond(demand);
    if (reading.high < 0) return Verdict::short_of;
    if (!reading.clear_of(0)) verdict = Verdict::close;
  }
  return verdict;
}

namespace {

std::vector<FamilyStrip> demanding(const FitPicture& values) {
  std::vector<FamilyStrip> families;
  for (const FamilyStrip& family : values.families)
    if (!family.demands.empty()) families.push_back(family);
  const auto cost = [](const FamilyStrip& family) {
    double sum = 0;
    for (const DemandLine& demand : family.demands) sum += cost_of(demand);
    return family.call_share * sum;
  };
  std::stable_sort(families.begin(), families.end(),
                   [&](const auto& a, const auto& b) { return cost(a) > cost(b); });
  return families;
}

std::vector<std::string> with(Verdict wanted, const std::vector<FamilyStrip>& families) {
  std::vector<std::string> names;
  for (const FamilyStrip& family : families)
    if (verdict_of(family) == wanted) names.push_back(family.label);
  return names;
}

std::string headline_alone(const FitPicture& values, const std::vector<FamilyStrip>& families,
                           const Wording& wording) {
  const std::string player = isolated(values.player), scheme = isolated(values.scheme);
  const auto lacking = with(Verdict::short_of, families);
  if (!lacking.empty())
    return wording("fit_short",
                   {{"player", player}, {"scheme", scheme}, {"family", isolated(lacking.front())}});
  const auto count = [&](Verdict verdict) { return with(verdict, families).size(); };
  const char* key = "fit_open";
  if (!families.empty() && count(Verdict::there) == families.size()) key = "fit_all";
  if (!families.empty() && count(Verdict::unseen) == families.size()) key = "fit_unseen";
  return wording(key, {{"player", player}, {"scheme", scheme}});
}

std::string headline(const FitPicture& values, const std::vector<FamilyStrip>& families,
                     const Wording& wording) {
  const bool any_snaps = std::any_of(values.families.begin(), values.families.end(),
                                     [](const auto& family) { return family.snaps > 0; });
  if (!values.against || !any_snaps) return headline_alone(values, families, wording);
  const Reading& difference = values.against->per_drive;
  const char* key = difference.low > 0    ? "fit_better"
                    : difference.high < 0 ? "fit_worse"
                                          : "fit_close";
  return wording(key, {{"player", isolated(values.player)},
                       {"other", isolated(values.against->other)},
                       {"scheme", isolated(values.scheme)}});
}

std::vector<std::string> deck(const std::vector<FamilyStrip>& families, const Wording& wording) {
  const std::pair<Verdict, const char*> parts[] = {{Verdict::short_of, "fit_deck_short"},
                                                   {Verdict::there, "fit_deck_there"},
                                                   {Verdict::unseen, "fit_deck_unseen"},
                                                   {Verdict::close, "fit_deck_close"}};
  std::vector<std::string> sentences;
  for (const auto& [verdict, key] : parts) {
    const auto names = with(verdict, families);
    if (!names.empty())
      sentences.push_back(wording(key, {{"families", name_list(names, 2, wording)}}));
  }
  return sentences;
}

std::string line_of(const FamilyStrip& family, const DemandLine& demand, const Wording& wording) {
  return isolated(family.label) + ", " + demand.label + ": " +
         value_text(demand.estimate.value, demand.unit) + " (" +
         range_text(demand.estimate, demand.unit, wording) + "), " +
         wording("asked", {{"value", value_text(demand.asked, demand.unit)}}) + ".";
}

}  // namespace

Telling fit_telling(const FitPicture& values, const Wording& wording) {
  const auto families = demanding(values);
  std::string description = wording("fit_label") + ": " + number_text(values.fit.value, 0) + " (" +
                            wording("range", {{"low", number_text(values.fit.low, 0)},
                                              {"high", number_text(values.fit.high, 0)}}) +
                            ").";
  if (values.against)
    description += " " + wording("against_label", {{"other", isolated(values.against->other)}}) +
                   ": " + range_text(values.against->per_drive, Unit::points, wording) + " " +
                   wording("points_per_drive") + ".";
  for (const FamilyStrip& family : families)
    for (const DemandLine& demand : family.demands)
      description += "\n" + line_of(family, demand, wording);
  return {wording("fit_kicker"), headline(values, families, wording), deck(families, wording),
          wording("ball_note"), description};
}

}  // namespace callfit
