// The case that a page holds: one text without rows, clips or notes, read by the readers of every
// case.
#pragma once

#include <callfit/ask/case.hpp>
#include <callfit/ask/request.hpp>
#include <callfit/ask/study.hpp>
#include <callfit/format/page_handles.hpp>
#include <callfit/telling/wording.hpp>

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// What the reader starts from and may turn.
struct PageCase {
  Case about;
  Stand stand;  ///< the analyst's; nothing is turned
  std::vector<PageHandle> handles;
  std::map<std::string, std::string, std::less<>> phrases;  ///< that a style file changed
};

/// What of a case goes into a page, as "callfit-page/1" text. `whole` is what whole_case() wrote.
/// Left out: tries, style and words for people other than names; games are numbered. `anonymous`:
/// the quarterbacks are "New starter", "Other starter 2" and so on, sources are numbered.
std::string page_case_text(std::string_view whole, const Case& about, const Stand& stand,
                           const std::vector<PageHandle>& handles, const Wording& wording,
                           bool anonymous);

/// Reads it back. Throws one InputError with everything that is wrong.
PageCase parse_page_case(std::string_view text, const std::string& source);

/// Handles for who chose none: how often the three families are called that cost or bring most, and
/// the two things that are believed of the man whose demands cost most, over what the tape leaves
/// open (90%).
std::vector<PageHandle> usual_handles(Study& study, const Stand& stand);

/// Throws one InputError, with JSON paths below /page/handles of `source`, for each handle whose
/// path is not there, that turns words, or that reaches beyond what can be set.
void require_handles(Study& study, const Stand& stand, const std::vector<PageHandle>& handles,
                     const std::string& source);

}  // namespace callfit
