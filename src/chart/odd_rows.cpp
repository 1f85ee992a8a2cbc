#include <callfit/chart/columns.hpp>
#include <callfit/chart/odd_rows.hpp>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <optional>
#include <tuple>

namespace callfit {
namespace {

// Spots are charted to the yard, so two of them can disagree by one.
constexpr int rounding = 1;

std::string in_words(std::size_t value) { return std::to_string(value); }
std::string in_words(int value) { return std::to_string(value); }

std::string ordinal(int down) {
  constexpr const char* words[] = {"first", "second", "third", "fourth"};
  return words[std::clamp(down, 1, 4) - 1];
}

std::string place(const Snap& snap) {
  return ordinal(snap.down) + " and " + in_words(snap.to_go) + " with " +
         in_words(snap.yards_to_goal) + " to the goal";
}

/// Snaps whose id an earlier one has, each with that one's line.
std::map<const Snap*, std::size_t> repeated_ids(const Chart& chart) {
  std::vector<const Snap*> snaps;
  for (const Snap& snap : chart.snaps)
    if (!snap.snap_id.empty()) snaps.push_back(&snap);
  std::stable_sort(snaps.begin(), snaps.end(),
                   [](const Snap* a, const Snap* b) { return a->snap_id < b->snap_id; });
  std::map<const Snap*, std::size_t> repeated;
  const Snap* first = nullptr;
  for (const Snap* snap : snaps)
    if (first && first->snap_id == snap->snap_id)
      repeated[snap] = first->line;
    else
      first = snap;
  return repeated;
}

class Watch {
 public:
  explicit Watch(const Chart& chart) : chart_(chart), repeated_ids_(repeated_ids(chart)) {}

  Findings run() {
    const Snap* before = nullptr;
    for (const Snap& snap : chart_.snaps) {
      check_alone(snap);
      check_game(snap, before);
      check_id(snap);
      if (before && before->game == snap.game) check_pair(*before, snap);
      before = &snap;
    }
    return std::move(findings_);
  }

 private:
  void warn(const Snap& snap, ChartColumn column, const std::string& what,
            const std::string& mend) {
    findings_.push_back(
        {{chart_.source, snap.line, std::string(word(column))}, what, mend, Severity::warning});
  }

  void check_alone(const Snap& snap) {
    const bool goal_to_go = snap.to_go == snap.yards_to_goal;
    if (snap.down == 1 && snap.to_go % 5 != 0 && !goal_to_go)
      warn(snap, ChartColumn::to_go, "first and " + in_words(snap.to_go) + " is rare",
           "first downs have 10 to go, or the distance to the goal");
    if (snap.result == Result::complete && snap.catchable == false)
      warn(snap, ChartColumn::catchable, "caught, yet charted as not catchable",
           "a ball that was caught was catchable");
  }

  void check_game(const Snap& snap, const Snap* before) {
    const auto [entry, is_new] = games_.try_emplace(snap.game, &snap);
    if (!is_new && before && before->game != snap.game)
      warn(snap, ChartColumn::game, snap.game.str() + " comes back after " + before->game.str(),
           "keep the rows of a game together, in order of play");
    if (!is_new && entry->second->level != snap.level)
      warn(snap, ChartColumn::level,
           snap.level.str() + ", but " + entry->second->level.str() + " on line " +
               in_words(entry->second->line),
           "give a game one level");
  }

  void check_id(const Snap& snap) {
    const auto entry = repeated_ids_.find(&snap);
    if (entry != repeated_ids_.end())
      warn(snap, ChartColumn::snap_id, "the id is that of line " + in_words(entry->second),
           "give each snap its own, or drop the row if it is there twice");
  }

  void check_pair(const Snap& before, const Snap& snap) {
    if (before.quarter && snap.quarter && *snap.quarter < *before.quarter)
      warn(snap, ChartColumn::quarter,
           "quarter " + in_words(*snap.quarter) + " after quarter " + in_words(*before.quarter),
           "keep rows in order of play");
    if (is_repeated(before, snap)) {
      warn(snap, ChartColumn::down, "the same snap as line " + in_words(before.line),
           "drop one of them if it was charted twice");
      return;
    }
    if (!half_between(before, snap)) check_follows(before, snap);
  }

