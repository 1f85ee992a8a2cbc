#include <ask/answers.hpp>
#include <ask/estimates.hpp>
#include <ask/levers.hpp>
#include <ask/terms.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/base/random.hpp>
#include <callfit/chart/measure_name.hpp>
#include <callfit/stats/normal.hpp>

#include <algorithm>
#include <cmath>

namespace callfit::ask {
namespace {

// What the first would lose with the second's numbers in one family, draw against draw: the mean of
// the derivatives at both men's means times their difference there (exact to second order, so that
// families add up to the whole difference but for a little).
class Reasons {
 public:
  /// Both in the same scheme, as it is turned.
  Reasons(Memory& memory, Standing& first, Standing& second)
      : first_(first), second_(second), games_(first.drives_per_game()) {
    PointGradients both = memory.tangent(first).gradient;
    add_half(memory.tangent(second).gradient, both);
    terms_ = terms_of(both);
  }

  std::vector<ReasonAnswer> all() const {
    const BoundScheme& bound = first_.matchup->bound;
    std::vector<bool> seen(first_.question.ground->setting.families.size(), false);
    std::vector<ReasonAnswer> reasons;
    for (std::size_t f = 0; f < bound.scheme.families.size(); ++f) {
      const std::size_t family = bound.setting_family[f];
      if (bound.call_share[f] <= 0 || seen[family]) continue;
      seen[family] = true;
      reasons.push_back(reason(bound.scheme.families[f].label, family));
    }
    reasons.push_back(reason("Scrambles and sacks, their yards", no_family));
    std::stable_sort(reasons.begin(), reasons.end(),
                     [](const ReasonAnswer& a, const ReasonAnswer& b) {
                       return std::abs(a.part) > std::abs(b.part);
                     });
    return reasons;
  }

 private:
  static void halve(double& value, double other) { value = (value + other) / 2; }
  static void halve(std::vector<double>& values, const std::vector<double>& others) {
    for (std::size_t i = 0; i < values.size(); ++i) halve(values[i], others[i]);
  }

  static void add_half(const DriveGradient& there, DriveGradient& both) {
    for (std::size_t f = 0; f < both.families.size(); ++f) {
      FamilyGradient& own = both.families[f];
      const FamilyGradient& other = there.families[f];
      for (std::size_t r = 0; r < rate_count; ++r) {
        halve(own.rate[r], other.rate[r]);
        for (std::size_t s = 0; s < shell_count; ++s) halve(own.shell[s][r], other.shell[s][r]);
      }
      halve(own.depth_bins, other.depth_bins);
      halve(own.yac_bins, other.yac_bins);
      halve(own.run_bins, other.run_bins);
    }
    halve(both.scramble_bins, there.scramble_bins);
    halve(both.sack_bins, there.sack_bins);
  }
  static void add_half(const PointGradients& there, PointGradients& both) {
    add_half(there.points, both.points);
    add_half(there.net_points, both.net_points);
  }

  // Net points a game by the family's terms, less what they have for a mean by chance.
  Told score(const Standing& standing, std::size_t family) const {
    Column sum(standing.sample->size(), 0.0);
    double at_mean = 0;
    for (const Term& term : terms_) {
      if (term.family != family) continue;
      const DrawColumn column = term.of(*standing.sample);
      const double slope = games_ * term.by_net;
      const double centre = term.in(*standing.mean);
      at_mean += slope * centre;
      for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += slope * (column[i] - centre);
    }
    const double chance = by_chance(sum);
    for (double& value : sum) value += at_mean - chance;
    return {standing.quarterback, std::move(sum)};
  }

  ReasonAnswer reason(const std::string& label, std::size_t family) const {
    const Meeting gap(score(first_, family), score(second_, family));
    return {label, gap.mean(), gap.number(), gap.verdict()};
  }

  Standing& first_;
  Standing& second_;
  double games_;
  std::vector<Term> terms_;
};

// The change from the second stand to the first, split over both orders of changing man and scheme.
class ChangeSplit {
 public:
  ChangeSplit(Memory& memory, const Stand& first, const Stand& second)
      : memory_(memory),
        spread_(std::sqrt(2.0) * memory.about().setting.surroundings_spread *
                memory.standing(first).drives_per_game()),
        first_(corner(first)),
        second_(corner(second)),
        new_man_(corner(man_in(first, second))),
        new_scheme_(corner(man_in(second, first))) {}

  /// `only_man`: nothing else differs.
  ChangeAnswer tell(bool only_man) const {
    ChangeAnswer answer;
    answer.parts.push_back(part(ChangePart::Cause::man, 1));
    if (!only_man) answer.parts.push_back(part(ChangePart::Cause::scheme, -1));
    if (spread_ > 0)
      answer.parts.push_back({ChangePart::Cause::surroundings, 0, of_surroundings(), {}, {}});
    answer.mean_net_points_per_game = Meeting(first_.net, second_.net).mean();
    const Meeting whole(first_.net + surroundings(), second_.net);
    answer.net_points_per_game = whole.number();
    answer.ahead = whole.verdict();
    return answer;
  }

