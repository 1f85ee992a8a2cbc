#include <callfit/format/glossary.hpp>

#include <algorithm>
#include <cctype>
#include <sstream>

namespace callfit {
namespace {

constexpr std::string_view heading = "## ";

// What stands between commas and colons, outer blanks cut.
std::vector<std::string> words_of(const std::string& line) {
  std::vector<std::string> words;
  for (std::size_t start = 0; start <= line.size();) {
    const std::size_t end = std::min(line.find_first_of(",:", start), line.size());
    const std::size_t first = line.find_first_not_of(' ', start);
    if (first < end) {
      const std::size_t last = line.find_last_not_of(' ', end - 1);
      words.push_back(line.substr(first, last - first + 1));
    }
    start = end + 1;
  }
  return words;
}

bool same_letters(std::string_view a, std::string_view b) {
  const auto lower = [](char c) { return std::tolower(static_cast<unsigned char>(c)); };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [&](char x, char y) { return lower(x) == lower(y); });
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
      if (same_letters(known, word)) return &entry;
  return nullptr;
}

}  // namespace callfit
