#include <drive/plan.hpp>

#include <algorithm>

namespace callfit::drive {
namespace {

// Below this spot some throw of the context can be caught in the end zone or is cut short by its
// back line, so that gains there are not those of the open field.
int limited_below(const Plan& plan, std::size_t context) {
  int deepest = 0;
  for (const auto& mixes : plan.mix)
    for (const WeightedPlay& entry : mixes[context]) {
      const FamilyPopulation& family = plan.setting.families[plan.plays[entry.play].family];
      if (family.kind == FamilyKind::pass) deepest = std::max(deepest, family.depth->shape.last());
    }
  return deepest + 1;
}

int smallest_gain(const Setting& setting) {
  int smallest = std::min({0, setting.scramble_gain.shape.first, setting.sack_gain.shape.first});
  for (const FamilyPopulation& family : setting.families) {
    if (family.run) smallest = std::min(smallest, family.run->shape.first);
    if (family.depth)
      smallest = std::min(smallest, family.depth->shape.first + family.yac->shape.first);
  }
  return smallest;
}

std::uint32_t add_slice(Plan& plan, std::uint32_t context, int spot, int count) {
  plan.slices.push_back({context, spot, count, plan.pool_size});
  plan.pool_size += static_cast<std::size_t>(count);
  return static_cast<std::uint32_t>(plan.slices.size() - 1);
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

void lay_out_slices(Plan& plan) {
  plan.first_gain = smallest_gain(plan.setting);
  std::vector<std::uint32_t> open;
  std::vector<int> limit;
  for (std::uint32_t c = 0; c < plan.contexts.size(); ++c) {
    open.push_back(add_slice(plan, c, 0, plan.contexts[c].farthest - plan.first_gain));
    limit.push_back(limited_below(plan, c));
  }
  for (Row& row : plan.rows)
    row.slice =
        row.yards_to_goal < limit[row.context]
            ? add_slice(plan, row.context, row.yards_to_goal, row.yards_to_goal - plan.first_gain)
            : open[row.context];
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
  for (std::size_t s = 0; s < plan.scheme.situations.size(); ++s)
    append(rewards.call, columns,
           [s](const Column& c) { return c.play + (c.call_in == s ? 1.0 : 0.0); });
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
