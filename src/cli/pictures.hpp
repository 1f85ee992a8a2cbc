// Which picture, from which results.
#pragma once

#include <callfit/ask/comparison.hpp>
#include <callfit/ask/matchup.hpp>
#include <callfit/files/files.hpp>
#include <callfit/graphic/dress.hpp>

#include <string>
#include <vector>

namespace callfit::cli {

/// The picture of that name (fit, throws, results, points); several become panels of one. The
/// footer's notes are put into `dress`. `file` and `against` are profiles or charts; `against` may
/// be empty where no picture needs a second quarterback.
Figure picture_figure(Files& disk, const std::vector<std::string>& pictures,
                      const std::string& file, const std::string& against, const Matchup& matchup,
                      const DrawOptions& draws, Dress& dress);

}  // namespace callfit::cli
