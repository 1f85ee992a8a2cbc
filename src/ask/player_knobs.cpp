#include <callfit/base/finding.hpp>
#include <callfit/stats/logit.hpp>

#include <ask/knob.hpp>
#include <ask/learned.hpp>

namespace callfit::ask {
namespace {

constexpr double smallest_rate = 1e-4;  // log-odds need a rate away from 0 and 1

Knob rate_knob(const FamilyPopulation& family, std::size_t f, std::size_t r) {
  const std::string_view name = enum_words<Rate>[r];
  Knob knob{"rate." + family.id + '.' + std::string(name), plain(name) + ", " + family.label,
            KnobUnit::share, smallest_rate, 1 - smallest_rate};
  knob.get = [f, r](const Question& q) {
    return shifted(q.mean->families[f].rate[r], q.player.families[f].rate[r]);
  };
  knob.set = [f, r](Question& q, double value) {
    const double move = logit(value) - logit(q.mean->families[f].rate[r]);
    if (!q.as_learned || !learn(q, rate_quantity(q, f, r), move))
      q.player.families[f].rate[r] = move;
  };
  return knob;
}

Knob cell_knob(const FamilyPopulation& family, std::size_t f, std::size_t r, std::size_t c) {
  Knob knob = rate_knob(family, f, r);
  knob.path += '.' + std::string(enum_words<Cell>[c]);
  knob.about += ", " + plain(enum_words<Cell>[c]);
  knob.get = [f, r, c](const Question& q) { return q.mean_family(f).cell[c][r]; };
  knob.set = [f, r, c](Question& q, double value) {
    q.player.families[f].cell[c][r] += logit(value) - logit(q.mean_family(f).cell[c][r]);
  };
  return knob;
}

Knob gain_knob(const std::string& path, const std::string& about, std::size_t f, GainPart part) {
  Knob knob{path, about, KnobUnit::yards, -farthest_yards, farthest_yards};
  knob.get = [f, part](const Question& q) {
    return mean_of_shifted(*population_of(q.ground->setting, f, part), bins_of(*q.mean, f, part),
                           gain_move(q.player, f, part));
  };
  knob.set = [f, part, path](Question& q, double value) {
    const auto shift =
        shift_to_mean(*population_of(q.ground->setting, f, part), bins_of(*q.mean, f, part), value);
    if (!shift)
      throw InputError(Finding{{"", 0, path},
                               "no mix of this setting's gains has that mean",
                               "take a mean nearer to the present one"});
    if (!q.as_learned || !learn(q, gain_quantity(q, f, part), *shift))
      gain_move(q.player, f, part) = *shift;
  };
  return knob;
}

void add_rates(const Setting& setting, std::size_t f, Knobs& knobs) {
  const FamilyPopulation& family = setting.families[f];
  const CellTable cells = setting.cell_table(family);
  for (std::size_t r = 0; r < rate_count; ++r) {
    if (!family.rates[r]) continue;
    knobs.push_back(rate_knob(family, f, r));
    for (std::size_t c = 0; c < cell_count; ++c)
      if (cells[c][r]) knobs.push_back(cell_knob(family, f, r, c));
  }
}

void add_gains(const Question& question, std::size_t f, Knobs& knobs) {
  const FamilyPopulation& family = question.ground->setting.families[f];
  const auto add = [&](GainPart part, const std::string& about) {
    if (population_of(question.ground->setting, f, part) == nullptr) return;
    if (bins_of(*question.mean, f, part).empty()) return;
    const std::string path = "gain." + family.id + '.' + std::string(word(part));
    knobs.push_back(gain_knob(path, about + ", " + family.label, f, part));
  };
  add(GainPart::depth, "mean depth of completions");
  add(GainPart::yac, "mean yards after the catch");
  add(GainPart::run, "mean gain of runs");
}

}  // namespace

std::string measure_path(const FamilyPopulation& family, Measure measure,
                         const std::optional<Cell>& cell) {
  if (!as_rate(measure) && cell) return "";  // a mean gain is turned as a whole
  if (!as_rate(measure))
    return "gain." + family.id + '.' +
           std::string(word(measure == Measure::run_gain ? GainPart::run : GainPart::yac));
  std::string path = "rate." + family.id + '.' + std::string(word(measure));
  if (cell) path += '.' + std::string(word(*cell));
  return path;
}

void add_player_knobs(const Question& question, Knobs& knobs) {
  const Setting& setting = question.ground->setting;
  for (std::size_t f = 0; f < setting.families.size(); ++f) add_rates(setting, f, knobs);
  for (std::size_t f = 0; f < setting.families.size(); ++f) add_gains(question, f, knobs);
  knobs.push_back(gain_knob("gain.scramble", "mean gain of scrambles", 0, GainPart::scramble));
  knobs.push_back(gain_knob("gain.sack", "mean yards of sacks (below 0)", 0, GainPart::sack));
}

}  // namespace callfit::ask
