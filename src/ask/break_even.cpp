#include <callfit/ask/break_even.hpp>
#include <callfit/base/finding.hpp>

#include <boost/math/tools/toms748_solve.hpp>

#include <cmath>
#include <cstdint>
#include <limits>
#include <vector>

namespace callfit {
namespace {

constexpr int grid_steps = 16;

double net_of(const Question& question) {
  return drive_points(matchup_of(question), question.mean_player()).net_points;
}

bool is_players(const std::string& path) {
  return path.starts_with("rate.") || path.starts_with("gain.");
}

struct Bracket {
  double low = 0, high = 0, at_low = 0, at_high = 0;
};

// The change of sign nearest to `now` on an even grid over [low, high].
template <class Gap>
std::optional<Bracket> nearest_bracket(const Gap& gap, double low, double high, double now) {
  std::optional<Bracket> nearest;
  double distance = std::numeric_limits<double>::infinity();
  double last_x = low;
  double last = gap(low);
  for (int i = 1; i <= grid_steps; ++i) {
    const double x = std::lerp(low, high, static_cast<double>(i) / grid_steps);
    const double value = gap(x);
    const double off = std::abs((x + last_x) / 2 - now);
    if ((value >= 0) != (last >= 0) && off < distance) {
      nearest = Bracket{last_x, x, last, value};
      distance = off;
    }
    last_x = x;
    last = value;
  }
  return nearest;
}

// How sure one can be of the first's own value.
double share_ahead(const Question& first, const Knob& knob, double value, bool more_helps,
                   const DrawOptions& options) {
  std::size_t ahead = 0;
  Question one = first;
  for (std::size_t i = 0; i < options.draws; ++i) {
    one.mean = draw_player(first.profile, first.ground->setting, options.seed, i);
    if ((knob.get(one) > value) == more_helps) ++ahead;
  }
  return static_cast<double>(ahead) / static_cast<double>(options.draws);
}

UncertainValue net_difference(const Question& first, const Question& second, bool both,
                              const DrawOptions& options, const Progress& progress) {
  // Two quarterbacks have posteriors of their own; one quarterback in two schemes is the same man.
  const std::uint64_t seed = both ? options.seed : options.seed + 1;
  const Standing a = stand(first, options, progress);
  const Standing b = stand(second, {seed, options.draws, options.threads}, progress);
  std::vector<double> gaps;
  for (std::size_t i = 0; i < a.draws.size(); ++i)
    gaps.push_back(a.draws[i].net_points * a.drives_per_game -
                   b.draws[i].net_points * b.drives_per_game);
  return {a.drive.net_points * a.drives_per_game - b.drive.net_points * b.drives_per_game,
          interval90_of(std::move(gaps))};
}

}  // namespace

BreakEven break_even(const Question& first, const Question& second, const std::string& path,
                     bool both, const DrawOptions& options, const Progress& progress) {
  const auto knobs = knobs_of(first);
  const Knob& knob = find_knob(knobs, path);
  if (knob.unit == KnobUnit::word || path.starts_with("level."))
    throw InputError(Finding{{"", 0, path}, "has no break-even", "name a rate, a gain or a share"});
  BreakEven result{path, knob.about, knob.unit, knob.get(first)};
  const double seconds_net = net_of(second);
  const auto gap = [&](double value) {
    const double against = both ? net_of(with_knob(second, knob, value)) : seconds_net;
    return net_of(with_knob(first, knob, value)) - against;
  };
  // A mean gain can only move so far; its ends come from the gains themselves.
  const bool yards = knob.unit == KnobUnit::yards;
  result.low = yards ? result.now - std::abs(result.now) / 2 : knob.low;
  result.high = yards ? result.now + std::abs(result.now) / 2 : knob.high;
  result.net_at_low = gap(result.low) * first.setting.drives_per_game;
  result.net_at_high = gap(result.high) * first.setting.drives_per_game;
  result.net_now = net_difference(first, second, both, options, progress);

  const auto bracket = nearest_bracket(gap, result.low, result.high, result.now);
  if (!bracket) return result;
  std::uintmax_t steps = 100;
  const auto [below, above] = boost::math::tools::toms748_solve(
      gap, bracket->low, bracket->high, bracket->at_low, bracket->at_high,
      boost::math::tools::eps_tolerance<double>(48), steps);
  result.value = (below + above) / 2;
  result.residual = gap(*result.value);
  result.more_helps = bracket->at_high > bracket->at_low;
  if (is_players(path) && !both)
    result.chance = share_ahead(first, knob, *result.value, result.more_helps, options);
  return result;
}

}  // namespace callfit
