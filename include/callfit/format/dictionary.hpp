// What people write in a chart in place of its own words. docs/chart.md lists what is shipped.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace callfit {

/// Where a word of the dictionary may stand: a column of a chart by its name, or one of these.
namespace place {
inline constexpr std::string_view any = "any";        ///< every column that is not text
inline constexpr std::string_view yes_no = "yes_no";  ///< every column of yes and no
inline constexpr std::string_view header = "header";  ///< the names of columns themselves
inline constexpr std::string_view side = "side";      ///< beside a yard line: "own" or "opponent"
inline constexpr std::string_view row = "row";        ///< marks a row that is no snap
}  // namespace place

/// Words by where they stand. Case does not count, nor whether spaces, hyphens or underscores
/// stand between words.
class Dictionary {
 public:
  /// A later word takes the place of an earlier one.
  void add(std::string_view where, std::string_view from, std::string_view to);
  /// What a chart writes for it; empty for a field that is left blank.
  std::optional<std::string_view> meaning(std::string_view where, std::string_view from) const;
  bool empty() const { return words_.empty(); }

 private:
  std::map<std::string, std::map<std::string, std::string, std::less<>>, std::less<>> words_;
};

/// A name in braces stands for what the row makes of it: the number in that column, or complete or
/// run.
inline constexpr std::string_view own_yards_to_goal = "{yards_to_goal}";
inline constexpr std::string_view how_he_scored = "{touchdown}";

/// Words that charts may use beside the proper ones.
std::string_view accepted_words_text();
/// Words that are mended only.
std::string_view mended_words_text();
/// A table of the columns "column", "from" and "to". Throws one InputError with every column that
/// does not exist and every `to` that it cannot hold.
Dictionary parse_dictionary(std::string_view text, const std::string& source);

}  // namespace callfit
