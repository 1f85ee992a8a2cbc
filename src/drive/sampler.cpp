#include <drive/sampler.hpp>

#include <algorithm>
#include <map>
#include <stdexcept>
#include <tuple>
#include <utility>

namespace callfit::drive {
namespace {

using Outcomes = std::vector<WeightedOutcome>;

/// All columns, and tables added to them.
class Columns {
 public:
  TableRef add(const AliasTable& table) {
    if (columns_.size() > TableRef::most_columns)
      throw std::length_error("make_sampler: more columns than tables can name");
    const TableRef place(columns_.size(), table.bits);
    columns_.insert(columns_.end(), table.columns.begin(), table.columns.end());
    return place;
  }
  /// What cannot happen leads to some table or other; nobody looks there.
  TableRef add(const Outcomes& outcomes) {
    const bool possible = std::any_of(outcomes.begin(), outcomes.end(),
                                      [](const WeightedOutcome& o) { return o.probability > 0; });
    return possible ? add(make_alias(outcomes)) : TableRef{};
  }
  std::vector<AliasColumn> take() { return std::move(columns_); }

 private:
  std::vector<AliasColumn> columns_;
};

void add_takeovers(Outcomes& outcomes, DriveResult how, const Takeover& where, double share) {
  for (Slot s = 0; s < slot_count; ++s)
    outcomes.push_back({end_outcome(Kind::end, how, s), share * where[s]});
}

void add_kick(Outcomes& outcomes, const Endings& endings, std::size_t spot, double share) {
  const double made = endings.kick_made[spot];
  outcomes.push_back({end_outcome(Kind::end, DriveResult::field_goal, kickoff_slot), share * made});
  outcomes.push_back(
      {end_outcome(Kind::end, DriveResult::missed_field_goal, endings.missed_kick[spot]),
       share * (1 - made)});
}

Outcomes takeover_outcomes(DriveResult how, const Takeover& where) {
  Outcomes outcomes;
  add_takeovers(outcomes, how, where, 1);
  return outcomes;
}

Outcomes penalty_outcomes(const PenaltyMoves& moves) {
  Outcomes outcomes;
  const auto add = [&](const std::vector<Move>& list, PenaltyKind kind) {
    const auto add_part = [&](int flag, const Move& move, double probability) {
      const int how = static_cast<int>(kind) + flag;
      if (probability > 0)
        outcomes.push_back(
            {outcome_of(Kind::move, (how << part_shift) + move.own_yard), probability});
    };
    for (const Move& move : list) {
      add_part(with_play_flag, move, move.with_play);
      add_part(0, move, move.probability - move.with_play);
    }
  };
  add(moves.replay, PenaltyKind::replay);
  add(moves.next_down, PenaltyKind::next_down);
  add(moves.first_down, PenaltyKind::first_down);
  return outcomes;
}

/// Tables that all classes share, in the order of Places.
std::vector<TableRef> shared_tables(const Plan& plan, Columns& columns) {
  std::vector<TableRef> tables;
  for (const auto& moves : plan.penalties)
    for (const PenaltyMoves& at_spot : moves)
      tables.push_back(columns.add(penalty_outcomes(at_spot)));
  const Endings& endings = plan.endings;
  for (const Takeover& where : endings.interception)
    tables.push_back(columns.add(takeover_outcomes(DriveResult::interception, where)));
  for (const Takeover& where : endings.fumble)
    tables.push_back(columns.add(takeover_outcomes(DriveResult::fumble, where)));
  const double pulled_back = plan.setting.spotted_short;
  tables.push_back(columns.add({{outcome_of(Kind::reached), 1 - pulled_back},
                                {outcome_of(Kind::pulled_back), pulled_back}}));
  for (int spot = 0; spot < field_length; ++spot) {
    const double safety = plan.setting.own_goal_safety(spot);
    tables.push_back(
        columns.add({{end_outcome(Kind::end, DriveResult::safety, safety_slot), safety},
                     {outcome_of(Kind::kept_out), 1 - safety}}));
  }
  return tables;
}

/// Tables of one class, in the order of Places.
class ClassBuilder {
 public:
  ClassBuilder(const Plan& plan, const ClassTable& table, const FourthDownPlan& policy,
               Columns& columns)
      : plan_(plan), table_(table), policy_(policy), columns_(columns) {}

