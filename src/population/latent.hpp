// A quarterback as one vector of independent standard normals, and every tally as counts on a
// linear form of it.
//
// The vector has a hub, the factors at every place and of every opponent, and a block for each
// trait: what is its own of the trait, of its quantities, levels, opponents and games. A form
// reaches into the hub and into one block, so given the hub the traits are independent. What
// mixtures, which go across traits, hang on is in the hub too.
#pragma once

#include "population/likelihood.hpp"

#include <callfit/population/evidence.hpp>
#include <callfit/population/population.hpp>

#include <Eigen/Core>

#include <cstddef>
#include <vector>

namespace callfit {

/// offset + hub . h + sum_i weight_i b_(place_i), in the block of a trait.
struct LinearForm {
  struct Part {
    Eigen::Index place = 0;
    double weight = 0;
  };
  std::size_t trait = 0;
  double offset = 0;
  Eigen::VectorXd hub;
  std::vector<Part> own;
};

/// Evidence about one form; the form's offset holds the tally's shift.
struct EvidenceRow {
  LinearForm form;
  CategoryLikelihood likelihood;
};

struct Latent {
  Eigen::Index hub = 0;              ///< how long the hub is
  std::vector<Eigen::Index> blocks;  ///< how long each trait's block is
  /// Tallies with counts, in their order; of what follows, none. Then mixtures.
  std::vector<EvidenceRow> rows;
  std::vector<LinearForm> quantities;             ///< slope u + own here, one a quantity
  std::vector<std::vector<LinearForm>> mixtures;  ///< of each mixture's parts, where it was played
};

/// What one opponent and his game do to a mixture's log-odds at the population's means: variance.
double variance_of_games(const Population& population, const MixtureCounts& mixture);

/// Where mixtures are made linear: of each one's parts, slope u + own where it was played.
using Tangents = std::vector<std::vector<double>>;

/// `at` empty: at the population's means.
Latent latent_of(const Population& population, const Evidence& evidence, const Tangents& at = {});

}  // namespace callfit
