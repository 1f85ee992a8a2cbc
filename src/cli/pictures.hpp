// Pictures of a study's answers.
#pragma once

#include "cli/commands.hpp"

#include <callfit/ask/study.hpp>
#include <callfit/graphic/dress.hpp>

namespace callfit::cli {

/// Throws po::error for a name that is no picture of a stand.
void require_pictures(const Words& pictures);

/// Pictures fit, throws, results, points and map of a stand; several make a sheet. Throws po::error
/// for other names, for too many, and where a second quarterback or charts are needed.
Figure picture_figure(const Words& pictures, Study& study, const Stand& stand, const Dress& dress);

/// The picture of a sweep, levers, a trend or a comparison. Throws po::error for other answers.
Figure answer_figure(const Answer& answer, const Dress& dress);

}  // namespace callfit::cli
