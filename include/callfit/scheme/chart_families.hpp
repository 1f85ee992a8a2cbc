// Holds a chart against the play families that are known.
#pragma once

#include <callfit/base/finding.hpp>
#include <callfit/chart/snap.hpp>
#include <callfit/scheme/scheme.hpp>

#include <string>
#include <vector>

namespace callfit {

/// What is wrong with a snap's family: an id that `families` does not hold (with the nearest one),
/// or a result that its kind cannot have (a run of a pass family, a throw of a run family). A snap
/// whose down is replayed may leave the family blank.
Findings family_faults(const Snap& snap, const std::string& source,
                       const std::vector<Family>& families);

}  // namespace callfit
