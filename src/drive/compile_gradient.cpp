#include <drive/chances_gradient.hpp>
#include <drive/compile_gradient.hpp>
#include <drive/components_gradient.hpp>

#include <algorithm>
#include <array>
#include <vector>

namespace callfit::drive {
namespace {

constexpr std::size_t point_columns = 2;  // points and net

// A component in a context of a class.
struct Use {
  std::size_t component = 0;
  std::size_t place = 0;  // of the class and context
  PartWeight weight;      // 0 where no play that needs it is called, or gains are not asked about
  ByWeight by{};          // derivatives by the weight
};

// A context of a class: its plays, called or not, and its uses.
struct PlacePlays {
  std::vector<std::size_t> plays;
  std::vector<double> weight;     // of those plays
  std::vector<ByWeight> open;     // derivatives by gains of the open field
  std::vector<std::size_t> uses;  // into all uses
};

class CompileReverse {
 public:
  CompileReverse(const Plan& plan, const Player& player, const PlayedParts& parts,
                 std::span<const TableGradient> by, By what, std::size_t first_class)
      : plan_(plan),
        player_(player),
        parts_(parts),
        by_(by),
        what_(what),
        first_class_(first_class),
        by_components_(plan, parts.components),
        good_(1 - plan.setting.bad_snap.probability),
        near_(plan.contexts.size() * field_length, nullptr),
        use_of_(plan.components.size(), none),
        uses_of_(plan.components.size()),
        by_chances_(plan.plays.size()) {
    for (const Slice& slice : plan.every_call.slices)
      if (slice.yards_to_goal > 0) near_[near_place(slice.context, slice.yards_to_goal)] = &slice;
    for (DriveGradient* out : outs()) {
      out->families.resize(plan.setting.families.size());
      std::array<std::vector<double>, shell_count> blank;
      blank.fill(std::vector<double>(plan.scheme.families.size(), 0.0));
      out->call.assign(plan.scheme.situations.size(), blank);
    }
  }

  PointGradients result() {
    for (std::size_t k = 0; k < by_.size(); ++k)
      for (std::size_t c = 0; c < plan_.contexts.size(); ++c) list_uses(first_class_ + k, c);
    for (std::size_t component = 0; component < uses_of_.size(); ++component)
      reverse_component(component);
    for (std::size_t place = 0; place < places_.size(); ++place) add_place(place);
    if (what_ == By::calls) return std::move(out_);
    for (const std::size_t play : plan_.all.plays) {
      const std::size_t family = plan_.plays[play].family;
      add_chances_gradient(plan_.plays[play], player_, plan_.setting, by_chances_[play],
                           {&out_.points.families[family], &out_.net_points.families[family]});
    }
    by_components_.add_to_bins(outs());
    return std::move(out_);
  }

 private:
  std::array<DriveGradient*, point_columns> outs() { return {&out_.points, &out_.net_points}; }
  std::size_t class_of(std::size_t place) const {
    return first_class_ + place / plan_.contexts.size();
  }
  const TableGradient& by_class(std::size_t quality) const { return by_[quality - first_class_]; }
  std::size_t context_of(std::size_t place) const { return place % plan_.contexts.size(); }
  static std::size_t near_place(std::size_t context, int spot) {
    return context * field_length + static_cast<std::size_t>(spot);
  }

  template <class Visit>
  static void each_part(const Play& play, const Visit& visit) {
    if (play.completion != none)
      visit(play.completion, &Chances::complete, &Chances::completion_fumble);
    if (play.scramble != none) visit(play.scramble, &Chances::scramble, &Chances::scramble_fumble);
    if (play.sack != none) visit(play.sack, &Chances::sack, &Chances::sack_fumble);
    if (play.run != none) visit(play.run, &Chances::run, &Chances::run_fumble);
  }

