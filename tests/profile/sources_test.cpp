// Where snaps come from and against whom: moves, opponents and season totals as evidence.
#include "../support/shipped.hpp"

#include <callfit/files/files.hpp>
#include <callfit/population/posterior.hpp>
#include <callfit/profile/profile.hpp>
#include <callfit/stats/logit.hpp>
#include <profile/box.hpp>
#include <profile/joint.hpp>
#include <profile/tape_sources.hpp>

#include <boost/math/distributions/normal.hpp>
#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <string>
#include <vector>

using namespace callfit;
using callfit::testing::professional;

namespace {

const Population& population() { return *professional().population; }

Snap throw_of(const std::string& family, bool caught, const std::string& game) {
  Snap snap;
  snap.game = game;
  snap.level = "pro";
  snap.family = family;
  snap.result = caught ? Result::complete : Result::incomplete;
  snap.yards = caught ? 8 : 0;
  return snap;
}

Chart season_throws(int made, int of, const std::string& season, const std::string& team = "",
                    int games = 20) {
  Chart chart{"film/chart.csv", {}};
  for (int i = 0; i < of; ++i) {
    Snap snap = throw_of("quick_outside", i < made, season + std::to_string(i % games));
    snap.season = season;
    snap.team = team;
    chart.snaps.push_back(snap);
  }
  return chart;
}

Profile profile_around(const std::vector<Chart>& charts, const Around& around) {
  Weighting weighting = weighting_of(professional());
  weighting.around = around;
  return build_profile("test", charts, professional(), weighting);
}

const Marginal& joint_completion(const Profile& profile) {
  return profile.joint->marginals[*population().find_quantity("quick_outside.completion")];
}

Around with(std::vector<Move> moves) {
  Around around;
  around.moves = std::move(moves);
  return around;
}

std::string told(const std::vector<MoveFault>& faults) {
  std::string all;
  for (const MoveFault& fault : faults)
    all += std::to_string(fault.move) + ": " + fault.what + "; " + fault.mend + '\n';
  return all;
}

BoxCounts counts(double completions, double attempts) {
  BoxCounts out;
  out[0] = BoxCount{completions, attempts};
  return out;
}

}  // namespace

// Regression of one normal on another (any textbook): with u here, u' there, own the family's own,
// and very many throws seen there, what is left of u + own is
// var - cov^2 / var', cov = r spread^2 + own^2.
TEST_CASE("what many snaps of another place leave open is what a regression leaves", "[plain]") {
  const std::size_t q = *population().find_quantity("quick_outside.completion");
  const Quantity& quantity = population().quantities[q];
  const Trait& trait = population().traits[quantity.trait];
  constexpr int games = 50;
  const std::vector<Chart> charts{season_throws(36000, 50000, "2024", "", games)};
  double before = 0;
  for (const PlaceChange change :
       {PlaceChange::same_caller, PlaceChange::new_caller, PlaceChange::new_team}) {
    const double r = trait.carries_over[static_cast<std::size_t>(change)];
    const double man = trait.spread * trait.spread;
    const double own = quantity.own_spread * quantity.own_spread;
    const double noise =
        (trait.opponent_spread * trait.opponent_spread + trait.game_spread * trait.game_spread) /
        games;
    const double shared = r * man + own;
    const double left = man + own - shared * shared / (man + own + noise);
    // Completions alone: yards and interceptions would tell of him too.
    Evidence evidence = profile_around(charts, with({{"2024", "", "", change}})).evidence;
    std::erase_if(evidence.tallies,
                  [q](const QuantityCounts& tally) { return tally.quantity != q; });
    const double sd = posterior_of(population(), evidence).marginals[q].sd;
    CHECK(sd == Approx(std::sqrt(left)).epsilon(0.02));
    CHECK(sd > before);
    before = sd;
  }
}

