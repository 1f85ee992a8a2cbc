// Which rules of the scheme and the setting apply to each state.
#include <callfit/base/finding.hpp>
#include <drive/plan.hpp>

#include <algorithm>
#include <array>
#include <map>
#include <optional>
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

/// Rules that may match at a down and spot, in their order; how far it is to go decides.
class Candidates {
 public:
  template <class Rules>
  Candidates(const Rules& rules, int down, int spot) {
    for (std::size_t i = 0; i < rules.size(); ++i)
      if (rules[i].when.down.contains(down) && rules[i].when.yards_to_goal.contains(spot))
        rules_.push_back({i, rules[i].when.to_go});
  }

  std::optional<std::size_t> first(int to_go) const {
    for (const auto& [index, band] : rules_)
      if (band.contains(to_go)) return index;
    return std::nullopt;
  }
  void add_all(int to_go, std::vector<std::size_t>& matching) const {
    for (const auto& [index, band] : rules_)
      if (band.contains(to_go)) matching.push_back(index);
  }

 private:
  struct Rule {
    std::size_t index;
    Band to_go;
  };
  std::vector<Rule> rules_;
};

/// What can match at a down and spot.
class Place {
 public:
  Place(const Plan& plan, int down, int spot)
      : down_(down),
        spot_(spot),
        has_shells_(!plan.setting.shells.empty()),
        situations_(plan.scheme.situations, down, spot),
        shells_(plan.setting.shells, down, spot),
        adjustments_(plan.setting.adjustments, down, spot),
        fourth_downs_(plan.setting.fourth_down, down, spot),
        out_of_reach_(out_of_reach(plan.setting, spot)) {}

  /// What tells contexts apart here: situation, shell rule, adjustments.
  void match(int to_go, std::vector<std::size_t>& key) const {
    key.assign({rule(situations_, "situation of the scheme", to_go),
                has_shells_ ? rule(shells_, "shell rule", to_go) : 0});
    adjustments_.add_all(to_go, key);
  }
  Context context(const std::vector<std::size_t>& key) const {
    return {key[0], key[1], {key.begin() + 2, key.end()}, out_of_reach_, 0};
  }

  std::uint16_t fourth_down(int to_go) const {
    return static_cast<std::uint16_t>(rule(fourth_downs_, "fourth-down rule", to_go));
  }

 private:
  std::size_t rule(const Candidates& rules, const char* name, int to_go) const {
    const std::optional<std::size_t> found = rules.first(to_go);
    if (!found) no_rule(name, down_, to_go, spot_);
    return *found;
  }

  int down_, spot_;
  bool has_shells_;
  Candidates situations_, shells_, adjustments_, fourth_downs_;
  std::vector<std::size_t> out_of_reach_;
};

class ContextFinder {
 public:
  explicit ContextFinder(Plan& plan) : plan_(plan) {}

  // Of a place with other distances to go, mostly the one before.
  std::uint16_t row(const Place& place, int spot, int to_go) {
    place.match(to_go, key_);
    Found& last = last_[static_cast<std::size_t>(spot)];
    if (last.key != key_) last = {key_, found(place.context(key_), spot)};
    return last.row;
  }

 private:
  struct Found {
    std::vector<std::size_t> key;
    std::uint16_t row = 0;
  };

  std::uint16_t found(const Context& context, int spot) {
    const auto [entry, is_new] =
        context_of_.try_emplace({key_, context.out_of_reach}, plan_.contexts.size());
    if (is_new) plan_.contexts.push_back(context);
    Context& known = plan_.contexts[entry->second];
    known.farthest = std::max(known.farthest, spot);
    return row_of(static_cast<std::uint32_t>(entry->second), spot);
  }

  std::uint16_t row_of(std::uint32_t context, int spot) {
    const auto [entry, is_new] =
        row_of_.try_emplace({context, spot}, static_cast<std::uint16_t>(plan_.rows.size()));
    if (is_new) plan_.rows.push_back({context, spot});
    return entry->second;
  }

  Plan& plan_;
  std::vector<std::size_t> key_;  // scratch
  std::array<Found, field_length> last_;
  std::map<std::pair<std::vector<std::size_t>, std::vector<std::size_t>>, std::size_t> context_of_;
  std::map<std::pair<std::uint32_t, int>, std::uint16_t> row_of_;
};

}  // namespace

void find_contexts(Plan& plan) {
  plan.row_of.resize(state_count);
  plan.fourth_down_of.resize(states_per_down);
  ContextFinder finder(plan);
  for (int down = 1; down <= down_count; ++down) {
    std::vector<Place> places;
    places.reserve(field_length);
    for (int spot = 0; spot < field_length; ++spot) places.emplace_back(plan, down, spot);
    for (int line = 0; line < line_count; ++line)
      for (int own = 1; own <= spots_short_of(line); ++own) {
        const int spot = field_length - own;
        const Place& place = places[static_cast<std::size_t>(spot)];
        plan.row_of[state_index(down, line, own)] = finder.row(place, spot, spot - line);
        if (down == down_count)
          plan.fourth_down_of[place_index(line, own)] = place.fourth_down(spot - line);
      }
  }
}

}  // namespace callfit::drive
