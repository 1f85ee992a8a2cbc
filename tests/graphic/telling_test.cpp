#include "drawn.hpp"
#include "random_values.hpp"

#include <callfit/draw/svg.hpp>

#include <catch2/catch.hpp>

using namespace callfit;

namespace {

const Wording wording;

std::string headline_for(double low, double high) {
  FitPicture picture = samples::fit_picture();
  picture.against->per_drive = {(low + high) / 2, low, high};
  return fit_panel(picture, wording).telling.headline;
}

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("a headline claims no more than the interval allows") {
  CHECK(has(headline_for(-0.1, 0.4), "too close to call"));
  CHECK(has(headline_for(-0.001, 0.4), "too close to call"));
  CHECK(has(headline_for(0.01, 0.4), "worth more points"));
  CHECK(has(headline_for(-0.4, -0.01), "worth fewer points"));
  for (std::uint64_t index = 0; index < 200; ++index) {
    const FitPicture picture = random_fit(7, index);
    const std::string headline = fit_panel(picture, wording).telling.headline;
    if (!picture.against || picture.against->per_drive.clear_of(0)) continue;
    CHECK_FALSE(has(headline, "worth more"));
    CHECK_FALSE(has(headline, "worth fewer"));
  }
}

TEST_CASE("a toss-up is drawn as one: hollow, and in words") {
  const TextRuler ruler;
  const Dress dress = samples::dress(Frame::wide, Theme::light);
  FitPicture picture = samples::fit_picture();
  const auto drawn = [&] {
    return read_svg(to_svg(figure(fit_panel(picture, wording), dress, ruler)), ruler);
  };
  CHECK(drawn().says("Toss-up"));
  picture.against->per_drive = {0.3, 0.1, 0.5};
  CHECK_FALSE(drawn().says("Toss-up"));
  CHECK(drawn().says("+0.30"));
}

TEST_CASE("without another quarterback the headline speaks of the demands") {
  FitPicture picture = samples::fit_picture();
  picture.against.reset();
  const auto headline = [&] { return fit_panel(picture, wording).telling.headline; };
  CHECK(has(headline(), "asks more of"));
  CHECK(has(headline(), "Deep outside"));
  picture.families = {picture.families[2]};
  CHECK(has(headline(), "has all that"));
  picture.families[0].demands[0].asked = 0.74;
  CHECK(has(headline(), "No clear gap"));
  picture.families[0].snaps = 0;
  CHECK(has(headline(), "No snaps yet"));
}

TEST_CASE("a profile with no snaps still reads") {
  const TextRuler ruler;
  FitPicture picture = samples::fit_picture();
  for (FamilyStrip& family : picture.families) family.snaps = 0;
  Dress dress = samples::dress(Frame::tall, Theme::light);
  dress.tape = {{"New starter", {}}};
  const Drawn drawn = read_svg(to_svg(figure(fit_panel(picture, wording), dress, ruler)), ruler);
  CHECK(drawn.says("No snaps yet"));
  CHECK(drawn.says("no snaps charted"));
  CHECK(misplaced_texts(drawn).empty());
}

TEST_CASE("less is better turns the axis: fewer interceptions lie on the good side") {
  FitPicture picture = samples::fit_picture();
  picture.against.reset();
  picture.families = {
      {"Deep", 0.5, 90, {{"interception", Unit::share, {0.02, 0.01, 0.03}, 0.05, 0.01, false, 1}}}};
  CHECK(has(fit_panel(picture, wording).telling.headline, "has all that"));
}

TEST_CASE("other headlines know their limits") {
  LeverPicture levers = samples::levers();
  CHECK(has(lever_panel(levers, wording).telling.headline, "Too close to call"));
  levers.levers[0].gain = {3, 2.5, 3.5};
  CHECK(has(lever_panel(levers, wording).telling.headline, "Boot: completion"));
  for (Lever& lever : levers.levers) lever.gain = {0.2, -0.1, 0.5};
  CHECK(has(lever_panel(levers, wording).telling.headline, "No single change"));

  DriveResults results = samples::drive_results();
  CHECK(has(drive_results_panel(results, wording).telling.headline, "too close to call"));
  results.difference = {-0.5, -0.9, -0.1};
  CHECK(has(drive_results_panel(results, wording).telling.headline, "scores more"));

  SweepCurve sweep = samples::sweep();
  CHECK(has(sweep_panel(sweep, wording).telling.headline, "draws level"));
  sweep.reach = 9;
  CHECK(has(sweep_panel(sweep, wording).telling.headline, "No completion"));

  CHECK(has(points_by_yard_panel(samples::points_by_yard(), wording).telling.headline,
            "no yard line tells them apart"));
  CHECK(has(validation_panel(samples::validation(), wording).telling.headline, "5 of 6"));
}

TEST_CASE("a trend says whether the first answer held, and what has left it") {
  TrendPicture trend = samples::trend();
  const Telling left = trend_panel(trend, wording).telling;
  CHECK(has(left.headline, "did not hold"));
  CHECK(has(left.deck.front(), "1 of 6"));
  CHECK(has(left.deck.front(), "on time, boot"));
  std::erase_if(trend.series, [](const TrendSeries& series) { return !series.held(); });
  REQUIRE(trend.series.size() == 5);
  CHECK(has(trend_panel(trend, wording).telling.headline, "the first answer held"));
  for (TrendSeries& series : trend.series) series.steps.resize(1);
  CHECK(has(trend_panel(trend, wording).telling.headline, "no games"));
  CHECK(has(trend_panel({"A", {}}, wording).telling.headline, "no games"));
}

TEST_CASE("the footer names tape, snaps by level, what intervals mean, and the cautions") {
  const TextRuler ruler;
  const Dress dress = samples::dress(Frame::wide, Theme::light);
  for (const auto& [name, made] : samples::all_figures(dress, ruler)) {
    const Drawn drawn = read_svg(to_svg(made), ruler);
    CAPTURE(name);
    for (const char* part : {"invented league", "182 high school", "423 college", "90%", "medical",
                             "betting", "minors"})
      CHECK(drawn.says(part));
    CHECK(drawn.description.size() > 40);
  }
}

TEST_CASE("the description holds the numbers for those who cannot see them") {
  const Telling telling = fit_panel(samples::fit_picture(), wording).telling;
  for (const char* part : {"72", "58 to 84", "Deep outside", "28%", "20% to 36%", "asked 38%"})
    CHECK(has(telling.description, part));
}

TEST_CASE("phrases can be changed, within what they know") {
  Wording own;
  own.set("toss_up", "Münzwurf");
  CHECK(own("toss_up") == "Münzwurf");
  own.set("fit_close", "{other} gegen {player}: offen");
  CHECK(own("fit_close", {{"player", "A"}, {"other", "B"}}) == "B gegen A: offen");
  CHECK_THROWS_WITH(own.set("toss_ip", "x"),
                    "no phrase is called \"toss_ip\"; did you mean toss_up?");
  CHECK_THROWS_WITH(own.set("fit_close", "{team}"),
                    "\"fit_close\" has {team}; it may use: player other scheme");
  CHECK_THROWS_WITH(own.set("toss_up", "{player}"),
                    "\"toss_up\" takes no names in braces, but has {player}");
  CHECK_THROWS_AS(own("nothing"), std::out_of_range);
  // Every shipped phrase obeys its own rule.
  for (const Phrase& phrase : phrases())
    CHECK_NOTHROW(own.set(std::string(phrase.key), std::string(phrase.text)));
}
