// Which plays each context mixes, and which gain distributions they draw from.
#include <drive/plan.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

namespace callfit::drive {
namespace {

template <std::size_t N>
void add(std::array<double, N>& sum, const std::array<double, N>& more) {
  for (std::size_t i = 0; i < N; ++i) sum[i] += more[i];
}

bool is_shell(Cell cell) { return static_cast<std::size_t>(cell) < shell_count; }

int smallest_gain(const Setting& setting) {
  int smallest = std::min({0, setting.scramble_gain.shape.first, setting.sack_gain.shape.first});
  for (const FamilyPopulation& family : setting.families) {
    if (family.run) smallest = std::min(smallest, family.run->shape.first);
    if (family.depth)
      smallest = std::min(smallest, family.depth->shape.first + family.yac->shape.first);
  }
  return smallest;
}

class PlayFinder {
 public:
  explicit PlayFinder(Plan& plan) : plan_(plan) {
    for (const FamilyPopulation& family : plan.setting.families) {
      differs_by_shell_.push_back(differs(family));
      std::vector<bool> covered;
      for (const Adjustment& adjustment : plan.setting.adjustments)
        covered.push_back(adjustment.who.covers(family));
      covered_.push_back(std::move(covered));
    }
  }

  /// By context.
  std::vector<std::vector<Call>> calls_in(const QualityClass& quality) {
    std::map<std::vector<std::size_t>, std::vector<Call>> by_adjustments;
    std::vector<std::vector<Call>> out;
    out.reserve(plan_.contexts.size());
    for (const Context& context : plan_.contexts) {
      const auto [entry, is_new] = by_adjustments.try_emplace(context.adjustments);
      if (is_new) entry->second = calls_of(context, quality);
      std::vector<Call>& calls = out.emplace_back(entry->second);
      for (Call& call : calls) call.too_long = too_long(context, plan_.scheme_family[call.family]);
    }
    return out;
  }

 private:
  bool differs(const FamilyPopulation& family) const {
    const auto& cells = plan_.setting.cells;
    return std::any_of(cells.begin(), cells.end(), [&family](const CellPopulation& cell) {
      return is_shell(cell.cell) && cell.who.covers(family);
    });
  }

  // Their adjustments alone tell contexts apart here.
  std::vector<Call> calls_of(const Context& context, const QualityClass& quality) {
    std::vector<Call> calls;
    const std::size_t shells = plan_.setting.shells.empty() ? 1 : shell_count;
    for (std::size_t shell = 0; shell < shells; ++shell)
      for (std::size_t f = 0; f < plan_.scheme_family.size(); ++f) {
        const std::size_t family = plan_.scheme_family[f];
        const bool seen = differs_by_shell_[family] && !plan_.setting.shells.empty();
        Call& call = calls.emplace_back();
        call.family = f;
        call.shell = shell;
        call.play = play_of(context, quality, family, seen ? static_cast<int>(shell) : any_shell);
      }
    return calls;
  }

  static bool too_long(const Context& context, std::size_t family) {
    return std::find(context.out_of_reach.begin(), context.out_of_reach.end(), family) !=
           context.out_of_reach.end();
  }

  Shifts shifts_of(const Context& context, const QualityClass& quality, std::size_t family,
                   int shell) const {
    Shifts total = quality.shifts;
    for (const std::size_t a : context.adjustments) {
      if (!covered_[family][a]) continue;
      add(total.rate, plan_.setting.adjustments[a].shifts.rate);
      add(total.gain, plan_.setting.adjustments[a].shifts.gain);
    }
    // The player's own cell rates carry the shell's shifts of rates; gains have only these.
    for (const CellPopulation& cell : plan_.setting.cells)
      if (static_cast<int>(cell.cell) == shell && cell.who.covers(plan_.setting.families[family]))
        add(total.gain, cell.gain_shift);
    return total;
  }

