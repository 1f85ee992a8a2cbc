#include <callfit/format/profile.hpp>
#include <callfit/profile/edited_cell.hpp>
#include <callfit/profile/most_games.hpp>
#include <format/documents.hpp>
#include <format/part.hpp>
#include <format/setting_parts.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace callfit {
namespace {

constexpr double most_snaps = 1e9;
constexpr Numbers charted_snaps_rule{0, most_snaps, "a number of snaps, 0 or more"};
constexpr Numbers effective_rule{0, most_snaps, "a weighted number of snaps, 0 or more"};
constexpr Numbers estimate_mean_rule{0, 1, "a share above 0 and below 1", true, true};
constexpr Numbers strength_rule{least_strength, most_snaps,
                                "how many snaps the estimate is worth, 0.01 or more"};
constexpr Numbers departure_rule{
    -28, 28, "log-odds of the rate counted inside against that of all the snaps, from -28 to 28"};
constexpr Numbers alpha_rule{0, most_snaps, "a weight above 0", true};
constexpr Sizes alphas_rule{1, 100, "a weight above 0 for each bin"};
constexpr Sizes shown_bins_rule{1, 100, "the lowest yard of each bin, for reading only"};
constexpr Sizes ends_rule{2, 2, "the ends of the 90% interval, for reading only"};
constexpr Sizes cells_rule{0, 500, "rates under conditions"};
constexpr Sizes games_rule{0, most_games, "what each game contributes"};
constexpr std::string_view gain_is = "a gain: snaps, bins, alpha";
constexpr std::string_view rate_is = "a rate: mean, strength, counts";

RateCounts counts_from(Fields& fields) {
  return {fields.number("made", charted_snaps_rule), fields.number("of", charted_snaps_rule),
          fields.number("effective_made", effective_rule),
          fields.number("effective_of", effective_rule)};
}

std::optional<Interval> interval_from(Fields& fields) {
  const auto ends = fields.maybe("interval90", [](const Part& part) {
    return part.list(ends_rule, [](const Part& end) { return end.number(Numbers{0, 1}); });
  });
  if (!ends || ends->size() != 2) return {};
  return Interval{(*ends)[0], (*ends)[1]};
}

/// A rate, and whether its stored interval is no longer the one of mean and strength.
struct StoredRate {
  RateEstimate rate;
  bool edited = false;
};

bool is_edited(const RateEstimate& rate, const std::optional<Interval>& stored) {
  constexpr double same = 1e-9;
  if (!stored) return true;
  const Interval own = rate.interval90();
  return std::abs(own.low - stored->low) > same || std::abs(own.high - stored->high) > same;
}

StoredRate stored_rate_from(const Part& part) {
  return part.object(rate_is, [](Fields& fields) {
    StoredRate stored;
    stored.rate = {fields.number("mean", estimate_mean_rule),
                   fields.number("strength", strength_rule), counts_from(fields)};
    const auto interval = interval_from(fields);
    stored.edited = fields.sound() && is_edited(stored.rate, interval);
    return stored;
  });
}

/// `population` tells how many bins there are; any number where there is none.
GainEstimate stored_gain_from(const Part& part, const GainPopulation* population) {
  return part.object(gain_is, [&](Fields& fields) {
    GainEstimate gain;
    gain.snaps = fields.number("snaps", charted_snaps_rule);
    gain.effective_snaps = fields.number("effective_snaps", effective_rule);
    fields.maybe("bins", [](const Part& bins) {
      return bins.list(shown_bins_rule, [](const Part& bin) { return bin.integer(any_number); });
    });
    gain.alpha = fields.list("alpha", alphas_rule,
                             [](const Part& alpha) { return alpha.number(alpha_rule); });
    const std::size_t bins = population ? population->bin_start.size() : gain.alpha.size();
    if (fields.sound("alpha") && gain.alpha.size() != bins)
      fields.at("alpha").fault(
          std::to_string(gain.alpha.size()) + " weights for " + std::to_string(bins) + " bins",
          "give one weight a bin of the setting");
    return gain;
  });
}

// Nothing in a profile is needed that a profile built anew would not hold.
void missing(const Part& object, std::string_view key) {
  object.faults().add(child(object.pointer(), key), "is missing", "build the profile again");
}

std::optional<GainEstimate> gain_at(Fields& gains, std::string_view key,
                                    const std::optional<GainPopulation>& population) {
  auto gain = gains.maybe(key, [&](const Part& part) {
    return stored_gain_from(part, population ? &*population : nullptr);
  });
  if (population && !gain) missing(gains.part(), key);
  return population ? gain : std::nullopt;
}

class FamilyReader {
 public:
  FamilyReader(const Setting& setting, const FamilyPopulation& population)
      : setting_(setting), population_(population) {}

