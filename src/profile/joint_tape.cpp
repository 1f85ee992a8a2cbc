#include <profile/joint_tape.hpp>

#include <profile/shell_shifts.hpp>

#include <algorithm>
#include <numeric>

namespace callfit {
namespace {

std::size_t number_of(std::map<std::pair<std::string, std::string>, std::size_t>& names,
                      const SharedText& name, const SharedText& level) {
  return names.try_emplace({name.str(), level.str()}, names.size()).first->second;
}

}  // namespace

JointTape::JointTape(const Setting& setting, const Weighting& weighting)
    : setting_(setting),
      weighting_(weighting),
      places_(joint_places(setting)),
      sources_(setting, weighting.around.moves),
      seasons_(weighting.around.seasons.size()),
      catches_(setting.families.size()),
      runs_(setting.families.size()) {
  const ShellMix mix = shell_mix(setting);
  for (const FamilyPopulation& family : setting.families) {
    const CellTable table = setting.cell_table(family);
    auto& shifts = shell_shifts_.emplace_back();
    for (std::size_t r = 0; r < rate_count; ++r)
      if (family.rates[r]) shifts[r] = shell_shifts(table, r, family.rates[r]->mean, mix);
  }
}

JointTape::Circumstances JointTape::circumstances_of(const WeightedSnap& weighted) {
  const Snap& snap = *weighted.snap;
  Circumstances where;
  where.source = sources_.of(snap, weighted.chart->source);
  where.game = number_of(games_, snap.game, snap.level);
  if (!snap.opponent.empty()) where.opponent = number_of(opponents_, snap.opponent, snap.level);
  if (snap.level != setting_.level)
    where.level = setting_.population->find_level(snap.level.view());
  return where;
}

double JointTape::share_counted(const WeightedSnap& weighted) const {
  const Level& asked = weighting_.levels[weighted.level];
  if (!(asked.weight > 0)) return 0;
  const Level* usual = setting_.find_level(asked.id);
  const double least = usual != nullptr ? usual->weight : asked.weight;
  return weighted.weight / std::max(asked.weight, least);
}

void JointTape::add(const WeightedSnap& weighted) {
  for (std::size_t s = 0; s < seasons_.size(); ++s)
    if (is_of(*weighted.snap, weighting_.around.seasons[s])) seasons_[s].add(*weighted.snap);
  WeightedSnap counted = weighted;
  counted.weight = share_counted(weighted);
  if (!(counted.weight > 0)) return;
  const Circumstances where = circumstances_of(weighted);
  add_rates(counted, where);
  add_gain(counted, where);
}

void JointTape::add_rates(const WeightedSnap& weighted, const Circumstances& where) {
  const Snap& snap = *weighted.snap;
  const std::size_t slot = snap.shell ? static_cast<std::size_t>(*snap.shell) : shell_count;
  for (std::size_t r = 0; r < rate_count; ++r) {
    const auto quantity = places_.rates[weighted.family][r];
    const auto made = quantity ? trial(snap, static_cast<Rate>(r), setting_.success) : std::nullopt;
    if (!made) continue;
    Counts& tally = rates_[{*quantity, where}];
    tally.counts.resize(2);
    tally.counts[*made ? 1 : 0] += weighted.weight;
    tally.shift += weighted.weight * shell_shifts_[weighted.family][r][slot];
  }
}

void JointTape::add_gain(const WeightedSnap& weighted, const Circumstances& where) {
  const auto add = [&](auto& charted, const auto& range) {
    charted.ranges.push_back(range);
    charted.circumstances.push_back(where);
  };
  switch (weighted.snap->result) {
    case Result::complete:
      add(catches_[weighted.family], catch_range(weighted));
      break;
    case Result::scramble:
      add(scrambles_, gain_range(weighted));
      break;
    case Result::sack:
      add(sacks_, gain_range(weighted));
      break;
    case Result::run:
      if (setting_.families[weighted.family].kind != FamilyKind::pass)
        add(runs_[weighted.family], gain_range(weighted));
      break;
    default:
      break;
  }
}

namespace {

void add_counts(std::vector<double>& sum, const std::vector<double>& more) {
  sum.resize(more.size());
  for (std::size_t b = 0; b < more.size(); ++b) sum[b] += more[b];
}

}  // namespace

void JointTape::count_gains(std::size_t family, GainPart part, const Charted<GainRange>& charted,
                            Tallies& tallies) const {
  const auto quantity = places_.gains[family][static_cast<std::size_t>(part)];
  if (!quantity || charted.ranges.empty()) return;
  const auto counts = gain_counts(*gain_of(setting_, family, part), charted.ranges);
  for (std::size_t i = 0; i < counts.size(); ++i)
    add_counts(tallies[{*quantity, charted.circumstances[i]}].counts, counts[i]);
}

void JointTape::count_catches(std::size_t family, Tallies& tallies) const {
  const auto& charted = catches_[family];
  const FamilyPopulation& population = setting_.families[family];
  if (charted.ranges.empty() || !population.depth || !population.yac) return;
  const CatchCounts counts = catch_counts(*population.depth, *population.yac, charted.ranges);
  const auto put = [&](GainPart part, const std::vector<std::vector<double>>& of_part) {
    const auto quantity = places_.gains[family][static_cast<std::size_t>(part)];
    if (!quantity) return;
    for (std::size_t i = 0; i < of_part.size(); ++i)
      add_counts(tallies[{*quantity, charted.circumstances[i]}].counts, of_part[i]);
  };
  put(GainPart::depth, counts.depth);
  put(GainPart::yac, counts.after);
}

std::vector<Opponent> JointTape::opponents() const {
  const Around& around = weighting_.around;
  std::vector<Opponent> list(opponents_.size());
  for (const auto& [key, number] : opponents_) {
    const std::string &name = key.first, &level = key.second;
    const auto known = std::find_if(
        around.opponents.begin(), around.opponents.end(), [&](const OpponentRecord& record) {
          return record.name == name && (record.level.empty() || record.level == level);
        });
    if (known != around.opponents.end()) list[number] = opponent_of(*known, setting_, around.calls);
    list[number].name = name;
  }
  return list;
}

JointTape::Told JointTape::told() const {
  Tallies tallies = rates_;
  for (std::size_t f = 0; f < catches_.size(); ++f) {
    count_catches(f, tallies);
    count_gains(f, GainPart::run, runs_[f], tallies);
  }
  if (!catches_.empty()) {
    count_gains(0, GainPart::scramble, scrambles_, tallies);
    count_gains(0, GainPart::sack, sacks_, tallies);
  }
  Evidence evidence;
  evidence.games = games_.size();
  evidence.sources = sources_.sources();
  evidence.opponents = opponents();
  for (const auto& [key, tally] : tallies) {
    const auto& [quantity, where] = key;
    const double snaps = std::accumulate(tally.counts.begin(), tally.counts.end(), 0.0);
    if (snaps > 0)
      evidence.tallies.push_back({quantity, tally.counts, tally.shift / snaps, where.level,
                                  where.source, where.opponent, where.game});
  }
  auto departures = add_seasons(setting_, weighting_.around, seasons_, sources_, evidence);
  return {std::move(evidence), std::move(departures)};
}

}  // namespace callfit
