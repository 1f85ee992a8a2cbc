// Film of the snaps behind a number, into files: the options --cut, --reel and --frames.
#pragma once

#include "cli/options.hpp"

#include <callfit/ask/answer.hpp>
#include <callfit/ask/case.hpp>

#include <string>

namespace callfit::cli {

void add_film_options(Options& options);

/// Checks the words and names the files that will be written. Throws po::error for an unknown
/// ending or rate, and without --snaps.
void announce_film(Files& disk, const po::variables_map& values);

/// Writes what was asked for; a sentence on what it holds, empty where nothing was asked for.
std::string write_film(Files& disk, const po::variables_map& values,
                       const std::vector<Answer>& answers, const CaseOptions& options);

}  // namespace callfit::cli
