// The Monte Carlo engine: drives drawn from the compiled table, in units that depend on how many
// are wanted alone. A unit draws the words that (seed, drive_outcome, its number) stands for, and
// all tallies are integers, so neither the number of threads nor the order of work can change a bit
// of the result.
#include <callfit/drive/drive.hpp>
#include <drive/flight.hpp>
#include <drive/sampler.hpp>
#include <drive/tally.hpp>
#include <drive/words.hpp>

#include <algorithm>
#include <array>
#include <mutex>
#include <optional>
#include <stdexcept>
#include <utility>
#include <vector>

namespace callfit {
namespace drive {
namespace {

const std::vector<double>& checked(const std::vector<double>& start_share) {
  const bool fine = start_share.size() == field_length &&
                    std::all_of(start_share.begin(), start_share.end(),
                                [](double share) { return share >= 0; }) &&
                    std::any_of(start_share.begin() + 1, start_share.end(),
                                [](double share) { return share > 0; });
  if (!fine)
    throw std::invalid_argument("starts of drives need 100 shares, none below 0, not all 0");
  return start_share;
}

/// Where drives start: one state, or shares by yards to goal.
struct Starts {
  std::optional<DriveState> state;
  std::vector<double> share;
};

/// How drives are split into units.
class Units {
 public:
  explicit Units(std::uint64_t drives)
      : drives_(drives), size_(std::max(smallest, parts(drives, most))) {}

  std::size_t count() const { return static_cast<std::size_t>(parts(drives_, size_)); }
  std::uint64_t drives_of(std::size_t unit) const {
    return std::min(size_, drives_ - unit * size_);
  }

 private:
  static std::uint64_t parts(std::uint64_t whole, std::uint64_t part) {
    return whole / part + (whole % part == 0 ? 0 : 1);
  }

  // So many that all threads stay busy, so few that memory does not grow with the drives.
  static constexpr std::uint64_t most = 64;
  static constexpr std::uint64_t smallest = 4'096;
  std::uint64_t drives_, size_;
};

/// How many drives start where, by class.
using StartCounts = std::vector<std::array<std::uint64_t, field_length>>;

class Simulation {
 public:
  Simulation(const DriveModel& model, const Starts& starts, const SampleOptions& options)
      : sampler_(make_sampler(model.table())),
        starts_(make_starts(*sampler_.plan, starts.share)),
        options_(options),
        units_(options.drives),
        counts_(units_.count()) {
    for (int y = 1; y < field_length; ++y)
      start_at_[static_cast<std::size_t>(y)] = started_at(first_down_at(y));
    if (starts.state) start_at_[0] = started_at(*starts.state);
  }

  /// All units of one class come before those of the next: one class's tables fill the cache.
  Tally run(const Progress& progress) {
    for_each_unit(units_.count(), options_.threads, [this](std::size_t unit) { start(unit); });
    Tally total;
    std::mutex mutex;
    for_each_unit(
        sampler_.classes.size() * units_.count(), options_.threads,
        [&](std::size_t i) {
          const Tally tally = fly(i % units_.count(), i / units_.count());
          const std::lock_guard lock(mutex);
          total.add(tally);
        },
        progress);
    return total;
  }

 private:
  void start(std::size_t unit) {
    StartCounts counts(sampler_.classes.size());
    Words words(options_.seed, unit, Use::starts);
    for (std::uint64_t left = units_.drives_of(unit); left > 0;) {
      const std::uint64_t count = std::min<std::uint64_t>(block_words, left);
      const Block block = words.next();
      for (std::size_t i = 0; i < count; ++i) {
        const int drawn = pick(starts_, block[i]);
        ++counts[static_cast<std::size_t>(first_part(drawn))]
                [static_cast<std::size_t>(second_part(drawn))];
      }
      left -= count;
    }
    counts_[unit] = std::move(counts);
  }

  Tally fly(std::size_t unit, std::size_t quality) const {
    Tally tally;
    Flight flight(sampler_, quality, Words(options_.seed, unit, Use::steps, quality), tally);
    flight.play(Waiting(start_at_, counts_[unit][quality]));
    return tally;
  }

  Sampler sampler_;
  AliasTable starts_;
  std::array<DriveNow, field_length> start_at_;  ///< by yards to goal; 0: the one state
  SampleOptions options_;
  Units units_;
  std::vector<StartCounts> counts_;  ///< by unit
};

Tally play_all(const DriveModel& model, const Starts& starts, const SampleOptions& options,
               const Progress& progress) {
  return Simulation(model, starts, options).run(progress);
}

SampledValues values_of(const Tally& tally, const DriveModel& model) {
  return to_values(tally, model.table().plan->points, model.table().plan->net);
}

}  // namespace

Tally tally_over(const DriveModel& model, const std::vector<double>& start_share,
                 const SampleOptions& options, const Progress& progress) {
  return play_all(model, {std::nullopt, checked(start_share)}, options, progress);
}

}  // namespace drive

SampledValues simulate(const DriveModel& model, const DriveState& start,
                       const SampleOptions& options, const Progress& progress) {
  return drive::values_of(drive::play_all(model, {start, {}}, options, progress), model);
}

SampledValues simulate_over(const DriveModel& model, const std::vector<double>& start_share,
                            const SampleOptions& options, const Progress& progress) {
  return drive::values_of(drive::tally_over(model, start_share, options, progress), model);
}

}  // namespace callfit