  std::size_t play_of(const Context& context, const QualityClass& quality, std::size_t family,
                      int shell) {
    const Shifts shifts = shifts_of(context, quality, family, shell);
    Play play{family, shell, {}};
    // Shifts of other rates must not tell plays apart.
    for (const Rate rate : played_rates) {
      const auto r = static_cast<std::size_t>(rate);
      play.shift[r] = shifts.rate[r];
    }
    const auto gain = [&](GainPart part, std::size_t owner) {
      return gain_of({part, owner, shifts.gain[static_cast<std::size_t>(part)]});
    };
    if (plan_.setting.families[family].kind == FamilyKind::pass) {
      play.completion = component_of({gain(GainPart::depth, family), gain(GainPart::yac, family)});
      play.scramble = component_of({gain(GainPart::scramble, none)});
      play.sack = component_of({gain(GainPart::sack, none)});
    } else {
      play.run = component_of({gain(GainPart::run, family)});
    }
    const auto key = std::make_tuple(family, shell, play.shift, play.completion, play.scramble,
                                     play.sack, play.run);
    const auto [entry, is_new] = play_ids_.try_emplace(key, plan_.plays.size());
    if (!is_new) return entry->second;
    std::transform(play.shift.begin(), play.shift.end(), play.odds.begin(),
                   [](double shift) { return std::exp(shift); });
    plan_.plays.push_back(play);
    return entry->second;
  }

  std::size_t gain_of(const ShiftedGain& gain) {
    const auto key = std::make_tuple(gain.part, gain.family, gain.shift);
    const auto [entry, is_new] = gain_ids_.try_emplace(key, plan_.gains.size());
    if (is_new) plan_.gains.push_back(gain);
    return entry->second;
  }

  std::size_t component_of(const Component& component) {
    const auto key = std::make_tuple(component.gain, component.yac);
    const auto [entry, is_new] = component_ids_.try_emplace(key, plan_.components.size());
    if (is_new) plan_.components.push_back(component);
    return entry->second;
  }

  Plan& plan_;
  std::vector<bool> differs_by_shell_;      // by family
  std::vector<std::vector<bool>> covered_;  // by family and adjustment
  std::map<std::tuple<std::size_t, int, std::array<double, rate_count>, std::size_t, std::size_t,
                      std::size_t, std::size_t>,
           std::size_t>
      play_ids_;
  std::map<std::tuple<GainPart, std::size_t, double>, std::size_t> gain_ids_;
  std::map<std::tuple<std::size_t, std::size_t>, std::size_t> component_ids_;
};

// What some plays need, and what components need no gains beyond: the farthest spot of all contexts
// that use them.
class PartsFinder {
 public:
  explicit PartsFinder(const Plan& plan)
      : plan_(plan),
        play_(plan.plays.size()),
        component_(plan.components.size()),
        gain_(plan.gains.size()) {}

  void add(std::size_t play) {
    if (play_[play]) return;
    play_[play] = true;
    for (const std::size_t used : components_of(plan_.plays[play]))
      if (used != none) add_component(used);
  }

  Parts parts() const { return {listed(play_), listed(component_), listed(gain_)}; }

  static std::array<std::size_t, 4> components_of(const Play& play) {
    return {play.completion, play.scramble, play.sack, play.run};
  }

 private:
  void add_component(std::size_t component) {
    component_[component] = true;
    gain_[plan_.components[component].gain] = true;
    if (plan_.components[component].is_catch()) gain_[plan_.components[component].yac] = true;
  }

  static std::vector<std::size_t> listed(const std::vector<bool>& wanted) {
    std::vector<std::size_t> list;
    for (std::size_t i = 0; i < wanted.size(); ++i)
      if (wanted[i]) list.push_back(i);
    return list;
  }

