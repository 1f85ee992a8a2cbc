#include <drive/plan.hpp>

#include <algorithm>
#include <numeric>

namespace callfit::drive {
namespace {

// Below this spot some throw of the context can be caught in the end zone or is cut short by its
// back line, or gains that just reach the goal line are spotted short of it, so that gains there
// are not those of the open field.
int limited_below(const Plan& plan, const std::vector<std::size_t>& plays) {
  int deepest = plan.setting.spotted_at_goal > 0 ? goal_spotting_from : 0;
  for (const std::size_t play : plays) {
    const FamilyPopulation& family = plan.setting.families[plan.plays[play].family];
    if (family.kind == FamilyKind::pass) deepest = std::max(deepest, family.depth->shape.last());
  }
  return deepest + 1;
}

std::uint32_t add_slice(Layout& layout, std::uint32_t context, int spot, int count) {
  layout.slices.push_back({context, spot, count, layout.pool_size});
  layout.pool_size += static_cast<std::size_t>(count);
  return static_cast<std::uint32_t>(layout.slices.size() - 1);
}

std::vector<std::size_t> rows_by_spot(const Plan& plan) {
  std::vector<std::size_t> order(plan.rows.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&plan](std::size_t a, std::size_t b) {
    return plan.rows[a].yards_to_goal < plan.rows[b].yards_to_goal;
  });
  return order;
}

void append(std::vector<double>& values, std::span<const Column> columns, const auto& value) {
  for (const Column& column : columns) values.push_back(value(column));
}

void append_spot(Rewards& rewards, const Endings& endings, std::span<const Column> columns,
                 std::size_t spot) {
  append(rewards.punt, columns,
         [&](const Column& c) { return c.expected(DriveResult::punt, endings.punt[spot]); });
  append(rewards.field_goal, columns, [&](const Column& c) {
    const double made = endings.kick_made[spot];
    return made * c.ending(DriveResult::field_goal, kickoff_slot) +
           (1 - made) * c.ending(DriveResult::missed_field_goal, endings.missed_kick[spot]);
  });
  append(rewards.downs, columns,
         [&](const Column& c) { return c.ending(DriveResult::downs, spot); });
  append(rewards.fumble, columns,
         [&](const Column& c) { return c.expected(DriveResult::fumble, endings.fumble[spot]); });
}

void append_interceptions(Rewards& rewards, const FamilyPopulation& family,
                          const std::array<std::vector<double>, 100>& caught_at) {
  for (int spot = 0; spot < field_length; ++spot) {
    std::vector<double> sum(rewards.columns, 0.0);
    if (family.interception_depth) {
      const YardPmf& depth = *family.interception_depth;
      for (int yards = depth.first; yards <= depth.last(); ++yards) {
        const auto catch_spot = static_cast<std::size_t>(interception_spot(spot, yards));
        for (std::size_t c = 0; c < sum.size(); ++c)
          sum[c] += depth.at(yards) * caught_at[catch_spot][c];
      }
    }
    rewards.interception.insert(rewards.interception.end(), sum.begin(), sum.end());
  }
}

}  // namespace

int interception_spot(int yards_to_goal, int depth) {
  return std::clamp(yards_to_goal - depth, 0, last_spot);
}

Layout lay_out(const Plan& plan, const std::vector<std::vector<std::size_t>>& plays) {
  Layout layout;
  std::vector<int> limit;
  for (std::uint32_t c = 0; c < plan.contexts.size(); ++c) {
    add_slice(layout, c, 0, plan.contexts[c].farthest - plan.first_gain);
    limit.push_back(limited_below(plan, plays[c]));
  }
  layout.slice_of.resize(plan.rows.size());
  for (const std::size_t r : rows_by_spot(plan)) {
    const auto& [context, spot] = plan.rows[r];
    layout.slice_of[r] =
        spot < limit[context] ? add_slice(layout, context, spot, spot - plan.first_gain) : context;
  }
  return layout;
}

Rewards make_rewards(const Plan& plan, std::span<const Column> columns) {
  Rewards rewards;
  rewards.columns = columns.size();
  append(rewards.touchdown, columns,
         [](const Column& c) { return c.ending(DriveResult::touchdown, kickoff_slot); });
  append(rewards.safety, columns,
         [](const Column& c) { return c.ending(DriveResult::safety, safety_slot); });
  append(rewards.half, columns,
         [](const Column& c) { return c.ending(DriveResult::end_of_half, half_slot); });
  append(rewards.play, columns, [](const Column& c) { return c.play; });
  append(rewards.first_down, columns, [](const Column& c) { return c.first_down; });
  for (std::size_t spot = 0; spot < 100; ++spot) append_spot(rewards, plan.endings, columns, spot);

  std::array<std::vector<double>, 100> caught_at;
  for (std::size_t spot = 0; spot < 100; ++spot)
    append(caught_at[spot], columns, [&](const Column& c) {
      return c.expected(DriveResult::interception, plan.endings.interception[spot]);
    });
  for (const FamilyPopulation& family : plan.setting.families)
    append_interceptions(rewards, family, caught_at);
  return rewards;
}

}  // namespace callfit::drive
