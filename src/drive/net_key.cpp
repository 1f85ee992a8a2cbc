// What net values depend on, field by field. Every type is taken apart by all of its members, so
// that a new one does not compile before somebody has said here whether it counts.
#include <callfit/base/digest.hpp>
#include <callfit/drive/drive.hpp>

#include <array>
#include <concepts>
#include <optional>
#include <string>
#include <type_traits>
#include <vector>

namespace callfit {
namespace {

template <class T>
concept Number = std::is_arithmetic_v<T> || std::is_enum_v<T>;

class Key {
 public:
  template <class... Parts>
  void add(const Parts&... parts) {
    (part(parts), ...);
  }
  std::uint64_t value() const { return digest_.value(); }

 private:
  template <Number T>
  void part(T value) {
    if constexpr (std::is_floating_point_v<T>)
      digest_.add(value);
    else
      digest_.add(static_cast<std::uint64_t>(static_cast<std::int64_t>(value)));
  }
  void part(const std::string& text) { digest_.add(text); }
  template <class T>
  void part(const std::vector<T>& list) {
    part(list.size());
    for (const T& each : list) part(each);
  }
  template <class T, std::size_t N>
  void part(const std::array<T, N>& list) {
    for (const T& each : list) part(each);
  }
  template <class T>
  void part(const std::optional<T>& value) {
    part(value.has_value());
    if (value) part(*value);
  }

  void part(const YardPmf& pmf) {
    const auto& [first, p] = pmf;
    add(first, p);
  }
  void part(const GainPopulation& gain) {
    const auto& [shape, bin_start, concentration] = gain;
    add(shape, bin_start);  // the average quarterback does not hang on how others differ
  }
  void part(const RatePopulation& rate) {
    const auto& [mean, spread] = rate;
    add(mean);
  }
  void part(const FamilyPopulation& family) {
    const auto& [id, label, kind, rates, depth, yac, run, interception_depth] = family;
    add(id, kind, rates, depth, yac, run, interception_depth);
  }
  void part(const Shifts& shifts) {
    const auto& [rate, gain] = shifts;
    add(rate, gain);
  }
  void part(const FamilyFilter& filter) {
    const auto& [kinds, families] = filter;
    add(kinds, families);
  }
  void part(const CellRate& rate) {
    const auto& [shift, kappa] = rate;
    add(shift, kappa);
  }
  void part(const CellPopulation& cell) {
    const auto& [which, who, rates, gain_shift] = cell;
    add(which, who, rates, gain_shift);
  }
  void part(const Band& band) {
    const auto& [low, high] = band;
    add(low, high);
  }
  void part(const SituationRule& rule) {
    const auto& [down, to_go, yards_to_goal] = rule;
    add(down, to_go, yards_to_goal);
  }
  void part(const ShellRule& rule) {
    const auto& [when, share] = rule;
    add(when, share);
  }
  void part(const Adjustment& adjustment) {
    const auto& [when, who, shifts] = adjustment;
    add(when, who, shifts);
  }
  void part(const QualityClass& quality) {
    const auto& [weight, shifts] = quality;
    add(weight, shifts);
  }
  void part(const Penalty& penalty) {
    const auto& [id, when, side, probability, yards, move, automatic, spot_foul, counts] = penalty;
    add(when, side, probability, yards, move, automatic, spot_foul, counts);
  }
  void part(const BadSnap& snap) {
    const auto& [probability, fumble_lost] = snap;
    add(probability, fumble_lost);
  }
  void part(const FourthDownRule& rule) {
    const auto& [when, go, punt, field_goal] = rule;
    add(when, go, punt, field_goal);
  }
  void part(const PuntRule& rule) {
    const auto& [yards_to_goal, touchback, return_touchdown, net] = rule;
    add(yards_to_goal, touchback, return_touchdown, net);
  }
  void part(const OwnGoalRule& rule) {
    const auto& [yards_to_goal, safety] = rule;
    add(yards_to_goal, safety);
  }
  void part(const StartKind& start) {
    const auto& [id, share, own_yard] = start;
    add(share, own_yard);
  }
  void part(const GameRules& rules) {
    const auto& [touchdown, try_mean, field_goal, safety, end_zone, beyond, behind, minimum,
                 touchback, hash_gap, safety_kick] = rules;
    add(touchdown, try_mean, field_goal, safety, end_zone, beyond, behind, minimum, touchback,
        safety_kick);
  }
  void part(const FumbleLost& lost) {
    const auto& [sack, completion, scramble, qb_run, handoff] = lost;
    add(sack, completion, scramble, qb_run, handoff);
  }
  void part(const TurnoverReturns& returns) {
    const auto& [interception, interception_touchdown, fumble, fumble_touchdown] = returns;
    add(interception, interception_touchdown, fumble, fumble_touchdown);
  }
  void part(const FieldGoalModel& kick) {
    const auto& [intercept, slope, longest] = kick;
    add(intercept, slope, longest);
  }
  void part(const Kickoff& kick) {
    const auto& [own_yard, return_touchdown] = kick;
    add(own_yard, return_touchdown);
  }
  void part(const Setting& setting) {
    const auto& [id, label, level, rules, success, drives_per_game, surroundings_spread,
                 end_of_half_share, families, population, scramble_gain, sack_gain, fumble_lost,
                 turnovers, cells, levels, shells, adjustments, quality, penalties, bad_snap,
                 spotted_short, spotted_at_goal, own_goal, fourth_down, field_goal, punts, kickoff,
                 starts, average_scheme] = setting;
    add(rules, end_of_half_share, families, scramble_gain, sack_gain, fumble_lost, turnovers, cells,
        shells, adjustments, quality, penalties, bad_snap, spotted_short, spotted_at_goal, own_goal,
        fourth_down, field_goal, punts, kickoff, starts);
  }

  void part(const Family& family) {
    const auto& [id, label, kind, about, like] = family;
    add(id, kind, like);
  }
  void part(const CallSituation& situation) {
    const auto& [id, label, when, share, share_by_shell, snaps] = situation;
    add(when, share, share_by_shell);
  }
  void part(const Scheme& scheme) {
    const auto& [id, name, about, families, situations, demands, correlations, source] = scheme;
    add(families, situations);
  }

  Digest digest_;
};

}  // namespace

std::uint64_t net_values_key(const Setting& setting, const Scheme& average_scheme) {
  Key key;
  key.add(setting, average_scheme);
  return key.value();
}

}  // namespace callfit
