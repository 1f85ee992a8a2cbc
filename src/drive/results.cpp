// What drives come to, by pushing them forward instead of solving a column for each result.
#include <drive/exact.hpp>
#include <drive/visits.hpp>

#include <numeric>

namespace callfit {
namespace drive {
namespace {

class FlowOfClass {
 public:
  FlowOfClass(const Table& table, std::size_t quality, const FourthDownPlan& policy)
      : plan_(*table.plan), table_(table.classes[quality]), policy_(policy) {}

  DriveFlow after(const std::vector<double>& visits) {
    const std::vector<double> plays = plays_by_row(plan_, policy_, visits);
    for (std::size_t r = 0; r < plays.size(); ++r) end_plays(r, plays[r]);
    flow_.plays = std::accumulate(plays.begin(), plays.end(), 0.0);
    for (int line = 0; line < line_count; ++line)
      for (int own = 1; own <= spots_short_of(line); ++own) {
        for (int down = 1; down <= down_count; ++down)
          move_on(down, line, own, visits[state_index(down, line, own)]);
        end_fourth_downs(line, own, visits[state_index(down_count, line, own)]);
      }
    at(DriveResult::end_of_half) =
        plan_.half_hazard * std::accumulate(visits.begin(), visits.end(), 0.0);
    return flow_;
  }

 private:
  double& at(DriveResult result) { return flow_.share[static_cast<std::size_t>(result)]; }

  // Series that plays and penalties open, and penalties that count as plays.
  void move_on(int down, int line, int own, double visits) {
    if (visits == 0) return;
    const std::size_t state = state_index(down, line, own);
    const std::size_t r = plan_.row_of[state];
    const int spot = field_length - own;
    flow_.first_downs +=
        plays_at(plan_, policy_, state, visits) * sum_of_gains(table_.keep, r, spot - line, spot);
    const PenaltyMoves& moves =
        plan_.penalties[plan_.penalty_set_of[state]][static_cast<std::size_t>(own)];
    const double met = visits * (1 - plan_.half_hazard);
    flow_.plays += met * moves.with_play;
    for (const Move& move : moves.first_down) flow_.first_downs += met * move.probability;
    for (const Move& move : moves.replay)
      if (move.own_yard > spots_short_of(line)) flow_.first_downs += met * move.probability;
    for (const Move& move : moves.next_down)
      if (move.own_yard > spots_short_of(line)) flow_.first_downs += met * move.probability;
  }

  double sum_of_gains(const std::vector<double>& pool, std::size_t r, int from, int to) const {
    const double* start = pool.data() + plan_.layout.of_row(r).offset;
    double sum = 0;
    for (int g = std::max(from, plan_.first_gain); g < to; ++g) sum += start[g - plan_.first_gain];
    return sum;
  }

  void end_plays(std::size_t r, double plays) {
    if (plays == 0) return;
    const Row& row = plan_.rows[r];
    const int spot = row.yards_to_goal;
    const std::size_t families = plan_.setting.families.size();
    const double* caught = table_.interception.data() + row.context * families;
    at(DriveResult::touchdown) += plays * table_.touchdown[r];
    at(DriveResult::interception) += plays * std::accumulate(caught, caught + families, 0.0);
    at(DriveResult::fumble) += plays * sum_of_gains(table_.fumble, r, plan_.first_gain, spot);
    at(DriveResult::safety) +=
        plays * sum_of_gains(table_.keep, r, plan_.first_gain, spot - field_length + 1);
  }

  void end_fourth_downs(int line, int own, double visits) {
    if (visits == 0) return;
    const std::size_t state = state_index(down_count, line, own);
    const PenaltyMoves& moves =
        plan_.penalties[plan_.penalty_set_of[state]][static_cast<std::size_t>(own)];
    const std::size_t r = plan_.row_of[state];
    const int spot = field_length - own;
    const FourthDownShares& shares = policy_[place_index(line, own)];
    const double met = visits * (1 - plan_.half_hazard);
    const double snapped = met * (1 - moves.total);
    const double made = plan_.endings.kick_made[static_cast<std::size_t>(spot)];
    at(DriveResult::punt) += snapped * shares.punt;
    at(DriveResult::field_goal) += snapped * shares.field_goal * made;
    at(DriveResult::missed_field_goal) += snapped * shares.field_goal * (1 - made);
    const int to_go = spot - line;
    const double pulled_back =
        spotted_short(plan_, line) * sum_of_gains(table_.keep, r, to_go, to_go + 1);
    at(DriveResult::downs) +=
        snapped * shares.go * (sum_of_gains(table_.keep, r, spot - last_spot, to_go) + pulled_back);
    for (const Move& move : moves.next_down)
      if (move.own_yard <= spots_short_of(line)) at(DriveResult::downs) += met * move.probability;
  }

  const Plan& plan_;
  const ClassTable& table_;
  const FourthDownPlan& policy_;
  DriveFlow flow_;
};

}  // namespace
}  // namespace drive

DriveFlow flow_over(const DriveModel& model, const std::vector<double>& start_share) {
  const drive::Table& table = model.table();
  const std::vector<drive::FourthDownPlan> policies = drive::policies_of(table);
  DriveFlow out;
  const auto visits = drive::visits_of(table, policies, start_share);
  for (std::size_t k = 0; k < visits.size(); ++k) {
    const DriveFlow flow = drive::FlowOfClass(table, k, policies[k]).after(visits[k]);
    const double weight = drive::class_weight(*table.plan, k);
    for (std::size_t r = 0; r < out.share.size(); ++r) out.share[r] += weight * flow.share[r];
    out.first_downs += weight * flow.first_downs;
    out.plays += weight * flow.plays;
  }
  return out;
}

}  // namespace callfit
