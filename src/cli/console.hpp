// What reaches the person at the terminal.
#pragma once

#include "cli/options.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/base/parallel.hpp>

#include <nlohmann/json_fwd.hpp>

#include <string>

namespace callfit::cli {

/// To standard error, one a line, at most InputError::shown_at_most.
void print_notices(const Findings& notices);

/// A progress line on standard error where that is a terminal; silent in a pipe.
Progress progress_line(const std::string& what);

/// The result as one JSON document with format, command, version and request.
void print_json(const std::string& command, const nlohmann::ordered_json& request,
                const nlohmann::ordered_json& result);

}  // namespace callfit::cli
