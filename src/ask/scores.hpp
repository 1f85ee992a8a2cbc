// How a quarterback's draws lie in points: linear scores, the path of mean players along them, and
// what differs beside it.
#pragma once

#include <ask/fit_draws.hpp>
#include <ask/sample.hpp>
#include <ask/terms.hpp>

#include <cstddef>
#include <span>
#include <vector>

namespace callfit::ask {

double variance_over(std::span<const double> column);

/// Score of every draw: derivatives times distances from the mean player.
struct Scores {
  Scores(const std::vector<Term>& terms, const Sample& sample, const Player& mean);

  Column points, net;
};

/// The mean player of those whose score is t, where every number goes straight along with it.
class Path {
 public:
  Path(const std::vector<Term>& terms, const Sample& sample, const Player& mean,
       const Column& scores);

  Player at(double score) const;

 private:
  const std::vector<Term>& terms_;
  const Player& mean_;
  Column slope_;
};

/// What differs between quarterbacks of one net score: families' scores, freed of the net score,
/// along their principal axes, the widest first; columns of variance 1.
std::vector<Column> axes_aside(const std::vector<Term>& terms, const Sample& sample,
                               const Player& mean, const Column& net, std::size_t most);

/// t u less its mean at every t, a cubic in it: what a derivative's change u along the path adds
/// beyond what the path's own bend holds.
Column twisted(const Column& u, const Column& t);

}  // namespace callfit::ask
