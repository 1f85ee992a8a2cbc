// The populations of a setting: families, their rates and gains, and the cells that move them.
#include <format/families.hpp>
#include <format/setting_parts.hpp>

#include <algorithm>
#include <array>

namespace callfit {

/// What a cell of a setting looks at; its words name Cells of rate.hpp in their order.
enum class Condition { shell, platform, pressure, lane, depth };

template <>
inline constexpr auto enum_words<Condition> =
    std::to_array<std::string_view>({"shell", "platform", "pressure", "lane", "depth"});

namespace {

constexpr Numbers rate_mean_rule{0, 1, "a mean above 0 and below 1", true, true};
constexpr Numbers rate_spread_rule{least_spread, 0.5,
                                   "the standard deviation between players, 0.0001 to 0.5"};
constexpr Texts setting_family_rule{1, 100, "a name for tables"};
constexpr std::string_view rate_want =
    R"(a rate such as {"mean": 0.6, "spread": 0.04, "source": "assumed"})";

/// What drives and profiles cannot do without.
constexpr std::array needed_of_pass{Rate::sack,         Rate::scramble, Rate::completion,
                                    Rate::interception, Rate::success,  Rate::explosive,
                                    Rate::fumble};
constexpr std::array needed_of_run{Rate::success, Rate::explosive, Rate::fumble};

RatePopulation rate_from(Fields& fields) {
  const RatePopulation rate{fields.number("mean", rate_mean_rule),
                            fields.number("spread", rate_spread_rule)};
  if (fields.sound("mean") && fields.sound("spread") && !(rate.strength() >= least_strength))
    fields.at("spread").fault("players cannot differ that much around this mean",
                              "give a spread below sqrt(mean (1 - mean))");
  fields.text_or("spread_source", source_rule, "");
  read_notes(fields, Source::needed);
  return rate;
}

bool applies(Rate rate, FamilyKind kind) {
  return measure_applies(static_cast<Measure>(static_cast<std::size_t>(rate)), kind);
}

bool is_needed(Rate rate, FamilyKind kind) {
  const auto among = [rate](const auto& list) {
    return std::find(list.begin(), list.end(), rate) != list.end();
  };
  return kind == FamilyKind::pass ? among(needed_of_pass) : among(needed_of_run);
}

using Rates = std::array<std::optional<RatePopulation>, rate_count>;

Rates rates_from(Fields& fields, std::optional<FamilyKind> kind) {
  Rates rates;
  for (std::size_t r = 0; r < rate_count; ++r) {
    const auto rate = static_cast<Rate>(r);
    rates[r] = fields.maybe(word(rate),
                            [](const Part& part) { return part.object(rate_want, rate_from); });
    if (!kind) continue;
    if (rates[r] && !applies(rate, *kind))
      fields.at(word(rate))
          .fault("does not apply to a " + std::string(word(*kind)), "leave it out");
    if (!rates[r] && is_needed(rate, *kind))
      fields.missing(word(rate), R"({"mean": ..., "spread": ..., "source": ...})");
  }
  read_notes(fields);
  return rates;
}

/// A gain that belongs to the kind of family (`wanted`), or does not.
std::optional<GainPopulation> gain_at(Fields& gains, std::string_view key,
                                      std::optional<bool> wanted) {
  auto gain = gains.maybe(key, gain_from);
  if (gain && wanted == false) gains.at(key).fault("does not apply to this kind", "leave it out");
  if (!gain && wanted == true) gains.missing(key, "from, p, bins, kappa and source");
  return gain;
}

bool read_gains(Fields& gains, std::optional<bool> pass, FamilyPopulation& family) {
  family.depth = gain_at(gains, "depth", pass);
  family.yac = gain_at(gains, "yac", pass);
  family.run = gain_at(gains, "run", pass ? std::optional(!*pass) : std::nullopt);
  read_notes(gains);
  return true;
}

FamilyPopulation family_from(Fields& fields, const std::string& id) {
  FamilyPopulation family;
  family.id = id;
  family.label = fields.text("label", setting_family_rule);
  family.kind = fields.word<FamilyKind>("kind");
  const auto kind = fields.sound("kind") ? std::optional(family.kind) : std::nullopt;
  const auto pass = kind ? std::optional(*kind == FamilyKind::pass) : std::nullopt;
  family.rates = fields.object("rates", "the family's rates",
                               [&](Fields& rates) { return rates_from(rates, kind); });
  fields.object("gains", "the family's gains: depth and yac of a pass, run of a run",
                [&](Fields& gains) { return read_gains(gains, pass, family); });
  family.interception_depth = fields.maybe("interception_depth", pmf_from);
  if (pass == true && !fields.has("interception_depth"))
    fields.missing("interception_depth", "from and p");
  read_notes(fields);
  return family;
}

struct ConditionCells {
  Cell first;
  std::vector<std::string> values;
};

ConditionCells cells_of(Condition condition) {
  switch (condition) {
    case Condition::shell:
      return {Cell::one_high, all_words<Shell>()};
    case Condition::platform:
      return {Cell::pocket, all_words<Platform>()};
    case Condition::pressure:
      return {Cell::clean, {"no", "yes"}};
    case Condition::lane:
      return {Cell::left, all_words<Lane>()};
    case Condition::depth:
      break;
  }
  return {Cell::short_throw, {"short", "intermediate", "deep"}};
}

Cell cell_of(Fields& fields) {
  const auto condition = fields.word<Condition>("condition");
  const std::string value = fields.text("value");
  if (!fields.sound("condition") || !fields.sound("value")) return Cell::one_high;
  const ConditionCells cells = cells_of(condition);
  for (std::size_t i = 0; i < cells.values.size(); ++i)
    if (cells.values[i] == value)
      return static_cast<Cell>(static_cast<std::size_t>(cells.first) + i);
  fields.at("value").fault("unknown word \"" + value + "\"", suggest(value, cells.values));
  return Cell::one_high;
}

CellRate cell_rate_from(const Part& part) {
  constexpr std::string_view want =
      R"(a shift and how closely players follow it, such as {"shift": -0.1, "kappa": 80})";
  return part.object(want, [](Fields& fields) {
    const CellRate rate{fields.number("shift", shift_rule),
                        fields.number("kappa", cell_kappa_rule)};
    read_notes(fields);
    return rate;
  });
}

CellPopulation cell_from(Fields& fields, const std::vector<FamilyPopulation>& families) {
  CellPopulation cell;
  cell.cell = cell_of(fields);
  cell.who = filter_from(fields, families);
  fields.maybe("rates", [&](const Part& part) {
    return part.object("shifts by rate", [&](Fields& rates) {
      for (std::size_t r = 0; r < rate_count; ++r)
        cell.rates[r] = rates.maybe(word(static_cast<Rate>(r)), cell_rate_from);
      read_notes(rates);
      return true;
    });
  });
  cell.gain_shift = gain_shifts_from(fields);
  read_notes(fields, Source::needed);
  return cell;
}

}  // namespace

std::vector<FamilyPopulation> families_from(Fields& document) {
  constexpr Sizes rule{1, unlimited, "populations by family id"};
  return document.entries("families", rule, [](const Part& part, const std::string& id) {
    return part.object("a family's population: label, kind, rates, gains",
                       [&](Fields& fields) { return family_from(fields, id); });
  });
}

std::vector<CellPopulation> cells_from(Fields& document,
                                       const std::vector<FamilyPopulation>& families) {
  return document.objects("cells", {0, 500, "conditions that move rates"},
                          "how a condition moves rates and gains",
                          [&](Fields& fields) { return cell_from(fields, families); });
}

}  // namespace callfit