  const Plan& plan_;
  std::vector<bool> play_, component_, gain_;
};

void limit_components(Plan& plan) {
  for (Component& component : plan.components) component.top = 0;
  for (const auto& contexts : plan.calls)
    for (std::size_t c = 0; c < contexts.size(); ++c)
      for (const Call& call : contexts[c])
        for (const std::size_t used : PartsFinder::components_of(plan.plays[call.play]))
          if (used != none)
            plan.components[used].top =
                std::max(plan.components[used].top, plan.contexts[c].farthest);
}

Parts all_parts(const Plan& plan) {
  PartsFinder finder(plan);
  for (std::size_t play = 0; play < plan.plays.size(); ++play) finder.add(play);
  return finder.parts();
}

// Share of the calls that can be thrown or run here; 0 leaves the calls as they are.
double callable_share(const std::vector<Call>& calls, const std::vector<double>& share,
                      std::size_t shell) {
  double sum = 0;
  for (const Call& call : calls)
    if (call.shell == shell && !call.too_long) sum += share[call.family];
  return sum;
}

class Weigher {
 public:
  explicit Weigher(const Plan& plan) : plan_(plan), weight_(plan.plays.size(), 0.0) {}

  // Sets the shares of the calls of a context and returns the plays that they mix.
  std::vector<WeightedPlay> mix(const Context& context, std::vector<Call>& calls) {
    std::array<double, shell_count> callable{};
    for (std::size_t s = 0; s < shell_count; ++s)
      callable[s] = callable_share(calls, shares(context, s), s);
    std::vector<std::size_t> met;
    for (Call& call : calls) {
      weigh(context, callable[call.shell], call);
      if (call.made <= 0 || call.shell_share <= 0) continue;
      if (weight_[call.play] == 0) met.push_back(call.play);
      weight_[call.play] += call.made * call.shell_share;
    }
    std::sort(met.begin(), met.end());
    std::vector<WeightedPlay> mix;
    mix.reserve(met.size());
    for (const std::size_t play : met) mix.push_back({play, std::exchange(weight_[play], 0.0)});
    return mix;
  }

 private:
  const std::vector<double>& shares(const Context& context, std::size_t shell) const {
    const CallSituation& calls = plan_.scheme.situations[context.situation];
    return plan_.setting.shells.empty() ? calls.share : calls.against(static_cast<Shell>(shell));
  }

  void weigh(const Context& context, double callable, Call& call) const {
    const auto& shells = plan_.setting.shells;
    call.shell_share = shells.empty() ? 1 : shells[context.shell_rule].share[call.shell];
    const bool possible = callable <= 0 || !call.too_long;
    const double of_all = callable > 0 ? callable : 1;
    call.made = possible ? shares(context, call.shell)[call.family] / of_all : 0;
    call.per_share = possible ? call.shell_share / of_all : 0;
  }

  const Plan& plan_;
  std::vector<double> weight_;  // scratch, by play: 0 between contexts
};

std::vector<QualityClass> classes_of(const Setting& setting) {
  return setting.quality.empty() ? std::vector<QualityClass>(1) : setting.quality;
}

}  // namespace

void find_plays(Plan& plan) {
  PlayFinder finder(plan);
  std::vector<std::vector<std::size_t>> plays(plan.contexts.size());
  for (const QualityClass& quality : classes_of(plan.setting)) {
    const auto& calls = plan.calls.emplace_back(finder.calls_in(quality));
    for (std::size_t c = 0; c < calls.size(); ++c)
      for (const Call& call : calls[c]) plays[c].push_back(call.play);
  }
  limit_components(plan);
  plan.all = all_parts(plan);
  plan.first_gain = smallest_gain(plan.setting);
  plan.every_call = lay_out(plan, plays);
}

void weigh_calls(Plan& plan) {
  Weigher weigher(plan);
  PartsFinder called(plan);
  std::vector<std::vector<std::size_t>> plays(plan.contexts.size());
  plan.mix.assign(plan.classes(), {});
  plan.called_in.clear();
  for (std::size_t k = 0; k < plan.classes(); ++k) {
    PartsFinder called_here(plan);
    for (std::size_t c = 0; c < plan.contexts.size(); ++c) {
      plan.mix[k].push_back(weigher.mix(plan.contexts[c], plan.calls[k][c]));
      for (const WeightedPlay& entry : plan.mix[k].back()) {
        plays[c].push_back(entry.play);
        called.add(entry.play);
        called_here.add(entry.play);
      }
    }
    plan.called_in.push_back(called_here.parts());
  }
  plan.called = called.parts();
  plan.layout = lay_out(plan, plays);
}

}  // namespace callfit::drive
