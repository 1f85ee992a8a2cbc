// One HTML file that readers can play with: an article that stands alone, and the engine to turn
// what the analyst lets them turn. docs/publishing.md says what it is for.
#pragma once

#include <callfit/files/files.hpp>
#include <callfit/reader/page_case.hpp>

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace callfit::page {

/// The core as WebAssembly, as scripts/page-engine leaves it in a folder.
struct Engine {
  std::string glue;    ///< JavaScript that loads the module
  std::string module;  ///< gzip
  std::string digest;  ///< SHA-256 of `module`, 64 hexadecimal digits
  std::string version, commit;
};

/// Reads callfit-engine.json in `folder` and the files that it names by their digests. Throws
/// InputError that says how to get an engine where there is none, where a file is not what its
/// digest says, and where the engine is of another version than `version`.
Engine read_engine(Files& disk, const std::string& folder, const std::string& version);

/// What a page is made from.
struct Source {
  const Case& about;
  std::string whole;     ///< what whole_case() wrote
  std::string document;  ///< the case's own text, for its part "page"
  std::string name;      ///< of the document, for messages
  Stand stand;
  bool anonymous = false;
  bool with_rows = false;  ///< the charted snaps of the man asked about, without clips and notes
  std::string version, commit;  ///< of the program
};

struct Page {
  std::string html;
  std::string page_case;  ///< callfit-page/1: what the engine reads of the case, packed in it
  std::string holds;      ///< a sentence on what of the charts is in it
  std::vector<std::pair<std::string, std::size_t>> parts;  ///< what is in it, bytes
};

/// Throws InputError for handles that do not fit the case, for rows of a man of whom there are
/// none, and, of an anonymous page, where a quarterback's name stands in it all the same.
Page make_page(const Source& source, const Engine& engine, unsigned threads);

}  // namespace callfit::page
