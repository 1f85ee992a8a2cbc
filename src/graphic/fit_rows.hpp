// The families of a fit picture: where their balls lie.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/graphic/dress.hpp>
#include <telling/family_rows.hpp>

namespace callfit {

/// With `start`, rows stand as that one's would, and where a ball has moved from is marked.
void paint_families(Canvas& canvas, const Box& box, const FitAnswer& fit, const FitAnswer* start,
                    const Wording& wording);

}  // namespace callfit