  void list_uses(std::size_t quality, std::size_t context) {
    PlacePlays& here = places_.emplace_back();
    for (const Call& call : plan_.calls[quality][context]) here.plays.push_back(call.play);
    std::sort(here.plays.begin(), here.plays.end());
    here.plays.erase(std::unique(here.plays.begin(), here.plays.end()), here.plays.end());
    here.weight.assign(here.plays.size(), 0.0);
    auto called = plan_.mix[quality][context].begin();
    const auto last = plan_.mix[quality][context].end();
    for (std::size_t i = 0; i < here.plays.size(); ++i) {
      if (called != last && called->play == here.plays[i]) here.weight[i] = called++->weight;
      add_uses(here, here.plays[i], here.weight[i]);
    }
    for (const std::size_t use : here.uses) use_of_[uses_[use].component] = none;
    here.open = open_field(by_class(quality), context);
  }

  void add_uses(PlacePlays& here, std::size_t play, double share) {
    const Chances& chances = parts_.chances[play];
    each_part(plan_.plays[play], [&](std::size_t component, auto how, auto fumbled) {
      if (use_of_[component] == none) {
        use_of_[component] = uses_.size();
        here.uses.push_back(uses_.size());
        uses_of_[component].push_back(uses_.size());
        uses_.push_back({component, places_.size() - 1, {}, {}});
      }
      if (what_ == By::calls) return;
      PartWeight& weight = uses_[use_of_[component]].weight;
      const double probability = good_ * share * chances.*how;
      weight.keep += probability * (1 - chances.*fumbled);
      weight.fumble += probability * chances.*fumbled;
    });
  }

  // Tables near the goal start as copies of the open field's.
  std::vector<ByWeight> open_field(const TableGradient& by, std::size_t context) const {
    const Slice& open = plan_.every_call.slices[context];
    const ByWeight* first = by.gains.data() + open.offset;
    std::vector<ByWeight> sum(first, first + open.count);
    for (int spot = 1; spot <= last_spot; ++spot) {
      const Slice* near = near_[near_place(context, spot)];
      if (near == nullptr) continue;
      const ByWeight* part = by.gains.data() + near->offset;
      const auto count = static_cast<std::size_t>(std::min(near->count, open.count));
      for (std::size_t i = 0; i < count; ++i)
        for (std::size_t j = 0; j < part[i].size(); ++j) sum[i][j] += part[i][j];
    }
    return sum;
  }

  void reverse_component(std::size_t component) {
    for (const std::size_t u : uses_of_[component]) {
      Use& use = uses_[u];
      const std::vector<ByWeight>& open = places_[use.place].open;
      use.by = by_components_.add_open(component, use.weight, open.data(),
                                       static_cast<int>(open.size()));
    }
    const Component& parts = plan_.components[component];
    const int deepest = parts.is_catch() ? parts_.components.shifted_gain(parts.gain).last() : 0;
    for (int spot = 1; spot <= last_spot; ++spot)
      if (spot <= deepest || spotted_at_goal(plan_, spot) > 0) reverse_near(component, spot);
  }

  void reverse_near(std::size_t component, int spot) {
    const auto near_of = [&](std::size_t use) {
      return near_[near_place(context_of(uses_[use].place), spot)];
    };
    const std::vector<std::size_t>& uses = uses_of_[component];
    if (std::none_of(uses.begin(), uses.end(), near_of)) return;
    ComponentsGradient::NearGoal change(by_components_, component, spot);
    for (const std::size_t u : uses) {
      const Slice* near = near_of(u);
      if (near == nullptr) continue;
      Use& use = uses_[u];
      const ByWeight more =
          change.add(use.weight, by_class(class_of(use.place)).gains.data() + near->offset);
      for (std::size_t j = 0; j < more.size(); ++j) use.by[j] += more[j];
    }
    if (what_ == By::all) change.finish();
  }

  void add_place(std::size_t place) {
    const PlacePlays& here = places_[place];
    for (const std::size_t use : here.uses) use_of_[uses_[use].component] = use;
    std::vector<Pair> by_share;
    for (std::size_t i = 0; i < here.plays.size(); ++i) {
      by_share.push_back(add_play(place, here.plays[i], here.weight[i]));
      for (std::size_t c = 0; c < point_columns; ++c)
        outs()[c]->value += here.weight[i] * by_share[i][c];
    }
    add_calls(place, by_share);
    for (const std::size_t use : here.uses) use_of_[uses_[use].component] = none;
  }