  std::vector<TableRef> build(const std::vector<TableRef>& shared) {
    for (const Slice& slice : plan_.layout.slices) add_slice(slice);
    for (std::size_t s = 0; s < state_count; ++s) tables_.push_back(state(s));
    tables_.insert(tables_.end(), states_per_down,
                   columns_.add({{outcome_of(Kind::out_of_downs), 1}}));
    for (std::size_t i = 0; i < plays_.size(); ++i)
      tables_.push_back(gone_for_[i] ? columns_.add(plays_[i]) : TableRef{});
    for (const Outcomes& outcomes : lost_gains_) tables_.push_back(columns_.add(outcomes));
    for (std::size_t c = 0; c < plan_.contexts.size(); ++c)
      tables_.push_back(columns_.add(depths(c)));
    tables_.insert(tables_.end(), shared.begin(), shared.end());
    return std::move(tables_);
  }

 private:
  double interception(std::size_t context) const {
    const std::size_t families = plan_.setting.families.size();
    double sum = 0;
    for (std::size_t f = 0; f < families; ++f) sum += table_.interception[context * families + f];
    return sum;
  }

  Outcomes gains(const Slice& slice, const std::vector<double>& pool, Kind kind) const {
    Outcomes outcomes;
    for (int i = 0; i < slice.count; ++i) {
      const double probability = pool[slice.offset + static_cast<std::size_t>(i)];
      if (probability > 0) outcomes.push_back({outcome_of(kind, i), probability});
    }
    return outcomes;
  }

  void add_slice(const Slice& slice) {
    lost_gains_.push_back(gains(slice, table_.fumble, Kind::lost_gain));
    plays_.push_back(play_outcomes(slice, lost_gains_.back()));
    gone_for_.push_back(false);
  }

  Outcomes play_outcomes(const Slice& slice, const Outcomes& lost_gains) const {
    Outcomes outcomes = gains(slice, table_.keep, Kind::gain);
    const double intercepted = interception(slice.context);
    double rest = 1 - intercepted;
    for (const WeightedOutcome& kept : outcomes) rest -= kept.probability;
    double fumbled = 0;
    for (const WeightedOutcome& lost : lost_gains) fumbled += lost.probability;
    const Outcome scored = end_outcome(Kind::end_on_play, DriveResult::touchdown, kickoff_slot);
    outcomes.push_back({scored, std::max(0.0, rest - fumbled)});
    outcomes.push_back({outcome_of(Kind::fumble), fumbled});
    outcomes.push_back({outcome_of(Kind::interception), intercepted});
    return outcomes;
  }

  Outcomes depths(std::size_t context) const {
    Outcomes outcomes;
    const auto& families = plan_.setting.families;
    for (std::size_t f = 0; f < families.size(); ++f) {
      const double share = table_.interception[context * families.size() + f];
      if (share <= 0 || !families[f].interception_depth) continue;
      const YardPmf& depth = *families[f].interception_depth;
      for (int d = depth.first; d <= depth.last(); ++d)
        outcomes.push_back({outcome_of(Kind::depth, d + depth_offset), share * depth.at(d)});
    }
    return outcomes;
  }

  TableRef state(std::size_t index) {
    const std::uint16_t set = plan_.penalty_set_of[index];
    const std::size_t row = plan_.row_of[index];
    const std::uint32_t slice = plan_.layout.slice_of[row];
    if (index < fourth_down) return snap(slice, set);
    const FourthDownShares& shares = policy_[index - fourth_down];
    if (shares.go > 0) gone_for_[slice] = true;
    return choice(shares, plan_.rows[row].yards_to_goal, set);
  }

  TableRef snap(std::uint32_t slice, std::uint16_t set) {
    const auto [known, is_new] = snaps_.try_emplace({slice, set});
    if (is_new) known->second = add_snap(plays_[slice], set);
    return known->second;
  }

