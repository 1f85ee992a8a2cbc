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

JointTape::JointTape(const Setting& setting, const Weighting& weighting, bool by_snap)
    : setting_(setting),
      weighting_(weighting),
      by_snap_(by_snap),
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
  if (counted.weight > 0) {
    const Circumstances where = circumstances_of(weighted);
    add_rates(counted, where);
    add_gain(counted, where);
  }
  ++added_;
}

void JointTape::count(Tallies& tallies, std::size_t snap, const TallyKey& key,
                      const std::vector<double>& counts) const {
  std::vector<double>& sum = tallies.of[key].counts;
  sum.resize(counts.size());
  for (std::size_t b = 0; b < counts.size(); ++b) sum[b] += counts[b];
  if (by_snap_) tallies.brought.emplace_back(snap, key, counts);
}

void JointTape::add_rates(const WeightedSnap& weighted, const Circumstances& where) {
  const Snap& snap = *weighted.snap;
  const std::size_t slot = snap.shell ? static_cast<std::size_t>(*snap.shell) : shell_count;
  for (std::size_t r = 0; r < rate_count; ++r) {
    const auto quantity = places_.rates[weighted.family][r];
    const auto made = quantity ? trial(snap, static_cast<Rate>(r), setting_.success) : std::nullopt;
    if (!made) continue;
    const TallyKey key{*quantity, where};
    count(rates_, added_, key, {*made ? 0 : weighted.weight, *made ? weighted.weight : 0});
    rates_.of[key].shift += weighted.weight * shell_shifts_[weighted.family][r][slot];
  }
}

void JointTape::add_gain(const WeightedSnap& weighted, const Circumstances& where) {
  const auto add = [&](auto& charted, const auto& range) {
    charted.ranges.push_back(range);
    charted.circumstances.push_back(where);
    charted.snaps.push_back(added_);
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

void JointTape::count_gains(std::size_t family, GainPart part, const Charted<GainRange>& charted,
                            Tallies& tallies) const {
  const auto quantity = places_.gains[family][static_cast<std::size_t>(part)];
  if (!quantity || charted.ranges.empty()) return;
  const auto counts = gain_counts(*population_of(setting_, family, part), charted.ranges);
  for (std::size_t i = 0; i < counts.size(); ++i)
    count(tallies, charted.snaps[i], {*quantity, charted.circumstances[i]}, counts[i]);
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
      count(tallies, charted.snaps[i], {*quantity, charted.circumstances[i]}, of_part[i]);
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
  evidence.coming = coming_of(weighting_.around.coming, setting_, weighting_.around.calls);
  std::map<TallyKey, std::size_t> number;
  for (const auto& [key, tally] : tallies.of) {
    const auto& [quantity, where] = key;
    const double snaps = std::accumulate(tally.counts.begin(), tally.counts.end(), 0.0);
    if (!(snaps > 0)) continue;
    if (by_snap_) number[key] = evidence.tallies.size();
    evidence.tallies.push_back({quantity, tally.counts, tally.shift / snaps, where.level,
                                where.source, where.opponent, where.game});
  }
  std::vector<SnapCounts> by_snap;
  for (auto& [snap, key, counts] : tallies.brought)
    if (const auto found = number.find(key); found != number.end())
      by_snap.push_back({snap, found->second, std::move(counts)});
  auto departures = add_seasons(setting_, weighting_.around, seasons_, sources_, evidence);
  return {std::move(evidence), std::move(departures), std::move(by_snap)};
}

}  // namespace callfit
