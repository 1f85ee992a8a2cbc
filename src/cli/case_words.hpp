// Words of the command line into a case: what they name becomes a case document, and that is read
// as any saved one is.
#pragma once

#include "cli/options.hpp"

#include <callfit/ask/case.hpp>
#include <callfit/ask/request.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/case.hpp>

#include <nlohmann/json_fwd.hpp>

#include <string>

namespace callfit::cli {

/// CASE or QUARTERBACK..., --scheme, --calls, --setting and what else makes a case.
void add_case_options(Options& options);

/// --changed, --totals, --opponents, --coming: what is known around charts.
void add_around_options(Options& options);

/// A case with the document that it was read from.
struct OpenedCase {
  std::string document, source;
  Case about;
};

/// The case's document as a file at `path` holds it: what it names beside itself is named from
/// there.
std::string document_at(const OpenedCase& opened, const std::string& path);

/// Whose charts the words name: one quarterback each, or all one's.
enum class Charts { of_each, of_one };

/// Prints notices of charts to standard error.
OpenedCase open_case(Files& disk, const po::variables_map& values, Charts charts = Charts::of_each);
/// The same case as its files are now, without notices.
Case read_again(Files& disk, const OpenedCase& opened);
/// The document that words make of charts that need not be there yet, with nothing read of them.
OpenedCase unread_case(Files& disk, const po::variables_map& values, const Words& charts);

/// The profile of one quarterback's charts, with --setting, --name and what is known around them;
/// `weights` are his key level_weights. Prints notices likewise.
Profile open_tape(Files& disk, const po::variables_map& values, const Words& charts,
                  const std::string& scheme, const nlohmann::ordered_json& weights);

/// --who and --in: one quarterback in one scheme of a case, by name or place.
void add_stand_options(Options& options);
Stand stand_of(const po::variables_map& values, const Case& about);
/// A quarterback's place by name or number from 1; throws po::error that lists the names.
std::size_t quarterback_named(const Case& about, const std::string& words);

/// How a case finds what it names: shipped data and files beside it.
CaseTexts texts_on(Files& disk);

}  // namespace callfit::cli