  TableRef choice(const FourthDownShares& shares, int yards_to_goal, std::uint16_t set) {
    const auto [known, is_new] = choices_.try_emplace({shares.go, shares.punt, yards_to_goal, set});
    if (is_new) known->second = add_snap(choice_outcomes(shares, yards_to_goal), set);
    return known->second;
  }

  Outcomes choice_outcomes(const FourthDownShares& shares, int yards_to_goal) const {
    const auto spot = static_cast<std::size_t>(yards_to_goal);
    Outcomes outcomes{{outcome_of(Kind::go), shares.go}};
    add_takeovers(outcomes, DriveResult::punt, plan_.endings.punt[spot], shares.punt);
    add_kick(outcomes, plan_.endings, spot, shares.field_goal);
    return outcomes;
  }

  // What comes before the outcomes: the half may end, a penalty may be called.
  TableRef add_snap(const Outcomes& play, std::uint16_t set) {
    const double on = 1 - plan_.half_hazard;
    const double penalty = plan_.penalties[set][1].total;  // the same at every spot
    Outcomes outcomes;
    outcomes.reserve(play.size() + 2);
    for (const WeightedOutcome& each : play)
      outcomes.push_back({each.outcome, each.probability * (on * (1 - penalty))});
    outcomes.push_back({outcome_of(Kind::penalty), on * penalty});
    outcomes.push_back(
        {end_outcome(Kind::end, DriveResult::end_of_half, half_slot), plan_.half_hazard});
    return columns_.add(outcomes);
  }

  const Plan& plan_;
  const ClassTable& table_;
  const FourthDownPlan& policy_;
  Columns& columns_;
  std::vector<TableRef> tables_;
  std::vector<Outcomes> plays_, lost_gains_;  // by slice
  std::vector<bool> gone_for_;                // on fourth down, by slice
  std::map<std::pair<std::uint32_t, std::uint16_t>, TableRef> snaps_;
  std::map<std::tuple<double, double, int, std::uint16_t>, TableRef> choices_;
};

Places lay_out(const Plan& plan) {
  Places places;
  const auto size = [](const auto& list) { return static_cast<std::uint32_t>(list.size()); };
  places.go = places.out_of_downs + states_per_down;
  places.lost_gain = places.go + size(plan.layout.slices);
  places.depth = places.lost_gain + size(plan.layout.slices);
  places.penalty = places.depth + size(plan.contexts);
  places.interception = places.penalty + size(plan.penalties) * field_length;
  places.fumble = places.interception + size(plan.endings.interception);
  places.at_the_line = places.fumble + size(plan.endings.fumble);
  places.own_goal = places.at_the_line + 1;
  return places;
}

}  // namespace

Sampler make_sampler(const Table& table) {
  const Plan& plan = *table.plan;
  if (plan.classes() > most_classes)
    throw std::length_error("make_sampler: more quality classes than a start can name");
  Columns columns;
  const std::vector<TableRef> shared = shared_tables(plan, columns);
  const std::vector<FourthDownPlan> policies = policies_of(table);
  Sampler sampler{table.plan, {}, {}, lay_out(plan)};
  for (std::size_t k = 0; k < table.classes.size(); ++k)
    sampler.classes.push_back(
        ClassBuilder(plan, table.classes[k], policies[k], columns).build(shared));
  sampler.columns = columns.take();
  return sampler;
}

AliasTable make_starts(const Plan& plan, const std::vector<double>& start_share) {
  Outcomes outcomes;
  for (std::size_t k = 0; k < plan.classes(); ++k) {
    const auto first = static_cast<Outcome>(k << part_shift);
    if (start_share.empty()) outcomes.push_back({first, class_weight(plan, k)});
    for (std::size_t y = 1; y < start_share.size(); ++y)
      outcomes.push_back({static_cast<Outcome>(first + y), class_weight(plan, k) * start_share[y]});
  }
  return make_alias(outcomes);
}

}  // namespace callfit::drive
