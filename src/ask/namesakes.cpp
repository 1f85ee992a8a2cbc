#include <callfit/ask/namesakes.hpp>

#include <algorithm>
#include <map>

namespace callfit {
namespace {

std::map<std::string, std::size_t> counts_of(const Case& about) {
  std::map<std::string, std::size_t> counts;
  for (const Quarterback& quarterback : about.quarterbacks) ++counts[quarterback.profile.name];
  return counts;
}

}  // namespace

std::vector<std::string> shown_names(const Case& about) {
  const auto counts = counts_of(about);
  std::map<std::string, std::size_t> numbers;
  std::vector<std::string> shown;
  shown.reserve(about.quarterbacks.size());
  for (const Quarterback& quarterback : about.quarterbacks) {
    const std::string& name = quarterback.profile.name;
    std::string own = name;
    while (counts.at(name) > 1 && counts.contains(own))  // nobody's whole name has the number
      own = name + " (" + std::to_string(++numbers[name]) + ")";
    shown.push_back(std::move(own));
  }
  return shown;
}

std::vector<std::string> shared_names(const Case& about) {
  const auto counts = counts_of(about);
  std::vector<std::string> names;
  for (const Quarterback& quarterback : about.quarterbacks) {
    const std::string& name = quarterback.profile.name;
    if (counts.at(name) > 1 && std::find(names.begin(), names.end(), name) == names.end())
      names.push_back(name);
  }
  return names;
}

}  // namespace callfit
