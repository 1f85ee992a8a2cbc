// What a picture or a page says in words.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/telling/wording.hpp>

#include <optional>
#include <string>
#include <vector>

namespace callfit {

/// What a picture says in words. The headline is the strongest thing that the odds allow.
struct Telling {
  std::string kicker;                    ///< what kind of picture
  std::string headline;                  ///< the answer
  std::vector<std::string> deck;         ///< sentences below it, most telling first; those that fit
  std::vector<std::string> how_to_read;  ///< what the marks mean: sentences for the footer
  std::string description;               ///< for readers who cannot see it
};

/// What is said of a fit, with `against` of who is ahead.
Telling fit_telling(const FitAnswer& fit, const std::optional<DifferenceAnswer>& against,
                    const Wording& wording);

}  // namespace callfit
