// The families of a fit in the order in which they are told, and which demand stands for each.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/telling/wording.hpp>

#include <string>
#include <vector>

namespace callfit {

/// A family that asks something of the quarterback, with its demands in the scheme's order.
struct FamilyRow {
  FamilyAnswer family;
  std::vector<DemandAnswer> demands;  ///< at least one

  /// The costliest one, whose verdict is the family's; the first one where none costs anything.
  const DemandAnswer& costliest() const;
  /// "deep outside, completion"
  std::string name() const;
};

/// The costliest family first.
std::vector<FamilyRow> rows_by_cost(const FitAnswer& fit);

/// "54 of 100 college quarterbacks fit it worse; 21 to 80"
std::string place_sentence(const FitAnswer& fit, const Wording& wording);

}  // namespace callfit
