#include <callfit/ask/paths.hpp>

#include <algorithm>
#include <cctype>
#include <vector>

namespace callfit {
namespace {

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    const auto letter = static_cast<unsigned char>(c);
    if (std::isalnum(letter) != 0)
      words.back() += static_cast<char>(std::tolower(letter));
    else if (!words.back().empty())
      words.emplace_back();
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

}  // namespace

bool path_has_words(std::string_view path, std::string_view label, std::string_view words) {
  std::vector<std::string> known = words_of(path);
  for (std::string& word : words_of(label)) known.push_back(std::move(word));
  const std::vector<std::string> wanted = words_of(words);
  return std::all_of(wanted.begin(), wanted.end(), [&known](const std::string& part) {
    return std::any_of(known.begin(), known.end(),
                       [&part](const std::string& word) { return word.starts_with(part); });
  });
}

}  // namespace callfit
