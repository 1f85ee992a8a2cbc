// The families of a fit picture: which demand stands for each, where it lies, what is said of it.
#pragma once

#include <callfit/graphic/fit_picture.hpp>

#include <cstddef>
#include <vector>

namespace callfit {

/// An estimate in spreads beyond what is asked: above 0 is better, whichever way better lies.
Reading beyond(const DemandLine& demand);

/// Expected cost of a demand: its weight times the squared shortfall; decides which one of a
/// family is shown where not all can be.
double cost_of(const DemandLine& demand);

enum class Verdict { unseen, short_of, close, there };
Verdict verdict_of(const FamilyStrip& family);  ///< of its costliest demand

Telling fit_telling(const FitPicture& values, const Wording& wording);

void paint_families(Canvas& canvas, const Box& box, const FitPicture& values,
                    const Wording& wording);

}  // namespace callfit
