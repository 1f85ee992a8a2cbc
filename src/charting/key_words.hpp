// Numbers, times and text as keys bring them in and rows hold them.
#pragma once

#include <callfit/base/finding.hpp>

#include <optional>
#include <string>
#include <string_view>

namespace callfit::charting {

bool is_digit(const std::string& key);
/// nullopt for what is no whole number to its end.
std::optional<int> whole_number(std::string_view text);

/// nullopt for what is no number to its end.
std::optional<double> seconds_in(std::string_view text);
/// To hundredths, which tell the frames of 60 a second apart; without zeros at the end.
std::string seconds_text(double seconds);

/// One character of text, whatever its bytes; names of keys are longer and plain ASCII.
bool is_character(const std::string& key);
void drop_character(std::string& text);

/// What the reader found, as it is told where a key is refused.
std::string said(const Finding& finding);

}  // namespace callfit::charting