 private:
  // Net points a game and places of one man in one scheme.
  struct Corner {
    Told net, place;
  };

  Corner corner(const Stand& stand) const {
    Standing& standing = memory_.standing(stand);
    memory_.worth(standing);
    return {standing.drives_per_game() * net_points_of(standing),
            {standing.quarterback, memory_.place(standing)}};
  }

  // What changes with the man is what his two corners have together, what changes with the scheme
  // is what they are apart: changed first and changed last, on average.
  ChangePart part(ChangePart::Cause cause, double sign) const {
    const auto half = [sign](const Told& here, const Told& there) {
      return 0.5 * (here + (sign * there).draws);
    };
    const Meeting net(half(first_.net, new_man_.net), half(second_.net, new_scheme_.net));
    const Meeting place(half(first_.place, new_man_.place), half(second_.place, new_scheme_.place));
    return {cause, net.mean(), net.number(), place.mean(), place.number()};
  }

  Number of_surroundings() const {
    const double end = spread_ * normal_quantile(0.95);
    return {0, -end, end, 0, 0};
  }

  // Even quantiles of the normal distribution in an order of their own.
  Column surroundings() const {
    Column apart(first_.net.draws.size());
    for (std::size_t i = 0; i < apart.size(); ++i)
      apart[i] = spread_ * normal_quantile((static_cast<double>(i) + 0.5) /
                                           static_cast<double>(apart.size()));
    Stream stream(memory_.about().options.seed, Purpose::surroundings_draw, 0);
    for (std::size_t i = apart.size(); i > 1; --i)
      std::swap(apart[i - 1],
                apart[static_cast<std::size_t>(stream.uniform() * static_cast<double>(i))]);
    return apart;
  }

  Memory& memory_;
  double spread_;  // of the difference of two surroundings, net points a game
  Corner first_, second_, new_man_, new_scheme_;
};

// The rate whose uncertainty moves points most: slope times the width of its interval.
std::optional<DoubtAnswer> largest_doubt(const Standing& standing,
                                         const std::vector<LeverAnswer>& levers) {
  const Profile& profile = *standing.question.profile;
  std::optional<DoubtAnswer> largest;
  for (const LeverAnswer& lever : levers) {
    for (std::size_t f = 0; f < profile.families.size(); ++f)
      for (std::size_t r = 0; r < rate_count; ++r) {
        const auto measure = static_cast<Measure>(r);
        const RateEstimate* known = rate_estimate(profile, f, measure, {});
        const std::string path =
            "rate." + profile.families[f].id + '.' + std::string(enum_words<Rate>[r]);
        if (known == nullptr || path != lever.path || lever.step == 0) continue;
        const Number estimate = estimate_of(standing, f, measure, {}, {});
        const double swing = std::abs(lever.net_points_per_game.centre / lever.step) *
                             (estimate.high - estimate.low);
        if (!largest || swing > largest->swing)
          largest = DoubtAnswer{lever.label, estimate, known->counts.made, known->counts.of, swing};
      }
  }
  return largest;
}

std::optional<LeverAnswer> best_wrinkle(const std::vector<LeverAnswer>& levers) {
  const auto found = std::find_if(levers.begin(), levers.end(), [](const LeverAnswer& lever) {
    return lever.is_call && lever.step > 0 && lever.net_points_per_game.low > 0;
  });
  return found == levers.end() ? std::nullopt : std::optional(*found);
}

}  // namespace

BriefAnswer answer(Memory& memory, const BriefRequest& request, const Progress& progress) {
  constexpr std::size_t steps = 3;
  Standing& first = memory.standing(request.first);
  Standing& second = memory.standing(request.second);
  memory.worths({&first, &second});
  if (progress) progress(1, steps);
  BriefAnswer answer;
  answer.first = about_of(memory, first);
  answer.second = about_of(memory, second);
  answer.difference =
      difference_of(first, second, answer.first.quarterback, answer.second.quarterback);
  answer.first_place = number_of(memory.place(first));
  answer.second_place = number_of(memory.place(second));
  const bool only_man = &memory.standing(man_in(request.first, request.first)) ==
                        &memory.standing(man_in(request.first, request.second));
  answer.change = ChangeSplit(memory, request.first, request.second).tell(only_man);
  // Reasons are the man's: both are taken in the first's scheme.
  Standing& there = memory.standing(man_in(request.second, request.first));
  memory.worth(there);
  answer.reasons = Reasons(memory, first, there).all();
  answer.mean_in_first_scheme =
      Meeting(net_points_of(first), net_points_of(there)).mean() * first.drives_per_game();
  answer.rest = answer.mean_in_first_scheme;
  for (const ReasonAnswer& reason : answer.reasons) answer.rest -= reason.part;
  if (progress) progress(2, steps);
  const std::vector<LeverAnswer>& levers = levers_of(memory, first);
  answer.doubt = largest_doubt(first, levers);
  answer.wrinkle = best_wrinkle(levers);
  if (progress) progress(steps, steps);
  return answer;
}

}  // namespace callfit::ask
