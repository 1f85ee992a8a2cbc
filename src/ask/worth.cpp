#include <ask/departures.hpp>
#include <ask/scores.hpp>
#include <ask/worth.hpp>
#include <callfit/base/parallel.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numeric>

namespace callfit::ask {
namespace {

constexpr std::size_t gradient_cost_nearby = 2;
constexpr std::size_t aside_cost = 3;  // of one class alone, all axes together

// Errors that show in no digit. Drives that are not followed to their end touch derivatives alone.
constexpr WorthOptions at_the_mean{.solve = {.tolerance = 1e-9}, .left = 1e-6};
constexpr WorthOptions beside_a_start{.solve = {.tolerance = 1e-7}, .left = 2e-5};
constexpr WorthOptions beside_the_mean{.solve = {.tolerance = 1e-6}, .left = 2e-5};

// Where along the path of mean players the bend and derivatives are looked at, as quantiles of the
// score, and the share of all draws around each of which it is the mean.
constexpr std::array end_quantiles{0.05, 0.95};
constexpr double path_window = 0.03;
// Points per drive beyond first order in what is turned, up to which points are carried to the
// ends: what is beyond second order there shows in no digit that the draws settle (docs/model.md).
constexpr double carried_up_to = 0.002;
// Axes beside the path along which the points' curvature is looked at.
constexpr std::size_t axes_looked_along = 6;
// Draws whose exact points are held against the surrogate's, as quantiles of it; the others too
// where the first ones raise doubt.
constexpr std::array first_checked{0.04, 0.05, 0.06, 0.94, 0.95, 0.96};
constexpr std::array further_checked{0.030, 0.034, 0.038, 0.043, 0.047, 0.053, 0.057,
                                     0.062, 0.066, 0.070, 0.930, 0.934, 0.938, 0.943,
                                     0.947, 0.953, 0.957, 0.962, 0.966, 0.970};

using Ends = std::array<PathPoint, 2>;

// a t^2 + b t^3 through the departures of both.
Bend bend_through(const Ends& ends) {
  const auto& [first, second] = ends;
  if (first.score == 0 || second.score == 0 || first.score == second.score) return {};
  const auto over_square = [](const PathPoint& at) { return at.departure / (at.score * at.score); };
  const double cube = (over_square(second) - over_square(first)) / (second.score - first.score);
  return {over_square(first) - cube * first.score, cube};
}

DrivePoints as_points(const std::array<double, 2>& points) { return {points[0], points[1]}; }

DrivePoints operator+(const DrivePoints& a, const DrivePoints& b) {
  return {a.points + b.points, a.net_points + b.net_points};
}
DrivePoints operator-(const DrivePoints& a, const DrivePoints& b) {
  return {a.points - b.points, a.net_points - b.net_points};
}

Tangent tangent_from(const Player& mean, OwnWorth worth, std::size_t solves) {
  std::vector<Term> terms = terms_of(worth.gradients);
  FirstDownValues first_downs = worth.outcomes.first_downs();
  return {{mean, std::move(worth.gradients), std::move(terms)},
          std::move(first_downs),
          std::move(worth.outcomes),
          solves};
}

// From the values at a like one.
SolveOptions from(const Tangent& near, const Matchup& matchup, double tolerance) {
  return {tolerance, &near.first_downs, matchup.most_to_go};
}

// Where there is one of a like matchup or player, it starts from that.
Tangent worked_out(const Matchup& matchup, const Player& player, WorthOptions options,
                   unsigned threads, std::size_t solves, const Tangent* near) {
  options.threads = threads;
  if (near != nullptr) options.solve = from(*near, matchup, options.solve.tolerance);
  return tangent_from(player, own_worth(*matchup.plan, player, matchup.starts, options), solves);
}

// What other call shares bring: derivatives times moves.
double by_calls(const DriveGradient& gradient, const Scheme& before, const Scheme& after) {
  double sum = 0;
  for (std::size_t s = 0; s < before.situations.size(); ++s)
    for (std::size_t shell = 0; shell < shell_count; ++shell) {
      const auto& was = before.situations[s].against(static_cast<Shell>(shell));
      const auto& is = after.situations[s].against(static_cast<Shell>(shell));
      const std::vector<double>& slope = gradient.call[s][shell];
      for (std::size_t f = 0; f < slope.size(); ++f) sum += slope[f] * (is[f] - was[f]);
    }
  return sum;
}

// Of another player under other calls, to first order.
DrivePoints carried(const FirstOrder& from, const Player& player, const Scheme& before,
                    const Scheme& after) {
  DrivePoints points = from.at(player);
  points.points += by_calls(from.gradient.points, before, after);
  points.net_points += by_calls(from.gradient.net_points, before, after);
  return points;
}

// Points of every draw from those at the means, the scores and the bend.
void spread_over_draws(const Scores& scores, Worth& out) {
  out.points_by_chance = by_chance(scores.points);
  out.net_by_chance = by_chance(scores.net);
  const DrivePoints at_mean = out.tangent->at_mean();
  for (std::size_t i = 0; i < scores.net.size(); ++i) {
    const double p = scores.points[i];
    const double n = scores.net[i];
    out.points.push_back(at_mean.points + p + out.points_bend.at(p));
    out.net_points.push_back(at_mean.net_points + n + out.net_bend.at(n));
  }
  if (!out.twist) return;
  for (std::size_t i = 0; i < scores.net.size(); ++i) {
    out.points[i] += out.twist->points[i];
    out.net_points[i] += out.twist->net[i];
  }
}

class Surrogate {
 public:
  Surrogate(SharedTangent tangent, const Matchup& matchup, const Sample& sample, const Player& mean,
            unsigned threads)
      : tangent_(std::move(tangent)),
        terms_(tangent_->terms),
        matchup_(matchup),
        sample_(sample),
        mean_(mean),
        threads_(threads),
        usual_(usual_class(*matchup.plan)) {}

