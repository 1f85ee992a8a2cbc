// The words of the answers and what they mean, from docs/glossary.md.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace callfit {

struct GlossaryEntry {
  std::vector<std::string> words;  ///< at least one; "ask, demand" is two
  std::string meaning;             ///< one paragraph
};

/// The second-level headings of a Markdown text and the paragraph below each.
std::vector<GlossaryEntry> parse_glossary(std::string_view text);

/// The entry with that word, letter case apart; nullptr where there is none.
const GlossaryEntry* find_entry(const std::vector<GlossaryEntry>& entries, std::string_view word);

}  // namespace callfit
