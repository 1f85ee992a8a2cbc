#include <callfit/format/glossary.hpp>

#include <boost/algorithm/string.hpp>

#include <sstream>

namespace callfit {
namespace {

constexpr std::string_view heading = "## ";

std::vector<std::string> words_of(const std::string& line) {
  std::vector<std::string> words;
  boost::split(words, line, boost::is_any_of(",:"));
  for (std::string& word : words) boost::trim(word);
  return words;
}

}  // namespace

std::vector<GlossaryEntry> parse_glossary(std::string_view text) {
  std::vector<GlossaryEntry> entries;
  std::istringstream lines{std::string(text)};
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with(heading)) {
      entries.push_back({words_of(line.substr(heading.size())), ""});
    } else if (!entries.empty() && !line.empty()) {
      std::string& meaning = entries.back().meaning;
      meaning += (meaning.empty() ? "" : " ") + line;
    }
  }
  return entries;
}

const GlossaryEntry* find_entry(const std::vector<GlossaryEntry>& entries, std::string_view word) {
  for (const GlossaryEntry& entry : entries)
    for (const std::string& known : entry.words)
      if (boost::iequals(known, word)) return &entry;
  return nullptr;
}

}  // namespace callfit
