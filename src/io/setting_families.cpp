// The populations of a setting: families, their rates and gains, and the cells that move them.
#include <callfit/base/nearest.hpp>
#include <io/setting_parts.hpp>

#include <array>

namespace callfit {
namespace {

/// What drives and profiles cannot do without.
constexpr std::array needed_of_pass{Rate::sack,         Rate::scramble, Rate::completion,
                                    Rate::interception, Rate::success,  Rate::explosive,
                                    Rate::fumble};
constexpr std::array needed_of_run{Rate::success, Rate::explosive, Rate::fumble};

RatePopulation rate_from(const Part& part) {
  const RatePopulation rate{part.number("mean"), part.number("spread")};
  if (!(rate.strength() > 0))
    part.at("spread").fault("players cannot differ that much around this mean",
                            "give a spread below sqrt(mean (1 - mean))");
  return rate;
}

bool applies(Rate rate, FamilyKind kind) {
  return measure_applies(static_cast<Measure>(static_cast<std::size_t>(rate)), kind);
}

void read_rates(const Part& rates, FamilyPopulation& family) {
  for (std::size_t r = 0; r < rate_count; ++r) {
    const auto rate = static_cast<Rate>(r);
    if (!rates.has(word(rate))) continue;
    const Part part = rates.at(word(rate));
    if (!applies(rate, family.kind))
      part.fault("does not apply to a " + std::string(word(family.kind)), "leave it out");
    family.rates[r] = rate_from(part);
  }
}

template <std::size_t N>
void check_needed(const Part& rates, const std::array<Rate, N>& needed) {
  for (const Rate rate : needed)
    if (!rates.has(word(rate)))
      rates.faults.add(child(rates.pointer, word(rate)), "is missing",
                       "give {\"mean\": ..., \"spread\": ..., \"source\": ...}");
}

std::optional<GainPopulation> gain_at(const Part& gains, const char* key, bool wanted) {
  if (gains.has(key) && !wanted) gains.at(key).fault("does not apply to this kind", "leave it out");
  if (gains.has(key)) return gain_from(gains.at(key));
  if (wanted)
    gains.faults.add(child(gains.pointer, key), "is missing",
                     "give from, p, bins, kappa and source");
  return {};
}

FamilyPopulation family_from(const Part& part, const std::string& id) {
  FamilyPopulation family;
  family.id = id;
  family.label = part.text("label");
  family.kind = from_word<FamilyKind>(part.text("kind")).value();
  const bool pass = family.kind == FamilyKind::pass;
  read_rates(part.at("rates"), family);
  if (pass)
    check_needed(part.at("rates"), needed_of_pass);
  else
    check_needed(part.at("rates"), needed_of_run);
  family.depth = gain_at(part.at("gains"), "depth", pass);
  family.yac = gain_at(part.at("gains"), "yac", pass);
  family.run = gain_at(part.at("gains"), "run", !pass);
  if (part.has("interception_depth"))
    family.interception_depth = pmf_from(part.at("interception_depth"));
  else if (pass)
    part.faults.add(child(part.pointer, "interception_depth"), "is missing", "give from and p");
  return family;
}

struct Condition {
  const char* name;
  Cell first;
  std::vector<std::string> values;
};

Cell cell_of(const Part& part) {
  static const std::vector<Condition> conditions{
      {"shell", Cell::one_high, all_words<Shell>()},
      {"platform", Cell::pocket, all_words<Platform>()},
      {"pressure", Cell::clean, {"no", "yes"}},
      {"lane", Cell::left, all_words<Lane>()},
      {"depth", Cell::short_throw, {"short", "intermediate", "deep"}}};
  const std::string value = part.text("value");
  for (const Condition& condition : conditions) {
    if (condition.name != part.text("condition")) continue;
    for (std::size_t i = 0; i < condition.values.size(); ++i)
      if (condition.values[i] == value)
        return static_cast<Cell>(static_cast<std::size_t>(condition.first) + i);
    part.at("value").fault("unknown word \"" + value + "\"", suggest(value, condition.values));
  }
  return Cell::one_high;
}

CellPopulation cell_from(const Part& part, const std::vector<FamilyPopulation>& families) {
  CellPopulation cell;
  cell.cell = cell_of(part);
  cell.who = filter_from(part, families);
  if (part.has("rates"))
    each_entry(part.at("rates"), [&](const Part& rate, const std::string& key) {
      const auto known = from_word<Rate>(key);
      if (known)
        cell.rates[static_cast<std::size_t>(*known)] =
            CellRate{rate.number("shift"), rate.number("kappa")};
    });
  if (part.has("gains"))
    for (std::size_t g = 0; g < gain_part_count; ++g)
      cell.gain_shift[g] = part.at("gains").get<double>(word(static_cast<GainPart>(g)), 0.0);
  return cell;
}

}  // namespace

std::vector<FamilyPopulation> families_from(const Part& families) {
  std::vector<FamilyPopulation> list;
  each_entry(families, [&](const Part& part, const std::string& id) {
    list.push_back(family_from(part, id));
  });
  return list;
}

std::vector<CellPopulation> cells_from(const Part& cells,
                                       const std::vector<FamilyPopulation>& families) {
  std::vector<CellPopulation> list;
  each_item(cells, [&](const Part& part) { list.push_back(cell_from(part, families)); });
  return list;
}

}  // namespace callfit
