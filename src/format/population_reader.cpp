// The `population` of a setting: traits, what hangs on them, other levels.
#include <callfit/population/posterior.hpp>
#include <callfit/stats/logit.hpp>
#include <format/setting_parts.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace callfit {

namespace {

constexpr Numbers trait_spread_rule{0, 5, "a standard deviation on the log-odds scale"};
constexpr Numbers trait_correlation_rule{-1, 1, "a correlation from -1 to 1"};
constexpr Numbers slope_rule{-10, 10, "what the trait counts for, from -10 to 10"};
constexpr Numbers factors_rule{0, 10, "how many factors the traits share, 0 to 10"};
constexpr Numbers scale_rule{0, 10, "what assumed spreads are multiplied by, from 0 to 10"};
constexpr std::string_view trait_want =
    R"(a trait such as {"spread": 0.15, "loadings": [0.6], "source": ..., "opponent_spread": 0.1, ...})";
constexpr std::string_view link_want =
    R"(what it hangs on, such as {"trait": "sack", "own_spread": 0.1, "source": ...})";

/// Keys for people: "source", "why", "n", "about" and intervals, alone or behind the name of what
/// they are about ("carries_over_source").
void pass_over_notes(Fields& fields) {
  constexpr std::array words{"source", "why", "n", "about", "interval90", "standard_error"};
  for (const auto& [key, value] : fields.part().value().items()) {
    const std::string_view text = key;
    for (const std::string_view word : words)
      if (text == word || (text.ends_with(word) && text.size() > word.size() &&
                           text[text.size() - word.size() - 1] == '_'))
        fields.maybe(key, [](const Part&) { return true; });
  }
}

/// How the trait moves within a season, and the league's mean with it: of the professional counts
/// only, and nothing here stands on it yet.
void pass_over_seasons(Fields& trait) {
  for (const char* key : {"within_season", "league_drift"})
    trait.maybe(key, [](const Part&) { return true; });
}

bool is_assumed(Fields& fields) {
  const std::string source = fields.text("source", source_rule);
  pass_over_notes(fields);
  return source.starts_with("assumed");
}

class PopulationReader {
 public:
  PopulationReader(const std::vector<FamilyPopulation>& families, const GainPopulation& scramble,
                   const GainPopulation& sack)
      : families_(families), scramble_(scramble), sack_(sack) {}

  Population read(Fields& fields) {
    fields.maybe("sources", [](const Part& part) {
      part.entries(Sizes{}, [](const Part& entry, const std::string&) { return entry.text(); });
      return true;
    });
    population_.assumed_scale = fields.number_or("assumed_scale", scale_rule, 1.0);
    fields.object("factors", "how many factors traits share", [&](Fields& factors) {
      population_.factors = static_cast<std::size_t>(factors.integer("number", factors_rule));
      // How the number was chosen is for people.
      for (const auto& [key, ignored] : factors.part().value().items())
        factors.maybe(key, [](const Part&) { return true; });
      return true;
    });
    fields.maybe("levels", [&](const Part& part) { return name_levels(part); });
    fields.entries("traits", {1, 200, "traits by name"},
                   [&](const Part& part, const std::string& id) { return add_trait(part, id); });
    fields.maybe("levels", [&](const Part& part) { return shift_levels(part); });
    fields.entries("rates", {0, unlimited, "rates by family"},
                   [&](const Part& part, const std::string& id) { return add_rates(part, id); });
    fields.entries("gains", {0, unlimited, "gains by family"},
                   [&](const Part& part, const std::string& id) { return add_gains(part, id); });
    pass_over_notes(fields);
    return std::move(population_);
  }

 private:
  // Traits name levels and levels name traits: names first.
  bool name_levels(const Part& part) {
    part.entries(Sizes{}, [&](const Part&, const std::string& id) {
      population_.levels.push_back({id, {}, {}});
      return true;
    });
    return true;
  }

  bool add_trait(const Part& part, const std::string& id) {
    return part.object(trait_want, [&](Fields& fields) {
      Trait trait;
      trait.id = id;
      trait.spread = fields.number("spread", trait_spread_rule);
      trait.loadings = fields.list(
          "loadings", {population_.factors, population_.factors, "one loading a factor"},
          [](const Part& loading) { return loading.number(trait_correlation_rule); });
      trait.opponent_spread = fields.number("opponent_spread", trait_spread_rule);
      trait.opponent_loading = fields.number_or("opponent_loading", trait_correlation_rule, 0.0);
      trait.game_spread = fields.number("game_spread", trait_spread_rule);
      fields.object("carries_over", "correlations by what changed", [&](Fields& moves) {
        for (std::size_t c = 0; c < place_change_count; ++c)
          trait.carries_over[c] =
              moves.number(word(static_cast<PlaceChange>(c)), trait_correlation_rule);
        return true;
      });
      for (OtherLevel& level : population_.levels) level.spread.push_back(0);
      fields.maybe("level_spread", [&](const Part& spreads) { return read_level_spread(spreads); });
      pass_over_seasons(fields);
      trait.assumed = is_assumed(fields);
      const double common = std::inner_product(trait.loadings.begin(), trait.loadings.end(),
                                               trait.loadings.begin(), 0.0);
      if (fields.sound("loadings") && common > 1 + 1e-3)
        fields.at("loadings")
            .fault("the squares add up to more than 1",
                   "let factors hold at most the whole variance");
      population_.traits.push_back(trait);
      return true;
    });
  }

