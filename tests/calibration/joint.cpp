#include "joint.hpp"

#include <callfit/base/parallel.hpp>
#include <callfit/stats/logit.hpp>
#include <profile/gain_parts.hpp>
#include <profile/joint.hpp>

#include <boost/random/normal_distribution.hpp>

#include <cmath>
#include <map>

namespace callfit::testing {
namespace {

/// Charted, in turn; screens and deep throws over the middle never are.
const std::vector<std::string> charted{"quick_outside", "handoff",      "quick_middle",
                                       "handoff",       "intermediate", "deep_outside"};

std::size_t place_of(const Setting& setting, const std::string& family) {
  return static_cast<std::size_t>(setting.find_family(family) - setting.families.data());
}

/// What a game adds to each trait, log-odds.
using Effects = std::vector<double>;

class SeasonMaker {
 public:
  SeasonMaker(const Player& player, const Setting& setting, const SeasonPlan& plan, Stream& stream)
      : player_(player),
        setting_(setting),
        population_(*setting.population),
        places_(joint_places(setting)),
        plan_(plan),
        stream_(stream) {}

  Chart chart(int games) {
    Chart chart{"drawn", {}};
    for (int game = 0; game < games; ++game) {
      const std::string& level = plan_.levels[static_cast<std::size_t>(game) % plan_.levels.size()];
      const std::string opponent = level + " " + std::to_string(game % plan_.opponents);
      effects_ = sum_of({of_level(level), of_opponent(opponent), of_game()});
      for (int i = 0; i < snaps_a_game; ++i) {
        Snap snap = play(charted[static_cast<std::size_t>(i) % charted.size()]);
        snap.game = std::to_string(game);
        snap.level = level;
        if (plan_.opponents_named) snap.opponent = opponent;
        chart.snaps.push_back(snap);
      }
    }
    return chart;
  }

 private:
  Effects none() const { return Effects(population_.traits.size(), 0.0); }

  static Effects sum_of(const std::vector<Effects>& parts) {
    Effects sum = parts.front();
    for (std::size_t p = 1; p < parts.size(); ++p)
      for (std::size_t t = 0; t < sum.size(); ++t) sum[t] += parts[p][t];
    return sum;
  }

  /// One draw a level.
  Effects of_level(const std::string& level) {
    const auto place = population_.find_level(level);
    if (!place) return none();
    const auto [found, fresh] = levels_.try_emplace(level, none());
    for (std::size_t t = 0; fresh && t < found->second.size(); ++t)
      found->second[t] = population_.levels[*place].shift[t] +
                         population_.levels[*place].spread[t] * normal_(stream_);
    return found->second;
  }

  Effects of_opponent(const std::string& opponent) {
    const auto [found, fresh] = opponents_.try_emplace(opponent, none());
    if (!fresh) return found->second;
    const double shared = normal_(stream_);
    for (std::size_t t = 0; t < found->second.size(); ++t) {
      const Trait& trait = population_.traits[t];
      const double loading = trait.opponent_loading;
      found->second[t] = trait.opponent_spread *
                         (loading * shared + std::sqrt(1 - loading * loading) * normal_(stream_));
    }
    return found->second;
  }

  Effects of_game() {
    Effects effects = none();
    for (std::size_t t = 0; t < effects.size(); ++t)
      effects[t] = population_.traits[t].game_spread * normal_(stream_);
    return effects;
  }

  double shift_of(std::size_t quantity) const {
    const Quantity& what = population_.quantities[quantity];
    return what.slope * effects_[what.trait];
  }

  using Quantity = callfit::Quantity;

  bool happens(double chance) { return stream_.uniform() < chance; }

  double rate(std::size_t family, Rate wanted) const {
    const auto r = static_cast<std::size_t>(wanted);
    return shifted(player_.families[family].rate[r], shift_of(*places_.rates[family][r]));
  }

  int gain(std::size_t family, GainPart part, const std::vector<double>& bins) {
    const auto quantity = places_.gains[family][static_cast<std::size_t>(part)];
    const std::vector<double> here = shifted(YardPmf{0, bins}, shift_of(*quantity)).p;
    const YardPmf pmf = gain_pmf(*population_of(setting_, family, part), here);
    double left = stream_.uniform();
    for (int yards = pmf.first; yards < pmf.last(); ++yards) {
      left -= pmf.at(yards);
      if (left < 0) return yards;
    }
    return pmf.last();
  }

