// A case in a reader's hands: he turns what the analyst lets him turn and is told what becomes of
// it. All words and numbers of a page that move come from here, as text.
#pragma once

#include <callfit/ask/study.hpp>
#include <callfit/reader/page_case.hpp>
#include <callfit/telling/fit_scene.hpp>

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// A handle put at one of its values, counted from 0.
struct PutHandle {
  std::size_t handle = 0, at = 0;
};

/// What a page shows of a stand.
struct Shown {
  struct Handle {
    std::string words;
    std::string text, began;       ///< its value now and where the analyst has it
    std::string low, high;         ///< the ends of its range
    std::size_t at = 0, last = 0;  ///< place of the value (the nearest, where untouched)
    bool is_turned = false;
  };
  /// Where a number lies on a strip from 0 to 100: the ends of its interval and its centre.
  struct Strip {
    double low = 0, centre = 0, high = 0;
  };
  struct Row {
    std::string label, value, began;  ///< now, and in the analyst's view
    Strip strip;                      ///< of the value now; the analyst's view sets the scale
    std::optional<double> line;       ///< on the strip, what the number is held against
  };

  std::string kicker, headline;
  std::vector<std::string> groups;  ///< demands by verdict, a sentence each
  std::string paragraph;
  std::vector<Row> rows;
  std::string effect;  ///< of what is turned; empty where nothing is, or while a hand moves
  std::vector<Handle> handles;
  std::string try_text;  ///< "PATH=VALUE&PATH=VALUE": what is turned, for the address of the page
};

/// One reader. With Pace::following quick answers for a moving hand: fewest draws, first order.
class Reader {
 public:
  /// Throws InputError where the case contradicts itself or a handle does not fit it.
  explicit Reader(PageCase held, unsigned threads = 0, Pace pace = Pace::settled);

  /// Other handles from now on. Throws what require_handles() does, about `source`.
  void let_turn(std::vector<PageHandle> handles, const std::string& source);

  /// Throws InputError for a handle or a place that is not there.
  Shown shown(const std::vector<PutHandle>& put);

  /// What a try's text puts where; values go to the nearest place. Throws one InputError for text
  /// that is no try, paths that have no handle and values out of range.
  std::vector<PutHandle> put_by(const std::string& try_text) const;

  /// {"put": [{"handle": 1, "at": 4}, ...]} (handles count from 1, places from 0) or {"try":
  /// "..."}: the document callfit-shown/1, or callfit-error/1. Nothing is thrown for bad input.
  std::string answer(std::string_view request);

  Study& study() { return study_; }
  const PageCase& held() const { return held_; }

 private:
  std::vector<Change> changes_of(const std::vector<PutHandle>& put) const;

  PageCase held_;
  Pace pace_;
  Study study_;
  Wording wording_;
  std::vector<KnobValue> start_;  ///< of each handle, as the analyst has it
  std::optional<FitScene> began_;
};

}  // namespace callfit