TEST_CASE("snaps that no move fits are of the place asked about") {
  const std::vector<Chart> charts{season_throws(60, 80, "2024"), season_throws(60, 80, "2025")};
  const Profile moved = profile_around(charts, with({{"2024", "", "", PlaceChange::new_team}}));
  REQUIRE(moved.evidence.sources.size() == 1);
  CHECK(moved.evidence.sources[0].name == "season 2024");
  for (const QuantityCounts& tally : moved.evidence.tallies) {
    const bool first = tally.game.value() < 20;
    CHECK(tally.source.has_value() == first);
  }
  CHECK(joint_completion(moved).sd > joint_completion(profile_around(charts, {})).sd);
  const Profile by_file =
      profile_around(charts, with({{"", "", "chart.csv", PlaceChange::new_caller}}));
  CHECK(by_file.evidence.tallies.front().source == 0);
}

TEST_CASE("seasons of one team and change are one place, others are each their own") {
  const std::vector<Chart> charts{season_throws(60, 80, "2023", "North"),
                                  season_throws(60, 80, "2024", "North"),
                                  season_throws(60, 80, "2022", "South")};
  const Profile profile =
      profile_around(charts, with({{"2023", "North", "", PlaceChange::new_team},
                                   {"2024", "North", "", PlaceChange::new_team},
                                   {"2022", "South", "", PlaceChange::new_team}}));
  CHECK(profile.evidence.sources.size() == 2);
}

TEST_CASE("a move that does not go with the charts is named") {
  Chart college = season_throws(10, 20, "2022", "South");
  for (Snap& snap : college.snaps) snap.level = "college";
  const std::vector<Chart> charts{season_throws(60, 80, "2024", "North"), college};
  const auto faults = [&](const std::vector<Move>& moves) {
    return told(faults_of(moves, charts, professional()));
  };
  CHECK(faults({{"2024", "", "", PlaceChange::new_team}, {"2022", "", "", PlaceChange::new_level}})
            .empty());
  CHECK(faults({{"2021", "North", "", PlaceChange::new_team}}) ==
        "0: no snap is of season 2021, team North; the charts have season 2022 or 2024 and team "
        "North or South\n");
  CHECK(faults({{"2024", "", "", PlaceChange::new_team},
                {"", "North", "", PlaceChange::new_caller}}) ==
        "1: earlier moves have all snaps of team North; name each place once\n");
  CHECK(faults({{"2024", "", "", PlaceChange::new_level}}) ==
        "0: snaps of season 2024 are of level pro already; give same_caller, new_caller or "
        "new_team\n");
  CHECK(faults({{"2022", "", "", PlaceChange::new_team}}) ==
        "0: snaps of season 2022 are of another level than pro; give new_level, which takes in "
        "team and caller\n");
  CHECK(told(faults_of({{"2024", "", "", PlaceChange::new_team}}, {season_throws(1, 2, "")},
                       professional())) ==
        "0: no snap is of season 2024; the charts have no season and no team\n");
}

// Sacks hang on one trait, so that what a defence allowed is one unknown effect and one average of
// its opponents: quadrature over both.
TEST_CASE("what a defence allowed agrees with quadrature") {
  OpponentRecord record{"Quillhaven", "", {}, 11, {}, 0};
  record.allowed[static_cast<std::size_t>(BoxRate::sack)] = BoxCount{45, 400};
  const Opponent opponent = opponent_of(record, professional(), {});
  const std::size_t t = *population().find_trait("sack");
  const Trait& trait = population().traits[t];
  const MixtureCounts mixture =
      box_mixture(BoxRate::sack, *record.allowed[static_cast<std::size_t>(BoxRate::sack)], false,
                  professional(), {});
  const double effect = trait.opponent_spread * trait.opponent_spread;
  const double noise =
      (trait.spread * trait.spread + trait.game_spread * trait.game_spread) / record.games;
  double total = 0, first = 0, second = 0;
  const double spread = std::sqrt(effect + noise);
  for (int i = -4000; i <= 4000; ++i) {
    const double y = spread * i / 500;
    double chance = 0;
    for (const MixturePart& part : mixture.parts)
      chance += part.share *
                logistic(population().quantities[part.quantity].thresholds[0] + part.shift + y);
    const double weight = std::exp(45 * std::log(chance / .1) + 355 * std::log((1 - chance) / .9) -
                                   y * y / (2 * spread * spread));
    total += weight;
    first += weight * y;
    second += weight * y * y;
  }
  const double mean = first / total;
  const double share = effect / (effect + noise);
  const double variance =
      share * share * (second / total - mean * mean) + effect * noise / (effect + noise);
  REQUIRE(opponent.effects[t]);
  CHECK(opponent.effects[t]->mean == Approx(share * mean).margin(0.02 * std::sqrt(variance)));
  CHECK(opponent.effects[t]->spread == Approx(std::sqrt(variance)).epsilon(0.02));
  // More sacks than usual, so that what goes with them is lower.
  CHECK(opponent.effects[*population().find_trait("completion_quick")]->mean < 0);
}

