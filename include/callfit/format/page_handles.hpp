// What the reader of a page may turn: the part "page" of a case. docs/formats.md describes it.
#pragma once

#include <callfit/ask/sweep_range.hpp>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// A path that a reader may turn, in equal steps, under words of the analyst's.
struct PageHandle {
  std::string words;
  SweepRange range;
};

/// More would not fit one screen of a phone.
inline constexpr std::size_t most_handles = 8;

/// The handles that a "callfit-case/1" text chooses; empty where it leaves that to the program.
/// Throws one InputError with everything that is wrong in its part "page". Whether a path is there
/// tells only a study of the case.
std::vector<PageHandle> parse_page_handles(std::string_view text, const std::string& source);

}  // namespace callfit