  FamilyProfile read(Fields& fields) {
    family_.id = population_.id;
    family_.snaps = fields.number("snaps", charted_snaps_rule);
    family_.effective_snaps = fields.number("effective_snaps", effective_rule);
    fields.flag_or("unseen", false);
    fields.object("rates", "rates", [this](Fields& rates) { return read_rates(rates); });
    const bool rates_sound = fields.sound("rates");
    fields.objects("cells", cells_rule, "a rate under one condition",
                   [&](Fields& cell) { return read_cell(cell, rates_sound); });
    if (fields.sound("cells") && !derive_cells())
      fields.at("cells").fault("the numbers of a cell do not belong together",
                               "build the profile again");
    fields.object("gains", "gains", [this](Fields& gains) {
      family_.depth = gain_at(gains, "depth", population_.depth);
      family_.yac = gain_at(gains, "yac", population_.yac);
      family_.run = gain_at(gains, "run", population_.run);
      return true;
    });
    return std::move(family_);
  }

 private:
  bool read_rates(Fields& rates) {
    for (std::size_t r = 0; r < rate_count; ++r) {
      const std::string_view name = word(static_cast<Rate>(r));
      const auto stored = rates.maybe(name, stored_rate_from);
      if (population_.rates[r] && !stored) missing(rates.part(), name);
      if (!population_.rates[r] && stored)
        rates.at(name).fault("the setting has no such rate for " + population_.id, "leave it out");
      if (!population_.rates[r] || !stored) continue;
      family_.rates[r] = stored->rate;
      edited_[r] = stored->edited;
    }
    return true;
  }

  bool read_cell(Fields& fields, bool rates_sound) {
    CellEstimate cell;
    cell.rate = fields.word<Rate>("rate");
    cell.cell = fields.word<Cell>("cell");
    const auto mean =
        fields.maybe("mean", [](const Part& part) { return part.number(estimate_mean_rule); });
    const auto interval = interval_from(fields);
    cell.shift = fields.number("shift", shift_rule);
    cell.kappa = fields.number("kappa", cell_kappa_rule);
    cell.departure = fields.number("departure", departure_rule);
    cell.counts = counts_from(fields);
    const auto r = static_cast<std::size_t>(cell.rate);
    if (!fields.sound() || !rates_sound) return false;
    if (!family_.rates[r]) {
      fields.at("rate").fault("the family has no such rate", "leave the cell out");
      return false;
    }
    const bool known = !edited_[r] && mean && interval;
    if (known) {
      cell.mean = *mean;
      cell.interval = *interval;
    }
    derived_.push_back(!known);
    family_.cells.push_back(cell);
    return true;
  }

  // Cells that do not stand in the file, or no longer belong to their family's rate. False for
  // counts and a departure that no tape can give, which leave no posterior.
  bool derive_cells() {
    if (std::find(derived_.begin(), derived_.end(), true) == derived_.end()) return true;
    FamilyProfile derived = family_;
    try {
      estimate_cells(derived, shell_mix(setting_));
    } catch (const std::domain_error&) {
      return false;
    }
    for (std::size_t c = 0; c < derived_.size(); ++c)
      if (derived_[c]) family_.cells[c] = derived.cells[c];
    return std::all_of(family_.cells.begin(), family_.cells.end(),
                       [](const CellEstimate& cell) { return cell.mean > 0 && cell.mean < 1; });
  }

