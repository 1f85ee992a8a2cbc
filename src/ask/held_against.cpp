#include <callfit/ask/request.hpp>

#include <algorithm>

namespace callfit {
namespace {

bool is_of_the_man(const Change& change) {
  return change.path.starts_with("rate.") || change.path.starts_with("gain.") ||
         change.path.starts_with("level.");
}

}  // namespace

std::optional<Stand> held_against(const Stand& stand, const Case& about) {
  if (about.quarterbacks.size() < 2) return std::nullopt;
  Stand other = stand;
  other.quarterback = stand.quarterback == 1 ? 0 : 1;
  std::erase_if(other.changes, is_of_the_man);
  return other;
}

}  // namespace callfit