  /// Bend and points of every draw; with `near`, its curvature beside the path. `scheme`: near's,
  /// if only what he does and what is called differs.
  Worth worth(const Worth* near, const Scheme* scheme) {
    Worth out;
    out.tangent = tangent_;
    out.method.exact_solves = tangent_->exact_solves;
    const Scores scores(terms_, sample_, mean_);
    const Order order = in_order(scores.net);
    if (near != nullptr) {
      if (scheme == nullptr || !carry_ends(*near, *scheme, scores, out))
        look_at_ends(scores, order, out);
      out.points_bend = moved(near->points_bend, near->points_ends, out.points_ends);
      out.net_bend = moved(near->net_bend, near->net_ends, out.net_ends);
      out.twist = near->twist;
      for (const PathPoint& end : out.net_ends)
        apart_at_ends_ = std::max(
            apart_at_ends_, std::abs(out.net_bend.at(end.score) - near->net_bend.at(end.score)));
    } else if (variance_over(scores.net) > 0) {
      const DrivePoints first_end = look_at_derivatives(scores, order, out);
      bend_through_ends(out);
      look_aside(scores, first_end, out);
    }
    spread_over_draws(scores, out);
    return out;
  }

  /// The same from both ends of the path alone.
  Worth in_short() {
    Worth out;
    out.tangent = tangent_;
    out.method.exact_solves = tangent_->exact_solves;
    const Scores scores(terms_, sample_, mean_);
    look_at_ends(scores, in_order(scores.net), out);
    bend_through_ends(out);
    spread_over_draws(scores, out);
    return out;
  }

  /// How far the bends of worth(near) and near are apart at the ends of the path, the larger of
  /// both.
  double apart_at_ends() const { return apart_at_ends_; }

  // Whether an end of the interval is off by more than is tolerated, as far as exact points of
  // draws near the ends can tell.
  bool is_poor(Worth& worth) const {
    const Order order = in_order(worth.net_points);
    const double width = worth.net_points[order[order.size() * 19 / 20]] -
                         worth.net_points[order[order.size() / 20]];
    Departures departures;
    const auto look = [&](const auto& quantiles) {
      add_departures(quantiles, order, worth, departures);
      worth.method.surrogate_error = departures.root_mean_square();
      return !(departures.end_error(width) <= tolerated_end);
    };
    return look(first_checked) && look(further_checked);
  }

 private:
  using Order = std::vector<std::size_t>;

  // To the accuracy that shows in no digit, from the values at the means: nobody is far from them.
  SolveOptions from_the_means() const {
    return from(*tangent_, matchup_, beside_the_mean.solve.tolerance);
  }

  std::vector<DrivePoints> solved(const std::vector<Player>& players) const {
    std::vector<DrivePoints> points(players.size());
    for_each_unit(players.size(), threads_, [&](std::size_t i) {
      const DriveModel model = compile_drives(matchup_, players[i]);
      const PointValues values = solve_points(model, from_the_means());
      points[i] = {values.points_over(matchup_.starts), values.net_over(matchup_.starts)};
    });
    return points;
  }

