// Writes schemes as JSON.
#include <callfit/format/scheme.hpp>
#include <format/json_print.hpp>
#include <format/rule_json.hpp>

#include <nlohmann/json.hpp>

namespace callfit {
namespace {

using nlohmann::ordered_json;

ordered_json calls_json(const Scheme& scheme, const std::vector<double>& share) {
  auto calls = ordered_json::object();
  for (std::size_t f = 0; f < share.size(); ++f)
    if (share[f] > 0) calls[scheme.families[f].id] = share[f];
  return calls;
}

ordered_json family_json(const Family& family) {
  ordered_json entry{{"id", family.id},
                     {"label", family.label},
                     {"kind", word(family.kind)},
                     {"about", family.about}};
  if (!family.like.empty()) entry["like"] = family.like;
  return entry;
}

ordered_json situation_json(const Scheme& scheme, const CallSituation& situation) {
  ordered_json entry{{"id", situation.id},
                     {"label", situation.label},
                     {"when", rule_to_json(situation.when)},
                     {"calls", calls_json(scheme, situation.share)}};
  for (std::size_t shell = 0; shell < shell_count; ++shell)
    if (const auto& share = situation.share_by_shell[shell])
      entry["calls_by_shell"][std::string(word(static_cast<Shell>(shell)))] =
          calls_json(scheme, *share);
  if (situation.snaps > 0) entry["snaps"] = situation.snaps;
  return entry;
}

ordered_json demand_json(const Scheme& scheme, const Demand& demand) {
  ordered_json entry{{"family", scheme.families[demand.family].id},
                     {"measure", word(demand.measure)}};
  if (demand.cell) entry["cell"] = word(*demand.cell);
  entry["level"] = demand.level;
  entry["weight"] = demand.weight;
  entry["better"] = demand.more_is_better ? "more" : "less";
  return entry;
}

}  // namespace

std::string scheme_to_json(const Scheme& scheme) {
  ordered_json document{{"format", "callfit-scheme/1"},
                        {"id", scheme.id},
                        {"name", scheme.name},
                        {"about", scheme.about},
                        {"source", scheme.source.empty() ? "not stated" : scheme.source}};
  document["families"] = ordered_json::array();
  for (const Family& family : scheme.families) document["families"].push_back(family_json(family));
  document["situations"] = ordered_json::array();
  for (const CallSituation& situation : scheme.situations)
    document["situations"].push_back(situation_json(scheme, situation));
  document["demands"] = ordered_json::array();
  for (const Demand& demand : scheme.demands)
    document["demands"].push_back(demand_json(scheme, demand));
  for (const DemandCorrelation& correlation : scheme.correlations)
    document["correlations"].push_back(
        {{"family", scheme.families[correlation.family].id}, {"matrix", correlation.matrix}});
  return readable(document);
}

}  // namespace callfit
