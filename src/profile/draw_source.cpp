#include <profile/draw_source.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace callfit {
namespace {

std::vector<double> parameters(const std::optional<GainEstimate>& gain) {
  return gain ? gain->alpha : std::vector<double>{};
}

std::vector<double> parameters(const std::optional<GainPopulation>& population) {
  return population ? population->alpha() : std::vector<double>{};
}

}  // namespace

FamilySource source_of(const FamilyProfile& profile) {
  FamilySource source;
  for (std::size_t r = 0; r < rate_count; ++r)
    if (const auto& rate = profile.rates[r])
      source.rates[r] = Beta::of_mean(rate->mean, rate->strength);
  for (const CellEstimate& cell : profile.cells) {
    const auto c = static_cast<std::size_t>(cell.cell);
    const auto r = static_cast<std::size_t>(cell.rate);
    const double of = c < shell_count ? cell.counts.effective_of
                                      : departure_snaps(cell.counts, profile.rates[r]->counts);
    source.cells[c][r] = CellSource{cell.shift, cell.kappa, cell.departure, of};
  }
  source.depth = parameters(profile.depth);
  source.yac = parameters(profile.yac);
  source.run = parameters(profile.run);
  return source;
}

FamilySource source_of(const FamilyPopulation& population, const CellTable& table) {
  FamilySource source;
  for (std::size_t r = 0; r < rate_count; ++r)
    if (const auto& rate = population.rates[r])
      source.rates[r] = Beta::of_mean(rate->mean, rate->strength());
  for (std::size_t c = 0; c < cell_count; ++c)
    for (std::size_t r = 0; r < rate_count; ++r)
      if (const auto& cell = table[c][r])
        source.cells[c][r] = CellSource{cell->shift, cell->kappa, 0, 0};
  source.depth = parameters(population.depth);
  source.yac = parameters(population.yac);
  source.run = parameters(population.run);
  return source;
}

bool FamilySource::differs_by_shell(std::size_t rate) const {
  return std::any_of(cells.begin(), cells.begin() + shell_count,
                     [rate](const auto& shell) { return shell[rate].has_value(); });
}

namespace {

std::shared_ptr<JointSource> joint_of(const Setting& setting, Posterior posterior) {
  auto joint = std::make_shared<JointSource>();
  joint->posterior = std::move(posterior);
  joint->quantities = setting.population->quantities;
  joint->traits = setting.population->traits.size();
  joint->places = joint_places(setting);
  return joint;
}

// What was turned by hand goes its own way.
void let_go(JointSource& joint, const Profile& profile, const Setting& setting) {
  const TurnedByHand turned = turned_by_hand(profile, setting);
  for (std::size_t f = 0; f < profile.families.size(); ++f) {
    for (std::size_t r = 0; r < rate_count; ++r)
      if (turned.rates[f][r]) joint.places.rates[f][r].reset();
    for (std::size_t p = 0; p < gain_part_count; ++p)
      if (turned.gains[f][p]) joint.places.gains[f][p].reset();
  }
}

}  // namespace

DrawSource source_of(const Profile& profile, const Setting& setting) {
  DrawSource source{profile.name,       {},     profile.scramble.alpha, profile.sack.alpha,
                    shell_mix(setting), nullptr};
  for (const FamilyProfile& family : profile.families) source.families.push_back(source_of(family));
  if (setting.population && profile.joint) {
    const auto joint = joint_of(setting, *profile.joint);
    let_go(*joint, profile, setting);
    source.joint = joint;
  }
  return source;
}

DrawSource source_of(const Setting& setting) {
  DrawSource source{
      "",     {}, setting.scramble_gain.alpha(), setting.sack_gain.alpha(), shell_mix(setting),
      nullptr};
  for (const FamilyPopulation& family : setting.families)
    source.families.push_back(source_of(family, setting.cell_table(family)));
  if (setting.population)
    source.joint = joint_of(setting, posterior_of(with_assumed_spreads(*setting.population), {}));
  return source;
}

}  // namespace callfit