  struct OnPath {
    PathPoint points, net;
  };

  // `exact`: points of the mean player of `draws`.
  OnPath on_path(const Scores& scores, std::span<const std::size_t> draws,
                 const DrivePoints& exact) const {
    const DrivePoints at_mean = tangent_->at_mean();
    const double p = mean_over(scores.points, draws);
    const double t = mean_over(scores.net, draws);
    return {{p, exact.points - at_mean.points - p}, {t, exact.net_points - at_mean.net_points - t}};
  }

  void look_at_ends(const Scores& scores, const Order& order, Worth& out) const {
    std::vector<Player> players;
    players.reserve(end_quantiles.size());
    for (const double quantile : end_quantiles) players.push_back(mean_of(window(order, quantile)));
    const std::vector<DrivePoints> exact = solved(players);
    for (std::size_t end = 0; end < exact.size(); ++end)
      take_end(end, on_path(scores, window(order, end_quantiles[end]), exact[end]), out);
    out.method.exact_solves += exact.size();
  }

  static void take_end(std::size_t end, const OnPath& found, Worth& out) {
    out.points_ends[end] = found.points;
    out.net_ends[end] = found.net;
  }

  static void bend_through_ends(Worth& out) {
    out.points_bend = moved({}, {}, out.points_ends);
    out.net_bend = moved({}, {}, out.net_ends);
  }

  // By how much more the points depart at the ends than they did, the bend itself apart.
  static Bend moved(Bend bend, const Ends& before, const Ends& after) {
    Ends more = after;
    for (std::size_t end = 0; end < more.size(); ++end) {
      const double bent = bend.along(more[end].score) - bend.along(before[end].score);
      more[end].departure -= before[end].departure + bent;
    }
    const Bend by = bend_through(more);
    return {bend.square + by.square, bend.cube + by.cube, bend.aside};
  }

  // Points around both ends of the path from those of near: what has moved counts by the
  // derivatives there, and beyond first order by what it makes at the means. Whether that is
  // little.
  bool carry_ends(const Worth& near, const Scheme& scheme, const Scores& scores, Worth& out) const {
    if (!near.derivatives_at_ends) return false;
    const Scheme& called = matchup_.bound.scheme;
    const DrivePoints beyond = tangent_->at_mean() - carried(*near.tangent, mean_, scheme, called);
    if (std::max(std::abs(beyond.points), std::abs(beyond.net_points)) > carried_up_to)
      return false;
    for (std::size_t end = 0; end < near.derivatives_at_ends->size(); ++end) {
      const PathEnd& there = (*near.derivatives_at_ends)[end];
      const DrivePoints points =
          carried(there.first_order, mean_of(there.draws, there.first_order.terms), scheme,
                  called) +
          beyond;
      take_end(end, on_path(scores, there.draws, points), out);
    }
    return true;
  }

  // Points and derivatives at both ends of the path, and how derivatives change along it to the
  // first, whose points in the usual class are returned.
  DrivePoints look_at_derivatives(const Scores& scores, const Order& order, Worth& out) {
    std::array<PathEnd, end_quantiles.size()> ends;
    DrivePoints first_in_class;
    for (std::size_t end = 0; end < ends.size(); ++end) {
      const auto around = window(order, end_quantiles[end]);
      ends[end].draws.assign(around.begin(), around.end());
      ends[end].first_order.mean = mean_of(around);
    }
    for_each_unit(ends.size(), threads_, [&](std::size_t end) {
      const Player player = ends[end].first_order.mean;
      Tangent there =
          worked_out(matchup_, player, beside_the_mean, 1, gradient_cost_nearby, tangent_.get());
      if (end == 0)
        first_in_class = as_points(points_in_class(there.first_downs, usual_, matchup_.starts));
      ends[end].first_order = std::move(there);
    });
    for (std::size_t end = 0; end < ends.size(); ++end) {
      const DrivePoints points = ends[end].first_order.at_mean();
      take_end(end, on_path(scores, ends[end].draws, points), out);
      out.method.exact_solves += gradient_cost_nearby;
    }
    out.twist = std::make_shared<const Twist>(twist_toward(ends.front(), scores, out));
    out.derivatives_at_ends =
        std::make_shared<const std::array<PathEnd, end_quantiles.size()>>(std::move(ends));
    return first_in_class;
  }

