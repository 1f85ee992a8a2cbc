#include <drive/chances_gradient.hpp>
#include <drive/compile_gradient.hpp>
#include <drive/components_gradient.hpp>

#include <algorithm>
#include <map>

namespace callfit::drive {
namespace {

// How likely a component's gains are in one context, with the ball kept and fumbled away; or
// derivatives by those.
struct Weight {
  double keep = 0, fumble = 0;
};
using Weights = std::map<std::size_t, Weight>;  // by component

class Reverse {
 public:
  Reverse(const Plan& plan, const Player& player)
      : plan_(plan),
        player_(player),
        components_(plan, player),
        by_components_(plan, player, components_),
        good_(1 - plan.setting.bad_snap.probability),
        near_goal_(plan.contexts.size()) {
    for (const Play& play : plan.plays) chances_.push_back(chances_of(play, player, plan.setting));
    for (const Slice& slice : plan.slices)
      if (slice.yards_to_goal > 0) near_goal_[slice.context].push_back(&slice);
    out_.families.resize(plan.setting.families.size());
    std::array<std::vector<double>, shell_count> blank;
    blank.fill(std::vector<double>(plan.scheme.families.size(), 0.0));
    out_.call.assign(plan.scheme.situations.size(), blank);
  }

  void add_class(std::size_t quality, const TableGradient& by) {
    for (std::size_t c = 0; c < plan_.contexts.size(); ++c) add_context(quality, c, by);
  }

  DriveGradient result() {
    by_components_.add_to_bins(out_);
    return std::move(out_);
  }

 private:
  template <class Visit>
  void each_part(std::size_t play_id, const Visit& visit) const {
    const Play& play = plan_.plays[play_id];
    const Chances& chances = chances_[play_id];
    if (play.completion != none)
      visit(play.completion, &Chances::complete, &Chances::completion_fumble, chances);
    if (play.scramble != none)
      visit(play.scramble, &Chances::scramble, &Chances::scramble_fumble, chances);
    if (play.sack != none) visit(play.sack, &Chances::sack, &Chances::sack_fumble, chances);
    if (play.run != none) visit(play.run, &Chances::run, &Chances::run_fumble, chances);
  }

  Weights weights_of(const std::vector<WeightedPlay>& mix) const {
    Weights weights;
    for (const auto& [id, share] : mix)
      each_part(id, [&, share = share](std::size_t component, auto how, auto fumbled,
                                       const Chances& chances) {
        Weight& weight = weights[component];
        const double probability = good_ * share * chances.*how;
        weight.keep += probability * (1 - chances.*fumbled);
        weight.fumble += probability * chances.*fumbled;
      });
    return weights;
  }

  std::span<const double> slice_of(const std::vector<double>& pool, const Slice& slice) const {
    return {pool.data() + slice.offset, static_cast<std::size_t>(slice.count)};
  }

  // Tables near the goal start as copies of the open field's.
  std::vector<double> open_field(const std::vector<double>& pool, std::size_t context) const {
    const auto open = slice_of(pool, plan_.slices[context]);
    std::vector<double> sum(open.begin(), open.end());
    for (const Slice* near : near_goal_[context]) {
      const auto part = slice_of(pool, *near);
      for (std::size_t i = 0; i < part.size() && i < sum.size(); ++i) sum[i] += part[i];
    }
    return sum;
  }

  void add_context(std::size_t quality, std::size_t context, const TableGradient& by) {
    const auto& mix = plan_.mix[quality][context];
    const std::vector<double> keep = open_field(by.keep, context);
    const std::vector<double> fumble = open_field(by.fumble, context);
    Weights by_weight;
    for (const auto& [component, weight] : weights_of(mix)) {
      Weight& here = by_weight[component];
      here.keep = by_components_.add_open(component, weight.keep, keep);
      here.fumble = by_components_.add_open(component, weight.fumble, fumble);
      if (plan_.components[component].is_catch())
        for (const Slice* near : near_goal_[context])
          add_near_goal(*near, component, weight, by, here);
    }
    for (auto& [component, weight] : by_weight) {
      weight.keep *= good_;
      weight.fumble *= good_;
    }
    const double by_incomplete = good_ * keep[static_cast<std::size_t>(-plan_.first_gain)];
    std::map<std::size_t, double> by_share;  // by play
    for (const WeightedPlay& play : mix)
      by_share[play.play] = add_play(play, context, by_weight, by_incomplete, by);
    add_calls(plan_.calls[quality][context], plan_.contexts[context].situation, by_share);
  }

