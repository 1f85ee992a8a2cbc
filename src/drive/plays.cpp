// Which plays each context mixes, and which gain distributions they draw from.
#include <drive/plan.hpp>

#include <algorithm>
#include <map>
#include <tuple>

namespace callfit::drive {
namespace {

template <std::size_t N>
void add(std::array<double, N>& sum, const std::array<double, N>& more) {
  for (std::size_t i = 0; i < N; ++i) sum[i] += more[i];
}

bool is_shell(Cell cell) { return static_cast<std::size_t>(cell) < shell_count; }

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

  std::vector<WeightedPlay> mix_of(const Context& context, const QualityClass& quality) {
    std::map<std::size_t, double> weight;
    calls_.clear();
    const CallSituation& calls = plan_.scheme.situations[context.situation];
    const auto& shells = plan_.setting.shells;
    if (shells.empty()) {
      add_calls(weight, context, quality, calls.share, any_shell, 1);
    } else {
      for (std::size_t s = 0; s < shell_count; ++s)
        add_calls(weight, context, quality, calls.against(static_cast<Shell>(s)),
                  static_cast<int>(s), shells[context.shell_rule].share[s]);
    }
    std::vector<WeightedPlay> mix;
    mix.reserve(weight.size());
    for (const auto& [play, share] : weight) mix.push_back({play, share});
    return mix;
  }

  /// Of the last mix_of().
  const std::vector<Call>& calls() const { return calls_; }

 private:
  bool differs(const FamilyPopulation& family) const {
    const auto& cells = plan_.setting.cells;
    return std::any_of(cells.begin(), cells.end(), [&family](const CellPopulation& cell) {
      return is_shell(cell.cell) && cell.who.covers(family);
    });
  }

  void add_calls(std::map<std::size_t, double>& weight, const Context& context,
                 const QualityClass& quality, const std::vector<double>& share, int shell,
                 double shell_share) {
    const double called = callable_share(context, share);
    for (std::size_t f = 0; f < share.size(); ++f) {
      const std::size_t family = plan_.scheme_family[f];
      if ((share[f] <= 0 || shell_share <= 0) && !plan_.options.uncalled) continue;
      if (called > 0 && too_long(context, family)) continue;
      const int seen = differs_by_shell_[family] ? shell : any_shell;
      const std::size_t play = play_of(context, quality, family, seen);
      const double made = share[f] / (called > 0 ? called : 1);
      weight[play] += made * shell_share;
      calls_.push_back({f, static_cast<std::size_t>(std::max(shell, 0)), play, made, shell_share,
                        shell_share / (called > 0 ? called : 1)});
    }
  }

  static bool too_long(const Context& context, std::size_t family) {
    return std::find(context.out_of_reach.begin(), context.out_of_reach.end(), family) !=
           context.out_of_reach.end();
  }

  // Share of the calls that can be thrown or run here; 0 leaves the calls as they are.
  double callable_share(const Context& context, const std::vector<double>& share) const {
    double sum = 0;
    for (std::size_t f = 0; f < share.size(); ++f)
      if (!too_long(context, plan_.scheme_family[f])) sum += share[f];
    return sum;
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
    if (is_new) plan_.plays.push_back(play);
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
  std::vector<Call> calls_;
  std::vector<bool> differs_by_shell_;      // by family
  std::vector<std::vector<bool>> covered_;  // by family and adjustment
  std::map<std::tuple<std::size_t, int, std::array<double, rate_count>, std::size_t, std::size_t,
                      std::size_t, std::size_t>,
           std::size_t>
      play_ids_;
  std::map<std::tuple<GainPart, std::size_t, double>, std::size_t> gain_ids_;
  std::map<std::tuple<std::size_t, std::size_t>, std::size_t> component_ids_;
};

// Components need no gains beyond what the contexts that use them can ask for.
void limit_components(Plan& plan) {
  for (Component& component : plan.components) component.top = 0;
  for (const auto& mixes : plan.mix)
    for (std::size_t c = 0; c < mixes.size(); ++c)
      for (const WeightedPlay& entry : mixes[c]) {
        const Play& play = plan.plays[entry.play];
        for (const std::size_t used : {play.completion, play.scramble, play.sack, play.run})
          if (used != none)
            plan.components[used].top =
                std::max(plan.components[used].top, plan.contexts[c].farthest - 1);
      }
}

}  // namespace

void find_plays(Plan& plan) {
  PlayFinder finder(plan);
  std::vector<QualityClass> classes = plan.setting.quality;
  if (classes.empty()) classes.emplace_back();
  for (const QualityClass& quality : classes) {
    std::vector<std::vector<WeightedPlay>> mixes;
    std::vector<std::vector<Call>> calls;
    for (const Context& context : plan.contexts) {
      mixes.push_back(finder.mix_of(context, quality));
      calls.push_back(finder.calls());
    }
    plan.mix.push_back(std::move(mixes));
    plan.calls.push_back(std::move(calls));
  }
  limit_components(plan);
}

}  // namespace callfit::drive
