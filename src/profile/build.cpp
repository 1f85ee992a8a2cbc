#include <callfit/base/finding.hpp>
#include <callfit/profile/edited_cell.hpp>
#include <callfit/profile/most_games.hpp>
#include <callfit/profile/profile.hpp>
#include <callfit/stats/logit.hpp>
#include <profile/cells.hpp>
#include <profile/gain_posterior.hpp>
#include <profile/joint.hpp>
#include <profile/joint_tape.hpp>
#include <profile/rate_posterior.hpp>
#include <profile/rate_tally.hpp>
#include <profile/shell_shifts.hpp>
#include <profile/weights.hpp>

#include <algorithm>

namespace callfit {
namespace {

using Tallies = std::array<RateTally, rate_count>;

// Everything charted of one family.
struct FamilyTape {
  Tallies rates;
  std::vector<CatchRange> catches;
  std::vector<GainRange> runs;
  double snaps = 0;
  double effective_snaps = 0;
};

struct Tape {
  std::vector<FamilyTape> families;
  std::vector<GainRange> scrambles;
  std::vector<GainRange> sacks;
  std::vector<GameContribution> games;
  std::optional<JointTape> joint;
};

void add_gain(Tape& tape, const WeightedSnap& weighted, FamilyKind kind) {
  FamilyTape& family = tape.families[weighted.family];
  switch (weighted.snap->result) {
    case Result::complete:
      family.catches.push_back(catch_range(weighted));
      break;
    case Result::scramble:
      tape.scrambles.push_back(gain_range(weighted));
      break;
    case Result::sack:
      tape.sacks.push_back(gain_range(weighted));
      break;
    case Result::run:
      if (kind != FamilyKind::pass) family.runs.push_back(gain_range(weighted));
      break;
    default:
      break;
  }
}

Tape read_tape(const std::vector<Chart>& charts, const Setting& setting, const Weighting& weighting,
               const std::vector<FamilyAlias>& like) {
  Tape tape;
  tape.families.resize(setting.families.size());
  for (FamilyTape& family : tape.families) family.rates.fill(RateTally(weighting.levels.size()));
  if (setting.population) tape.joint.emplace(setting, weighting);
  tape.games = weigh(charts, setting, weighting, like, [&](const WeightedSnap& weighted) {
    FamilyTape& family = tape.families[weighted.family];
    family.snaps += 1;
    family.effective_snaps += weighted.weight;
    for (std::size_t r = 0; r < rate_count; ++r)
      if (const auto made = trial(*weighted.snap, static_cast<Rate>(r), setting.success))
        family.rates[r].add(weighted, *made);
    add_gain(tape, weighted, setting.families[weighted.family].kind);
    if (tape.joint) tape.joint->add(weighted);
  });
  return tape;
}

// One family's rates and cells out of its tape.
class FamilyRates {
 public:
  FamilyRates(const FamilyPopulation& population, const Setting& setting,
              const Weighting& weighting)
      : population_(population),
        table_(setting.cell_table(population)),
        mix_(shell_mix(setting)),
        levels_(weighting.levels) {}

  void estimate(const Tallies& tallies, FamilyProfile& profile) const {
    for (std::size_t r = 0; r < rate_count; ++r) {
      if (!population_.rates[r]) continue;
      const RatePopulation& rate = *population_.rates[r];
      const Beta prior = Beta::of_mean(rate.mean, rate.strength());
      const std::vector<ShiftedCounts> groups = all_groups(tallies[r], r);
      const Nodes nodes = posterior_nodes(prior, groups);
      const Beta posterior = rate_posterior(prior, groups, nodes);
      profile.rates[r] = RateEstimate{posterior.mean(), posterior.strength(), tallies[r].counts()};
      for (std::size_t c = 0; c < cell_count; ++c)
        if (table_[c][r]) profile.cells.push_back(cell(tallies[r], static_cast<Cell>(c), r));
    }
  }

 private:
  // Groups of equal shift: by level and shell.
  std::vector<ShiftedCounts> all_groups(const RateTally& tally, std::size_t r) const {
    const auto shells = shell_shifts(table_, r, population_.rates[r]->mean, mix_);
    std::vector<ShiftedCounts> groups;
    for (std::size_t level = 0; level < tally.levels(); ++level)
      for (std::size_t slot = 0; slot < shell_slots; ++slot) {
        const RateCounts counts = tally.at(level, slot);
        if (counts.effective_of > 0)
          groups.push_back(
              {levels_[level].shift[r] + shells[slot], counts.effective_made, counts.effective_of});
      }
    return groups;
  }

