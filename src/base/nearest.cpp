#include <callfit/base/nearest.hpp>

#include <algorithm>
#include <numeric>
#include <utility>
#include <vector>

namespace callfit {
namespace {

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t substituted = diagonal + (a[i] == b[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({row[j] + 1, row[j + 1] + 1, substituted});
    }
  }
  return row.back();
}

}  // namespace

std::string nearest_word(std::string_view word, std::span<const std::string> known) {
  const auto near = nearest_words(word, known, 1);
  return near.empty() ? "" : near.front();
}

std::vector<std::string> nearest_words(std::string_view word, std::span<const std::string> known,
                                       std::size_t count) {
  constexpr std::size_t longest = 200;  // nobody mistypes a word like that
  if (word.size() > longest) return {};
  const std::size_t farthest = std::max<std::size_t>(2, word.size() / 2);
  std::vector<std::pair<std::size_t, std::size_t>> near;  // distance, index
  for (std::size_t i = 0; i < known.size(); ++i) {
    const std::size_t distance = edit_distance(word, known[i]);
    if (distance <= farthest) near.emplace_back(distance, i);
  }
  std::sort(near.begin(), near.end());
  near.resize(std::min(near.size(), count));
  std::vector<std::string> words;
  words.reserve(near.size());
  for (const auto& [distance, index] : near) words.push_back(known[index]);
  return words;
}

std::string either_of(std::span<const std::string> words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? " or " : ", ";
    text += words[i];
  }
  return text;
}

std::string suggest(std::string_view word, std::span<const std::string> known) {
  const std::string near = nearest_word(word, known);
  if (!near.empty()) return "did you mean " + near + "?";
  return "use " + either_of(known);
}

}  // namespace callfit
