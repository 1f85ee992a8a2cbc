// The nearest known word, for "did you mean" mends.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// The entry of `known` with the least edit distance (Levenshtein 1966) to `word`; empty when
/// `known` is empty or nothing lies within half the word's length (at least 2 edits).
std::string nearest_word(std::string_view word, std::span<const std::string> known);

/// Up to `count` entries within that distance, nearest first.
std::vector<std::string> nearest_words(std::string_view word, std::span<const std::string> known,
                                       std::size_t count);

/// "a, b or c"; empty for no words.
std::string either_of(std::span<const std::string> words);

/// "did you mean x?" where a near word exists, else "use a, b or c".
std::string suggest(std::string_view word, std::span<const std::string> known);

}  // namespace callfit
