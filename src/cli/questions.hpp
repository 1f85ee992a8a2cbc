// What the commands that ask questions have in common.
#pragma once

#include "cli/options.hpp"

#include <callfit/ask/question.hpp>

#include <nlohmann/json_fwd.hpp>

#include <memory>
#include <string>

namespace callfit::cli {

/// PROFILE, --scheme, --setting, --policy, --end-of-half, --json, --seed, --draws, --threads
void add_question_options(Options& options, std::size_t draws);

/// The question as the words have it. A chart (.csv) is kept, so that levels can be weighed anew.
Question load_question(Files& disk, const std::string& file, std::shared_ptr<const Matchup> ground);
Question load_question(Files& disk, const po::variables_map& values);

DrawOptions draw_options_of(const po::variables_map& values);

/// The part of a JSON request that all questions share.
nlohmann::ordered_json request_of(const po::variables_map& values, const Question& question);

}  // namespace callfit::cli