  const Setting& setting_;
  const FamilyPopulation& population_;
  FamilyProfile family_;
  std::array<bool, rate_count> edited_{};
  std::vector<bool> derived_;
};

Level weighted_level_from(const Part& part, const std::string& id) {
  return part.object("weight and shifts of a level", [&](Fields& fields) {
    Level level{id, fields.number("weight", share_rule), {}};
    level.shift = fields.object("shifts", rate_shifts_want, shifts_of<Rate, rate_count>);
    return level;
  });
}

Weighting weighting_from(Fields& fields) {
  Weighting weighting;
  weighting.levels =
      fields.entries("levels", {0, unlimited, "levels of competition by id"}, weighted_level_from);
  return weighting;
}

GameContribution game_from(Fields& fields) {
  return {fields.text("game"), fields.text("level"), fields.number("snaps", charted_snaps_rule),
          fields.number("effective_snaps", effective_rule)};
}

/// In the setting's order, whatever the document's.
std::vector<FamilyProfile> families_from(const Part& families, const Setting& setting) {
  constexpr Sizes rule{0, unlimited, "families by id"};
  std::vector<FamilyProfile> list(setting.families.size());
  std::vector<std::string> known;
  known.reserve(list.size());
  for (const FamilyPopulation& population : setting.families) known.push_back(population.id);
  if (families.value().is_object())
    for (const std::string& id : known)
      if (!families.value().contains(id)) missing(families, id);
  families.entries(rule, [&](const Part& part, const std::string& id) {
    const FamilyPopulation* population = setting.find_family(id);
    if (population == nullptr) {
      part.fault("unknown family", suggest(id, known));
      return false;
    }
    list[static_cast<std::size_t>(population - setting.families.data())] = part.object(
        "what the tape says about a family",
        [&](Fields& fields) { return FamilyReader(setting, *population).read(fields); });
    return true;
  });
  return list;
}

void check_setting(Fields& document, const Setting& setting) {
  constexpr Texts rule{0, unlimited, "the id of the setting it was pulled toward"};
  const std::string own = document.text("setting", rule);
  if (!document.sound("setting") || own == setting.id) return;
  document.at("setting").fault("the profile was made with setting " + own + ", not " + setting.id,
                               "use --setting " + own + ", or build it again from its charts");
  document.part().faults().settle();  // nothing else can be held against another setting
}

constexpr Sizes tallies_rule{0, 200000, "counts, a quantity under like circumstances each"};
constexpr Sizes categories_rule{2, 100, "counts by category, the lowest first"};
constexpr Sizes sources_rule{0, 100, "places where snaps come from"};
constexpr Sizes effects_rule{0, 50000, "what is known of opponents"};
constexpr Sizes mixtures_rule{0, 1000, "counts of which only a sum over rates is known"};
constexpr Sizes parts_rule{1, 1000, "the rates of a mixture"};
constexpr Numbers effect_rule{-5, 5, "log-odds from -5 to 5"};
constexpr Numbers effect_spread_rule{0, 5, "a standard deviation on the log-odds scale"};
constexpr Numbers number_rule{0, static_cast<double>(most_games), "a whole number from 0"};

class EvidenceReader {
 public:
  explicit EvidenceReader(const Population& population) : population_(population) {}

  Evidence read(Fields& fields) {
    evidence_.games = static_cast<std::size_t>(fields.integer("games", number_rule));
    evidence_.opponents.resize(static_cast<std::size_t>(fields.integer("opponents", number_rule)));
    fields.maybe("sources", [this](const Part& part) {
      evidence_.sources = part.list(sources_rule, [this](const Part& item) {
        return item.object("a name and what changed since", [this](Fields& source) {
          TapeSource out = source_after(population_, source.word<PlaceChange>("change"));
          out.name = source.text("name", some_text);
          return out;
        });
      });
      return true;
    });
    fields.maybe("opponent_effects", [this](const Part& part) {
      return part.list(effects_rule, [this](const Part& item) {
        return item.object("what is known of an opponent's effect on a trait",
                           [this](Fields& effect) { return read_effect(effect); });
      });
    });
    fields.maybe("coming", [this](const Part& part) {
      evidence_.coming.resize(population_.traits.size());
      return part.list(effects_rule, [this](const Part& item) {
        return item.object("what opponents to come do to a trait",
                           [this](Fields& effect) { return read_coming(effect); });
      });
    });
    fields.maybe("mixtures", [this](const Part& part) {
      evidence_.mixtures = part.list(mixtures_rule, [this](const Part& item) {
        return item.object("made of so many, and the parts",
                           [this](Fields& mixture) { return mixture_from(mixture); });
      });
      return true;
    });
    evidence_.tallies = fields.objects("counts", tallies_rule, "what was counted of a quantity",
                                       [this](Fields& tally) { return tally_from(tally); });
    return std::move(evidence_);
  }

 private:
  std::optional<std::size_t> trait_from(Fields& fields) const {
    return place(fields, "trait", population_.find_trait(fields.text("trait", some_text)));
  }

  static OpponentEffect effect_from(Fields& fields) {
    return {fields.number("mean", effect_rule), fields.number("spread", effect_spread_rule)};
  }

  bool read_coming(Fields& fields) {
    const auto trait = trait_from(fields);
    const OpponentEffect effect = effect_from(fields);
    if (trait) evidence_.coming[*trait] = effect;
    return trait.has_value();
  }

  bool read_effect(Fields& fields) {
    const auto opponent = number_below(fields, "opponent", evidence_.opponents.size());
    const auto trait = trait_from(fields);
    const OpponentEffect effect = effect_from(fields);
    if (!fields.has("opponent")) fields.missing("opponent", number_rule.want);
    if (!opponent || !trait || !fields.sound()) return false;
    auto& effects = evidence_.opponents[*opponent].effects;
    effects.resize(population_.traits.size());
    effects[*trait] = effect;
    return true;
  }

  std::optional<std::size_t> level_from(Fields& fields) const {
    const auto level = fields.maybe("level", [](const Part& id) { return id.text(some_text); });
    return level ? place(fields, "level", population_.find_level(*level)) : std::nullopt;
  }

