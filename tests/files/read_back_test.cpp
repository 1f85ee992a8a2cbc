// What is written is read back: every kind of file that the program writes, with generated values.
// The check values are the written ones themselves.
#include "../ask/demo_case.hpp"
#include "../support/shipped.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/base/random.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/case.hpp>
#include <callfit/format/kept.hpp>
#include <callfit/format/profile.hpp>
#include <callfit/format/scheme.hpp>
#include <callfit/format/setting.hpp>
#include <callfit/profile/most_games.hpp>
#include <callfit/profile/population_fit.hpp>
#include <callfit/report/door.hpp>
#include <callfit/scheme/call_chart.hpp>
#include <report/population_json.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <string>
#include <vector>

using namespace callfit;
using callfit::testing::college;
using callfit::testing::root;

namespace {

class Dice {
 public:
  explicit Dice(std::uint64_t unit) : stream_(20261128, Purpose::chart_draw, unit) {}

  std::size_t below(std::size_t n) { return static_cast<std::size_t>(stream_() % n); }
  double share() { return static_cast<double>(below(1'000'001)) / 1e6; }
  template <class List>
  auto any(const List& list) {
    return list[below(std::size(list))];
  }
  /// 1 to `longest` characters, some of them of the kind that breaks formats.
  std::string text(std::size_t longest) {
    static const std::vector<std::string> letters{"a", "Z",  "7",  " ", "\"", "\\",   "/",
                                                  "é", "語", "\n", ",", "~",  "\x1b", "\u009b"};
    std::string out;
    for (std::size_t left = 1 + below(longest); left > 0; --left) out += any(letters);
    return out;
  }

 private:
  Stream stream_;
};

Chart demo_chart(const std::string& name) {
  Findings notices;
  return Files().chart(root + "profiles/demo/" + name, notices);
}

/// Snaps of the demo in any order and number, in games and against opponents of any name.
Chart any_chart(Dice& dice) {
  static const Chart demo = demo_chart("new-starter.csv");
  Chart chart{"generated.csv", {}};
  std::vector<std::string> names{"", "A"};
  for (std::size_t n = dice.below(20); n > 0; --n) names.push_back(dice.text(60));
  for (std::size_t n = 1 + dice.below(300); n > 0; --n) {
    Snap snap = dice.any(demo.snaps);
    snap.game = dice.any(names);
    snap.opponent = dice.any(names);
    chart.snaps.push_back(std::move(snap));
  }
  return chart;
}

/// Within what --level-weight takes.
Weighting any_weighting(Dice& dice) {
  Weighting weighting = weighting_of(college());
  for (Level& level : weighting.levels)
    level.weight = dice.any(std::array{0.0, 1e-300, dice.share(), 1.0});
  return weighting;
}

Profile any_profile(Dice& dice) {
  return build_profile(dice.text(200), {any_chart(dice)}, college(), any_weighting(dice));
}

}  // namespace

TEST_CASE("every profile that is written is read back") {
  Dice dice(1);
  for (int i = 0; i < 12; ++i) {
    const std::string text = profile_to_json(any_profile(dice), college());
    CHECK(profile_to_json(parse_profile(text, "p.json", college()), college()) == text);
  }
}

TEST_CASE("every scheme that is written is read back") {
  const Scheme base = Files().scheme(root + "schemes/quick-middle-option.json");
  const Chart calls = demo_chart("coordinator-calls.csv");
  Dice dice(2);
  for (int i = 0; i < 100; ++i) {
    Chart some = calls;
    some.snaps.resize(1 + dice.below(calls.snaps.size()));
    const double smoothing = dice.any(std::array{0.0, 5e-324, 1e-9, dice.share(), 20.0, 1e6});
    Scheme scheme = scheme_from_calls(base, {some}, smoothing);
    scheme.name = dice.text(80);
    const std::string text = scheme_to_json(scheme);
    CHECK(scheme_to_json(parse_scheme(text, "s.json", nothing_beside)) == text);
  }
}

TEST_CASE("every setting that is written is read back") {
  Dice dice(3);
  for (int i = 0; i < 4; ++i) {
    std::vector<std::vector<Chart>> men;
    for (std::size_t n = dice.below(5); n > 0; --n) men.push_back({any_chart(dice)});
    const PopulationFit fit = fit_population(men, college());
    const std::string text =
        fitted_setting(fit, college(), "fitted", "college.json").dump(2) + '\n';
    const Setting back = parse_setting(text, root + "settings/fitted.json", Files().beside());
    for (const RatePopulationFit& rate : fit.rates) {
      const auto r = static_cast<std::size_t>(rate.rate);
      const RatePopulation wanted = rate.better_than(*college().families[rate.family].rates[r]);
      CHECK(back.families[rate.family].rates[r]->mean == wanted.mean);
    }
  }
}

TEST_CASE("every answer that is kept is read back") {
  Dice dice(4);
  for (int i = 0; i < 200; ++i) {
    KeptAnswer kept{"2026-11-28", dice.text(200), dice.text(80), 1e7 * dice.share(), {}, {}};
    for (std::size_t n = dice.below(4); n > 0; --n)
      kept.games.push_back({dice.text(80), 1e7 * dice.share()});
    for (std::size_t n = dice.below(6); n > 0; --n) {
      std::array ends{dice.share(), dice.share(), dice.share()};
      std::sort(ends.begin(), ends.end());
      KeptVerdict said;
      said.family = dice.text(60);
      said.family_label = dice.text(80);
      said.label = dice.text(80);
      if (dice.below(2) == 0) said.cell = static_cast<Cell>(dice.below(cell_count));
      said.asked = dice.share();
      said.more_is_better = dice.below(2) == 0;
      said.estimate.low = ends[0];
      said.estimate.centre = ends[1];
      said.estimate.high = ends[2];
      said.odds = dice.share();
      kept.verdicts.push_back(said);
    }
    const std::string text = kept_to_json(kept);
    CHECK(kept_to_json(parse_kept(text, "k.json")) == text);
  }
}

TEST_CASE("every whole case that is written is read back") {
  Files disk;
  const std::string file = root + "profiles/demo/case.json";
  const std::string document = disk.read(file);
  Dice dice(5);
  for (int i = 0; i < 3; ++i) {
    Case about = testing::demo_case();
    for (Quarterback& quarterback : about.quarterbacks) quarterback.profile = any_profile(dice);
    about.name = dice.text(200);
    about.tape_source = dice.text(900);
    about.options.seed = dice.any(std::array<std::uint64_t, 3>{0, 7, 9007199254740991});
    const auto whole = [&](const Case& one, const std::string& text) {
      return whole_case(one, text, file, testing::shipped_texts(disk), disk.beside());
    };
    const std::string text = whole(about, document);
    Findings notices;
    const Case back =
        parse_case(text, "case.json", testing::shipped_texts(disk), nothing_beside, notices);
    CHECK(whole(back, text) == text);
  }
}

TEST_CASE("a tape of more games than are told apart is refused before it is worked out") {
  Chart chart = demo_chart("new-starter.csv");
  const Snap snap = chart.snaps.front();
  chart.snaps.assign(most_games + 1, snap);
  for (std::size_t i = 0; i < chart.snaps.size(); ++i)
    chart.snaps[i].game = "G" + std::to_string(i);
  CHECK_THROWS_WITH(build_profile("Many", {chart}, college(), weighting_of(college())),
                    "game: 1001 different ones of one quarterback; at most 1000 can be told apart");
}