  static bool is_repeated(const Snap& a, const Snap& b) {
    const auto key = [](const Snap& s) {
      return std::tie(s.down, s.to_go, s.yards_to_goal, s.family, s.result, s.yards, s.air_yards,
                      s.yac);
    };
    return a.result != Result::no_play && key(a) == key(b) && !series_may_restart(a);
  }

  static bool half_between(const Snap& a, const Snap& b) {
    const auto half = [](int quarter) { return quarter <= 2 ? 1 : quarter <= 4 ? 2 : quarter; };
    return a.quarter && b.quarter && half(*a.quarter) != half(*b.quarter);
  }

  static bool loses_ball_or_scores(const Snap& snap) {
    return snap.result == Result::intercepted || snap.fumble_lost.value_or(false) ||
           snap.yards >= snap.yards_to_goal || snap.yards_to_goal - snap.yards >= 100;
  }

  /// Whether a drive can end after the snap, so that the next row may be anywhere.
  static bool series_may_restart(const Snap& snap) {
    return loses_ball_or_scores(snap) || (snap.down >= 3 && snap.yards < snap.to_go);
  }

  void check_follows(const Snap& before, const Snap& snap) {
    if (before.result == Result::no_play) {
      check_after_replay(before, snap);
    } else if (loses_ball_or_scores(before)) {
      return;
    } else if (before.yards >= before.to_go) {
      check_after_first_down(before, snap);
    } else if (before.down <= 2 || snap.down == before.down + 1) {
      check_inside_series(before, snap);
    } else if (snap.down != 1) {
      warn(snap, ChartColumn::down, ordinal(snap.down) + " down after " + after(before),
           "add the row between, or mend the down");
    }
  }

  static std::string after(const Snap& snap) {
    return place(snap) + " and a gain of " + in_words(snap.yards) + " on line " +
           in_words(snap.line);
  }

  void check_after_replay(const Snap& before, const Snap& snap) {
    if (snap.down == before.down || snap.down == 1 || before.down >= 3) return;
    if (snap.down == before.down + 1) return;  // the foul stood after the play
    warn(snap, ChartColumn::down,
         ordinal(snap.down) + " down after a replayed " + ordinal(before.down) + " down",
         "mend the down, or add the row between");
  }

  void check_after_first_down(const Snap& before, const Snap& snap) {
    if (snap.down != 1) {
      warn(snap, ChartColumn::down,
           ordinal(snap.down) + " down after " + after(before) + ", which made a first down",
           "mend the down, the yards or the distance");
      return;
    }
    check_spot(before, snap);
  }

  void check_inside_series(const Snap& before, const Snap& snap) {
    if (snap.down == 1) {
      warn(snap, ChartColumn::down, "a first down that does not follow from " + after(before),
           "chart the foul as a no_play row, or mend the row");
      return;
    }
    if (snap.down != before.down + 1) {
      warn(snap, ChartColumn::down, ordinal(snap.down) + " down after " + after(before),
           "mend the down, or add the row between");
      return;
    }
    check_spot(before, snap);
    const int line_before = before.yards_to_goal - before.to_go;
    const int line_now = snap.yards_to_goal - snap.to_go;
    const int wanted = snap.yards_to_goal - line_before;
    if (std::abs(line_before - line_now) > rounding)
      warn(snap, ChartColumn::to_go,
           in_words(snap.to_go) + " to go does not follow from " + after(before),
           wanted >= 1 ? "give " + in_words(wanted) : "mend the spot or the distance");
  }

  void check_spot(const Snap& before, const Snap& snap) {
    const int expected = before.yards_to_goal - before.yards;
    if (std::abs(snap.yards_to_goal - expected) <= rounding) return;
    warn(snap, ChartColumn::yards_to_goal,
         "the ball jumps to " + in_words(snap.yards_to_goal) + " after " + after(before),
         "give " + in_words(expected) + ", or chart the foul between as a no_play row");
  }

  const Chart& chart_;
  Findings findings_;
  std::map<std::string_view, const Snap*> games_;
  std::map<const Snap*, std::size_t> repeated_ids_;
};

}  // namespace

Findings odd_rows(const Chart& chart) { return Watch(chart).run(); }

}  // namespace callfit
