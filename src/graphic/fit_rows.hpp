// The families of a fit picture: which demand stands for each, where it lies, what is said of it.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/graphic/dress.hpp>

#include <optional>
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

Telling fit_telling(const FitAnswer& fit, const std::optional<DifferenceAnswer>& against,
                    const Wording& wording);

/// "54 of 100 college quarterbacks fit it worse; 21 to 80"
std::string place_sentence(const FitAnswer& fit, const Wording& wording);

/// With `start`, rows stand as that one's would, and where a ball has moved from is marked.
void paint_families(Canvas& canvas, const Box& box, const FitAnswer& fit, const FitAnswer* start,
                    const Wording& wording);

}  // namespace callfit
