#include <callfit/graphic/pictures.hpp>

#include <callfit/base/isolated.hpp>
#include "graphic/parts.hpp"

#include <callfit/report/number_text.hpp>

#include <algorithm>
#include <cmath>
#include <string>

namespace callfit {
namespace {

// One value of the answer on its way through the games.
struct TrendSeries {
  std::string label;
  Unit unit = Unit::share;
  std::optional<double> usual;  // of the setting
  std::vector<std::string> after;
  std::vector<Number> values;  // at least one: before the games

  bool left(const Number& value) const {
    return value.centre < values.front().low || value.centre > values.front().high;
  }
};

TrendSeries series_of(const TrendAnswer& trend, const std::string& label, Unit unit,
                      const std::function<Number(const TrendStepAnswer&)>& value,
                      const Wording& wording) {
  TrendSeries series{label, unit, std::nullopt, {}, {}};
  for (const TrendStepAnswer& step : trend.steps) {
    series.after.push_back(step.game.empty() ? wording("trend_before") : step.game);
    series.values.push_back(value(step));
  }
  return series;
}

std::vector<TrendSeries> all_series(const TrendAnswer& trend, const Wording& wording) {
  std::vector<TrendSeries> all;
  if (trend.steps.empty()) return all;
  const auto place = [](const TrendStepAnswer& step) { return step.place; };
  const auto net = [](const TrendStepAnswer& step) { return step.net_points_per_drive; };
  all.push_back(series_of(trend, wording("trend_place"), Unit::place, place, wording));
  all.push_back(series_of(trend, wording("trend_net"), Unit::signed_points, net, wording));
  for (std::size_t i = 0; i < trend.followed.size(); ++i) {
    const FollowedAnswer& followed = trend.followed[i];
    const auto value = [i](const TrendStepAnswer& step) { return step.followed.at(i); };
    all.push_back(series_of(trend, followed.label + ", " + followed.family,
                            followed.in_yards ? Unit::yards : Unit::share, value, wording));
    all.back().usual = followed.usual;
  }
  return all;
}

LinearScale scale_of(const TrendSeries& series, const Box& plot) {
  Range range = hull(series.values, series.usual.value_or(series.values.front().centre));
  const double margin = std::max(0.06 * (range.high - range.low), 1e-3);
  range = {range.low - margin, range.high + margin};
  if (series.unit == Unit::share) range = {std::max(range.low, 0.0), std::min(range.high, 1.0)};
  return {range.low, range.high, plot.bottom() - 4, plot.y + 6};
}

constexpr int most_ticks = 3;

std::string tick_text(Unit unit, double tick, int decimals) {
  if (unit == Unit::share) return percent_tick(tick, decimals);
  return unit == Unit::signed_points ? signed_fixed(tick, decimals) : fixed(tick, decimals);
}

void paint_ticks(Canvas& canvas, const Box& plot, const LinearScale& y, Unit unit, double room) {
  const auto ticks = round_ticks(y.low(), y.high(), most_ticks);
  for (const double tick : ticks) {
    canvas.line({plot.x, y(tick)}, {plot.right(), y(tick)}, Ink::rule, 1.5);
    canvas.write({tick_text(unit, tick, decimals_of(ticks)), canvas.sizes().foot, Ink::quiet, false,
                  Anchor::end},
                 {plot.x - 8, y(tick) + 0.355 * canvas.sizes().foot}, room);
  }
}

// The first answer goes right across, so that one glance tells whether it held.
void paint_first_answer(Canvas& canvas, const Box& plot, const LinearScale& y,
                        const TrendSeries& series) {
  const Colour tint = mix(canvas.colour(Ink::first), canvas.colour(Ink::paper), 0.8);
  const Number& first = series.values.front();
  const double top = y(first.high), bottom = y(first.low);
  canvas.fill({plot.x, top, plot.width, std::max(bottom - top, 1.0)}, tint);
  canvas.line({plot.x, y(first.centre)}, {plot.right(), y(first.centre)}, Ink::first, 3,
              Role::mark);
  if (series.usual)
    canvas.add(
        {LineShape{{plot.x, y(*series.usual)},
                   {plot.right(), y(*series.usual)},
                   {std::nullopt, Stroke{canvas.colour(Ink::stick), 3, {4, 8}}, Role::mark}}});
}

void paint_steps(Canvas& canvas, const Box& plot, const LinearScale& y, const TrendSeries& series) {
  const double step = plot.width / static_cast<double>(series.values.size());
  double x = plot.x + step / 2;
  for (const Number& value : series.values) {
    const Fill fill = series.left(value) ? Fill::solid : Fill::hollow;
    draw_upright_ball(canvas, y, value, x,
                      {std::min(0.5 * step, 24.0), Ink::first, fill, Ink::paper});
    x += step;
  }
}

double tick_room(Canvas& canvas, const TrendSeries& series, const Box& plot) {
  const LinearScale y = scale_of(series, plot);
  const auto ticks = round_ticks(y.low(), y.high(), most_ticks);
  double widest = 0;
  for (const double tick : ticks)
    widest = std::max(widest, canvas.width_of({tick_text(series.unit, tick, decimals_of(ticks)),
                                               canvas.sizes().foot}));
  return widest + 12;
}

std::string first_and_now(const TrendSeries& series, const Wording& wording) {
  return wording("trend_level", {{"first", number_text(series.unit, series.values.front())},
                                 {"now", number_text(series.unit, series.values.back())}});
}

void paint_series(Canvas& canvas, Box box, const TrendSeries& series, const Wording& wording) {
  const TextScale& sizes = canvas.sizes();
  canvas.write_in({isolated(series.label), sizes.body, Ink::ink, true},
                  {box.x, box.y, box.width, 1.2 * sizes.body});
  canvas.write_in({first_and_now(series, wording), sizes.foot, Ink::quiet},
                  {box.x, box.y + 1.2 * sizes.body, box.width, 1.5 * sizes.foot});
  box.take_top(1.25 * sizes.body + 1.6 * sizes.foot);
  const Box names = box.take_bottom(1.5 * sizes.foot);
  const double room = tick_room(canvas, series, box);
  box.take_left(room);
  const LinearScale y = scale_of(series, box);
  paint_first_answer(canvas, box, y, series);
  paint_ticks(canvas, box, y, series.unit, room);
  paint_steps(canvas, box, y, series);
  const double half = box.width / 2 - 10;
  canvas.write({series.after.front(), sizes.foot, Ink::quiet}, {box.x, names.y + 1.1 * sizes.foot},
               half);
  if (series.after.size() > 1)
    canvas.write({series.after.back(), sizes.foot, Ink::quiet, false, Anchor::end},
                 {box.right(), names.y + 1.1 * sizes.foot}, half);
}

std::size_t columns_for(std::size_t count, const Box& box) {
  // A chart about twice as wide as high reads best; an empty place costs as well.
  std::size_t best = 1;
  double least = 1e9;
  for (std::size_t across = 1; across <= std::min<std::size_t>(count, 4); ++across) {
    const std::size_t down = (count + across - 1) / across;
    const double shape = (box.width / static_cast<double>(across)) /
                         std::max(box.height / static_cast<double>(down), 1.0);
    const double cost = std::abs(std::log(shape / 2)) +
                        static_cast<double>(across * down - count) / static_cast<double>(count);
    if (cost < least) {
      least = cost;
      best = across;
    }
  }
  return best;
}

void paint(Canvas& canvas, const Box& box, const std::vector<TrendSeries>& all,
           const Wording& wording) {
  const std::size_t count = all.size();
  if (count == 0) return;
  const std::size_t across = columns_for(count, box);
  // A small panel shows the first ones, but shows them readably.
  const auto most = static_cast<std::size_t>(box.height / (9 * canvas.sizes().foot));
  const std::size_t down = std::min((count + across - 1) / across, std::max<std::size_t>(most, 1));
  std::size_t next = 0;
  for (const Box& row : rows(box, down, 22))
    for (const Box& cell : columns(row, across, 44)) {
      if (next == count) return;
      const TrendSeries& series = all[next++];
      canvas.grouped(series.label,
                     [&](Canvas& group) { paint_series(group, cell, series, wording); });
    }
}

std::string steps_text(const TrendSeries& series) {
  std::string line = isolated(series.label) + ":";
  for (std::size_t i = 0; i < series.values.size(); ++i)
    line +=
        " " + isolated(series.after[i]) + " " + number_text(series.unit, series.values[i]) + ".";
  return line + "\n";
}

double charted_snaps(const TrendAnswer& trend) {
  double snaps = 0;
  for (const TrendStepAnswer& step : trend.steps) snaps += step.snaps;
  return snaps;
}

Telling telling_of(const TrendAnswer& trend, const std::vector<TrendSeries>& all,
                   const Wording& wording) {
  std::vector<std::string> left;
  std::string lines;
  for (const TrendSeries& series : all) {
    if (series.left(series.values.back())) left.push_back(series.label);
    lines += steps_text(series);
  }
  const Wording::Values words = {{"player", isolated(trend.about.quarterback)},
                                 {"snaps", fixed(charted_snaps(trend), 0)},
                                 {"left", std::to_string(left.size())},
                                 {"all", std::to_string(all.size())},
                                 {"list", name_list(left, 2, wording)}};
  if (charted_snaps(trend) <= 0)
    return {
        wording("trend_kicker"), wording("trend_none", words), {}, {wording("trend_note")}, lines};
  return {wording("trend_kicker"),
          wording(trend.held ? "trend_held" : "trend_left", words),
          {wording(trend.held ? "trend_held_deck" : "trend_left_deck", words)},
          {wording("trend_note")},
          lines};
}

}  // namespace

Panel trend_panel(const TrendAnswer& trend, const Wording& wording) {
  const auto all = all_series(trend, wording);
  return {telling_of(trend, all, wording),
          [all, wording](Canvas& canvas, const Box& box) { paint(canvas, box, all, wording); }};
}

}  // namespace callfit
