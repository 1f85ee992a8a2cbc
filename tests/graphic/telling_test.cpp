#include "drawn.hpp"
#include "random_values.hpp"

#include <callfit/draw/svg.hpp>
#include <callfit/report/cautions.hpp>

#include "graphic/fit_rows.hpp"
#include "graphic/value_map.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace callfit;
using callfit::samples::wording;

namespace {

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

std::string headline(const Panel& panel) { return panel.telling.headline; }

DifferenceAnswer with_odds(double odds) {
  DifferenceAnswer difference = samples::difference();
  difference.ahead = {odds, 0.001, {}};
  return difference;
}

std::string against_headline(double odds) {
  return headline(fit_panel(samples::fit(), with_odds(odds), wording));
}

FitAnswer one_demand(double odds, std::optional<double> level_odds = {}) {
  FitAnswer fit = samples::fit();
  fit.families = {{"deep", "Deep outside", "call.all.deep", 0.5, 90, 0.1, 0.4, false}};
  fit.demands.erase(fit.demands.begin() + 1, fit.demands.end());
  fit.demands[0].family = 0;
  fit.demands[0].reaches = {odds, 0.001, level_odds};
  return fit;
}

// The fills of balls in the order drawn: shapes that are marks, closed, and no dots.
std::set<std::string> ball_fills(const Drawn& drawn) {
  std::set<std::string> fills;
  for (const DrawnShape& shape : drawn.shapes)
    if (shape.mark && shape.closed && shape.outline.size() > 15 && shape.fill)
      fills.insert(to_hex(*shape.fill));
  return fills;
}

}  // namespace

TEST_CASE("with another man the headline is his and the other's, as strong as the odds") {
  CHECK(against_headline(0.96) ==
        "New starter is clearly ahead of Last starter in Wide zone and boot: odds 19 in 20");
  CHECK(against_headline(0.91) ==
        "It leans to New starter in Wide zone and boot: odds 9 in 10 to be ahead of Last starter");
  CHECK(against_headline(0.19) ==
        "It leans to Last starter in Wide zone and boot: odds 4 in 5 to be ahead of New starter");
  // Where that is open, what is clear of a demand says more; where nothing is, it stays.
  const std::string clear =
      "Deep outside, completion: New starter is clearly short (odds 19 in 20)";
  CHECK(against_headline(0.68) == clear);
  const auto nothing_clear = [](double odds) {
    FitAnswer open = samples::fit();
    for (DemandAnswer& demand : open.demands) demand.reaches = {0.6, 0.001, {}};
    return headline(fit_panel(open, with_odds(odds), wording));
  };
  CHECK(nothing_clear(0.68) ==
        "Open between New starter and Last starter in Wide zone and boot: odds 2 in 3 for New "
        "starter");
  CHECK(nothing_clear(0.52) ==
        "Open between New starter and Last starter in Wide zone and boot: odds about even");
  for (const double odds : {0.96, 0.2})
    CHECK(against_headline(odds) ==
          headline(drive_results_panel(samples::drives(),
                                       {samples::against().drives, with_odds(odds)}, wording)));
}

TEST_CASE("alone, the headline is the strongest thing about the demands") {
  const auto alone = [](double odds, std::optional<double> tape = {}) {
    return headline(fit_panel(one_demand(odds, tape), std::nullopt, wording));
  };
  CHECK(alone(0.02) == "Deep outside, completion: New starter is clearly short (odds 19 in 20)");
  CHECK(alone(0.08) == "Deep outside, completion: New starter is probably short (odds 9 in 10)");
  CHECK(alone(0.85) == "Deep outside, completion: New starter is probably there (odds 4 in 5)");
  CHECK(alone(0.99) == "New starter clearly gives all that Wide zone and boot asks");
  CHECK(alone(0.6) ==
        "Open on all counts; Deep outside, completion: 3 in 5 that New starter gives it");
  CHECK(has(alone(0.08, 0.1), "as most of his level are"));
  FitAnswer unseen = one_demand(0.02);
  unseen.about.snaps = 0;
  CHECK(has(headline(fit_panel(unseen, std::nullopt, wording)), "No snaps yet"));
}

