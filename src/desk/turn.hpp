// A hand's move into a change: which path, how far.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/ask/case.hpp>
#include <callfit/ask/knob.hpp>

#include <string>
#include <variant>
#include <vector>

namespace callfit::desk {

/// `steps`: of what shows in a number (see step_of()); `units`: of the picture's axis, spreads
/// between quarterbacks; text: as it is typed behind PATH= on the command line.
struct Steps {
  double count = 0;
};
struct Units {
  double count = 0;
};
struct Turn {
  std::string path;
  std::variant<Steps, Units, std::string> move;
};

/// The smallest change that shows: a hundredth of a share, a thousandth below a tenth; a tenth of a
/// yard.
double step_of(const KnobValue& knob);

/// The change that a turn makes where the path stands as `knob` says. Of units, `fit` says how
/// large one is. Throws InputError for a path that the picture has no ball of, and for words that
/// are no value.
Change change_of(const Turn& turn, const KnobValue& knob, const FitAnswer& fit);

/// `changes` with one more; an earlier one of the same path goes, and so does one that sets the
/// path nearer than `near` to its `start`.
std::vector<Change> with_change(std::vector<Change> changes, const Change& change, double start,
                                double near = 1e-9);

}  // namespace callfit::desk
