#include <callfit/ask/field.hpp>

#include <algorithm>

namespace callfit {

std::vector<double> chances_of_being_best(const std::vector<const Worth*>& entries) {
  std::vector<double> chance(entries.size(), 0.0);
  if (entries.empty()) return chance;
  std::size_t draws = entries.front()->draws.size();
  for (const Worth* entry : entries) draws = std::min(draws, entry->draws.size());
  for (std::size_t d = 0; d < draws; ++d) {
    const auto net = [&](std::size_t e) { return entries[e]->draws[d].net_points; };
    double best = net(0);
    for (std::size_t e = 1; e < entries.size(); ++e) best = std::max(best, net(e));
    std::vector<std::size_t> leaders;
    for (std::size_t e = 0; e < entries.size(); ++e)
      if (net(e) == best) leaders.push_back(e);
    for (const std::size_t e : leaders) chance[e] += 1.0 / static_cast<double>(leaders.size());
  }
  for (double& value : chance) value /= static_cast<double>(draws);
  return chance;
}

}  // namespace callfit