  Twist twist_toward(const PathEnd& end, const Scores& scores, const Worth& out) const {
    const double by = out.net_ends.front().score;
    Scores changed(end.first_order.terms, sample_, mean_);
    const auto change = [by](Column& to, const Column& from) {
      for (std::size_t i = 0; i < to.size(); ++i) to[i] = (to[i] - from[i]) / by;
    };
    change(changed.points, scores.points);
    change(changed.net, scores.net);
    return {twisted(changed.points, scores.net), twisted(changed.net, scores.net)};
  }

  // What a variance of 1 along each axis adds in the mean: half the curvature, from how far the
  // points one deviation along it depart from the tangent. Looked at in the usual class alone, and
  // as much more in all of them as at the first end of the path. `first_end`: points of the mean
  // player there, in that class.
  void look_aside(const Scores& scores, const DrivePoints& first_end, Worth& out) const {
    std::vector<Player> aside;
    for (const Column& axis : axes_aside(terms_, sample_, mean_, scores.net, axes_looked_along))
      aside.push_back(Path(terms_, sample_, mean_, axis).at(1));
    const OutcomeWorth outcomes = outcomes_at(*tangent_, matchup_, threads_);
    FirstOrder tangent{mean_, differentiate_in_class(outcomes, mean_, usual_, matchup_.starts), {}};
    tangent.terms = terms_of(tangent.gradient);
    const auto exact =
        points_in_class(*matchup_.plan, aside, usual_, matchup_.starts, from_the_means());
    DrivePoints sum;
    for (std::size_t i = 0; i < aside.size(); ++i)
      sum = sum + (as_points(exact[i]) - tangent.at(aside[i]));
    const DrivePoints in_class =
        first_end - tangent.at(out.derivatives_at_ends->front().first_order.mean);
    out.points_bend.aside =
        sum.points * of_all_classes(out.points_ends[0].departure, in_class.points);
    out.net_bend.aside =
        sum.net_points * of_all_classes(out.net_ends[0].departure, in_class.net_points);
    out.method.exact_solves += aside_cost;
  }

  // Departures of all classes by those of one, which are alike.
  static double of_all_classes(double all, double one) {
    constexpr double most = 2;
    return one == 0 ? 1 : std::clamp(all / one, 1 / most, most);
  }

  static Order in_order(const Column& column) {
    Order order(column.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(),
              [&column](std::size_t a, std::size_t b) { return column[a] < column[b]; });
    return order;
  }

  static std::span<const std::size_t> window(const Order& order, double quantile) {
    const auto n = static_cast<double>(order.size());
    const double first = std::clamp(quantile - path_window / 2, 0.0, 1 - path_window);
    const auto size = std::max<std::size_t>(1, static_cast<std::size_t>(path_window * n));
    return std::span(order).subspan(static_cast<std::size_t>(first * n), size);
  }

  static double mean_over(DrawColumn column, std::span<const std::size_t> draws) {
    double sum = 0;
    for (const std::size_t i : draws) sum += column[i];
    return sum / static_cast<double>(draws.size());
  }

  Player mean_of(std::span<const std::size_t> draws) const { return mean_of(draws, terms_); }

  // In the numbers of `terms`; in others he is the mean of all.
  Player mean_of(std::span<const std::size_t> draws, const std::vector<Term>& terms) const {
    Player player = mean_;
    for (const Term& term : terms) term.in(player) = mean_over(term.of(sample_), draws);
    return player;
  }

  void add_departures(std::span<const double> quantiles, const Order& order, Worth& worth,
                      Departures& departures) const {
    std::vector<std::size_t> draws;
    std::vector<Player> players;
    for (const double q : quantiles) {
      draws.push_back(order[static_cast<std::size_t>(q * static_cast<double>(order.size()))]);
      players.push_back(sample_.player_at(draws.back()));
    }
    const std::vector<double> exact =
        net_points_of(*matchup_.plan, players, matchup_.starts, from_the_means(), threads_);
    for (std::size_t i = 0; i < draws.size(); ++i)
      departures.add(quantiles[i], exact[i] - worth.net_points[draws[i]]);
    worth.method.exact_solves += draws.size();
  }

