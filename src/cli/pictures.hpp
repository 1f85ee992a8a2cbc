// Which picture, from which results.
#pragma once

#include <callfit/ask/comparison.hpp>
#include <callfit/ask/matchup.hpp>
#include <callfit/graphic/dress.hpp>

#include <string>

namespace callfit::cli {

/// The panel of a picture by its name (fit, throws, results, points), with the footer's notes put
/// into `dress`. `file` and `against` are profiles or charts; `against` may be empty where the
/// picture needs no second quarterback.
Panel picture_panel(const std::string& picture, const std::string& file, const std::string& against,
                    const Matchup& matchup, const DrawOptions& draws, Dress& dress);

}  // namespace callfit::cli
