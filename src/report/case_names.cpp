#include "report/case_names.hpp"

#include <algorithm>

namespace callfit {

std::vector<Names> quarterback_names(const Case& about) {
  std::vector<Names> names;
  names.reserve(about.quarterbacks.size());
  for (const Quarterback& quarterback : about.quarterbacks)
    names.push_back({quarterback.profile.name});
  return names;
}

std::vector<Names> scheme_names(const Case& about) {
  std::vector<Names> names;
  names.reserve(about.schemes.size());
  for (const Scheme& scheme : about.schemes) names.push_back({scheme.id, scheme.name});
  return names;
}

std::vector<std::size_t> places_called(const std::vector<Names>& names, const std::string& name) {
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < names.size(); ++i)
    if (std::find(names[i].begin(), names[i].end(), name) != names[i].end()) places.push_back(i);
  return places;
}

}  // namespace callfit