TEST_CASE("a defence's place is a normal score of what its effects share") {
  const boost::math::normal normal;
  const auto effects = [](double better_than, double give_or_take) {
    return opponent_of({"Q", "", {}, 0, better_than, give_or_take}, professional(), {}).effects;
  };
  const std::size_t t = *population().find_trait("completion_quick");
  const Trait& trait = population().traits[t];
  CHECK(effects(.5, .15)[t]->mean == Approx(0).margin(1e-12));
  const auto good = effects(.9, .05);
  CHECK(good[t]->mean ==
        Approx(-trait.opponent_spread * trait.opponent_loading * quantile(normal, .9)));
  CHECK(good[t]->spread < trait.opponent_spread);
  // As good as nothing is known where the place is as open as a uniform one, or more.
  CHECK(effects(.5, .5)[t]->spread == Approx(trait.opponent_spread));
}

TEST_CASE("weak opponents who are known take off what they gave") {
  Chart chart = season_throws(75, 100, "2025");
  for (Snap& snap : chart.snaps) snap.opponent = "Quillhaven";
  Around around;
  around.opponents = {{"Quillhaven", "pro", {}, 0, .05, .05}};
  const Profile known = profile_around({chart}, around);
  const Profile unknown = profile_around({chart}, {});
  CHECK(joint_completion(known).mean < joint_completion(unknown).mean);
  CHECK(known.evidence.opponents[0].name == "Quillhaven");
  around.opponents[0].level = "college";
  CHECK(profile_around({chart}, around).evidence.opponents[0].effects.empty());
}

TEST_CASE("opponents to come are the mean of what each does") {
  const OpponentRecord weak{"Farrow", "", {}, 0, .05, .05}, strong{"Tarn", "pro", {}, 0, .8, .1};
  const auto one = opponent_of(weak, professional(), {}).effects;
  const auto other = opponent_of(strong, professional(), {}).effects;
  const auto both = coming_of({weak, strong}, professional(), {});
  REQUIRE(both.size() == population().traits.size());
  for (std::size_t t = 0; t < both.size(); ++t) {
    CHECK(both[t].mean == Approx((one[t]->mean + other[t]->mean) / 2));
    CHECK(both[t].spread == Approx(std::hypot(one[t]->spread, other[t]->spread) / 2));
  }
  CHECK(coming_of({}, professional(), {}).empty());
  Around around;
  around.coming = {weak};
  const Chart chart = season_throws(65, 100, "2025");
  const Profile usual = profile_around({chart}, {});
  const Profile coming = profile_around({chart}, around);
  const std::size_t t = *population().find_trait("completion_quick");
  CHECK(joint_completion(coming).mean == Approx(joint_completion(usual).mean + one[t]->mean));
  CHECK(joint_completion(coming).sd > joint_completion(usual).sd);
  const auto place = static_cast<std::size_t>(professional().find_family("quick_outside") -
                                              professional().families.data());
  const auto mean = [&](const Profile& profile) {
    return profile.families[place].rates[static_cast<std::size_t>(Rate::completion)]->mean;
  };
  CHECK(mean(coming) > mean(usual));
}

