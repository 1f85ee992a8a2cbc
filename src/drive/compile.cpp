#include <base/vector_loops.hpp>
#include <drive/played_parts.hpp>

#include <algorithm>
#include <numeric>

namespace callfit::drive {
namespace {

/// How likely a component's gains are in one context: with the ball kept, and fumbled away.
struct Weight {
  std::size_t component = 0;
  double keep = 0, fumble = 0;
};

struct ContextChances {
  std::vector<Weight> weights;
  double no_gain = 0;  ///< incomplete passes and bad snaps
  double no_gain_fumble = 0;
  double intercepted = 0;
};

class Compiler {
 public:
  Compiler(const Plan& plan, const Layout& layout, const PlayedParts& parts)
      : plan_(plan),
        layout_(layout),
        components_(parts.components),
        chances_(parts.chances),
        place_(plan.components.size(), none),
        change_(plan.components.size(), none) {}

  ClassTable table(const ContextMixes& mixes) {
    using Numbers = std::vector<double>;
    ClassTable out{Numbers(layout_.pool_size), Numbers(layout_.pool_size),
                   Numbers(plan_.contexts.size() * plan_.setting.families.size()),
                   Numbers(plan_.rows.size())};
    std::vector<ContextChances> contexts;
    for (std::size_t c = 0; c < plan_.contexts.size(); ++c)
      contexts.push_back(mixed(mixes[c], c, out));
    fill_slices(contexts, out);
    fill_touchdowns(contexts, out);
    return out;
  }

 private:
  void add_weight(ContextChances& to, std::size_t component, double probability, double fumbled) {
    if (component == none || probability <= 0) return;
    if (place_[component] == none) {
      place_[component] = to.weights.size();
      to.weights.push_back({component, 0, 0});
    }
    Weight& weight = to.weights[place_[component]];
    weight.keep += probability * (1 - fumbled);
    weight.fumble += probability * fumbled;
  }

  ContextChances mixed(const std::vector<WeightedPlay>& mix, std::size_t context, ClassTable& out) {
    ContextChances sum;
    for (const auto& [id, share] : mix) {
      const Play& play = plan_.plays[id];
      const Chances& chances = chances_[id];
      add_weight(sum, play.completion, share * chances.complete, chances.completion_fumble);
      add_weight(sum, play.scramble, share * chances.scramble, chances.scramble_fumble);
      add_weight(sum, play.sack, share * chances.sack, chances.sack_fumble);
      add_weight(sum, play.run, share * chances.run, chances.run_fumble);
      sum.no_gain += share * chances.incomplete;
      sum.intercepted += share * chances.intercepted;
      out.interception[context * plan_.setting.families.size() + play.family] +=
          share * chances.intercepted;
    }
    spoil_bad_snaps(sum, context, out);
    for (const Weight& weight : sum.weights) place_[weight.component] = none;
    return sum;
  }

  // A share of snaps never becomes a play.
  void spoil_bad_snaps(ContextChances& sum, std::size_t context, ClassTable& out) const {
    const auto& [probability, lost] = plan_.setting.bad_snap;
    const double good = 1 - probability;
    for (Weight& weight : sum.weights) {
      weight.keep *= good;
      weight.fumble *= good;
    }
    const std::size_t families = plan_.setting.families.size();
    for (std::size_t f = 0; f < families; ++f) out.interception[context * families + f] *= good;
    sum.intercepted *= good;
    sum.no_gain = sum.no_gain * good + probability * (1 - lost);
    sum.no_gain_fumble = probability * lost;
  }

  void fill_slices(const std::vector<ContextChances>& contexts, ClassTable& out) {
    for (const Slice& slice : layout_.slices) {
      const ContextChances& chances = contexts[slice.context];
      if (slice.yards_to_goal == 0)
        fill_open(slice, chances, out);
      else
        fill_near_goal(slice, layout_.slices[slice.context], chances, out);
    }
  }

  void fill_open(const Slice& slice, const ContextChances& chances, ClassTable& out) const {
    double* keep = out.keep.data() + slice.offset;
    double* fumble = out.fumble.data() + slice.offset;
    keep[-plan_.first_gain] += chances.no_gain;
    fumble[-plan_.first_gain] += chances.no_gain_fumble;
    for (const Weight& weight : chances.weights) {
      const YardPmf& gains = components_.gains(weight.component);
      const int start = gains.first - plan_.first_gain;
      const int room = std::min(static_cast<int>(gains.p.size()), slice.count - start);
      const auto count = static_cast<std::size_t>(std::max(0, room));
      add_scaled(keep + start, gains.p.data(), count, weight.keep);
      add_scaled(fumble + start, gains.p.data(), count, weight.fumble);
    }
  }

