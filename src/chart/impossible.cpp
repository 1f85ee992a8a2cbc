#include <callfit/chart/impossible.hpp>

#include <initializer_list>
#include <optional>

namespace callfit {
namespace {

struct Fault {
  std::string what;
  std::string mend;
};
using Verdict = std::optional<Fault>;

/// `blamed` is the column to mend, `reads` are the others that the rule depends on.
struct Rule {
  ChartColumn blamed;
  std::initializer_list<ChartColumn> reads;
  Verdict (*judge)(const Snap&);
};

std::string text(int value) { return std::to_string(value); }

std::string article(Result result) {
  const std::string name(word(result));
  if (result == Result::incomplete || result == Result::intercepted) return "an " + name + " throw";
  return result == Result::complete ? "a completion" : "a " + name;
}

Verdict outside(int value, int low, int high) {
  if (low <= value && value <= high) return {};
  return Fault{text(value) + " is not possible", "give " + text(low) + " to " + text(high)};
}

Verdict down_exists(const Snap& snap) { return outside(snap.down, 1, 4); }

Verdict spot_exists(const Snap& snap) { return outside(snap.yards_to_goal, 1, 99); }

Verdict distance_exists(const Snap& snap) {
  if (snap.to_go >= 1) return {};
  return Fault{text(snap.to_go) + " is not possible", "give at least 1 (inches count as 1)"};
}

Verdict distance_within_field(const Snap& snap) {
  if (snap.to_go <= snap.yards_to_goal || spot_exists(snap)) return {};
  return Fault{text(snap.to_go) + " lies beyond the goal line, which is " +
                   text(snap.yards_to_goal) + " away",
               "give at most " + text(snap.yards_to_goal) + " (goal to go)"};
}

Verdict quarter_exists(const Snap& snap) {
  return snap.quarter ? outside(*snap.quarter, 1, 9) : Verdict{};
}

Verdict gain_within_field(const Snap& snap) {
  if (spot_exists(snap)) return {};
  if (snap.yards > snap.yards_to_goal)
    return Fault{text(snap.yards) + " lies beyond the goal line, which is " +
                     text(snap.yards_to_goal) + " away",
                 "give at most " + text(snap.yards_to_goal) + " (a touchdown)"};
  const int own_line = snap.yards_to_goal - 100;
  if (snap.yards < own_line)
    return Fault{text(snap.yards) + " lies behind the own goal line",
                 "give at least " + text(own_line) + " (a safety)"};
  return {};
}

Verdict sack_loses(const Snap& snap) {
  if (snap.result != Result::sack || snap.yards <= 0) return {};
  return Fault{"a sack cannot gain " + text(snap.yards), "give 0 or a loss, or chart a scramble"};
}

Verdict no_gain_without_catch(const Snap& snap) {
  if (snap.yards == 0) return {};
  if (snap.result == Result::incomplete)
    return Fault{text(snap.yards) + " yards on an incomplete throw",
                 "give 0, or chart where the ball landed as air_yards"};
  if (snap.result == Result::intercepted)
    return Fault{text(snap.yards) + " yards on an intercepted throw",
                 "give 0: the return is not the offence's gain"};
  return {};
}

Verdict caught_before_run_after(const Snap& snap) {
  if (!snap.yac || *snap.yac == 0 || snap.result == Result::complete) return {};
  return Fault{"yards after the catch on " + article(snap.result), "leave it blank"};
}

Verdict yac_within_gain(const Snap& snap) {
  if (snap.result != Result::complete || !snap.yac || snap.air_yards) return {};
  if (*snap.yac <= snap.yards) return {};
  return Fault{text(*snap.yac) + " after the catch, but the play gained " + text(snap.yards),
               "give at most " + text(snap.yards) +
                   ", or chart air_yards below 0 for a catch behind the line"};
}

bool in_end_zone(const Snap& snap) {
  return snap.air_yards && *snap.air_yards >= snap.yards_to_goal;
}

Verdict parts_add_up(const Snap& snap) {
  if (snap.result != Result::complete || !snap.yac || !snap.air_yards || in_end_zone(snap))
    return {};
  if (*snap.air_yards + *snap.yac == snap.yards) return {};
  return Fault{"air_yards " + text(*snap.air_yards) + " and yac " + text(*snap.yac) +
                   " do not make yards " + text(snap.yards),
               "give yac " + text(snap.yards - *snap.air_yards) + " or mend one of the others"};
}

Verdict end_zone_catch_scores(const Snap& snap) {
  if (snap.result != Result::complete || !in_end_zone(snap) || spot_exists(snap)) return {};
  if (snap.yards != snap.yards_to_goal)
    return Fault{"caught in the end zone, yet no touchdown",
                 "give yards " + text(snap.yards_to_goal) + " or mend air_yards"};
  if (snap.yac.value_or(0) != 0)
    return Fault{"caught in the end zone, yet yards after the catch", "give yac 0"};
  return {};
}

Verdict ball_stays_in_reach(const Snap& snap) {
  if (!snap.air_yards || !is_throw(snap.result) || spot_exists(snap)) return {};
  const int end_line = snap.yards_to_goal + 10;
  if (snap.result == Result::complete && *snap.air_yards > end_line)
    return Fault{"caught beyond the end line, " + text(end_line) + " yards away",
                 "give at most " + text(end_line)};
  return outside(*snap.air_yards, snap.yards_to_goal - 110, 90);
}

Verdict thrown_to_fly(const Snap& snap) {
  if (!snap.air_yards || is_throw(snap.result) || snap.result == Result::no_play) return {};
  return Fault{"no ball was thrown on " + article(snap.result), "leave it blank"};
}

Verdict thrown_to_be(const Snap& snap, const std::optional<bool>& charted) {
  if (!charted.value_or(false) || is_throw(snap.result) || snap.result == Result::no_play)
    return {};
  return Fault{"no ball was thrown on " + article(snap.result), "leave it blank"};
}

Verdict thrown_on_time(const Snap& snap) { return thrown_to_be(snap, snap.on_time); }
Verdict thrown_catchable(const Snap& snap) { return thrown_to_be(snap, snap.catchable); }

Verdict eleven_defenders(const Snap& snap) {
  return snap.evaded ? outside(*snap.evaded, 0, 11) : Verdict{};
}

Verdict live_ball_to_lose(const Snap& snap) {
  if (!snap.fumble_lost.value_or(false)) return {};
  if (snap.result != Result::incomplete && snap.result != Result::intercepted) return {};
  return Fault{"the offence cannot lose a fumble on " + article(snap.result), "give no"};
}

Verdict clip_runs_forward(const Snap& snap) {
  if (!snap.start || !snap.end || *snap.start <= *snap.end) return {};
  return Fault{"the snap ends before it starts", "mend start or end"};
}

using enum ChartColumn;

// A replayed down happened, so its place must make sense; what it gained does not count.
const Rule before_snap[] = {
    {down, {}, down_exists},       {yards_to_goal, {}, spot_exists},
    {to_go, {}, distance_exists},  {to_go, {yards_to_goal}, distance_within_field},
    {quarter, {}, quarter_exists}, {end, {start}, clip_runs_forward},
};

const Rule after_snap[] = {
    {yards, {yards_to_goal}, gain_within_field},
    {yards, {result}, sack_loses},
    {yards, {result}, no_gain_without_catch},
    {yac, {result}, caught_before_run_after},
    {yac, {result, yards, air_yards}, yac_within_gain},
    {yac, {result, yards, air_yards, yards_to_goal}, parts_add_up},
    {air_yards, {result, yards, yac, yards_to_goal}, end_zone_catch_scores},
    {air_yards, {result, yards_to_goal}, ball_stays_in_reach},
    {air_yards, {result}, thrown_to_fly},
    {on_time, {result}, thrown_on_time},
    {catchable, {result}, thrown_catchable},
    {evaded, {}, eleven_defenders},
    {fumble_lost, {result}, live_ball_to_lose},
};

bool readable(const Rule& rule, const ColumnSet& unreadable) {
  for (const ChartColumn column : rule.reads)
    if (unreadable.test(static_cast<std::size_t>(column))) return false;
  return !unreadable.test(static_cast<std::size_t>(rule.blamed));
}

template <std::size_t N>
void judge(const Rule (&rules)[N], const Snap& snap, const std::string& source,
           const ColumnSet& unreadable, Findings& findings) {
  for (const Rule& rule : rules) {
    if (!readable(rule, unreadable)) continue;
    if (const Verdict fault = rule.judge(snap))
      findings.push_back(
          {{source, snap.line, std::string(word(rule.blamed))}, fault->what, fault->mend});
  }
}

}  // namespace

Findings impossible(const Snap& snap, const std::string& source, const ColumnSet& unreadable) {
  Findings findings;
  judge(before_snap, snap, source, unreadable, findings);
  if (snap.result != Result::no_play) judge(after_snap, snap, source, unreadable, findings);
  return findings;
}

}  // namespace callfit
