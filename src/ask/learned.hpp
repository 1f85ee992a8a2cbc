// A rate or gain turned by hand as if it had been learned: what goes with it moves along.
#pragma once

#include <ask/question.hpp>

#include <cstddef>
#include <optional>

namespace callfit::ask {

/// Takes the move of a quantity of the population (log-odds of a rate, proportional odds of a gain)
/// as learned, beside all that was learned before, and moves every rate and gain of his to its
/// conditional mean given these, on the log-odds scale; the normal of their scores is conditioned
/// as textbooks do. False, and nothing done, where the question moves things alone, or the setting
/// has no population that knows it.
bool learn(Question& question, std::optional<std::size_t> quantity, double move);

/// Places of a rate's and a gain's quantity.
std::optional<std::size_t> rate_quantity(const Question& question, std::size_t family,
                                         std::size_t rate);
std::optional<std::size_t> gain_quantity(const Question& question, std::size_t family,
                                         GainPart part);

/// Moves of all quantities given those of some; the learned ones keep theirs.
std::vector<double> moves_given(const Population& population, const Posterior& posterior,
                                const std::map<std::size_t, double>& learned);

}  // namespace callfit::ask