  // Returns the derivatives by the play's share.
  Pair add_play(std::size_t place, std::size_t play_id, double weight) {
    const Play& play = plan_.plays[play_id];
    const Chances& own = parts_.chances[play_id];
    const std::size_t families = plan_.setting.families.size();
    const ByWeight& no_gain = places_[place].open[static_cast<std::size_t>(-plan_.first_gain)];
    const Pair& by_intercepted =
        by_class(class_of(place)).interception[context_of(place) * families + play.family];
    Pair by_share{};
    for (std::size_t c = 0; c < point_columns; ++c) {
      Chances slope;
      slope.incomplete = good_ * no_gain[c];
      slope.intercepted = good_ * by_intercepted[c];
      by_share[c] = own.incomplete * slope.incomplete + own.intercepted * slope.intercepted;
      each_part(play, [&](std::size_t component, auto how, auto fumbled) {
        const ByWeight& by = uses_[use_of_[component]].by;
        const double keep = good_ * by[c];
        const double fumble = good_ * by[point_columns + c];
        slope.*how = (1 - own.*fumbled) * keep + own.*fumbled * fumble;
        slope.*fumbled = own.*how * (fumble - keep);
        by_share[c] += own.*how * slope.*how;
      });
      for (double Chances::*each : all_chances)
        by_chances_[play_id][c].*each += weight * slope.*each;
    }
    return by_share;
  }

  // Calls that cannot be made leave their share to the others, so a share counts against the mean
  // of the calls that can.
  void add_calls(std::size_t place, const std::vector<Pair>& by_share) {
    const std::vector<Call>& calls = plan_.calls[class_of(place)][context_of(place)];
    const std::vector<std::size_t>& plays = places_[place].plays;
    const auto share_of = [&](const Call& call) -> const Pair& {
      const auto found = std::lower_bound(plays.begin(), plays.end(), call.play);
      return by_share[static_cast<std::size_t>(found - plays.begin())];
    };
    const std::size_t situation = plan_.contexts[context_of(place)].situation;
    for (std::size_t c = 0; c < point_columns; ++c) {
      std::array<double, shell_count> mean{};
      for (const Call& call : calls) mean[call.shell] += call.made * share_of(call)[c];
      auto& out = outs()[c]->call[situation];
      for (const Call& call : calls)
        out[call.shell][call.family] += call.per_share * (share_of(call)[c] - mean[call.shell]);
    }
  }

  static constexpr std::array all_chances{
      &Chances::sack,        &Chances::scramble,        &Chances::complete,
      &Chances::incomplete,  &Chances::intercepted,     &Chances::run,
      &Chances::sack_fumble, &Chances::scramble_fumble, &Chances::completion_fumble,
      &Chances::run_fumble};

  const Plan& plan_;
  const Player& player_;
  const PlayedParts& parts_;
  std::span<const TableGradient> by_;
  By what_;
  std::size_t first_class_;
  ComponentsGradient by_components_;
  double good_;                     // share of snaps that become a play
  std::vector<const Slice*> near_;  // [context][yards_to_goal], or nullptr
  std::vector<PlacePlays> places_;  // [class][context]
  std::vector<Use> uses_;
  std::vector<std::size_t> use_of_;                // by component, in the place at hand
  std::vector<std::vector<std::size_t>> uses_of_;  // by component
  std::vector<std::array<Chances, point_columns>> by_chances_;  // by play
  PointGradients out_;
};

}  // namespace

PointGradients compile_gradient(const Plan& plan, const Player& player, const PlayedParts& parts,
                                std::span<const TableGradient> by, By what,
                                std::size_t first_class) {
  return CompileReverse(plan, player, parts, by, what, first_class).result();
}

}  // namespace callfit::drive