TEST_CASE("clear goes before leaning, then what costs more") {
  FitAnswer fit = samples::fit();
  const auto said = [&] { return headline(fit_panel(fit, std::nullopt, wording)); };
  CHECK(has(said(), "Deep outside, completion: New starter is clearly short"));
  for (DemandAnswer& demand : fit.demands)
    if (demand.family == 4) demand.reaches = {0.2, 0.001, {}};
  CHECK(has(said(), "Quick middle, completion: New starter is clearly there"));
  for (DemandAnswer& demand : fit.demands)
    if (demand.family == 2) demand.reaches = {0.5, 0.001, {}};
  CHECK(has(said(), "Deep outside, completion: New starter is probably short (odds 4 in 5)"));
}

TEST_CASE("families stand in the order of what they cost, each for its costliest demand") {
  const auto rows = rows_by_cost(samples::fit());
  REQUIRE(rows.size() == 6);
  CHECK(rows.front().family.label == "Deep outside");
  CHECK(rows.front().costliest().measure == Measure::completion);
  CHECK(rows.back().family.label == "Quick middle");
  for (std::size_t i = 1; i < rows.size(); ++i)
    CHECK(rows[i - 1].family.costs >= rows[i].family.costs);
  FamilyRow free = rows.back();
  for (DemandAnswer& demand : free.demands) demand.part = 0;
  CHECK(&free.costliest() == &free.demands.front());
  const auto deck = fit_panel(samples::fit(), std::nullopt, wording).telling.deck;
  CHECK(deck.front() == "Clearly short: Deep outside (completion).");
  CHECK(deck[1] == "Probably short: Intermediate from the pocket (completion).");
  CHECK(deck.back() == "Never charted: Zone read keep (success).");
}

TEST_CASE("neither words nor colours claim more than the odds") {
  const Style style = house_style(Theme::light);
  for (const double odds : {0.97, 0.8, 0.6, 0.5, 0.3, 0.1, 0.01}) {
    const FitAnswer fit = one_demand(odds);
    const Drawn drawn = drawn_of(fit_panel(fit, std::nullopt, wording));
    const auto fills = ball_fills(drawn);
    const Lean lean = fit.demands[0].reaches.lean();
    const std::string side = to_hex(style[odds > 0.5 ? Ink::first : Ink::second]);
    CAPTURE(odds, fills);
    // Solid and half filled balls hold the side's colour, a hollow one the ground's alone.
    CHECK(fills.count(side) == (lean == Lean::open ? 0U : 1U));
    CHECK(fills.count(to_hex(style[Ink::strip])) == (lean == Lean::clear ? 0U : 1U));
    CHECK(has(drawn.all_text(20), "learly") == (lean == Lean::clear));
    CHECK(has(drawn.all_text(20), "robably") == (lean == Lean::leans));
  }
}

TEST_CASE("a verdict near a threshold says that another seed may say otherwise") {
  DifferenceAnswer difference = with_odds(0.752);
  difference.ahead.error = 0.01;
  CHECK(has(fit_panel(samples::fit(), difference, wording).telling.deck.front(), "another seed"));
  difference.ahead.error = 0.001;
  CHECK_FALSE(
      has(fit_panel(samples::fit(), difference, wording).telling.deck.front(), "another seed"));
}

TEST_CASE("a profile with no snaps still reads") {
  const TextRuler ruler;
  FitAnswer fit = samples::fit();
  fit.about.snaps = 0;
  for (FamilyAnswer& family : fit.families) {
    family.snaps = 0;
    family.unseen = true;
  }
  Dress dress = samples::dress(Frame::tall, Theme::light);
  dress.tape = {{"New starter", "Wide zone and boot", "college", 0, {}}};
  const Drawn drawn =
      read_svg(to_svg(figure(fit_panel(fit, samples::difference(), wording), dress, ruler)), ruler);
  CHECK(drawn.says("No snaps yet"));
  CHECK(drawn.says("no snaps charted"));
  CHECK(misplaced_texts(drawn).empty());
}

