// The sentences that several pictures say.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/telling/wording.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace callfit {

/// Who is ahead in a scheme (empty: none is named), how surely, and the odds.
std::string ahead_sentence(const DifferenceAnswer& difference, const std::string& scheme,
                           const Wording& wording);

/// "+0.14 (-0.12 to +0.41) net points a drive"; "+1.50 (-1.30 to +4.50) a game"; both.
std::string drive_text(const DifferenceAnswer& difference, const Wording& wording);
std::string game_text(const DifferenceAnswer& difference, const Wording& wording);
std::string difference_text(const DifferenceAnswer& difference, const Wording& wording);

/// That another seed may choose another word; empty where none would.
std::vector<std::string> seed_caution(const Verdict& verdict, const Wording& wording);

/// What solid, half filled and hollow claim, with the odds they begin at.
std::string lean_note(const Wording& wording);

/// Names that share one verdict.
struct NameGroup {
  std::string how;  ///< "probably short"
  std::vector<std::string> names;
};

/// "Clearly short: a, b. Open: c and 3 more."
std::vector<std::string> group_sentences(const std::vector<NameGroup>& groups,
                                         const Wording& wording);

/// "a, b and 3 more" with at most `shown` names.
std::string name_list(const std::vector<std::string>& names, std::size_t shown,
                      const Wording& wording);

}  // namespace callfit
