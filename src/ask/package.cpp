#include <callfit/ask/package.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/base/nearest.hpp>

#include <algorithm>

namespace callfit {
namespace {

std::size_t family_of(const Scheme& scheme, const std::string& id) {
  const std::size_t family = scheme.find_family(id);
  if (family < scheme.families.size()) return family;
  std::vector<std::string> ids;
  for (const Family& known : scheme.families) ids.push_back(known.id);
  refuse_at({}, "the scheme has no family " + id, suggest(id, ids));
}

void require_situation(const Scheme& scheme, const std::string& id) {
  std::vector<std::string> ids;
  for (const CallSituation& known : scheme.situations) ids.push_back(known.id);
  if (!id.empty() && std::find(ids.begin(), ids.end(), id) == ids.end())
    refuse_at({}, "the scheme has no situation " + id, suggest(id, ids));
}

void add_share(std::vector<double>& shares, std::size_t family, double share) {
  if (share == 0) return;
  for (double& value : shares) value *= 1 - share;
  shares[family] += share;
}

void add_calls(CallSituation& situation, std::size_t family, const Package& package, double share) {
  if (package.against) {
    auto& own = situation.share_by_shell[static_cast<std::size_t>(*package.against)];
    if (!own) own = situation.share;
    add_share(*own, family, share);
    return;
  }
  add_share(situation.share, family, share);
  for (auto& own : situation.share_by_shell)
    if (own) add_share(*own, family, share);
}

// The situation's part near the goal, to stand before it.
CallSituation near_part(const CallSituation& situation, int inside) {
  CallSituation part = situation;
  part.when.yards_to_goal.high = std::min(part.when.yards_to_goal.high, inside);
  part.id += "_inside_" + std::to_string(inside);
  part.label += ", inside the " + std::to_string(inside);
  return part;
}

// What of the situation the package touches, and what it leaves, in the order of the rules.
std::vector<CallSituation> parts_of(const CallSituation& situation, const Package& package,
                                    std::size_t family, double share, bool& touched) {
  const bool wanted = package.situation.empty() || package.situation == situation.id;
  const Band& spots = situation.when.yards_to_goal;
  if (!wanted || (package.inside && spots.low > *package.inside)) return {situation};
  touched = true;
  const bool whole = !package.inside || spots.high <= *package.inside;
  CallSituation changed = whole ? situation : near_part(situation, *package.inside);
  add_calls(changed, family, package, share);
  if (whole) return {std::move(changed)};
  return {std::move(changed), situation};
}

}  // namespace

double surprising_share(double share, double fade) {
  return share * std::max(0.0, 1 - fade * share);
}

Scheme with_package(const Scheme& scheme, const Package& package, double share) {
  const std::size_t family = family_of(scheme, package.family);
  require_situation(scheme, package.situation);
  Scheme out = scheme;
  out.situations.clear();
  bool touched = false;
  for (const CallSituation& situation : scheme.situations)
    for (CallSituation& part : parts_of(situation, package, family, share, touched))
      out.situations.push_back(std::move(part));
  if (!touched)
    refuse_at({},
              "no part of " + package.situation + " lies inside the " +
                  std::to_string(package.inside.value_or(0)),
              "name a situation nearer the goal, or none");
  return out;
}

}  // namespace callfit