  SharedTangent tangent_;
  const std::vector<Term>& terms_;
  const Matchup& matchup_;
  const Sample& sample_;
  const Player& mean_;
  unsigned threads_;
  std::size_t usual_;  // quality class
  double apart_at_ends_ = 0;
};

void solve_all(const Matchup& matchup, const Sample& sample, unsigned threads,
               const Progress& progress, Worth& worth) {
  sample.fill();
  for_each_unit(
      sample.size(), threads,
      [&](std::size_t i) {
        const DrivePoints exact = drive_points(matchup, sample.player_at(i));
        worth.points[i] = exact.points;
        worth.net_points[i] = exact.net_points;
      },
      progress);
  worth.method.exact_solves += sample.size();
  worth.method.all_exact = true;
}

}  // namespace

DrivePoints FirstOrder::at(const Player& player) const {
  DrivePoints sum = at_mean();
  for (const Term& term : terms) {
    const double by = term.in(player)-term.in(mean);
    sum.points += term.by_points * by;
    sum.net_points += term.by_net * by;
  }
  return sum;
}

double by_chance(std::span<const double> score) {
  constexpr double most_errors = 4;
  const auto n = static_cast<double>(score.size());
  const double mean = std::accumulate(score.begin(), score.end(), 0.0) / n;
  return mean * mean > most_errors * most_errors * variance_over(score) / n ? 0 : mean;
}

Tangent tangent_of(const Matchup& matchup, const Player& mean, unsigned threads,
                   const Tangent* near) {
  const WorthOptions& options = near == nullptr ? at_the_mean : beside_a_start;
  return worked_out(matchup, mean, options, threads, gradient_cost, near);
}

OutcomeWorth outcomes_at(const Tangent& tangent, const Matchup& matchup, unsigned threads) {
  if (tangent.outcomes) return *tangent.outcomes;
  WorthOptions options = beside_a_start;
  options.threads = threads;
  options.solve = from(tangent, matchup, options.solve.tolerance);
  return outcome_worth(*matchup.plan, tangent.mean, matchup.starts, options);
}

Tangent tangent_beside(const Tangent& near, const Player& mean) {
  Tangent out = near;
  out.mean = mean;
  const auto [points, net_points] = values_beside(near.outcomes.value(), mean);
  out.gradient.points.value = points;
  out.gradient.net_points.value = net_points;
  out.exact_solves = 0;
  return out;
}

Tangent with_calls(Tangent tangent, const Scheme& before, const Scheme& after) {
  PointGradients& gradient = tangent.gradient;
  gradient.points.value += by_calls(gradient.points, before, after);
  gradient.net_points.value += by_calls(gradient.net_points, before, after);
  tangent.exact_solves = 0;
  return tangent;
}

Worth worth_of(const SharedTangent& tangent, const Matchup& matchup, const Sample& sample,
               const Player& mean, const Threads& threads, const Progress& progress) {
  Surrogate surrogate(tangent, matchup, sample, mean, threads.few);
  Worth worth = surrogate.worth(nullptr, nullptr);
  if (surrogate.is_poor(worth)) solve_all(matchup, sample, threads.all, progress, worth);
  return worth;
}

Worth worth_in_short(const SharedTangent& tangent, const Matchup& matchup, const Sample& sample,
                     const Player& mean, const Threads& threads) {
  return Surrogate(tangent, matchup, sample, mean, threads.few).in_short();
}

Worth worth_near(const Worth& near, const Scheme* scheme, const SharedTangent& tangent,
                 const Matchup& matchup, const Sample& sample, const Player& mean,
                 const Threads& threads, const Progress& progress) {
  if (near.method.all_exact) return worth_of(tangent, matchup, sample, mean, threads, progress);
  Surrogate surrogate(tangent, matchup, sample, mean, threads.few);
  Worth worth = surrogate.worth(&near, scheme);
  worth.method.surrogate_error = near.method.surrogate_error;
  if (surrogate.apart_at_ends() <= tolerated_end) return worth;
  const std::size_t spent = worth.method.exact_solves - tangent->exact_solves;
  worth = worth_of(tangent, matchup, sample, mean, threads, progress);
  worth.method.exact_solves += spent;
  return worth;
}

Worth worth_beside(const Worth& near, const SharedTangent& tangent, const Sample& sample,
                   const Player& mean) {
  Worth out;
  out.tangent = tangent;
  out.points_bend = near.points_bend;
  out.net_bend = near.net_bend;
  out.twist = near.twist;
  out.method = {0, false, near.method.surrogate_error};
  spread_over_draws(Scores(tangent->terms, sample, mean), out);
  return out;
}

Worth exact_worth_of(const SharedTangent& tangent, const Matchup& matchup, const Sample& sample,
                     const Player& mean, const Threads& threads, const Progress& progress) {
  Worth worth = Surrogate(tangent, matchup, sample, mean, threads.few).worth(nullptr, nullptr);
  solve_all(matchup, sample, threads.all, progress, worth);
  return worth;
}

}  // namespace callfit::ask
