#include <ask/estimates.hpp>
#include <callfit/stats/beta.hpp>
#include <callfit/stats/logit.hpp>

#include <algorithm>

namespace callfit::ask {
namespace {

// Log-odds by which the question has moved the family's rate.
double shift_of(const Standing& standing, std::size_t family, Measure measure) {
  return standing.question.player.families[family].rate[static_cast<std::size_t>(measure)];
}

const CellEstimate* cell_estimate(const FamilyProfile& family, Cell cell, Rate rate) {
  const auto found =
      std::find_if(family.cells.begin(), family.cells.end(),
                   [&](const CellEstimate& c) { return c.cell == cell && c.rate == rate; });
  return found == family.cells.end() ? nullptr : &*found;
}

// A rate alone whose posterior is a Beta; rates of a joint posterior are known by their draws.
std::optional<Beta> own_beta(const Standing& standing, std::size_t family, Measure measure,
                             const std::optional<Cell>& cell) {
  const Profile& profile = *standing.question.profile;
  const RateEstimate* rate = rate_estimate(profile, family, measure, cell);
  if (rate == nullptr || profile.joint) return std::nullopt;
  return Beta::of_mean(rate->mean, rate->strength);
}

}  // namespace

const RateEstimate* rate_estimate(const Profile& profile, std::size_t family, Measure measure,
                                  const std::optional<Cell>& cell) {
  const auto rate = as_rate(measure);
  if (!rate || cell) return nullptr;
  const auto& estimate = profile.families[family].rates[static_cast<std::size_t>(*rate)];
  return estimate ? &*estimate : nullptr;
}

Number estimate_of(const Standing& standing, std::size_t family, Measure measure,
                   const std::optional<Cell>& cell, const Column& column) {
  const auto beta = own_beta(standing, family, measure, cell);
  if (!beta)
    return number_of(column.empty() ? standing.sample->measure(family, measure, cell) : column);
  const double by = shift_of(standing, family, measure);
  return {shifted(quantile(*beta, 0.5), by), shifted(quantile(*beta, 0.05), by),
          shifted(quantile(*beta, 0.95), by)};
}

Verdict odds_above(const Standing& standing, std::size_t family, Measure measure,
                   const std::optional<Cell>& cell, const Column& column, double level) {
  const auto beta = own_beta(standing, family, measure, cell);
  if (!beta) {
    Column above = column;
    for (double& value : above) value -= level;
    return verdict_of(above);
  }
  Verdict verdict;
  verdict.odds = 1 - cdf(*beta, shifted(level, -shift_of(standing, family, measure)));
  return verdict;
}

RateCounts counts_behind(const Profile& profile, std::size_t family, Measure measure,
                         const std::optional<Cell>& cell) {
  const auto rate = as_rate(measure);
  if (!rate) return {};
  if (cell) {
    const CellEstimate* known = cell_estimate(profile.families[family], *cell, *rate);
    if (known != nullptr) return known->counts;
  }
  const RateEstimate* known = rate_estimate(profile, family, measure, {});
  return known == nullptr ? RateCounts{} : known->counts;
}

}  // namespace callfit::ask
