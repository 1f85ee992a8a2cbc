// Charts as evidence about the quantities of a setting's population.
#pragma once

#include <callfit/population/evidence.hpp>
#include <callfit/profile/profile.hpp>
#include <profile/box.hpp>
#include <profile/gain_posterior.hpp>
#include <profile/joint.hpp>
#include <profile/tape_sources.hpp>
#include <profile/weights.hpp>

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

namespace callfit {

/// What one snap brings to one of the evidence's tallies.
struct SnapCounts {
  std::size_t snap = 0;  ///< in the order in which they were added
  std::size_t tally = 0;
  std::vector<double> counts;  ///< by category
};

/// Collects the snaps of one quarterback. A snap counts whole whatever its level, whose shift and
/// spread are the population's; less only where the weighting gives its level less than the setting
/// does, or by its game's age.
class JointTape {
 public:
  /// Of a setting with a population. `by_snap`: it also tells what each snap brings.
  JointTape(const Setting& setting, const Weighting& weighting, bool by_snap = false);

  void add(const WeightedSnap& weighted);
  /// What share of the snap counts.
  double share_counted(const WeightedSnap& weighted) const;

  struct Told {
    Evidence evidence;
    std::vector<SeasonDeparture> departures;  ///< of charted games from their seasons' totals
    std::vector<SnapCounts> by_snap;          ///< where asked for
  };
  Told told() const;

 private:
  /// Under what circumstances a snap was played.
  struct Circumstances {
    std::optional<std::size_t> level, source, opponent;
    std::size_t game = 0;

    // Not every standard library compares optionals three ways.
    bool operator<(const Circumstances& other) const {
      return std::tie(level, source, opponent, game) <
             std::tie(other.level, other.source, other.opponent, other.game);
    }
  };
  struct Counts {
    std::vector<double> counts;
    double shift = 0;  ///< summed over the counts
  };
  template <class Range>
  struct Charted {
    std::vector<Range> ranges;
    std::vector<Circumstances> circumstances;
    std::vector<std::size_t> snaps;
  };
  using TallyKey = std::pair<std::size_t, Circumstances>;
  struct Tallies {
    std::map<TallyKey, Counts> of;
    /// What each snap brought, where asked for.
    std::vector<std::tuple<std::size_t, TallyKey, std::vector<double>>> brought;
  };

  Circumstances circumstances_of(const WeightedSnap& weighted);
  void count(Tallies& tallies, std::size_t snap, const TallyKey& key,
             const std::vector<double>& counts) const;
  void add_rates(const WeightedSnap& weighted, const Circumstances& where);
  void add_gain(const WeightedSnap& weighted, const Circumstances& where);
  void count_gains(std::size_t family, GainPart part, const Charted<GainRange>& charted,
                   Tallies& tallies) const;
  void count_catches(std::size_t family, Tallies& tallies) const;
  std::vector<Opponent> opponents() const;

  const Setting& setting_;
  const Weighting& weighting_;
  bool by_snap_;
  std::size_t added_ = 0;
  JointPlaces places_;
  TapeSources sources_;
  std::vector<BoxTally> seasons_;
  /// [family][rate][shell, the last for none]: log-odds of the shell's rate less the family's
  std::vector<std::array<std::array<double, shell_count + 1>, rate_count>> shell_shifts_;
  std::map<std::pair<std::string, std::string>, std::size_t> games_, opponents_;
  Tallies rates_;
  std::vector<Charted<CatchRange>> catches_;  // by family
  std::vector<Charted<GainRange>> runs_;      // by family
  Charted<GainRange> scrambles_, sacks_;
};

}  // namespace callfit
