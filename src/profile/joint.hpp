// What a joint posterior says of a setting's rates and gains, one by one.
#pragma once

#include <callfit/population/posterior.hpp>
#include <callfit/profile/profile.hpp>
#include <callfit/setting/setting.hpp>
#include <callfit/stats/beta.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

namespace callfit {

/// Which quantity of the population a rate or gain is; nothing where it has none. By family; what
/// families share stands with each of them.
struct JointPlaces {
  std::vector<std::array<std::optional<std::size_t>, rate_count>> rates;
  std::vector<std::array<std::optional<std::size_t>, gain_part_count>> gains;
};

/// Nothing anywhere for a setting without a population.
JointPlaces joint_places(const Setting& setting);

/// The Beta with the mean and variance of the rate.
Beta rate_of(const Quantity& quantity, const Marginal& marginal);

/// Probabilities of the bins at a shift.
std::vector<double> bins_at(const Quantity& quantity, double shift);

/// The Dirichlet whose shares are the bins' means, and whose mean gain has the variance of theirs.
std::vector<double> gain_parameters(const Quantity& quantity, const Marginal& marginal,
                                    const GainPopulation& gain);

/// Sets the profile's rates and gains to what its joint posterior says; apply_joint() their cells
/// too.
void apply_joint_estimates(Profile& profile, const Setting& setting);
void apply_joint(Profile& profile, const Setting& setting);

/// The profile with another joint posterior of the same counts, to be drawn from: what cells tell
/// by themselves stays, and so does what was turned by hand.
Profile with_joint(const Profile& profile, const Setting& setting, Posterior joint);

/// Rates and gains of a profile that are no longer what its joint posterior says, by family.
struct TurnedByHand {
  std::vector<std::array<bool, rate_count>> rates;
  std::vector<std::array<bool, gain_part_count>> gains;
};
TurnedByHand turned_by_hand(const Profile& profile, const Setting& setting);

/// Sets spreads of rates and concentrations of gains to those of the setting's population, where it
/// has one.
void settle_spreads(Setting& setting);

}  // namespace callfit
