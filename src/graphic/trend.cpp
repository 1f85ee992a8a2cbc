#include <callfit/graphic/trend.hpp>

#include "graphic/parts.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace callfit {
namespace {

bool stands_apart(const TrendPoint& game, const TrendSeries& series) {
  return game.snaps > 0 && game.rate.clear_of(series.overall.value);
}

double most_snaps(const TrendSeries& series) {
  double most = 1;
  for (const TrendPoint& game : series.games) most = std::max(most, game.snaps);
  return most;
}

void paint_levels(Canvas& canvas, const Box& plot, const LinearScale& y,
                  const TrendSeries& series) {
  const Colour tint = mix(canvas.colour(Ink::first), canvas.colour(Ink::paper), 0.8);
  const double top = y(series.overall.high), bottom = y(series.overall.low);
  canvas.fill({plot.x, top, plot.width, std::max(bottom - top, 1.0)}, tint);
  const double level = y(series.overall.value);
  canvas.line({plot.x, level}, {plot.right(), level}, Ink::first, 3, Role::mark);
  canvas.add({LineShape{{plot.x, y(series.usual)},
                        {plot.right(), y(series.usual)},
                        {std::nullopt, Stroke{canvas.colour(Ink::stick), 3, {4, 8}}, Role::mark}}});
}

void paint_games(Canvas& canvas, const Box& plot, const LinearScale& y, const TrendSeries& series) {
  const auto count = static_cast<double>(std::max<std::size_t>(series.games.size(), 1));
  const double step = plot.width / count, most = most_snaps(series);
  double x = plot.x + step / 2;
  for (const TrendPoint& game : series.games) {
    const Fill fill = game.snaps > 0 ? fill_of(game.rate, series.overall.value) : Fill::dashed;
    const Ink ink = game.rate.value < series.overall.value ? Ink::second : Ink::first;
    if (game.snaps > 0)
      draw_upright_ball(
          canvas, y, game.rate, x,
          {ball_thickness(game.snaps, most, std::min(0.62 * step, 30.0)), ink, fill, Ink::paper});
    x += step;
  }
}

void paint_series(Canvas& canvas, Box box, const TrendSeries& series, const Wording& wording) {
  const TextScale& sizes = canvas.sizes();
  canvas.write({isolated(series.label), sizes.body, Ink::ink, true}, {box.x, box.y + sizes.body},
               box.width);
  const std::string level =
      wording("trend_level", {{"value", percent_text(series.overall.value)},
                              {"range", range_text(series.overall, Unit::share, wording)},
                              {"usual", percent_text(series.usual)}});
  canvas.write_in({level, sizes.foot, Ink::quiet},
                  {box.x, box.y + 1.2 * sizes.body, box.width, 1.5 * sizes.foot});
  box.take_top(1.25 * sizes.body + 1.6 * sizes.foot);
  const Box names = box.take_bottom(1.5 * sizes.foot);
  const double room = canvas.width_of({"100%", sizes.foot}) + 10;
  box.take_left(room);
  const LinearScale y(0, 1, box.bottom() - 4, box.y + 6);
  for (const double tick : {0.0, 0.5, 1.0}) {
    canvas.line({box.x, y(tick)}, {box.right(), y(tick)}, Ink::rule, 1.5);
    canvas.write({percent_text(tick), sizes.foot, Ink::quiet, false, Anchor::end},
                 {box.x - 8, y(tick) + 0.355 * sizes.foot}, room);
  }
  paint_levels(canvas, box, y, series);
  paint_games(canvas, box, y, series);
  if (series.games.empty()) return;
  const double half = box.width / 2 - 10;
  canvas.write({series.games.front().game, sizes.foot, Ink::quiet},
               {box.x, names.y + 1.1 * sizes.foot}, half);
  if (series.games.size() > 1)
    canvas.write({series.games.back().game, sizes.foot, Ink::quiet, false, Anchor::end},
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

void paint(Canvas& canvas, const Box& box, const TrendPicture& values, const Wording& wording) {
  const std::size_t count = values.series.size();
  if (count == 0) return;
  const std::size_t across = columns_for(count, box);
  // A small panel shows the first ones, but shows them readably.
  const auto most = static_cast<std::size_t>(box.height / (9 * canvas.sizes().foot));
  const std::size_t down = std::min((count + across - 1) / across, std::max<std::size_t>(most, 1));
  std::size_t next = 0;
  for (const Box& row : rows(box, down, 22))
    for (const Box& cell : columns(row, across, 44)) {
      if (next == count) return;
      const TrendSeries& series = values.series[next++];
      canvas.grouped(series.label,
                     [&](Canvas& group) { paint_series(group, cell, series, wording); });
    }
}

Telling telling_of(const TrendPicture& values, const Wording& wording) {
  std::size_t apart = 0, all = 0;
  std::string lines;
  for (const TrendSeries& series : values.series) {
    lines += isolated(series.label) + ":";
    for (const TrendPoint& game : series.games) {
      if (game.snaps <= 0) continue;
      ++all;
      if (stands_apart(game, series)) ++apart;
      lines += " " + isolated(game.game) + " " + percent_text(game.rate.value) + " (" +
               range_text(game.rate, Unit::share, wording) + ").";
    }
    lines += "\n";
  }
  // A 90% interval misses the true level one time in ten by chance alone.
  const double chance = 0.1 * static_cast<double>(all);
  const Wording::Values counts = {{"player", isolated(values.player)},
                                  {"apart", std::to_string(apart)},
                                  {"all", std::to_string(all)},
                                  {"chance", number_text(chance, 0)}};
  const bool more = static_cast<double>(apart) > chance + 2 * std::sqrt(0.9 * chance);
  return {wording("trend_kicker"),
          wording(all == 0 ? "trend_none"
                  : more   ? "trend_moves"
                           : "trend_steady",
                  counts),
          {wording("trend_deck", counts)},
          wording("trend_note"),
          lines};
}

}  // namespace

Panel trend_panel(const TrendPicture& values, const Wording& wording) {
  return {telling_of(values, wording), [values, wording](Canvas& canvas, const Box& box) {
            paint(canvas, box, values, wording);
          }};
}

}  // namespace callfit
