#include <callfit/base/nearest.hpp>
#include <callfit/scheme/chart_families.hpp>

#include <algorithm>

namespace callfit {
namespace {

std::vector<std::string> ids_of(const std::vector<Family>& families) {
  std::vector<std::string> ids;
  ids.reserve(families.size());
  for (const Family& family : families) ids.push_back(family.id);
  return ids;
}

Findings kind_faults(const Snap& snap, const std::string& source, const Family& family) {
  const Place place{source, snap.line, "result"};
  if (snap.result == Result::no_play) return {};
  if (family.kind == FamilyKind::pass && snap.result == Result::run)
    return {{place, "a run of " + family.id + ", which is a pass",
             "chart a scramble, or the run family that was called"}};
  if (family.kind != FamilyKind::pass && snap.result != Result::run)
    return {{place, std::string(word(snap.result)) + " on " + family.id + ", which is a run",
             "chart a run, or the pass family that was called"}};
  return {};
}

}  // namespace

Findings family_faults(const Snap& snap, const std::string& source,
                       const std::vector<Family>& families) {
  if (snap.result == Result::no_play && snap.family.empty()) return {};
  const auto found = std::find_if(families.begin(), families.end(),
                                  [&](const Family& f) { return f.id == snap.family; });
  if (found != families.end()) return kind_faults(snap, source, *found);
  return {{{source, snap.line, "family"},
           "unknown family \"" + snap.family.str() + "\"",
           suggest(snap.family, ids_of(families))}};
}

}  // namespace callfit