TEST_CASE("the rest of a season is its totals less what was charted") {
  Around around;
  around.seasons = {{"2025", "", "pro", 16, counts(330, 500)}};
  around.seasons[0].totals[static_cast<std::size_t>(BoxRate::sack)] = BoxCount{30, 530};
  Chart chart = season_throws(60, 90, "2025", "", 3);
  chart.snaps.push_back(throw_of("boot", false, "20250"));
  chart.snaps.back().season = "2025";
  chart.snaps.back().result = Result::sack;
  const Profile profile = profile_around({chart, season_throws(40, 50, "2024")}, around);
  REQUIRE(profile.evidence.mixtures.size() == 2);
  CHECK(profile.evidence.mixtures[0].made == 270);
  CHECK(profile.evidence.mixtures[0].of == 410);
  CHECK(profile.evidence.mixtures[0].games == 13);
  CHECK(profile.evidence.mixtures[1].made == 29);
  CHECK(profile.evidence.mixtures[1].of == 439);
  double shares = 0;
  for (const MixturePart& part : profile.evidence.mixtures[0].parts) shares += part.share;
  CHECK(shares == Approx(1));
  CHECK(profile.departures.empty());
  CHECK(joint_completion(profile).sd <
        joint_completion(profile_around({chart, season_throws(40, 50, "2024")}, {})).sd);
}

TEST_CASE("charted games that chance does not explain are told, others are not") {
  Around around;
  around.seasons = {{"2025", "", "pro", 16, counts(300, 500)}};
  const auto departures = [&](int made) {
    return profile_around({season_throws(made, 100, "2025", "", 4)}, around).departures;
  };
  CHECK(departures(64).empty());
  const auto best = departures(90);
  REQUIRE(best.size() == 1);
  CHECK(best[0].rate == BoxRate::completion);
  CHECK(best[0].charted.made == 90);
  CHECK(best[0].rest.made == 210);
  // Below the plain comparison of two shares, since games and opponents are in the error.
  const double p = .6;
  const double plain = (.9 - .525) / std::sqrt(p * (1 - p) * (1 / 100.0 + 1 / 400.0));
  CHECK(best[0].errors < plain);
  CHECK(best[0].errors > plain / 2);
  CHECK(departures(30)[0].errors < 0);
}

TEST_CASE("totals below the charted counts are named") {
  const std::vector<Chart> charts{season_throws(60, 90, "2025")};
  const auto faults = [&](double completions, double attempts) {
    std::string all;
    for (const SeasonFault& fault :
         faults_of({{"2025", "", "pro", 0, counts(completions, attempts)}}, charts))
      all += fault.key + ": " + fault.what + '\n';
    return all;
  };
  CHECK(faults(60, 90).empty());
  CHECK(faults(59, 90) == "completions: 59 in all, 60 charted\n");
  CHECK(faults(60, 89) == "attempts: 60 of 89 in all, 60 of 90 charted\n");
  const auto nameless =
      faults_of({{"2025", "", "pro", 0, counts(60, 90)}}, {season_throws(6, 9, "")});
  REQUIRE(nameless.size() == 1);
  CHECK(nameless[0].what == "9 charted snaps of pro have no season");
}

TEST_CASE("another joint posterior leaves what was turned by hand") {
  Profile profile = profile_around({season_throws(60, 80, "2025")}, {});
  const auto family = static_cast<std::size_t>(professional().find_family("quick_outside") -
                                               professional().families.data());
  auto& rate = *profile.families[family].rates[static_cast<std::size_t>(Rate::completion)];
  rate.mean = 0.9;
  const Profile other =
      with_joint(profile, professional(), posterior_of(with_assumed_spreads(population()), {}));
  CHECK(other.families[family].rates[static_cast<std::size_t>(Rate::completion)]->mean == 0.9);
  CHECK(other.families[family].rates[static_cast<std::size_t>(Rate::sack)]->mean !=
        profile.families[family].rates[static_cast<std::size_t>(Rate::sack)]->mean);
}
