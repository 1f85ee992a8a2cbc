#include <drive/sampler.hpp>

#include <algorithm>
#include <map>
#include <stdexcept>
#include <tuple>
#include <utility>

namespace callfit::drive {
namespace {

using Outcomes = std::vector<WeightedOutcome>;

// A share of 2^32; certainty becomes 1 - 2^-32.
std::uint32_t threshold(double probability) {
  const double scaled = probability * 0x1p32 + 0.5;
  return scaled >= 0x1p32 ? 0xffffffffU : static_cast<std::uint32_t>(scaled);
}

AliasTable alias_or_empty(const Outcomes& outcomes) {
  const bool possible = std::any_of(outcomes.begin(), outcomes.end(),
                                    [](const WeightedOutcome& o) { return o.probability > 0; });
  return possible ? make_alias(outcomes) : AliasTable{};
}

AliasTable takeover_table(const Takeover& where) {
  Outcomes outcomes;
  for (Slot s = 0; s < slot_count; ++s) outcomes.push_back({static_cast<Outcome>(s), where[s]});
  return alias_or_empty(outcomes);
}

AliasTable penalty_table(const PenaltyMoves& moves) {
  Outcomes outcomes;
  const auto add = [&](const std::vector<Move>& list, PenaltyKind kind) {
    for (const Move& move : list)
      outcomes.push_back({penalty_outcome(kind, move.own_yard), move.probability});
  };
  add(moves.replay, PenaltyKind::replay);
  add(moves.next_down, PenaltyKind::next_down);
  add(moves.first_down, PenaltyKind::first_down);
  return alias_or_empty(outcomes);
}

class ClassBuilder {
 public:
  ClassBuilder(const Plan& plan, const ClassTable& table, const FourthDownPlan& policy)
      : plan_(plan), table_(table), policy_(policy) {}

  ClassSampler build() {
    for (const Slice& slice : plan_.slices) add_slice(slice);
    for (std::size_t c = 0; c < plan_.contexts.size(); ++c) out_.depth.push_back(depths(c));
    for (std::size_t s = 0; s < state_count; ++s) out_.states.push_back(state(s));
    return std::move(out_);
  }

 private:
  /// A table of snaps, as states look it up.
  struct Place {
    std::uint32_t first_column = 0;
    std::uint8_t bits = 0;
  };

  double interception(std::size_t context) const {
    const std::size_t families = plan_.setting.families.size();
    double sum = 0;
    for (std::size_t f = 0; f < families; ++f) sum += table_.interception[context * families + f];
    return sum;
  }

  void add_slice(const Slice& slice) {
    Outcomes kept;
    Outcomes lost;
    double rest = 1 - interception(slice.context);
    double fumble = 0;
    for (int i = 0; i < slice.count; ++i) {
      const std::size_t at = slice.offset + static_cast<std::size_t>(i);
      kept.push_back({static_cast<Outcome>(i), table_.keep[at]});
      lost.push_back({static_cast<Outcome>(i), table_.fumble[at]});
      fumble += table_.fumble[at];
      rest -= table_.keep[at] + table_.fumble[at];
    }
    kept.push_back({scored, std::max(0.0, rest)});
    kept.push_back({fumbled, fumble});
    kept.push_back({intercepted, interception(slice.context)});
    out_.play.push_back(make_alias(kept));
    out_.fumble.push_back(alias_or_empty(lost));
    plays_.push_back(std::move(kept));
  }

  AliasTable depths(std::size_t context) const {
    Outcomes outcomes;
    const auto& families = plan_.setting.families;
    for (std::size_t f = 0; f < families.size(); ++f) {
      const double share = table_.interception[context * families.size() + f];
      if (share <= 0 || !families[f].interception_depth) continue;
      const YardPmf& depth = *families[f].interception_depth;
      for (int d = depth.first; d <= depth.last(); ++d)
        outcomes.push_back({static_cast<Outcome>(d + depth_offset), share * depth.at(d)});
    }
    return alias_or_empty(outcomes);
  }

