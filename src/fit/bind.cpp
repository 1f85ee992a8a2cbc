#include <callfit/base/finding.hpp>
#include <callfit/base/nearest.hpp>
#include <callfit/fit/fit.hpp>
#include <callfit/stats/distance.hpp>

#include <algorithm>
#include <string>
#include <utility>

namespace callfit {
namespace {

Finding finding(const Scheme& scheme, std::string field, std::string what, std::string mend) {
  return {{scheme.id, 0, std::move(field)}, std::move(what), std::move(mend)};
}

std::string name_of(const Demand& demand) {
  std::string name(word(demand.measure));
  if (demand.cell) name += " (" + std::string(word(*demand.cell)) + ")";
  return name;
}

std::size_t place_in_setting(const Family& family, const Setting& setting) {
  const std::string& wanted = family.like.empty() ? family.id : family.like;
  const FamilyPopulation* found = setting.find_family(wanted);
  return found == nullptr ? setting.families.size()
                          : static_cast<std::size_t>(found - setting.families.data());
}

void find_families(BoundScheme& bound, const Setting& setting, Findings& findings) {
  std::vector<std::string> known;
  for (const FamilyPopulation& family : setting.families) known.push_back(family.id);
  for (std::size_t f = 0; f < bound.scheme.families.size(); ++f) {
    const Family& family = bound.scheme.families[f];
    bound.setting_family.push_back(place_in_setting(family, setting));
    if (bound.setting_family.back() < setting.families.size()) continue;
    const std::string& wanted = family.like.empty() ? family.id : family.like;
    findings.push_back(
        finding(bound.scheme, "/families/" + std::to_string(f),
                "the setting does not know the play family '" + wanted + "'",
                "name one of its families under \"like\": " + suggest(wanted, known)));
  }
}

void find_spreads(BoundScheme& bound, const Setting& setting, Findings& findings) {
  for (std::size_t d = 0; d < bound.scheme.demands.size(); ++d) {
    const Demand& demand = bound.scheme.demands[d];
    const std::size_t family = bound.setting_family[demand.family];
    if (family >= setting.families.size()) {
      bound.spread.push_back(1);  // the family has its own finding
      continue;
    }
    bound.spread.push_back(spread_of(setting, family, demand.measure, demand.cell));
    if (bound.spread.back() > 0) continue;
    findings.push_back(finding(bound.scheme, "/demands/" + std::to_string(d),
                               "family '" + bound.scheme.families[demand.family].id + "' has no " +
                                   name_of(demand) + " in the setting",
                               "demand something that the setting tells of it"));
  }
}

void check_correlations(const Scheme& scheme, Findings& findings) {
  for (std::size_t c = 0; c < scheme.correlations.size(); ++c) {
    const DemandCorrelation& correlation = scheme.correlations[c];
    const auto demands =
        std::count_if(scheme.demands.begin(), scheme.demands.end(),
                      [&](const Demand& d) { return d.family == correlation.family; });
    const bool fits = correlation.matrix.size() == static_cast<std::size_t>(demands);
    if (fits && is_covariance(correlation.matrix)) continue;
    findings.push_back(finding(scheme, "/correlations/" + std::to_string(c),
                               "not a correlation matrix of the family's demands",
                               "give a symmetric, positive definite matrix with a row for each of "
                               "its " +
                                   std::to_string(demands) + " demands and ones on the diagonal"));
  }
}

}  // namespace

BoundScheme bind_scheme(const Scheme& scheme, const Setting& setting) {
  BoundScheme bound;
  bound.scheme = scheme;
  const auto families = static_cast<double>(scheme.families.size());
  bound.call_share.assign(scheme.families.size(), 1 / families);
  Findings findings;
  find_families(bound, setting, findings);
  find_spreads(bound, setting, findings);
  check_correlations(scheme, findings);
  if (!findings.empty()) throw InputError(std::move(findings));
  return bound;
}

}  // namespace callfit
