// Two charts of one game, and the first one's disagreements with the second gone through by keys.
#pragma once

#include <callfit/charting/charting.hpp>
#include <callfit/charting/disputes.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace callfit::charting {

/// The chart that is settled is the Charting that each call is given; the other one is only read.
class Settling {
 public:
  explicit Settling(ChartRows theirs) : theirs_(std::move(theirs)) {}

  const ChartRows& theirs() const { return theirs_; }
  std::vector<Dispute> open(const Charting& mine) const;
  /// The next one to settle, from where the last key led; behind the last comes the first.
  /// nullopt where nothing is open.
  std::optional<Dispute> asked(const Charting& mine) const;

  /// take_mine and take_theirs settle what is asked, skip and column_before pass it over, undo and
  /// redo go back and forth. What a key may not do is said by fault() and changes nothing.
  void press(const std::string& key, Charting& mine);
  const std::string& fault() const { return fault_; }

 private:
  using Place = std::pair<std::size_t, ChartColumn>;  ///< row of mine, column

  void settle(Command command, Charting& mine);
  void take_theirs(const Dispute& asked, Charting& mine);
  void pass(int steps, const Charting& mine);
  void go_back(const std::string& key, Charting& mine);

  ChartRows theirs_;
  Place from_{0, ChartColumn::game};
  std::string fault_;
};

}  // namespace callfit::charting