  StateEntry state(std::size_t index) {
    constexpr std::size_t fourth = (down_count - 1) * states_per_down;
    const std::uint32_t slice = plan_.rows[plan_.row_of[index]].slice;
    const std::uint16_t set = plan_.penalty_set_of[index];
    const Place place = index < fourth ? snap(slice, set) : choice(policy_[index - fourth], set);
    return {place.first_column, static_cast<std::uint16_t>(slice), place.bits,
            static_cast<std::uint8_t>(set)};
  }

  Place snap(std::uint32_t slice, std::uint16_t set) {
    const auto [known, is_new] = snaps_.try_emplace({slice, set});
    if (is_new) known->second = add_table(plays_[slice], set);
    return known->second;
  }

  Place choice(const FourthDownShares& shares, std::uint16_t set) {
    const auto [known, is_new] = choices_.try_emplace({shares.go, shares.punt, set});
    if (is_new)
      known->second =
          add_table({{goes, shares.go}, {punts, shares.punt}, {kicks, shares.field_goal}}, set);
    return known->second;
  }

  // What comes before the outcomes: the half may end, a penalty may be called.
  Place add_table(Outcomes outcomes, std::uint16_t set) {
    const double on = 1 - plan_.half_hazard;
    const double penalty = plan_.penalties[set][1].total;  // the same at every spot
    for (WeightedOutcome& outcome : outcomes) outcome.probability *= on * (1 - penalty);
    outcomes.push_back({penalised, on * penalty});
    outcomes.push_back({half_over, plan_.half_hazard});
    const AliasTable table = make_alias(outcomes);
    const Place place{static_cast<std::uint32_t>(out_.columns.size()),
                      static_cast<std::uint8_t>(table.bits)};
    out_.columns.insert(out_.columns.end(), table.columns.begin(), table.columns.end());
    return place;
  }

  const Plan& plan_;
  const ClassTable& table_;
  const FourthDownPlan& policy_;
  ClassSampler out_;
  std::vector<Outcomes> plays_;  // by slice
  std::map<std::pair<std::uint32_t, std::uint16_t>, Place> snaps_;
  std::map<std::tuple<double, double, std::uint16_t>, Place> choices_;
};

// Tables name slices and penalty sets in few bits.
void require_small(const Plan& plan) {
  if (plan.slices.size() > 0xffff || plan.penalties.size() > 0xff)
    throw std::length_error("make_sampler: more situations than the tables can name");
}

}  // namespace

Sampler make_sampler(const Table& table) {
  const Plan& plan = *table.plan;
  require_small(plan);
  Sampler sampler;
  sampler.first_gain = plan.first_gain;
  sampler.missed_kick = plan.endings.missed_kick;
  for (const Slice& slice : plan.slices) sampler.context.push_back(slice.context);
  const std::vector<FourthDownPlan> policies = policies_of(table);
  Outcomes classes;
  for (std::size_t k = 0; k < table.classes.size(); ++k) {
    classes.push_back({static_cast<Outcome>(k), class_weight(plan, k)});
    sampler.classes.push_back(ClassBuilder(plan, table.classes[k], policies[k]).build());
  }
  sampler.quality = make_alias(classes);
  for (const auto& moves : plan.penalties) {
    auto& tables = sampler.penalty.emplace_back();
    for (std::size_t own = 1; own < field_length; ++own) tables[own] = penalty_table(moves[own]);
  }
  for (std::size_t spot = 0; spot < field_length; ++spot) {
    sampler.punt[spot] = takeover_table(plan.endings.punt[spot]);
    sampler.interception[spot] = takeover_table(plan.endings.interception[spot]);
    sampler.fumble[spot] = takeover_table(plan.endings.fumble[spot]);
    sampler.kick_made[spot] = threshold(plan.endings.kick_made[spot]);
  }
  return sampler;
}

}  // namespace callfit::drive
