#include <callfit/base/nearest.hpp>
#include <callfit/io/profile_file.hpp>
#include <callfit/io/read_file.hpp>
#include <callfit/profile/edited_cell.hpp>
#include <io/json_part.hpp>
#include <io/schema.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

using nlohmann::json;

RateCounts counts_from(const Part& part) {
  return {part.number("made"), part.number("of"), part.number("effective_made"),
          part.number("effective_of")};
}

RateEstimate rate_from(const Part& part) {
  return {part.number("mean"), part.number("strength"), counts_from(part)};
}

std::optional<Interval> interval_from(const Part& part) {
  if (!part.has("interval90")) return {};
  return Interval{part.at("interval90").item(0).value.get<double>(),
                  part.at("interval90").item(1).value.get<double>()};
}

/// Whether the stored interval is no longer the one of mean and strength.
bool edited(const RateEstimate& rate, const std::optional<Interval>& stored) {
  constexpr double same = 1e-9;
  if (!stored) return true;
  const Interval own = rate.interval90();
  return std::abs(own.low - stored->low) > same || std::abs(own.high - stored->high) > same;
}

GainEstimate gain_from(const Part& part, const GainPopulation& population) {
  GainEstimate gain{part.get<std::vector<double>>("alpha"), part.number("snaps"),
                    part.number("effective_snaps")};
  const std::size_t bins = population.bin_start.size();
  if (gain.alpha.size() != bins)
    part.at("alpha").fault(
        std::to_string(gain.alpha.size()) + " weights for " + std::to_string(bins) + " bins",
        "give one weight a bin of the setting");
  return gain;
}

std::optional<GainEstimate> gain_at(const Part& gains, const char* key,
                                    const std::optional<GainPopulation>& population) {
  if (!population) return {};
  if (gains.has(key)) return gain_from(gains.at(key), *population);
  gains.faults.add(child(gains.pointer, key), "is missing", "build the profile again");
  return {};
}

class FamilyReader {
 public:
  FamilyReader(const Part& part, const Setting& setting, const FamilyPopulation& population)
      : part_(part), setting_(setting), population_(population) {}

  FamilyProfile read() {
    family_.id = population_.id;
    family_.snaps = part_.number("snaps");
    family_.effective_snaps = part_.number("effective_snaps");
    read_rates(part_.at("rates"));
    each_item(part_.at("cells"), [this](const Part& cell) { read_cell(cell); });
    derive_cells();
    const Part gains = part_.at("gains");
    family_.depth = gain_at(gains, "depth", population_.depth);
    family_.yac = gain_at(gains, "yac", population_.yac);
    family_.run = gain_at(gains, "run", population_.run);
    return std::move(family_);
  }

 private:
  void read_rates(const Part& rates) {
    for (std::size_t r = 0; r < rate_count; ++r) {
      const std::string_view name = word(static_cast<Rate>(r));
      if (!population_.rates[r]) {
        if (rates.has(name))
          rates.at(name).fault("the setting has no such rate for " + population_.id,
                               "leave it out");
        continue;
      }
      if (!rates.has(name)) {
        rates.faults.add(child(rates.pointer, name), "is missing", "build the profile again");
        continue;
      }
      family_.rates[r] = rate_from(rates.at(name));
      edited_[r] = edited(*family_.rates[r], interval_from(rates.at(name)));
    }
  }

  void read_cell(const Part& part) {
    CellEstimate cell;
    cell.cell = from_word<Cell>(part.text("cell")).value();
    cell.rate = from_word<Rate>(part.text("rate")).value();
    cell.shift = part.number("shift");
    cell.kappa = part.number("kappa");
    cell.departure = part.number("departure");
    cell.counts = counts_from(part);
    const auto r = static_cast<std::size_t>(cell.rate);
    if (!family_.rates[r]) {
      part.at("rate").fault("the family has no such rate", "leave the cell out");
      return;
    }
    const std::optional<Interval> stored = interval_from(part);
    const bool known = !edited_[r] && part.has("mean") && stored;
    if (known) {
      cell.mean = part.number("mean");
      cell.interval = *stored;
    }
    derived_.push_back(!known);
    family_.cells.push_back(cell);
  }

  // Cells that do not stand in the file, or no longer belong to their family's rate.
  void derive_cells() {
    if (std::find(derived_.begin(), derived_.end(), true) == derived_.end()) return;
    FamilyProfile derived = family_;
    estimate_cells(derived, shell_mix(setting_));
    for (std::size_t c = 0; c < derived_.size(); ++c)
      if (derived_[c]) family_.cells[c] = derived.cells[c];
  }

  const Part& part_;
  const Setting& setting_;
  const FamilyPopulation& population_;
  FamilyProfile family_;
  std::array<bool, rate_count> edited_{};
  std::vector<bool> derived_;
};

Weighting weighting_from(const Part& part) {
  Weighting weighting;
  weighting.half_life_games = part.number("half_life_games");
  each_entry(part.at("levels"), [&](const Part& entry, const std::string& id) {
    Level level{id, entry.number("weight"), {}};
    for (std::size_t r = 0; r < rate_count; ++r)
      level.shift[r] = entry.at("shifts").get<double>(word(static_cast<Rate>(r)), 0.0);
    weighting.levels.push_back(level);
  });
  return weighting;
}

std::vector<FamilyProfile> families_from(const Part& families, const Setting& setting) {
  std::vector<std::string> known;
  std::vector<FamilyProfile> list;
  for (const FamilyPopulation& population : setting.families) {
    known.push_back(population.id);
    if (families.has(population.id))
      list.push_back(FamilyReader(families.at(population.id), setting, population).read());
    else
      families.faults.add(child(families.pointer, population.id), "is missing",
                          "build the profile again");
  }
  each_entry(families, [&](const Part& family, const std::string& id) {
    if (!setting.find_family(id)) family.fault("unknown family", suggest(id, known));
  });
  return list;
}

void check_setting(const json& document, const Setting& setting, Faults& faults) {
  const auto own = document.at("setting").get<std::string>();
  if (own != setting.id)
    faults.add("/setting", "the profile was made with setting " + own + ", not " + setting.id,
               "use --setting " + own + ", or build it again from its charts");
  faults.settle();
}

}  // namespace

Profile parse_profile(std::string_view text, const std::string& source, const Setting& setting) {
  const json document = parse_json(text, source);
  validate(document, "callfit-profile", source);
  Faults faults(source);
  check_setting(document, setting, faults);
  const Part part{document, "", faults};
  Profile profile;
  profile.name = part.text("name");
  profile.setting = setting.id;
  profile.weighting = weighting_from(part.at("weighting"));
  each_item(part.at("games"), [&](const Part& game) {
    profile.games.push_back({game.text("game"), game.text("level"), game.number("snaps"),
                             game.number("effective_snaps")});
  });
  profile.families = families_from(part.at("families"), setting);
  const Part shared = part.at("shared_gains");
  profile.scramble = gain_from(shared.at("scramble"), setting.scramble_gain);
  profile.sack = gain_from(shared.at("sack"), setting.sack_gain);
  faults.settle();
  return profile;
}

Profile read_profile(const std::string& path, const Setting& setting) {
  return parse_profile(read_file(path), path, setting);
}

}  // namespace callfit
