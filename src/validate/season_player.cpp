#include <validate/season_player.hpp>

#include <callfit/stats/logit.hpp>

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cstdint>

namespace callfit {
namespace {

using ask::PlayerShift;

constexpr int long_handoff = 10;  // yards

void add(MemberCounts& sum, const MemberCounts& more) {
  sum.made += more.made;
  sum.of += more.of;
}

void add(YardsGained& sum, const YardsGained& more) {
  sum.yards += more.yards;
  sum.times += more.times;
}

double log_odds_apart(const MemberCounts& his, const MemberCounts& league) {
  const double mean = (league.made + 0.5) / (league.of + 1);
  return logit((his.made + mean) / (his.of + 1)) - logit(mean);
}

double yards_apart(const YardsGained& his, const YardsGained& league) {
  if (!(league.times > 0)) return 0;
  const double mean = league.yards / league.times;
  return (his.yards + mean) / (his.times + 1) - mean;
}

/// What moves his bins by so many yards; 0 where nothing does.
double shift_by_yards(const GainPopulation& gain, const std::vector<double>& bins, double yards) {
  const double now = ask::mean_of_shifted(gain, bins, 0);
  return ask::shift_to_mean(gain, bins, now + yards).value_or(0.0);
}

std::optional<PointsPart> part_of(Rate rate) {
  switch (rate) {
    case Rate::completion:
      return PointsPart::completion;
    case Rate::interception:
      return PointsPart::interception;
    case Rate::sack:
      return PointsPart::sack;
    case Rate::scramble:
      return PointsPart::scramble;
    default:
      return std::nullopt;
  }
}

/// Bins of which chances to reach a yard are moved, one shift below the long ones and another on.
class RunBins {
 public:
  RunBins(const GainPopulation& gain, const std::vector<double>& bins) : gain_(gain), bins_(bins) {}

  std::vector<double> moved(double below, double beyond) const {
    std::vector<double> out = bins_;
    double at_least = 1;
    double moved_before = 1;
    for (std::size_t b = 0; b < bins_.size(); ++b) {
      at_least -= bins_[b];
      const bool last = b + 1 == bins_.size();
      const double shift = last || gain_.bin_start[b + 1] >= long_handoff ? beyond : below;
      const double next = last ? 0.0 : std::min(moved_before, shifted(at_least, shift));
      out[b] = moved_before - next;
      moved_before = next;
    }
    return out;
  }

  double mean_at(double below, double beyond) const {
    return mean(gain_pmf(gain_, moved(below, beyond)));
  }

 private:
  const GainPopulation& gain_;
  const std::vector<double>& bins_;
};

std::vector<double> handoff_bins(const GainPopulation& gain, const std::vector<double>& bins,
                                 double success, double yards) {
  constexpr double largest = 5;
  const RunBins run(gain, bins);
  const double wanted = run.mean_at(0, 0) + yards;
  const auto off = [&](double beyond) { return run.mean_at(success, beyond) - wanted; };
  if (off(-largest) >= 0) return run.moved(success, -largest);
  if (off(largest) <= 0) return run.moved(success, largest);
  std::uintmax_t steps = 200;
  const auto [low, high] = boost::math::tools::toms748_solve(
      off, -largest, largest, boost::math::tools::eps_tolerance<double>(40), steps);
  return run.moved(success, (low + high) / 2);
}

class Moves {
 public:
  Moves(const PointsGround& ground, const SeasonCounts& his, const SeasonCounts& league)
      : ground_(ground), his_(his), league_(league), shift_(ask::no_shift(ground.setting())) {}

  void rates(std::size_t family, const Parts& parts) {
    for (std::size_t r = 0; r < rate_count; ++r) {
      const auto part = part_of(static_cast<Rate>(r));
      const auto place = ground_.places().rates[family][r];
      if (!part || !place || !parts[static_cast<std::size_t>(*part)]) continue;
      const Quantity& quantity = ground_.population().quantities[*place];
      const auto rate = game_rate(quantity);
      if (rate) shift_.families[family].rate[r] = quantity.slope * apart(*rate);
    }
  }