  void fill_near_goal(const Slice& slice, const Slice& open, const ContextChances& chances,
                      ClassTable& out) {
    double* keep = out.keep.data() + slice.offset;
    double* fumble = out.fumble.data() + slice.offset;
    std::copy_n(out.keep.data() + open.offset, slice.count, keep);
    std::copy_n(out.fumble.data() + open.offset, slice.count, fumble);
    for (const auto& [component, kept, fumbled] : chances.weights) {
      const Components::Change& change = change_near_goal(component, slice.yards_to_goal);
      if (change.count == 0) continue;
      const int start = change.first - plan_.first_gain;
      add_scaled(keep + start, pool_.data() + change.start, change.count, kept);
      add_scaled(fumble + start, pool_.data() + change.start, change.count, fumbled);
      if (!change.catchable) keep[-plan_.first_gain] += kept + fumbled;
    }
    // Differences of equal sums may leave -1e-19 where nothing is left.
    for (int i = 0; i < slice.count; ++i) {
      keep[i] = std::max(keep[i], 0.0);
      fumble[i] = std::max(fumble[i], 0.0);
    }
  }

  // Slices near the goal come spot by spot: what is kept is the spot's at hand.
  const Components::Change& change_near_goal(std::size_t component, int spot) {
    if (spot != spot_) {
      spot_ = spot;
      change_.assign(change_.size(), none);
      changes_.clear();
      pool_.clear();
    }
    if (change_[component] == none) {
      change_[component] = changes_.size();
      changes_.push_back(components_.change_near_goal(component, spot, pool_));
    }
    return changes_[change_[component]];
  }

  void fill_touchdowns(const std::vector<ContextChances>& contexts, ClassTable& out) const {
    std::vector<double> below(layout_.pool_size);
    for (const Slice& slice : layout_.slices) {
      double sum = 0;
      for (std::size_t i = slice.offset; i < slice.offset + static_cast<std::size_t>(slice.count);
           ++i)
        below[i] = sum += out.keep[i] + out.fumble[i];
    }
    for (std::size_t r = 0; r < plan_.rows.size(); ++r) {
      const Row& row = plan_.rows[r];
      const auto last = static_cast<std::size_t>(row.yards_to_goal - 1 - plan_.first_gain);
      const double short_of_goal = below[layout_.of_row(r).offset + last];
      out.touchdown[r] = std::max(0.0, 1 - contexts[row.context].intercepted - short_of_goal);
    }
  }

  const Plan& plan_;
  const Layout& layout_;
  const Components& components_;
  const std::vector<Chances>& chances_;
  std::vector<std::size_t> place_;   // scratch: a component's place in the context at hand
  int spot_ = 0;                     // near the goal, at hand
  std::vector<std::size_t> change_;  // by component: place in changes_, or none
  std::vector<Components::Change> changes_;
  std::vector<double> pool_;  // of the changes
};

}  // namespace

PlayedParts::PlayedParts(const Plan& plan, const Player& player, const Parts& wanted)
    : components(plan, player, wanted), chances(plan.plays.size()) {
  for (const std::size_t play : wanted.plays)
    chances[play] = chances_of(plan.plays[play], player, plan.setting);
}

ClassTable compile_mixes(const Plan& plan, const Layout& layout, const PlayedParts& parts,
                         const ContextMixes& mixes) {
  return Compiler(plan, layout, parts).table(mixes);
}

Table compile(std::shared_ptr<const Plan> plan, const PlayedParts& parts) {
  Table table{std::move(plan), {}};
  Compiler compiler(*table.plan, table.plan->layout, parts);
  for (const ContextMixes& mixes : table.plan->mix) table.classes.push_back(compiler.table(mixes));
  return table;
}

ClassTable compile_class(const Plan& plan, const Player& player, std::size_t quality) {
  const PlayedParts parts(plan, player, plan.called_in[quality]);
  return compile_mixes(plan, plan.layout, parts, plan.mix[quality]);
}

Table compile(std::shared_ptr<const Plan> plan, const Player& player) {
  const PlayedParts parts(*plan, player, plan->called);
  return compile(std::move(plan), parts);
}

}  // namespace callfit::drive
