// A case: everything that one evening's questions are about, as plain values. It is what a command
// line, a saved file and a page agree on; docs/formats.md describes its file.
#pragma once

#include <callfit/base/random.hpp>
#include <callfit/chart/snap.hpp>
#include <callfit/drive/drive.hpp>
#include <callfit/profile/profile.hpp>
#include <callfit/scheme/scheme.hpp>
#include <callfit/setting/setting.hpp>

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace callfit {

/// Posterior draws of each quarterback, the one default.
inline constexpr std::size_t default_draws = 4096;
inline constexpr std::size_t fewest_draws = 500, most_draws = 100'000;

/// The charts behind a profile, for questions that weigh them anew, game by game or throw by throw.
struct Tape {
  std::vector<Chart> charts;
  std::vector<FamilyAlias> like;
};

/// One quarterback of a case. His place in the case, not his name, chooses his draws.
struct Quarterback {
  Profile profile;
  std::shared_ptr<const Tape> tape;  ///< nullptr where only the profile is known
  std::size_t scheme = 0;            ///< place of the scheme that he plays or played in
};

struct CaseOptions {
  std::uint64_t seed = default_seed;
  std::size_t draws = default_draws;
  FourthDownPolicy policy = FourthDownPolicy::table;
  bool end_of_half = false;
  double assumed = 1;  ///< what the population's assumed spreads are multiplied by
};

inline constexpr double least_assumed = 0.1, most_assumed = 10;

/// A change to one path: set to `amount`, multiplied by it, or set to `word`.
struct Change {
  enum class Way { set, scale, word };
  std::string path;
  Way way = Way::set;
  double amount = 0;
  std::string word;
};

/// Changes under a name.
struct Try {
  std::string name;
  std::vector<Change> changes;
};

/// Pairs of real men for which odds were given before a season, from the ahead one's side.
struct RecordBand {
  double low = 0, high = 0;  ///< of the odds
  double pairs = 0;
  double mean_odds = 0;       ///< of the pairs
  double came_true = 0;       ///< share in which he had more points per drive
  double standard_error = 0;  ///< of that
};

/// How often odds between real quarterbacks came true.
struct Record {
  std::string of;      ///< of whom: "professional quarterbacks, 2010-2018"
  std::string source;  ///< where the numbers come from
  std::vector<RecordBand> verdicts;
};

struct Case {
  std::string name;
  Setting setting;
  Scheme average_scheme;
  std::optional<NetValues> net;  ///< of the setting's average offence, where it is kept with it
  std::optional<Record> record;  ///< that odds between two men are told with
  std::vector<Scheme> schemes;   ///< at least one
  std::vector<Quarterback> quarterbacks;  ///< at least one
  CaseOptions options;
  std::vector<Try> tries;
  std::string tape_source;  ///< the user's words on where the tape comes from
  std::string style;        ///< JSON text of a callfit-style file, empty for the house's
};

}  // namespace callfit
