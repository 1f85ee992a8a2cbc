// Changes that break what they are made to, or nearly.
#pragma once

#include <random>
#include <string>
#include <string_view>
#include <vector>

namespace callfit::fuzz {

using Dice = std::mt19937;

/// A JSON text with one change of its tree; empty where the text is no JSON.
std::string shaken_json(std::string_view text, Dice& dice);
std::string shaken_json(std::string_view text, unsigned seed);

/// A text with one change of its bytes: some are lost, doubled, changed, or replaced by a word or
/// by a piece of `other`.
std::string shaken_bytes(std::string text, const std::vector<std::string>& words,
                         std::string_view other, Dice& dice);

}  // namespace callfit::fuzz
