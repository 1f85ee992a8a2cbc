#include <drive/call_places.hpp>

#include <algorithm>
#include <map>
#include <numeric>
#include <tuple>

namespace callfit {
namespace {

std::vector<std::size_t> out_of_reach(const drive::Plan& plan, const drive::Context& context) {
  std::vector<std::size_t> families;
  for (std::size_t f = 0; f < plan.scheme_family.size(); ++f)
    if (std::find(context.out_of_reach.begin(), context.out_of_reach.end(),
                  plan.scheme_family[f]) != context.out_of_reach.end())
      families.push_back(f);
  return families;
}

// Shares called at a place, those of families out of reach given to the others.
std::vector<double> shares_at(const CallPlace& place, const CallSituation& situation) {
  std::vector<double> share = place.shell ? situation.against(*place.shell) : situation.share;
  std::vector<double> callable = share;
  for (const std::size_t f : place.out_of_reach) callable[f] = 0;
  const double total = std::accumulate(callable.begin(), callable.end(), 0.0);
  if (total <= 0) return share;
  for (double& value : callable) value /= total;
  return callable;
}

}  // namespace

namespace drive {

std::vector<CallPlace> call_places(const Plan& plan, const std::vector<double>& plays) {
  using Key = std::tuple<std::size_t, std::optional<Shell>, std::vector<std::size_t>>;
  std::map<Key, double> places;
  for (std::size_t c = 0; c < plan.contexts.size(); ++c) {
    const Context& context = plan.contexts[c];
    const auto add = [&](std::optional<Shell> shell, double share) {
      places[{context.situation, shell, out_of_reach(plan, context)}] += plays[c] * share;
    };
    if (plan.setting.shells.empty()) add({}, 1);
    for (std::size_t s = 0; s < shell_count && !plan.setting.shells.empty(); ++s)
      add(static_cast<Shell>(s), plan.setting.shells[context.shell_rule].share[s]);
  }
  std::vector<CallPlace> out;
  out.reserve(places.size());
  for (const auto& [key, count] : places)
    out.push_back({std::get<0>(key), std::get<1>(key), std::get<2>(key), count});
  return out;
}

}  // namespace drive

std::vector<double> call_shares(const Scheme& scheme, const std::vector<CallPlace>& places) {
  std::vector<double> calls(scheme.families.size(), 0.0);
  double plays = 0;
  for (const CallPlace& place : places) {
    const std::vector<double> share = shares_at(place, scheme.situations[place.situation]);
    for (std::size_t f = 0; f < calls.size(); ++f) calls[f] += place.plays * share[f];
    plays += place.plays;
  }
  for (double& share : calls) share /= plays;
  return calls;
}

}  // namespace callfit
