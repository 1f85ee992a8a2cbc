// Made-up values for every picture: used by the tests and by the program that draws the gallery.
#pragma once

#include <callfit/graphic/fit_picture.hpp>

namespace callfit::samples {

FitPicture fit_picture();
Dress dress(Frame frame, Theme theme);

}  // namespace callfit::samples