  bool read_level_spread(const Part& part) {
    part.entries(Sizes{}, [&](const Part& spread, const std::string& id) {
      if (const auto level = known_level(spread, id))
        population_.levels[*level].spread.back() = spread.number(trait_spread_rule);
      return true;
    });
    return true;
  }

  bool shift_levels(const Part& part) {
    part.entries(Sizes{}, [&](const Part& entry, const std::string& id) {
      return entry.object("shifts by trait", [&](Fields& fields) {
        OtherLevel& level = population_.levels[*population_.find_level(id)];
        level.shift.assign(population_.traits.size(), 0.0);
        fields.entries("shift", Sizes{0, unlimited, "log-odds shifts by trait"},
                       [&](const Part& shift, const std::string& trait) {
                         if (const auto at = known_trait(shift, trait))
                           level.shift[*at] = shift.number(shift_rule);
                         return true;
                       });
        pass_over_notes(fields);
        return true;
      });
    });
    return true;
  }

  bool add_rates(const Part& part, const std::string& id) {
    const FamilyPopulation* family = known_family(part, id);
    part.entries(Sizes{}, [&](const Part& entry, const std::string& name) {
      const auto rate = from_word<Rate>(name);
      if (!rate) {
        entry.fault("unknown rate \"" + name + "\"", suggest(name, all_words<Rate>()));
      } else if (family) {
        const auto& known = family->rates[static_cast<std::size_t>(*rate)];
        if (!known)
          entry.fault("the family has no such rate", "leave it out");
        else
          add_link(entry, id + "." + name, {known->mean});
      }
      return true;
    });
    return true;
  }

  bool add_gains(const Part& part, const std::string& id) {
    const bool shared = id == "shared";
    const FamilyPopulation* family = shared ? nullptr : known_family(part, id);
    part.entries(Sizes{}, [&](const Part& entry, const std::string& name) {
      const GainPopulation* gain = nullptr;
      if (shared)
        gain = name == "scramble" ? &scramble_ : name == "sack" ? &sack_ : nullptr;
      else if (family)
        gain = gain_of(*family, name);
      if (gain)
        add_link(entry, id + "." + name, at_least(*gain));
      else if (shared || family)
        entry.fault("there is no such gain here", "leave it out");
      return true;
    });
    return true;
  }

  static const GainPopulation* gain_of(const FamilyPopulation& family, const std::string& name) {
    const auto pointer = [](const std::optional<GainPopulation>& gain) {
      return gain ? &*gain : nullptr;
    };
    if (name == "depth") return pointer(family.depth);
    if (name == "yac") return pointer(family.yac);
    return name == "run" ? pointer(family.run) : nullptr;
  }

  /// P(bin b or higher), b = 1, 2, ...
  static std::vector<double> at_least(const GainPopulation& gain) {
    if (gain.bin_start.empty() || gain.shape.p.empty()) return {};  // wrong, and said
    const std::vector<double> shares = gain.bin_shares();
    std::vector<double> out(shares.size() - 1);
    double sum = 0;
    for (std::size_t b = shares.size() - 1; b > 0; --b) out[b - 1] = sum += shares[b];
    return out;
  }

  void add_link(const Part& part, const std::string& id, const std::vector<double>& means) {
    part.object(link_want, [&](Fields& fields) {
      Quantity quantity;
      quantity.id = id;
      const std::string trait = fields.text("trait", some_text);
      quantity.slope = fields.number_or("slope", slope_rule, 1.0);
      quantity.own_spread = fields.number("own_spread", trait_spread_rule);
      quantity.follows = !fields.text_or("same_snaps", some_text, "").empty();
      quantity.assumed = is_assumed(fields);
      if (!fields.sound("trait")) return true;
      const auto at = known_trait(fields.at("trait"), trait);
      if (!at || !fields.sound()) return true;
      quantity.trait = *at;
      const double spread =
          std::hypot(quantity.slope * population_.traits[*at].spread, quantity.own_spread);
      for (const double mean : means)
        quantity.thresholds.push_back(threshold_of_mean(mean, spread));
      population_.quantities.push_back(quantity);
      return true;
    });
  }

  template <class Items>
  static std::vector<std::string> ids_of(const Items& items) {
    std::vector<std::string> ids;
    ids.reserve(items.size());
    for (const auto& item : items) ids.push_back(item.id);
    return ids;
  }

  std::optional<std::size_t> known_trait(const Part& part, const std::string& id) const {
    const auto at = population_.find_trait(id);
    if (!at) part.fault("unknown trait \"" + id + "\"", suggest(id, ids_of(population_.traits)));
    return at;
  }
  std::optional<std::size_t> known_level(const Part& part, const std::string& id) const {
    const auto at = population_.find_level(id);
    if (!at) part.fault("unknown level \"" + id + "\"", suggest(id, ids_of(population_.levels)));
    return at;
  }
  const FamilyPopulation* known_family(const Part& part, const std::string& id) const {
    const auto found = std::find_if(families_.begin(), families_.end(),
                                    [&](const FamilyPopulation& f) { return f.id == id; });
    if (found != families_.end()) return &*found;
    part.fault("unknown family \"" + id + "\"", suggest(id, ids_of(families_)));
    return nullptr;
  }

  const std::vector<FamilyPopulation>& families_;
  const GainPopulation& scramble_;
  const GainPopulation& sack_;
  Population population_;
};

}  // namespace

Population population_from(const Part& part, const std::vector<FamilyPopulation>& families,
                           const GainPopulation& scramble, const GainPopulation& sack) {
  return part.object(
      "what quarterbacks differ by, or the name of a file beside this one",
      [&](Fields& fields) { return PopulationReader(families, scramble, sack).read(fields); });
}

}  // namespace callfit
