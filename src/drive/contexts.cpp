// Which rules of the scheme and the setting apply to each state.
#include <callfit/base/finding.hpp>
#include <drive/plan.hpp>

#include <algorithm>
#include <map>
#include <string>
#include <utility>

namespace callfit::drive {
namespace {

[[noreturn]] void no_rule(const std::string& rules, int down, int to_go, int yards_to_goal) {
  throw InputError(Finding{{},
                           "no " + rules + " matches down " + std::to_string(down) + ", " +
                               std::to_string(to_go) + " to go, " + std::to_string(yards_to_goal) +
                               " yards to the goal",
                           "end the list with a rule that matches everything"});
}

template <class Rules>
std::size_t rule_of(const Rules& rules, const std::string& name, int down, int to_go, int spot) {
  const std::size_t found = first_match(rules, down, to_go, spot);
  if (found == rules.size()) no_rule(name, down, to_go, spot);
  return found;
}

int shortest_throw(const FamilyPopulation& family) {
  const auto& p = family.depth->shape.p;
  const auto first = std::find_if(p.begin(), p.end(), [](double share) { return share > 0; });
  return family.depth->shape.first + static_cast<int>(first - p.begin());
}

std::vector<std::size_t> out_of_reach(const Setting& setting, int spot) {
  const int longest = spot + setting.rules.end_zone_depth - 1;
  std::vector<std::size_t> families;
  for (std::size_t f = 0; f < setting.families.size(); ++f)
    if (setting.families[f].kind == FamilyKind::pass &&
        shortest_throw(setting.families[f]) > longest)
      families.push_back(f);
  return families;
}

/// What of a context hangs on the spot alone.
struct AtSpot {
  std::vector<std::size_t> adjustments;  ///< that may match there, in their order
  std::vector<std::size_t> out_of_reach;
};

AtSpot at_spot(const Setting& setting, int spot) {
  AtSpot at{{}, out_of_reach(setting, spot)};
  for (std::size_t a = 0; a < setting.adjustments.size(); ++a)
    if (setting.adjustments[a].when.yards_to_goal.contains(spot)) at.adjustments.push_back(a);
  return at;
}

Context context_at(const Plan& plan, int down, int to_go, int spot, const AtSpot& at) {
  Context context;
  context.situation = rule_of(plan.scheme.situations, "situation of the scheme", down, to_go, spot);
  if (!plan.setting.shells.empty())
    context.shell_rule = rule_of(plan.setting.shells, "shell rule", down, to_go, spot);
  for (const std::size_t a : at.adjustments)
    if (plan.setting.adjustments[a].when.matches(down, to_go, spot))
      context.adjustments.push_back(a);
  context.out_of_reach = at.out_of_reach;
  return context;
}

using ContextKey = std::vector<std::size_t>;

ContextKey key_of(const Context& context) {
  ContextKey key{context.situation, context.shell_rule};
  key.insert(key.end(), context.adjustments.begin(), context.adjustments.end());
  key.push_back(none);
  key.insert(key.end(), context.out_of_reach.begin(), context.out_of_reach.end());
  return key;
}

class ContextFinder {
 public:
  explicit ContextFinder(Plan& plan) : plan_(plan) {
    for (int spot = 0; spot < field_length; ++spot) at_.push_back(at_spot(plan.setting, spot));
  }

  std::uint16_t row_at(int down, int to_go, int spot) {
    const Context context =
        context_at(plan_, down, to_go, spot, at_[static_cast<std::size_t>(spot)]);
    const auto [entry, is_new] = context_of_.try_emplace(key_of(context), plan_.contexts.size());
    if (is_new) plan_.contexts.push_back(context);
    Context& known = plan_.contexts[entry->second];
    known.farthest = std::max(known.farthest, spot);
    return row_of(static_cast<std::uint32_t>(entry->second), spot);
  }

 private:
  std::uint16_t row_of(std::uint32_t context, int spot) {
    const auto [entry, is_new] =
        row_of_.try_emplace({context, spot}, static_cast<std::uint16_t>(plan_.rows.size()));
    if (is_new) plan_.rows.push_back({context, spot});
    return entry->second;
  }

  Plan& plan_;
  std::vector<AtSpot> at_;  // by yards to the goal
  std::map<ContextKey, std::size_t> context_of_;
  std::map<std::pair<std::uint32_t, int>, std::uint16_t> row_of_;
};

}  // namespace

void find_contexts(Plan& plan) {
  plan.row_of.resize(state_count);
  plan.fourth_down_of.resize(states_per_down);
  ContextFinder finder(plan);
  for (int down = 1; down <= down_count; ++down)
    for (int line = 0; line < line_count; ++line)
      for (int own = 1; own <= spots_short_of(line); ++own) {
        const int spot = field_length - own;
        plan.row_of[state_index(down, line, own)] = finder.row_at(down, spot - line, spot);
        if (down == down_count)
          plan.fourth_down_of[place_index(line, own)] = static_cast<std::uint16_t>(
              rule_of(plan.setting.fourth_down, "fourth-down rule", down, spot - line, spot));
      }
}

}  // namespace callfit::drive
