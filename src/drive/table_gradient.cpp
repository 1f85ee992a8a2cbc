#include <drive/table_gradient.hpp>

namespace callfit::drive {
namespace {

constexpr std::size_t columns = 2;  // points and net

class Gatherer {
 public:
  Gatherer(const Plan& plan, const std::vector<double>& values, std::size_t column)
      : plan_(plan),
        values_(values),
        column_(column),
        touchdown_(plan.point_rewards.touchdown[column]),
        row_plays_(plan.rows.size(), 0.0) {
    gradient_.keep.assign(plan.pool_size, 0.0);
    gradient_.fumble.assign(plan.pool_size, 0.0);
    gradient_.interception.assign(plan.contexts.size() * plan.setting.families.size(), 0.0);
  }

  TableGradient gather(const FourthDownPlan& policy, const std::vector<double>& visits) {
    for (int down = 1; down <= down_count; ++down)
      for (int line = 0; line < line_count; ++line)
        for (int own = 1; own <= spots_short_of(line); ++own) {
          const std::size_t state = state_index(down, line, own);
          if (visits[state] > 0)
            add_state(down, line, own, plays_at(plan_, policy, state, visits[state]));
        }
    for (std::size_t r = 0; r < plan_.rows.size(); ++r) add_turnovers(r);
    return std::move(gradient_);
  }

 private:
  double reward(const std::vector<double>& by_yards, int yards_to_goal) const {
    return by_yards[static_cast<std::size_t>(yards_to_goal) * columns + column_];
  }
  double value_at(int down, int line, int own) const {
    return values_[state_index(down, line, own) * columns + column_];
  }
  double series_at(int own) const {
    return value_at(1, line_of_series(field_length - own), own) +
           plan_.point_rewards.first_down[column_];
  }

  // What is worth having after a gain, the ball kept.
  double after(int down, int line, int own, int gain) const {
    const int spot = field_length - own;
    if (gain <= spot - field_length) return plan_.point_rewards.safety[column_];
    if (gain >= spot - line) return series_at(own + gain);
    if (down == down_count) return reward(plan_.point_rewards.downs, spot - gain);
    return value_at(down + 1, line, own + gain);
  }

  void add_state(int down, int line, int own, double plays) {
    const std::size_t r = plan_.row_of[state_index(down, line, own)];
    const Row& row = plan_.rows[r];
    row_plays_[r] += plays;
    double* keep = gradient_.keep.data() + plan_.slices[row.slice].offset;
    for (int g = plan_.first_gain; g < row.yards_to_goal; ++g)
      keep[g - plan_.first_gain] += plays * (after(down, line, own, g) - touchdown_);
  }

  // Turnovers are worth the same whatever the down and the line.
  void add_turnovers(std::size_t r) {
    const Row& row = plan_.rows[r];
    const double plays = row_plays_[r];
    double* fumble = gradient_.fumble.data() + plan_.slices[row.slice].offset;
    for (int g = plan_.first_gain; g < row.yards_to_goal; ++g) {
      const int spot = std::min(row.yards_to_goal - g, last_spot);
      fumble[g - plan_.first_gain] +=
          plays * (reward(plan_.point_rewards.fumble, spot) - touchdown_);
    }
    const std::size_t families = plan_.setting.families.size();
    for (std::size_t f = 0; f < families; ++f) {
      const auto at = static_cast<int>(f) * field_length + row.yards_to_goal;
      gradient_.interception[row.context * families + f] +=
          plays * (reward(plan_.point_rewards.interception, at) - touchdown_);
    }
  }

  const Plan& plan_;
  const std::vector<double>& values_;
  std::size_t column_;
  double touchdown_;
  std::vector<double> row_plays_;
  TableGradient gradient_;
};

}  // namespace

TableGradient table_gradient(const Plan& plan, const FourthDownPlan& policy,
                             const std::vector<double>& values, const std::vector<double>& visits,
                             std::size_t column) {
  return Gatherer(plan, values, column).gather(policy, visits);
}

}  // namespace callfit::drive