  MixtureCounts mixture_from(Fields& fields) const {
    MixtureCounts mixture;
    mixture.made = fields.number("made", effective_rule);
    mixture.of = fields.number("of", effective_rule);
    mixture.games = fields.number_or("games", effective_rule, 0.0);
    mixture.level = level_from(fields);
    mixture.source = number_below(fields, "source", evidence_.sources.size());
    mixture.parts = fields.objects("parts", parts_rule, "a rate and its share", [&](Fields& part) {
      const auto quantity =
          place(part, "quantity", population_.find_quantity(part.text("quantity", some_text)));
      if (quantity && population_.quantities[*quantity].thresholds.size() != 1)
        part.at("quantity").fault("is no rate", "build the profile again");
      return MixturePart{quantity.value_or(0), part.number("share", share_rule),
                         part.number_or("shift", effect_rule, 0.0)};
    });
    double shares = 0;
    for (const MixturePart& part : mixture.parts) shares += part.share;
    if (fields.sound() && !(shares > 0 && shares < 1 + 1e-9))
      fields.at("parts").fault("shares do not add up to 1", "build the profile again");
    if (fields.sound() && mixture.made > mixture.of)
      fields.at("made").fault("more than there were", "build the profile again");
    return mixture;
  }

  QuantityCounts tally_from(Fields& fields) {
    QuantityCounts tally;
    const std::string quantity = fields.text("quantity", some_text);
    tally.counts = fields.list("counts", categories_rule,
                               [](const Part& count) { return count.number(effective_rule); });
    tally.shift = fields.number_or("shift", shift_rule, 0.0);
    tally.level = level_from(fields);
    tally.source = number_below(fields, "source", evidence_.sources.size());
    tally.opponent = number_below(fields, "opponent", evidence_.opponents.size());
    tally.game = number_below(fields, "game", evidence_.games);
    const auto found = place(fields, "quantity", population_.find_quantity(quantity));
    tally.quantity = found.value_or(0);
    if (found && fields.sound("counts") &&
        tally.counts.size() != population_.quantities[*found].thresholds.size() + 1)
      fields.at("counts").fault("not a count for each category of the setting",
                                "build the profile again");
    return tally;
  }

  static std::optional<std::size_t> place(const Fields& fields, std::string_view key,
                                          std::optional<std::size_t> found) {
    if (!found && fields.has(key) && fields.sound(key))
      fields.at(key).fault("the setting's population does not know it", "build the profile again");
    return found;
  }

  static std::optional<std::size_t> number_below(Fields& fields, std::string_view key,
                                                 std::size_t count) {
    const auto number =
        fields.maybe(key, [](const Part& part) { return part.integer(number_rule); });
    if (!number) return {};
    const auto value = static_cast<std::size_t>(*number);
    if (fields.sound(key) && value >= count)
      fields.at(key).fault("there are only " + std::to_string(count), "count from 0");
    return value;
  }

  const Population& population_;
  Evidence evidence_;
};

void read_evidence(Fields& document, const Setting& setting, Profile& profile) {
  if (!setting.population) {
    document.maybe("evidence", [](const Part& part) {
      part.fault("the setting has no population that it could be of", "leave it out");
      return true;
    });
    return;
  }
  profile.evidence = document.object(
      "evidence", "what was counted, by quantity",
      [&](Fields& fields) { return EvidenceReader(*setting.population).read(fields); });
  if (document.sound())
    profile.joint = posterior_of(with_assumed_spreads(*setting.population), profile.evidence);
}

Profile profile_from(Fields& document, const Setting& setting) {
  check_setting(document, setting);
  Profile profile;
  profile.setting = setting.id;
  profile.name = document.text("name", person_rule);
  document.text_or("about", any_text, "");
  document.number_or("snaps", charted_snaps_rule, 0.0);
  profile.games = document.objects("games", games_rule, "what a game contributes", game_from);
  profile.weighting = document.object("weighting", "how snaps are weighed", weighting_from);
  profile.families = document.needed(
      "families", "families by id", [&](const Part& part) { return families_from(part, setting); });
  document.object("shared_gains", "gains of scrambles and sacks", [&](Fields& gains) {
    profile.scramble = gains.needed("scramble", gain_is, [&](const Part& part) {
      return stored_gain_from(part, &setting.scramble_gain);
    });
    profile.sack = gains.needed("sack", gain_is, [&](const Part& part) {
      return stored_gain_from(part, &setting.sack_gain);
    });
    return true;
  });
  read_evidence(document, setting, profile);
  return profile;
}

}  // namespace

Profile profile_of(const nlohmann::json& document, const std::string& source,
                   const Setting& setting) {
  return read_document(document, "callfit-profile", source,
                       [&](Fields& fields) { return profile_from(fields, setting); });
}

Profile parse_profile(std::string_view text, const std::string& source, const Setting& setting) {
  return profile_of(parse_json(text, source), source, setting);
}

}  // namespace callfit