TEST_CASE("the place is a sentence, not a grade") {
  const Drawn drawn = drawn_of(fit_panel(samples::fit(), std::nullopt, wording));
  CHECK(drawn.says("54 of 100 quarterbacks"));
  for (const DrawnText& text : drawn.texts)
    if (has(text.shape.text, "of 100")) CHECK(text.shape.font.size <= 26);
  const auto marks = std::count_if(drawn.shapes.begin(), drawn.shapes.end(), [](const auto& shape) {
    return !shape.closed && shape.stroke && shape.outline.size() == 2 &&
           shape.outline[0].x == shape.outline[1].x && shape.outline[1].y > 330 &&
           shape.outline[0].x > 1350;
  });
  CHECK(marks == 100);
}

TEST_CASE("levers, curves and maps that are not clear are called open") {
  LeversAnswer levers = samples::levers();
  CHECK(has(headline(levers_panel(levers, 15, wording)),
            "Boot, completion: 66% to 71% is worth +0.92 net points a game (+0.61 to +1.23)"));
  levers.levers.erase(levers.levers.begin(), levers.levers.begin() + 2);
  CHECK(has(headline(levers_panel(levers, 15, wording)), "Quick middle, yards after catch"));
  for (LeverAnswer& lever : levers.levers) lever.net_points_per_game = {0.2, -0.1, 0.5, 2000, 0};
  CHECK(has(headline(levers_panel(levers, 15, wording)), "Open whether any single change pays"));

  SweepAnswer sweep = samples::sweep();
  CHECK(has(headline(sweep_panel(sweep, wording)), "50% completion, deep outside: +3.41"));
  for (auto& row : sweep.cells) row[0].net_points_per_game_change = {0.2, -0.1, 0.5, 2000, 0};
  CHECK(has(headline(sweep_panel(sweep, wording)), "Nothing shown here clearly moves"));

  CHECK(has(headline(comparison_panel(samples::comparison(), wording)),
            "New starter is clearly ahead of Third in line in Wide zone and boot"));
  CHECK(has(headline(throws_panel(samples::fit().about, samples::throws(), 40, wording)),
            "Deep left: New starter is clearly worse than usual"));
  CHECK(has(headline(throws_panel(samples::fit().about, {}, 40, wording)), "open everywhere"));
  CHECK(has(headline(validation_panel(samples::validation(), wording)), "7 of 8"));
}

TEST_CASE("tints tell apart what the intervals tell apart, and nothing else") {
  const auto at = [](double centre, double half) {
    return Number{centre, centre - half, centre + half, 0, 0};
  };
  CHECK(steps_apart({at(1, 1), at(2, 1), at(1.5, 3)}) == std::vector<int>{0, 0, 0});
  CHECK(steps_apart({at(5, 1), at(0, 1), at(2.5, 1)}) == std::vector<int>{2, 0, 1});
  for (std::uint64_t index = 0; index < 20; ++index) {
    std::vector<Number> values;
    const FitAnswer fit = random_fit(11, 13 + 14 * index);
    for (const DemandAnswer& demand : fit.demands) values.push_back(demand.estimate);
    const auto steps = steps_apart(values);
    for (std::size_t i = 0; i < values.size(); ++i)
      for (std::size_t j = 0; j < values.size(); ++j)
        if (values[i].high < values[j].low) CHECK(steps[i] < steps[j]);
  }
}

TEST_CASE("of a scheme that asks nothing nobody is said to give it all") {
  FitAnswer fit = samples::fit();
  for (DemandAnswer& demand : fit.demands) demand.weight = 0;
  CHECK(has(headline(fit_panel(fit, std::nullopt, wording)), "asks nothing that counts"));
  fit.demands.clear();
  CHECK(has(headline(fit_panel(fit, std::nullopt, wording)), "asks nothing that counts"));
}