  /// Where completions tell how deep the family's throws are.
  void after_catch(std::size_t family) {
    const auto& gain = ground_.setting().families[family].yac;
    const auto place = ground_.places().rates[family][static_cast<std::size_t>(Rate::completion)];
    if (!gain || !place) return;
    const auto rate = game_rate(ground_.population().quantities[*place]);
    if (!rate || static_cast<std::size_t>(*rate) >= throw_depth_count) return;
    const auto depth = static_cast<std::size_t>(*rate);
    shift_.families[family].gain[static_cast<std::size_t>(GainPart::yac)] =
        shift_by_yards(*gain, ground_.average().families[family].yac_bins,
                       yards_apart(his_.after_catch[depth], league_.after_catch[depth]));
  }

  void scrambles() {
    shift_.scramble =
        shift_by_yards(ground_.setting().scramble_gain, ground_.average().scramble_bins,
                       yards_apart(his_.scrambles, league_.scrambles));
  }

  Player player() const { return moved(ground_.average(), shift_, ground_.setting()); }

  void handoffs(Player& player) const {
    const double success = log_odds_apart(his_.handoff_success, league_.handoff_success);
    const double yards = yards_apart(his_.handoffs, league_.handoffs);
    for (std::size_t f = 0; f < player.families.size(); ++f) {
      const FamilyPopulation& family = ground_.setting().families[f];
      if (family.kind == FamilyKind::handoff && family.run)
        player.families[f].run_bins =
            handoff_bins(*family.run, player.families[f].run_bins, success, yards);
    }
  }

 private:
  std::optional<GameRate> game_rate(const Quantity& quantity) const {
    return game_rate_of(ground_.population().traits[quantity.trait].id);
  }

  double apart(GameRate rate) const {
    const auto r = static_cast<std::size_t>(rate);
    return log_odds_apart(his_.rates[r], league_.rates[r]);
  }

  const PointsGround& ground_;
  const SeasonCounts& his_;
  const SeasonCounts& league_;
  PlayerShift shift_;
};

}  // namespace

SeasonCounts counts_of(const Games& games, const QuarterbackSeason& season) {
  SeasonCounts out;
  for (std::size_t r = 0; r < game_rate_count; ++r) out.rates[r] = total(games, r);
  for (const QuarterbackGame* game : games) {
    for (std::size_t d = 0; d < throw_depth_count; ++d)
      add(out.after_catch[d], game->after_catch[d]);
    add(out.scrambles, game->scrambles);
  }
  out.handoff_success = season.handoff_success;
  out.handoffs = {season.handoff_yards, season.handoff_success.of};
  return out;
}

SeasonCounts& operator+=(SeasonCounts& sum, const SeasonCounts& more) {
  for (std::size_t r = 0; r < game_rate_count; ++r) add(sum.rates[r], more.rates[r]);
  for (std::size_t d = 0; d < throw_depth_count; ++d) add(sum.after_catch[d], more.after_catch[d]);
  add(sum.scrambles, more.scrambles);
  add(sum.handoff_success, more.handoff_success);
  add(sum.handoffs, more.handoffs);
  return sum;
}

Parts all_parts() {
  Parts parts;
  parts.fill(true);
  return parts;
}

Parts only(PointsPart part) {
  Parts parts{};
  parts[static_cast<std::size_t>(part)] = true;
  return parts;
}

Player season_player(const PointsGround& ground, const SeasonCounts& his,
                     const SeasonCounts& league, const Parts& parts) {
  const auto has = [&](PointsPart part) { return parts[static_cast<std::size_t>(part)]; };
  Moves moves(ground, his, league);
  for (std::size_t f = 0; f < ground.setting().families.size(); ++f) {
    moves.rates(f, parts);
    if (has(PointsPart::after_catch)) moves.after_catch(f);
  }
  if (has(PointsPart::scramble)) moves.scrambles();
  Player player = moves.player();
  if (has(PointsPart::handoff)) moves.handoffs(player);
  return player;
}

}  // namespace callfit