  Snap play(const std::string& id) {
    Snap snap;
    snap.family = id;
    const std::size_t family = place_of(setting_, id);
    const PlayerFamily& own = player_.families[family];
    if (setting_.families[family].kind != FamilyKind::pass) {
      snap.result = Result::run;
      snap.yards = gain(family, GainPart::run, own.run_bins);
    } else {
      dropback(snap, family, own);
    }
    if (is_touch(snap.result) || snap.result == Result::sack)
      snap.fumble_lost = happens(rate(family, Rate::fumble));
    return snap;
  }

  void dropback(Snap& snap, std::size_t family, const PlayerFamily& own) {
    const double sack = rate(family, Rate::sack);
    const double u = stream_.uniform();
    if (u < sack) {
      snap.result = Result::sack;
      snap.yards = gain(family, GainPart::sack, player_.sack_bins);
    } else if (u < sack + rate(family, Rate::scramble)) {
      snap.result = Result::scramble;
      snap.yards = gain(family, GainPart::scramble, player_.scramble_bins);
    } else {
      const double v = stream_.uniform();
      const double intercepted = rate(family, Rate::interception);
      snap.result = v < intercepted                                    ? Result::intercepted
                    : v < intercepted + rate(family, Rate::completion) ? Result::complete
                                                                       : Result::incomplete;
      if (snap.result != Result::complete) return;
      snap.air_yards = static_cast<std::int16_t>(gain(family, GainPart::depth, own.depth_bins));
      snap.yards = *snap.air_yards + gain(family, GainPart::yac, own.yac_bins);
    }
  }

  const Player& player_;
  const Setting& setting_;
  const Population& population_;
  JointPlaces places_;
  const SeasonPlan& plan_;
  Stream& stream_;
  boost::random::normal_distribution<> normal_;
  std::map<std::string, Effects> levels_, opponents_;
  Effects effects_;
};

std::vector<Quantity> quantities_of(const Setting& setting) {
  std::vector<Quantity> out;
  const auto rate = [&](const std::string& family, Rate what, const std::string& note = "") {
    out.push_back(
        {std::string(word(what)) + ", " + family + note, place_of(setting, family), what, {}, {}});
  };
  const auto gain = [&](const std::string& family, GainPart part) {
    out.push_back(
        {std::string(word(part)) + " yards, " + family, place_of(setting, family), {}, {}, part});
  };
  for (const Rate what : {Rate::completion, Rate::interception, Rate::sack, Rate::scramble})
    rate("quick_outside", what);
  rate("deep_outside", Rate::completion);
  rate("screen", Rate::completion, ", not charted");
  rate("deep_middle", Rate::completion, ", not charted");
  rate("deep_middle", Rate::sack, ", not charted");
  gain("quick_outside", GainPart::depth);
  gain("quick_outside", GainPart::yac);
  gain("quick_outside", GainPart::scramble);
  gain("handoff", GainPart::run);
  return out;
}

}  // namespace

std::vector<Coverage> calibrate_joint(const SeasonPlan& plan, int games, std::size_t players,
                                      std::uint64_t seed, const Setting& truth,
                                      const Setting& believed) {
  const std::vector<Quantity> quantities = quantities_of(truth);
  std::vector<std::vector<Outcome>> outcomes(players);
  for_each_unit(players, 0, [&](std::size_t i) {
    const DrawKey key{seed, i};
    const Player player = PlayerDraws::of_population(truth, key, 1).player_at(0);
    Stream stream(seed, Purpose::chart_draw, i);
    const Chart chart = SeasonMaker(player, truth, plan, stream).chart(games);
    const Profile profile = build_profile("drawn", {chart}, believed, weighting_of(believed));
    outcomes[i] = outcomes_of(quantities, player, truth, profile, believed, key);
  });
  return coverage_of(quantities, outcomes);
}

}  // namespace callfit::testing
