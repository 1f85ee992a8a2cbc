// What an answer's intervals rest on: the same draws once more with less left open, and how much
// less they vary. docs/model.md, "What an answer rests on".
#include <ask/memory.hpp>
#include <callfit/population/posterior.hpp>
#include <profile/joint.hpp>

#include <algorithm>
#include <cmath>

namespace callfit::ask {
namespace {

constexpr std::size_t draws_looked_at = 512;

bool is_of_another_place(const Evidence& evidence) {
  return std::any_of(evidence.tallies.begin(), evidence.tallies.end(),
                     [](const QuantityCounts& tally) { return tally.level || tally.source; }) ||
         std::any_of(evidence.mixtures.begin(), evidence.mixtures.end(),
                     [](const MixtureCounts& mixture) { return mixture.level || mixture.source; });
}

std::size_t known_opponents(const Evidence& evidence) {
  return static_cast<std::size_t>(
      std::count_if(evidence.opponents.begin(), evidence.opponents.end(),
                    [](const Opponent& opponent) { return !opponent.effects.empty(); }));
}

// As if all had been played at the place that is asked about; what a level shifts stays.
Posterior at_one_place(Population population, Evidence evidence) {
  for (TapeSource& source : evidence.sources)
    std::fill(source.carries_over.begin(), source.carries_over.end(), 1.0);
  for (OtherLevel& level : population.levels)
    std::fill(level.spread.begin(), level.spread.end(), 0.0);
  return posterior_of(population, evidence);
}

// Only how much is open counts: centres stay where they are, or a place near either end would seem
// the surer for having moved there.
Posterior centred_at(const Posterior& centre, Posterior less_open) {
  for (std::size_t q = 0; q < less_open.marginals.size(); ++q)
    less_open.marginals[q].mean = centre.marginals[q].mean;
  return less_open;
}

Evidence without_coming(Evidence evidence) {
  evidence.coming.clear();
  return evidence;
}

Posterior without_schedule(const Population& population, Evidence evidence) {
  for (Opponent& opponent : evidence.opponents) opponent.effects.clear();
  return posterior_of(population, evidence);
}

// With the scores of the other: draws of both then differ by what marginals differ by alone.
Posterior scored_as(const Posterior& other, Posterior posterior) {
  posterior.scores = other.scores;
  posterior.shared = other.shared;
  return posterior;
}

double variance(const Column& values) {
  const double mean = mean_of(values);
  double sum = 0;
  for (const double value : values) sum += (value - mean) * (value - mean);
  return sum / static_cast<double>(values.size());
}

// Below 0 where the spread of draws grows: what is charted of an assumed trait tells of measured
// ones too, the less so the narrower it is.
double narrower(const Column& now, const Column& other) {
  const double all = variance(now);
  return all > 0 ? 1 - std::sqrt(variance(other) / all) : 0.0;
}

double vanishing(const Column& now, const Column& less_open) {
  const double all = variance(now);
  return all > 0 ? std::clamp(1 - variance(less_open) / all, 0.0, 1.0) : 0.0;
}

// Net points of every draw to first order, up to a constant.
Column net_scores(const Standing& standing, const Sample& sample) {
  Column net(sample.size(), 0.0);
  for (const Term& term : standing.tangent->terms) {
    const DrawColumn column = term.of(sample);
    for (std::size_t i = 0; i < net.size(); ++i) net[i] += term.by_net * column[i];
  }
  return net;
}

Column distances(const Standing& standing, const Sample& sample) {
  const BoundScheme& bound = standing.matchup->bound;
  return fit_draws(measures_of(sample, bound), bound, sample.size()).distance;
}

}  // namespace

const Memory::Footed& Memory::footed(const Standing& standing) {
  Footed& footed = footed_[standing.quarterback];
  const std::shared_ptr<const Profile>& profile = standing.question.profile;
  if (footed.profile == profile) return footed;
  const auto drawn = [&](const Profile& one) {
    return std::make_shared<const PlayerDraws>(
        PlayerDraws::of_profile(one, *setting_, {case_.options.seed, standing.quarterback},
                                std::min(draws_looked_at, case_.options.draws)));
  };
  const auto drawn_from = [&](Posterior joint) {
    return drawn(with_joint(*profile, *setting_, std::move(joint)));
  };
  const Evidence& evidence = profile->evidence;
  const Population population = with_assumed_spreads(*setting_->population);
  Footed made{profile, known_opponents(evidence), {}, {}, {}, {}, {}};
  made.half_assumed = drawn_from(
      centred_at(*profile->joint, posterior_of(with_assumed_spreads(population, 0.5), evidence)));
  if (is_of_another_place(evidence))
    made.same_place = drawn_from(centred_at(*profile->joint, at_one_place(population, evidence)));
  const Evidence usual = without_coming(evidence);
  if (!evidence.coming.empty()) {
    const Posterior against_usual = posterior_of(population, usual);
    made.usual = drawn_from(against_usual);
    made.not_coming = drawn_from(scored_as(*profile->joint, against_usual));
  }
  if (made.opponents > 0) made.no_schedule = drawn_from(without_schedule(population, usual));
  return footed = std::move(made);
}

std::optional<Footing> Memory::footing(Standing& standing, Tells tells) {
  if (!setting_->population || !standing.question.profile->joint) return std::nullopt;
  if (follows(standing) && !standing.recharted) return footing(*start_of(standing), tells);
  std::shared_ptr<const Footing>& made = standing.footings[static_cast<std::size_t>(tells)];
  if (!made) made = std::make_shared<const Footing>(made_footing(standing, tells));
  return *made;
}

Footing Memory::made_footing(Standing& standing, Tells tells) {
  const Footed& draws = footed(standing);
  const auto sample_of = [&](const std::shared_ptr<const PlayerDraws>& some) {
    return Sample(some, setting_, standing.question.player);
  };
  Footing footing;
  if (draws.same_place) footing.moves.emplace();
  if (draws.no_schedule) footing.schedule = ScheduleEffect{draws.opponents, {}};
  if (draws.not_coming) footing.coming.emplace();
  const auto own = [&](const auto& values) {
    Column now = values(*standing.sample);
    now.resize(std::min(now.size(), draws_looked_at));
    return now;
  };
  const auto look = [&](const auto& values, std::optional<double> VarianceShares::*share) {
    const Column now = own(values);
    footing.assumed.*share = narrower(now, values(sample_of(draws.half_assumed)));
    if (footing.moves)
      (*footing.moves).*share = vanishing(now, values(sample_of(draws.same_place)));
  };
  const auto mean_over = [&](const auto& values, const std::shared_ptr<const PlayerDraws>& some) {
    return mean_of(some ? values(sample_of(some)) : own(values));
  };
  const auto look_at_means = [&](const auto& values, std::optional<double> MeansMoved::*moved,
                                 double scale) {
    if (footing.schedule)
      footing.schedule->moved.*moved =
          scale * (mean_over(values, draws.usual) - mean_over(values, draws.no_schedule));
    if (footing.coming)
      (*footing.coming).*moved =
          scale * (mean_of(own(values)) - mean_over(values, draws.not_coming));
  };
  if (tells != Tells::place) {
    tangent(standing);
    const auto net = [&](const Sample& sample) { return net_scores(standing, sample); };
    look(net, &VarianceShares::net_points);
    look_at_means(net, &MeansMoved::net_points_per_game, standing.drives_per_game());
  }
  if (tells != Tells::net_points) {
    const auto distance = [&](const Sample& sample) { return distances(standing, sample); };
    look(distance, &VarianceShares::place);
    const auto place = [&](const Sample& sample) {
      return places_among(distance(sample), others(standing));
    };
    look_at_means(place, &MeansMoved::place, 1);
  }
  return footing;
}

}  // namespace callfit::ask
