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

constexpr double same = 1e-9;

bool is_near(double a, double b) { return std::abs(a - b) <= same * std::abs(b); }

bool is_near(const std::vector<double>& a, const std::vector<double>& b) {
  return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(),
                                            [](double x, double y) { return is_near(x, y); });
}

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
  Profile untouched = profile;
  apply_joint_estimates(untouched, setting);
  const auto differs = [](const auto& now, const auto& then, const auto& same_as) {
    return now && then && !same_as(*now, *then);
  };
  const auto same_rate = [](const RateEstimate& a, const RateEstimate& b) {
    return is_near(a.mean, b.mean) && is_near(a.strength, b.strength);
  };
  const auto same_gain = [](const GainEstimate& a, const GainEstimate& b) {
    return is_near(a.alpha, b.alpha);
  };
  for (std::size_t f = 0; f < profile.families.size(); ++f) {
    const FamilyProfile& now = profile.families[f];
    const FamilyProfile& then = untouched.families[f];
    auto& gains = joint.places.gains[f];
    const auto release = [&](GainPart part, bool turned) {
      if (turned) gains[static_cast<std::size_t>(part)].reset();
    };
    for (std::size_t r = 0; r < rate_count; ++r)
      if (differs(now.rates[r], then.rates[r], same_rate)) joint.places.rates[f][r].reset();
    release(GainPart::depth, differs(now.depth, then.depth, same_gain));
    release(GainPart::yac, differs(now.yac, then.yac, same_gain));
    release(GainPart::run, differs(now.run, then.run, same_gain));
    release(GainPart::scramble, !same_gain(profile.scramble, untouched.scramble));
    release(GainPart::sack, !same_gain(profile.sack, untouched.sack));
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
