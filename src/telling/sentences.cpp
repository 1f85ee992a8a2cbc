#include <telling/sentences.hpp>

#include <callfit/base/isolated.hpp>
#include <callfit/report/number_text.hpp>
#include <report/phrases.hpp>

#include <algorithm>

namespace callfit {

std::string ahead_sentence(const DifferenceAnswer& difference, const std::string& scheme,
                           const Wording& wording) {
  const Verdict& ahead = difference.ahead;
  const std::string first = isolated(difference.first), second = isolated(difference.second);
  const std::string words = capital(ahead_words(ahead, first, second));
  const char* key = "ahead_open";
  if (ahead.lean() == Lean::clear) key = "ahead_clear";
  if (ahead.lean() == Lean::leans) key = "ahead_leans";
  if (odds_words(ahead.odds) == odds_words(0.5)) key = "ahead_even";
  return wording(
      key, {{"ahead", scheme.empty()
                          ? words
                          : wording("ahead_in", {{"ahead", words}, {"scheme", isolated(scheme)}})},
            {"odds", odds_words(ahead.odds)},
            {"lead", ahead.yes() ? first : second},
            {"other", ahead.yes() ? second : first}});
}

std::string drive_text(const DifferenceAnswer& difference, const Wording& wording) {
  return wording("net_a_drive",
                 {{"net", number_text(Unit::signed_points, difference.net_points_per_drive)}});
}

std::string game_text(const DifferenceAnswer& difference, const Wording& wording) {
  return wording("a_game",
                 {{"points", number_text(Unit::signed_points, difference.net_points_per_game)}});
}

std::string difference_text(const DifferenceAnswer& difference, const Wording& wording) {
  return drive_text(difference, wording) + ", " + game_text(difference, wording);
}

std::vector<std::string> seed_caution(const Verdict& verdict, const Wording& wording) {
  if (!verdict.near_threshold()) return {};
  return {wording("near_line")};
}

std::string lean_note(const Wording& wording) {
  return wording("lean_note",
                 {{"clear", odds_words(clear_from)}, {"leans", odds_words(leans_from)}});
}

std::vector<std::string> group_sentences(const std::vector<NameGroup>& groups,
                                         const Wording& wording) {
  std::vector<std::string> sentences;
  for (const NameGroup& group : groups)
    if (!group.names.empty())
      sentences.push_back(wording(
          "group", {{"how", capital(group.how)}, {"names", name_list(group.names, 2, wording)}}));
  return sentences;
}

std::string name_list(const std::vector<std::string>& names, std::size_t shown,
                      const Wording& wording) {
  std::string list;
  for (std::size_t i = 0; i < std::min(shown, names.size()); ++i)
    list += (i == 0 ? "" : ", ") + isolated(names[i]);
  if (names.size() <= shown) return list;
  return wording("and_more", {{"list", list}, {"count", std::to_string(names.size() - shown)}});
}

}  // namespace callfit
