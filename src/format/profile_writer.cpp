// Writes profiles as JSON.
#include <callfit/format/profile.hpp>
#include <format/json_print.hpp>

#include <nlohmann/json.hpp>

namespace callfit {
namespace {

using nlohmann::ordered_json;

constexpr const char* about =
    "Edit mean (a share) and strength (how many snaps it is worth) of a rate; interval90 is for "
    "reading only. Cells follow their family when its rate is edited. alpha weighs the bins of a "
    "gain, which begin at the yards in bins. What is edited goes its own way: other rates follow "
    "from evidence, what was counted.";

ordered_json interval_json(const Interval& interval) { return {interval.low, interval.high}; }

void put_counts(const RateCounts& counts, ordered_json& entry) {
  entry["made"] = counts.made;
  entry["of"] = counts.of;
  entry["effective_made"] = counts.effective_made;
  entry["effective_of"] = counts.effective_of;
}

ordered_json rate_json(const RateEstimate& rate) {
  ordered_json entry{{"mean", rate.mean},
                     {"strength", rate.strength},
                     {"interval90", interval_json(rate.interval90())}};
  put_counts(rate.counts, entry);
  return entry;
}

ordered_json cell_json(const CellEstimate& cell) {
  ordered_json entry{{"rate", word(cell.rate)},    {"cell", word(cell.cell)},
                     {"mean", cell.mean},          {"interval90", interval_json(cell.interval)},
                     {"shift", cell.shift},        {"kappa", cell.kappa},
                     {"departure", cell.departure}};
  put_counts(cell.counts, entry);
  return entry;
}

ordered_json gain_json(const GainEstimate& gain, const GainPopulation& population) {
  return {{"snaps", gain.snaps},
          {"effective_snaps", gain.effective_snaps},
          {"bins", population.bin_start},
          {"alpha", gain.alpha}};
}

ordered_json family_json(const FamilyProfile& family, const FamilyPopulation& population) {
  ordered_json entry{{"snaps", family.snaps},          {"effective_snaps", family.effective_snaps},
                     {"unseen", family.unseen()},      {"rates", ordered_json::object()},
                     {"cells", ordered_json::array()}, {"gains", ordered_json::object()}};
  for (std::size_t r = 0; r < rate_count; ++r)
    if (family.rates[r])
      entry["rates"][std::string(word(static_cast<Rate>(r)))] = rate_json(*family.rates[r]);
  for (const CellEstimate& cell : family.cells) entry["cells"].push_back(cell_json(cell));
  if (family.depth) entry["gains"]["depth"] = gain_json(*family.depth, *population.depth);
  if (family.yac) entry["gains"]["yac"] = gain_json(*family.yac, *population.yac);
  if (family.run) entry["gains"]["run"] = gain_json(*family.run, *population.run);
  return entry;
}

ordered_json weighting_json(const Weighting& weighting) {
  ordered_json levels = ordered_json::object();
  for (const Level& level : weighting.levels) {
    ordered_json shifts = ordered_json::object();
    for (std::size_t r = 0; r < rate_count; ++r)
      if (level.shift[r] != 0) shifts[std::string(word(static_cast<Rate>(r)))] = level.shift[r];
    levels[level.id] = {{"weight", level.weight}, {"shifts", shifts}};
  }
  return {{"levels", levels}};
}

ordered_json tally_json(const QuantityCounts& tally, const Population& population) {
  ordered_json entry{{"quantity", population.quantities[tally.quantity].id},
                     {"counts", tally.counts}};
  if (tally.shift != 0) entry["shift"] = tally.shift;
  if (tally.level) entry["level"] = population.levels[*tally.level].id;
  if (tally.source) entry["source"] = *tally.source;
  if (tally.opponent) entry["opponent"] = *tally.opponent;
  if (tally.game) entry["game"] = *tally.game;
  return entry;
}

ordered_json effects_json(const std::vector<Opponent>& opponents, const Population& population) {
  ordered_json json = ordered_json::array();
  for (std::size_t o = 0; o < opponents.size(); ++o)
    for (std::size_t t = 0; t < opponents[o].effects.size(); ++t)
      if (const auto& effect = opponents[o].effects[t])
        json.push_back({{"opponent", o},
                        {"trait", population.traits[t].id},
                        {"mean", effect->mean},
                        {"spread", effect->spread}});
  return json;
}

ordered_json mixture_json(const MixtureCounts& mixture, const Population& population) {
  ordered_json parts = ordered_json::array();
  for (const MixturePart& part : mixture.parts)
    parts.push_back({{"quantity", population.quantities[part.quantity].id},
                     {"share", part.share},
                     {"shift", part.shift}});
  ordered_json entry{{"made", mixture.made}, {"of", mixture.of}, {"games", mixture.games}};
  if (mixture.level) entry["level"] = population.levels[*mixture.level].id;
  if (mixture.source) entry["source"] = *mixture.source;
  entry["parts"] = std::move(parts);
  return entry;
}

ordered_json coming_json(const std::vector<OpponentEffect>& coming, const Population& population) {
  ordered_json json = ordered_json::array();
  for (std::size_t t = 0; t < coming.size(); ++t)
    json.push_back({{"trait", population.traits[t].id},
                    {"mean", coming[t].mean},
                    {"spread", coming[t].spread}});
  return json;
}

// Games, opponents and sources are numbers from 0; only which snaps share one matters.
ordered_json evidence_json(const Evidence& evidence, const Population& population) {
  ordered_json json{{"games", evidence.games}, {"opponents", evidence.opponents.size()}};
  if (!evidence.sources.empty()) json["sources"] = ordered_json::array();
  for (const TapeSource& source : evidence.sources)
    json["sources"].push_back({{"name", source.name}, {"change", word(source.change.value())}});
  const ordered_json effects = effects_json(evidence.opponents, population);
  if (!effects.empty()) json["opponent_effects"] = effects;
  if (!evidence.coming.empty()) json["coming"] = coming_json(evidence.coming, population);
  json["counts"] = ordered_json::array();
  for (const QuantityCounts& tally : evidence.tallies)
    json["counts"].push_back(tally_json(tally, population));
  if (!evidence.mixtures.empty()) json["mixtures"] = ordered_json::array();
  for (const MixtureCounts& mixture : evidence.mixtures)
    json["mixtures"].push_back(mixture_json(mixture, population));
  return json;
}

}  // namespace

std::string profile_to_json(const Profile& profile, const Setting& setting) {
  ordered_json document{{"format", "callfit-profile/1"}, {"name", profile.name},
                        {"setting", profile.setting},    {"about", about},
                        {"snaps", profile.snaps()},      {"games", ordered_json::array()}};
  for (const GameContribution& game : profile.games)
    document["games"].push_back({{"game", game.game},
                                 {"level", game.level},
                                 {"snaps", game.snaps},
                                 {"effective_snaps", game.effective_snaps}});
  document["weighting"] = weighting_json(profile.weighting);
  for (std::size_t f = 0; f < profile.families.size(); ++f)
    document["families"][profile.families[f].id] =
        family_json(profile.families[f], setting.families[f]);
  document["shared_gains"] = {{"scramble", gain_json(profile.scramble, setting.scramble_gain)},
                              {"sack", gain_json(profile.sack, setting.sack_gain)}};
  if (setting.population)
    document["evidence"] = evidence_json(profile.evidence, *setting.population);
  return readable(document);
}

}  // namespace callfit
