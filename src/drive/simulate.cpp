// The Monte Carlo engine: drives drawn from the compiled table, in units of work that depend on
// how many are wanted alone. A unit draws the words that (seed, drive_outcome, its number) stands
// for, and all tallies are integers, so neither the number of threads nor the order of work can
// change a bit of the result.
#include <callfit/drive/drive.hpp>
#include <drive/flight.hpp>
#include <drive/sampler.hpp>
#include <drive/tally.hpp>
#include <drive/words.hpp>

#include <algorithm>
#include <array>
#include <mutex>
#include <optional>
#include <vector>

namespace callfit {
namespace drive {
namespace {

/// Where drives start: one state, or shares by yards to goal.
struct Starts {
  std::optional<DriveState> state;
  std::vector<double> share;
};

// Large units use the cache best; small ones keep all threads busy. Results do not depend on it.
std::uint64_t drives_per_unit(std::uint64_t drives) {
  constexpr std::uint64_t smallest = 4'096;
  constexpr std::uint64_t largest = 65'536;
  constexpr std::uint64_t units = 64;
  return std::clamp(drives / units, smallest, largest);
}

/// Drives from their starts to their ends.
class Unit {
 public:
  Unit(const Sampler& sampler, const Starts& starts, std::uint64_t seed)
      : sampler_(sampler), starts_(make_starts(*sampler.plan, starts.share)), seed_(seed) {
    for (int y = 1; y < field_length; ++y)
      start_at_[static_cast<std::size_t>(y)] = started_at(first_down_at(y));
    if (starts.state) start_at_[0] = started_at(*starts.state);
  }

  /// So many drives of unit number `unit`. They fly class by class, so that one class's tables at a
  /// time fill the cache.
  Tally play(std::uint64_t unit, std::uint64_t drives) const {
    Tally tally;
    const auto by_class = draw_starts(unit, drives);
    for (std::size_t k = 0; k < by_class.size(); ++k)
      Flight(sampler_, k, Words(seed_, unit, Use::steps, k), tally).play(start_at_, by_class[k]);
    return tally;
  }

 private:
  /// Yards to goal, by class.
  std::vector<std::vector<std::uint8_t>> draw_starts(std::uint64_t unit,
                                                     std::uint64_t drives) const {
    std::vector<std::vector<std::uint8_t>> by_class(sampler_.classes.size());
    Words words(seed_, unit, Use::starts);
    for (std::uint64_t first = 0; first < drives; first += block_words) {
      const Block block = words.next();
      const std::uint64_t count = std::min<std::uint64_t>(block_words, drives - first);
      for (std::uint64_t i = 0; i < count; ++i) {
        const int drawn = pick(starts_, block[i]);
        by_class[static_cast<std::size_t>(first_part(drawn))].push_back(
            static_cast<std::uint8_t>(second_part(drawn)));
      }
    }
    return by_class;
  }

  const Sampler& sampler_;
  AliasTable starts_;
  std::uint64_t seed_;
  std::array<DriveNow, field_length> start_at_;  ///< by yards to goal; 0: the one state
};

Tally play_all(const DriveModel& model, const Starts& starts, const SampleOptions& options,
               const Progress& progress) {
  const Sampler sampler = make_sampler(model.table());
  const Unit unit_of_drives(sampler, starts, options.seed);
  const std::uint64_t size = drives_per_unit(options.drives);
  const std::uint64_t units = (options.drives + size - 1) / size;
  Tally total;
  std::mutex mutex;
  for_each_unit(
      static_cast<std::size_t>(units), options.threads,
      [&](std::size_t unit) {
        const std::uint64_t first = unit * size;
        const std::uint64_t last = std::min(options.drives, first + size);
        const Tally tally = unit_of_drives.play(unit, last - first);
        const std::lock_guard lock(mutex);
        total.add(tally);
      },
      progress);
  return total;
}

SampledValues values_of(const Tally& tally, const DriveModel& model) {
  return to_values(tally, model.table().plan->points, model.table().plan->net);
}

}  // namespace

Tally tally_over(const DriveModel& model, const std::vector<double>& start_share,
                 const SampleOptions& options) {
  return play_all(model, {std::nullopt, start_share}, options, {});
}

}  // namespace drive

SampledValues simulate(const DriveModel& model, const DriveState& start,
                       const SampleOptions& options, const Progress& progress) {
  return drive::values_of(drive::play_all(model, {start, {}}, options, progress), model);
}

SampledValues simulate_over(const DriveModel& model, const std::vector<double>& start_share,
                            const SampleOptions& options, const Progress& progress) {
  return drive::values_of(drive::play_all(model, {std::nullopt, start_share}, options, progress),
                          model);
}

}  // namespace callfit
