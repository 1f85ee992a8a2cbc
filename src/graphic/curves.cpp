#include <callfit/graphic/curves.hpp>

#include "graphic/curve_chart.hpp"

#include <algorithm>
#include <string>

namespace callfit {
namespace {

std::string yard_line(double yards_to_goal) {
  return number_text(std::min(yards_to_goal, 100 - yards_to_goal), 0);
}

CurveChart chart_of(const PointsByYard& values, const Wording& wording) {
  CurveChart chart;
  chart.curves = values.curves;
  chart.x = {100, 0};
  for (int yards = 10; yards <= 90; yards += 10) chart.x_ticks.push_back(yards);
  chart.x_text = yard_line;
  chart.y_text = [](double points) { return signed_text(points, 0); };
  chart.x_note = wording("yard_axis");
  chart.y_note = wording(values.net ? "yard_net" : "yard_own");
  chart.grass = true;
  return chart;
}

const CurvePoint* point_at(const Curve& curve, double x) {
  const auto nearer = [x](const CurvePoint& a, const CurvePoint& b) {
    return std::abs(a.x - x) < std::abs(b.x - x);
  };
  const auto at = std::min_element(curve.points.begin(), curve.points.end(), nearer);
  return at == curve.points.end() ? nullptr : &*at;
}

// How many of the yard lines tell the two curves apart: their bands do not touch there.
struct Apart {
  int first_above = 0, second_above = 0, lines = 0;
};

Apart apart(const Curve& first, const Curve& second) {
  Apart count;
  for (const CurvePoint& a : first.points) {
    const CurvePoint* b = point_at(second, a.x);
    ++count.lines;
    if (a.y.low > b->y.high) ++count.first_above;
    if (a.y.high < b->y.low) ++count.second_above;
  }
  return count;
}

std::string yard_headline(const PointsByYard& values, const Wording& wording) {
  if (values.curves.size() < 2) {
    const Curve& curve = values.curves.front();
    const CurvePoint* own = point_at(curve, 75);
    return wording("yard_one", {{"player", isolated(curve.label)},
                                {"points", signed_text(own->y.value, 1)},
                                {"low", signed_text(own->y.low, 1)},
                                {"high", signed_text(own->y.high, 1)}});
  }
  const Apart count = apart(values.curves[0], values.curves[1]);
  const bool first = count.first_above >= count.second_above;
  const int most = std::max(count.first_above, count.second_above);
  const char* key = 2 * most > count.lines ? "yard_apart" : most > 0 ? "yard_partly" : "yard_close";
  return wording(key, {{"better", isolated(values.curves[first ? 0 : 1].label)},
                       {"other", isolated(values.curves[first ? 1 : 0].label)}});
}

std::string yard_lines(const PointsByYard& values, const Wording& wording) {
  std::string text;
  for (const Curve& curve : values.curves)
    for (const double yards : {90.0, 75.0, 50.0, 25.0, 10.0})
      if (const CurvePoint* point = point_at(curve, yards))
        text += isolated(curve.label) + ", " + number_text(point->x, 0) + ": " +
                signed_text(point->y.value, 2) + " (" +
                range_text(point->y, Unit::points, wording) + ").\n";
  return text;
}

std::string quantity_text(const SweepCurve& values, double x) {
  return values.quantity_is_share ? percent_text(x) : number_text(x, 1);
}

std::string answer_text(const SweepCurve& values, double y) {
  return values.answer_is_share ? percent_text(y) : number_text(y, 2);
}

CurveChart chart_of(const SweepCurve& values, const Wording& wording) {
  CurveChart chart;
  chart.curves = {values.curve};
  chart.x = {values.curve.points.front().x, values.curve.points.back().x};
  chart.x_ticks = round_ticks(chart.x.low, chart.x.high, 6);
  chart.x_text = [values](double x) { return quantity_text(values, x); };
  chart.y_text = [values](double y) { return answer_text(values, y); };
  chart.x_note = values.quantity;
  chart.y_note = values.answer;
  chart.names = false;
  if (values.reach) chart.levels.push_back({*values.reach, isolated(values.reach_label)});
  if (values.now) {
    const double at = *values.now;
    chart.now = values.now_range.value_or(Reading{at, at, at});
    chart.now_label = wording("sweep_now", {{"value", quantity_text(values, at)}});
  }
  return chart;
}

std::string sweep_headline(const SweepCurve& values, const Wording& wording) {
  const std::string player = isolated(values.player), goal = isolated(values.reach_label);
  if (!values.reach)
    return wording("sweep_plain",
                   {{"player", player}, {"quantity", values.quantity}, {"answer", values.answer}});
  const auto at = crossing(values.curve, &Reading::value, *values.reach);
  if (!at)
    return wording("sweep_never",
                   {{"player", player}, {"quantity", values.quantity}, {"goal", goal}});
  return wording("sweep_reach", {{"player", player},
                                 {"quantity", values.quantity},
                                 {"goal", goal},
                                 {"value", quantity_text(values, *at)}});
}

std::vector<std::string> sweep_deck(const SweepCurve& values, const Wording& wording) {
  std::vector<std::string> deck;
  if (values.reach && crossing(values.curve, &Reading::value, *values.reach)) {
    auto early = crossing(values.curve, &Reading::high, *values.reach);
    auto late = crossing(values.curve, &Reading::low, *values.reach);
    if (early && late && *early > *late) std::swap(early, late);
    const auto& points = values.curve.points;
    const std::string before =
        wording("sweep_before", {{"value", quantity_text(values, points.front().x)}});
    const std::string after =
        wording("sweep_after", {{"value", quantity_text(values, points.back().x)}});
    deck.push_back(wording("sweep_range", {{"low", early ? quantity_text(values, *early) : before},
                                           {"high", late ? quantity_text(values, *late) : after}}));
  }
  if (values.now)
    deck.push_back(wording("sweep_today", {{"value", quantity_text(values, *values.now)}}));
  return deck;
}

}  // namespace

Panel points_by_yard_panel(const PointsByYard& values, const Wording& wording) {
  return {{wording("yard_kicker"),
           yard_headline(values, wording),
           {wording("yard_deck", {{"scheme", isolated(values.scheme)}})},
           wording("band_note"),
           yard_lines(values, wording)},
          [values, wording](Canvas& canvas, const Box& box) {
            paint_curve_chart(canvas, box, chart_of(values, wording));
          }};
}

Panel sweep_panel(const SweepCurve& values, const Wording& wording) {
  std::string lines;
  for (const CurvePoint& point : values.curve.points)
    lines += quantity_text(values, point.x) + ": " + answer_text(values, point.y.value) + " (" +
             answer_text(values, point.y.low) + ", " + answer_text(values, point.y.high) + ").\n";
  return {{wording("sweep_kicker"), sweep_headline(values, wording), sweep_deck(values, wording),
           wording("band_note"), lines},
          [values, wording](Canvas& canvas, const Box& box) {
            paint_curve_chart(canvas, box, chart_of(values, wording));
          }};
}

}  // namespace callfit