  static RateCounts at_level(const RateTally& tally, std::size_t level, std::optional<Cell> cell) {
    RateCounts sum;
    for (std::size_t slot = 0; slot < shell_slots; ++slot) {
      const RateCounts part = cell ? tally.at(*cell, level, slot) : tally.at(level, slot);
      sum.effective_made += part.effective_made;
      sum.effective_of += part.effective_of;
    }
    return sum;
  }

  static double departure(const RateTally& tally, Cell cell) {
    std::vector<CellCounts> levels;
    for (std::size_t level = 0; level < tally.levels(); ++level) {
      const RateCounts inside = at_level(tally, level, cell);
      if (inside.effective_of <= 0) continue;
      const RateCounts all = at_level(tally, level, {});
      levels.push_back(
          {inside.effective_made, inside.effective_of, all.effective_made / all.effective_of});
    }
    return departure_of(levels);
  }

  CellEstimate cell(const RateTally& tally, Cell cell, std::size_t r) const {
    const CellRate& known = *table_[static_cast<std::size_t>(cell)][r];
    CellEstimate estimate;
    estimate.cell = cell;
    estimate.rate = static_cast<Rate>(r);
    estimate.shift = known.shift;
    estimate.kappa = known.kappa;
    estimate.counts = tally.counts(cell);
    estimate.departure = departure(tally, cell);
    return estimate;
  }

  const FamilyPopulation& population_;
  CellTable table_;
  ShellMix mix_;
  const std::vector<Level>& levels_;
};

FamilyProfile family_profile(const FamilyPopulation& population, const FamilyTape& tape,
                             const Setting& setting, const Weighting& weighting) {
  FamilyProfile profile;
  profile.id = population.id;
  profile.snaps = tape.snaps;
  profile.effective_snaps = tape.effective_snaps;
  FamilyRates(population, setting, weighting).estimate(tape.rates, profile);
  if (population.depth && population.yac) {
    CatchEstimates estimates = catch_posterior(*population.depth, *population.yac, tape.catches);
    profile.depth = std::move(estimates.depth);
    profile.yac = std::move(estimates.after);
  }
  if (population.run) profile.run = gain_posterior(*population.run, tape.runs);
  return profile;
}

void require_few(const std::string& what, std::size_t count) {
  if (count > most_games)
    throw InputError(Finding{{"", 0, what},
                             std::to_string(count) + " different ones of one quarterback",
                             "at most " + std::to_string(most_games) + " can be told apart"});
}

}  // namespace

Weighting weighting_of(const Setting& setting) { return {setting.levels, {}}; }

double Profile::snaps() const {
  double total = 0;
  for (const FamilyProfile& family : families) total += family.snaps;
  return total;
}

Profile build_profile(const std::string& name, const std::vector<Chart>& charts,
                      const Setting& setting, const Weighting& weighting,
                      const std::vector<FamilyAlias>& like) {
  Tape tape = read_tape(charts, setting, weighting, like);
  require_few("game", tape.games.size());
  Profile profile;
  profile.name = name;
  profile.setting = setting.id;
  profile.weighting = weighting;
  profile.games = std::move(tape.games);
  for (std::size_t f = 0; f < setting.families.size(); ++f)
    profile.families.push_back(
        family_profile(setting.families[f], tape.families[f], setting, weighting));
  profile.scramble = gain_posterior(setting.scramble_gain, tape.scrambles);
  profile.sack = gain_posterior(setting.sack_gain, tape.sacks);
  if (tape.joint) {
    auto told = tape.joint->told();
    profile.evidence = std::move(told.evidence);
    profile.departures = std::move(told.departures);
    require_few("opponent", profile.evidence.opponents.size());
    profile.joint = posterior_of(with_assumed_spreads(*setting.population), profile.evidence);
    apply_joint(profile, setting);
  } else {
    for (FamilyProfile& family : profile.families) estimate_cells(family, shell_mix(setting));
  }
  return profile;
}

Interval RateEstimate::interval90() const {
  return callfit::interval90(Beta::of_mean(mean, strength));
}

}  // namespace callfit