TEST_CASE("a trend says whether the first answer held, and what has left it") {
  TrendAnswer trend = samples::trend();
  const Telling left = trend_panel(trend, wording).telling;
  CHECK(has(left.headline, "did not hold"));
  CHECK(has(left.deck.front(), "1 of 6"));
  CHECK(has(left.deck.front(), "on time, Boot and rollout"));
  for (TrendStepAnswer& step : trend.steps) step.followed[1] = step.followed[0];
  trend.held = true;
  CHECK(has(trend_panel(trend, wording).telling.headline, "the first answer held"));
  trend.steps.resize(1);
  CHECK(has(trend_panel(trend, wording).telling.headline, "no games"));
  trend.steps.clear();
  CHECK(has(trend_panel(trend, wording).telling.headline, "no games"));
}

TEST_CASE("the footer names tape, snaps by level, what intervals mean, and the cautions") {
  const TextRuler ruler;
  Dress dress = samples::dress(Frame::wide, Theme::light);
  for (const Phrase& phrase : phrases()) dress.wording.set(std::string(phrase.key), ".");
  for (const auto& [name, made] : samples::all_figures(dress, ruler)) {
    const std::string text = read_svg(to_svg(made), ruler).all_text();
    CAPTURE(name);
    for (const char* part : {"medical", "betting", "minors"}) CHECK(has(text, part));
  }
  dress.wording = {};
  for (const auto& [name, made] : samples::all_figures(dress, ruler)) {
    const Drawn drawn = read_svg(to_svg(made), ruler);
    CAPTURE(name);
    for (const char* part : {"invented league", "182 high school", "423 college", "90%"})
      CHECK(drawn.says(part));
    CHECK(drawn.description.size() > 40);
  }
}

TEST_CASE("cautions are no phrase that a style could change") {
  Wording own;
  CHECK_THROWS_AS(own.set("cautions", ""), std::invalid_argument);
}

TEST_CASE("a sheet's footer says of which picture a legend is") {
  const TextRuler ruler;
  const Dress dress = samples::dress(Frame::wide, Theme::light);
  const Panel fit = fit_panel(samples::fit(), samples::difference(), wording);
  const Panel map = comparison_panel(samples::comparison(), wording);
  const auto text_of_sheet = [&](const std::vector<Panel>& panels) {
    return read_svg(to_svg(sheet(fit.telling, panels, dress, ruler)), ruler).all_text();
  };
  const std::string both = text_of_sheet({fit, map});
  CHECK(has(both, "New starter in Wide zone and boot: Each ball is"));
  CHECK(has(both, "Compared: quarterbacks and schemes: Intervals"));
  const std::string other = text_of_sheet({map});
  CHECK_FALSE(has(other, "Each ball"));
}

TEST_CASE("panels of one sheet do not repeat a headline") {
  const TextRuler ruler;
  const Dress dress = samples::dress(Frame::wide, Theme::light);
  const Panel fit = fit_panel(samples::fit(), samples::difference(), wording);
  const Panel results = drive_results_panel(samples::drives(), samples::against(), wording);
  Telling whole = fit.telling;
  whole.headline = "Both";
  const Drawn drawn = read_svg(to_svg(sheet(whole, {fit, results}, dress, ruler)), ruler);
  CHECK(std::count_if(drawn.texts.begin(), drawn.texts.end(), [](const DrawnText& text) {
          return has(text.shape.text, "It leans to");
        }) == 1);
  CHECK(drawn.says("How drives end"));
}

TEST_CASE("phrases can be changed, within what they know") {
  Wording own;
  own.set("throw_none", "kein Wurf");
  CHECK(own("throw_none") == "kein Wurf");
  own.set("asked", "{value} verlangt");
  CHECK(own("asked", {{"value", "3%"}}) == "3% verlangt");
  CHECK_THROWS_WITH(own.set("throw_nine", "x"),
                    "no phrase is called \"throw_nine\"; did you mean throw_none?");
  CHECK_THROWS_WITH(own.set("asked", "{team}"), "\"asked\" has {team}; it may use: value");
  CHECK_THROWS_WITH(own.set("throw_none", "{player}"),
                    "\"throw_none\" takes no names in braces, but has {player}");
  CHECK_THROWS_AS(own("nothing"), std::out_of_range);
  // Every shipped phrase obeys its own rule.
  for (const Phrase& phrase : phrases())
    CHECK_NOTHROW(own.set(std::string(phrase.key), std::string(phrase.text)));
}