  // Calls that cannot be made leave their share to the others, so a share counts against the mean
  // of the calls that can.
  void add_calls(const std::vector<Call>& calls, std::size_t situation,
                 const std::map<std::size_t, double>& by_share) {
    std::array<double, shell_count> mean{};
    for (const Call& call : calls) mean[call.shell] += call.made * by_share.at(call.play);
    for (const Call& call : calls)
      out_.call[situation][call.shell][call.family] +=
          call.per_share * (by_share.at(call.play) - mean[call.shell]);
  }

  void add_near_goal(const Slice& slice, std::size_t component, const Weight& weight,
                     const TableGradient& by, Weight& by_weight) {
    const int spot = slice.yards_to_goal;
    const auto keep = slice_of(by.keep, slice);
    by_weight.keep += by_components_.add_near_goal(component, spot, weight.keep, keep);
    by_weight.fumble +=
        by_components_.add_near_goal(component, spot, weight.fumble, slice_of(by.fumble, slice));
    if (!by_components_.uncatchable(component, spot)) return;
    const double no_gain = keep[static_cast<std::size_t>(-plan_.first_gain)];
    by_weight.keep += no_gain;
    by_weight.fumble += no_gain;
  }

  // Returns the derivative by the play's share.
  double add_play(const WeightedPlay& weighted, std::size_t context, const Weights& by_weight,
                  double by_incomplete, const TableGradient& by) {
    const Play& play = plan_.plays[weighted.play];
    const Chances& own = chances_[weighted.play];
    const double by_intercepted =
        good_ * by.interception[context * plan_.setting.families.size() + play.family];
    Chances slope;
    slope.incomplete = by_incomplete;
    slope.intercepted = by_intercepted;
    double by_share = own.incomplete * by_incomplete + own.intercepted * by_intercepted;
    each_part(weighted.play,
              [&](std::size_t component, auto how, auto fumbled, const Chances& chances) {
                const Weight& at = by_weight.at(component);
                slope.*how = (1 - chances.*fumbled) * at.keep + chances.*fumbled * at.fumble;
                slope.*fumbled = chances.*how * (at.fumble - at.keep);
                by_share += chances.*how * slope.*how;
              });
    for (double Chances::*each : all_chances) slope.*each *= weighted.weight;
    add_chances_gradient(play, player_, plan_.setting, slope, out_.families[play.family]);
    return by_share;
  }

  static constexpr std::array all_chances{
      &Chances::sack,        &Chances::scramble,        &Chances::complete,
      &Chances::incomplete,  &Chances::intercepted,     &Chances::run,
      &Chances::sack_fumble, &Chances::scramble_fumble, &Chances::completion_fumble,
      &Chances::run_fumble};

  const Plan& plan_;
  const Player& player_;
  Components components_;
  ComponentsGradient by_components_;
  double good_;                                       // share of snaps that become a play
  std::vector<Chances> chances_;                      // by play
  std::vector<std::vector<const Slice*>> near_goal_;  // by context
  DriveGradient out_;
};

}  // namespace

DriveGradient compile_gradient(const Plan& plan, const Player& player,
                               const std::vector<TableGradient>& by) {
  Reverse reverse(plan, player);
  for (std::size_t k = 0; k < by.size(); ++k) reverse.add_class(k, by[k]);
  return reverse.result();
}

}  // namespace callfit::drive
