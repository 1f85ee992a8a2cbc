// Every phrase that a picture puts on paper, so that a style file can change it.
#pragma once

#include <cstddef>
#include <initializer_list>
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <utility>

namespace callfit {

/// A phrase: its key, its text, and the names that may stand in it in braces ("{player}").
struct Phrase {
  std::string_view key;
  std::string_view text;
  std::string_view names;  ///< separated by spaces
};

/// All phrases with their shipped texts.
std::span<const Phrase> phrases();

class Wording {
 public:
  /// The user's text for a known key. Throws std::invalid_argument for an unknown key, and for a
  /// name in braces that the phrase does not have; what() says what would be right.
  void set(const std::string& key, const std::string& text);

  /// Keys and texts that were set.
  const std::map<std::string, std::string, std::less<>>& changed() const { return changed_; }

  using Values = std::initializer_list<std::pair<std::string_view, std::string>>;
  /// The phrase with the names in braces replaced. Throws std::out_of_range for an unknown key.
  std::string operator()(std::string_view key, Values values = {}) const;

 private:
  std::map<std::string, std::string, std::less<>> changed_;
};

}  // namespace callfit
