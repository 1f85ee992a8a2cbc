// A case held in memory and asked: whatever is not stale is not computed again.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/ask/case.hpp>
#include <callfit/ask/request.hpp>
#include <callfit/base/parallel.hpp>

#include <memory>
#include <optional>
#include <string>

namespace callfit {

/// How much is worked out. `following`, for a picture under a moving hand: fit, say and try alone;
/// points of a stand with changes are of first order from the one without (docs/model.md). The same
/// request asked of a settled study then says what it comes to.
enum class Pace { settled, following };

/// Answers every request about one case from memory. Draws of a quarterback are made once, under
/// the case's seed and his place; what a change leaves as it is (plan, quarterback, tape) is used
/// again. No files, no clock; the same answers whatever was asked before. Not to be used from two
/// threads at once; long work inside uses `threads` (0: one per core).
class Study {
 public:
  /// Throws InputError where the case contradicts itself (a scheme with families that the setting
  /// does not know, no quarterback, ...).
  explicit Study(Case about, unsigned threads = 0, Pace pace = Pace::settled);
  ~Study();
  Study(Study&&) noexcept;
  Study& operator=(Study&&) noexcept;

  const Case& about() const;

  /// Throws InputError for a place that is not there, an unknown path, a value out of range, a
  /// situation left without calls, and for a kind that a following study does not answer.
  Answer answer(const Request& request, const Progress& progress = {});

  /// Throws InputError where a stand cannot be had: a place, a path or a value that is not there.
  void require(const Stand& stand);

  /// Every path of a stand, with its present value: what a change can name.
  std::vector<KnobValue> paths(const Stand& stand);
  /// The one that is called so; nullopt: none is.
  std::optional<KnobValue> path(const Stand& stand, const std::string& path);

  /// Every number of a stand that rests on snaps.
  std::vector<SnapNumber> snap_numbers(const Stand& stand);

  /// How many exact drive solves (or their cost in solves) were made so far, for tests and benches.
  std::size_t exact_solves() const;

 private:
  class Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace callfit
