#include <callfit/scheme/scheme.hpp>

#include <algorithm>

namespace callfit {

bool measure_applies(Measure measure, FamilyKind kind) {
  switch (measure) {
    case Measure::success:
    case Measure::explosive:
    case Measure::fumble:
    case Measure::evaded:
      return true;
    case Measure::run_gain:
      return kind != FamilyKind::pass;
    default:
      return kind == FamilyKind::pass;
  }
}

bool usually_better_high(Measure measure) {
  return measure != Measure::sack && measure != Measure::interception &&
         measure != Measure::pressured && measure != Measure::fumble;
}

std::size_t Scheme::find_family(std::string_view wanted) const {
  const auto found = std::find_if(families.begin(), families.end(),
                                  [wanted](const Family& family) { return family.id == wanted; });
  return static_cast<std::size_t>(found - families.begin());
}

}  // namespace callfit
