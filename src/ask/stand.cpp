#include <callfit/ask/request.hpp>

#include <algorithm>
#include <iterator>

namespace callfit {
namespace {

bool is_of_the_man(const Change& change) {
  return change.path.starts_with("rate.") || change.path.starts_with("gain.") ||
         change.path.starts_with("level.");
}

}  // namespace

Stand man_in(const Stand& man, const Stand& rest) {
  Stand out{man.quarterback, rest.scheme, {}, man.as_learned};
  std::copy_if(man.changes.begin(), man.changes.end(), std::back_inserter(out.changes),
               is_of_the_man);
  std::remove_copy_if(rest.changes.begin(), rest.changes.end(), std::back_inserter(out.changes),
                      is_of_the_man);
  return out;
}

std::optional<Stand> held_against(const Stand& stand, const Case& about) {
  if (about.quarterbacks.size() < 2) return std::nullopt;
  const std::size_t other = stand.quarterback == 1 ? 0 : 1;
  return man_in({other, stand.scheme, {}, false}, stand);
}

}  // namespace callfit
