// What drives come to, by pushing them forward instead of solving a column for each result.
#include <drive/exact.hpp>
#include <drive/openings.hpp>
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
    for_each_state([&](const SnapState& at) {
      if (const double here = visits[at.index()]; here > 0) move_on(at, here);
    });
    share(DriveResult::end_of_half) =
        plan_.half_hazard * std::accumulate(visits.begin(), visits.end(), 0.0);
    return flow_;
  }

 private:
  double& share(DriveResult result) { return flow_.share[static_cast<std::size_t>(result)]; }

  // Series that plays and penalties open, penalties that count as plays, and fourth downs.
  void move_on(const SnapState& at, double visits) {
    const double plays = plays_at(plan_, policy_, at.index(), visits);
    const double met = visits * (1 - plan_.half_hazard);
    flow_.plays += met * penalties_at(plan_, at).with_play;
    for_each_opened_by_play(plan_, table_, at,
                            [&](int, double opened) { flow_.first_downs += plays * opened; });
    for_each_opened_by_foul(plan_, at,
                            [&](int, double opened) { flow_.first_downs += met * opened; });
    if (at.down == down_count) end_fourth_down(at, met);
  }

  void end_plays(std::size_t r, double plays) {
    if (plays == 0) return;
    const Row& row = plan_.rows[r];
    const int spot = row.yards_to_goal;
    const std::size_t families = plan_.setting.families.size();
    const double* caught = table_.interception.data() + row.context * families;
    share(DriveResult::touchdown) += plays * table_.touchdown[r];
    share(DriveResult::interception) += plays * std::accumulate(caught, caught + families, 0.0);
    share(DriveResult::fumble) +=
        plays * sum_of_gains(plan_, table_.fumble, r, plan_.first_gain, spot);
    share(DriveResult::safety) += plays * safeties(plan_, table_, r);
  }

  void end_fourth_down(const SnapState& at, double met) {
    const PenaltyMoves& moves = penalties_at(plan_, at);
    const FourthDownShares& shares = policy_[place_index(at.line, at.own)];
    const double snapped = met * (1 - moves.total);
    const double made = plan_.endings.kick_made[static_cast<std::size_t>(at.yards_to_goal())];
    share(DriveResult::punt) += snapped * shares.punt;
    share(DriveResult::field_goal) += snapped * shares.field_goal * made;
    share(DriveResult::missed_field_goal) += snapped * shares.field_goal * (1 - made);
    const double fell_short = sum_of_gains(plan_, table_.keep, plan_.row_of[at.index()],
                                           at.yards_to_goal() - last_spot, at.to_go());
    share(DriveResult::downs) += snapped * shares.go *
                                 (fell_short + share_pulled_back(plan_, table_, at) +
                                  kept_out_of_own_goal(plan_, table_, plan_.row_of[at.index()]));
    for (const Move& move : moves.next_down)
      if (!at.gained_at(move.own_yard)) share(DriveResult::downs) += met * move.probability;
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
