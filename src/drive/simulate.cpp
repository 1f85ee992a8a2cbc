// The Monte Carlo engine: drives drawn one by one from the compiled table. Drive i uses stream
// (seed, drive_outcome, i) alone, and all tallies are integers, so neither the number of threads
// nor the order of work can change a bit of the result.
#include <callfit/base/random.hpp>
#include <callfit/drive/drive.hpp>
#include <drive/sampler.hpp>
#include <drive/tally.hpp>

#include <algorithm>
#include <mutex>
#include <optional>

namespace callfit {
namespace drive {
namespace {

constexpr std::uint64_t drives_per_unit = 16'384;

class DrawnDrive {
 public:
  DrawnDrive(const Sampler& sampler, const Stream& stream) : sampler_(sampler), stream_(stream) {}

  void start(const DriveState& state, std::size_t quality) {
    quality_ = quality;
    down_ = state.down;
    own_ = field_length - state.yards_to_goal;
    line_ = state.yards_to_goal - state.to_go;
  }

  DriveEnd run() {
    while (!over_) snap();
    return end_;
  }

 private:
  const ClassSampler& tables() const { return sampler_.classes[quality_]; }
  std::uint32_t draw() { return static_cast<std::uint32_t>(stream_() >> 32); }

  void finish(DriveResult how, Slot where) {
    end_.result = how;
    end_.slot = where;
    over_ = true;
  }

  void snap() {
    const std::uint64_t bits = stream_();
    const StateEntry& entry = tables().states[state_index(down_, line_, own_)];
    if (sampler_.half > 0 && draw() < sampler_.half)
      return finish(DriveResult::end_of_half, half_slot);
    if (static_cast<std::uint32_t>(bits) < entry.penalty) return penalty(entry);
    if (down_ == down_count && kicks()) return;
    ++end_.plays;
    const Outcome outcome = pick(tables().columns.data() + entry.first_column, entry.bits,
                                 static_cast<std::uint32_t>(bits >> 32));
    if (outcome >= first_special) return special(entry, outcome);
    move_to(own_ + outcome + sampler_.table->plan->first_gain);
  }

  // The ball is down at `own` after a play.
  void move_to(int own) {
    if (own >= field_length) return finish(DriveResult::touchdown, kickoff_slot);
    if (own <= 0) return finish(DriveResult::safety, safety_slot);
    own_ = own;
    if (own > spots_short_of(line_)) return new_series();
    next_down();
  }

  void new_series() {
    ++end_.first_downs;
    down_ = 1;
    line_ = line_of_series(field_length - own_);
  }

  void next_down() {
    if (down_ == down_count)
      return finish(DriveResult::downs, static_cast<Slot>(field_length - own_));
    ++down_;
  }

  bool kicks() {
    const auto spot = static_cast<std::size_t>(field_length - own_);
    const FourthDownThresholds& choice = tables().fourth_down[place_index(line_, own_)];
    const std::uint32_t chosen = draw();
    if (chosen < choice.go) return false;
    if (chosen < choice.punt) {
      finish(DriveResult::punt, pick(sampler_.punt[spot], draw()));
    } else if (draw() < sampler_.kick_made[spot]) {
      finish(DriveResult::field_goal, kickoff_slot);
    } else {
      finish(DriveResult::missed_field_goal, sampler_.table->plan->endings.missed_kick[spot]);
    }
    return true;
  }

  void special(const StateEntry& entry, Outcome outcome) {
    if (outcome == scored) return finish(DriveResult::touchdown, kickoff_slot);
    if (outcome == intercepted) return interception();
    const int gain = pick(tables().fumble[entry.slice], draw()) + sampler_.table->plan->first_gain;
    const int spot = field_length - own_ - gain;
    if (spot <= 0) return finish(DriveResult::touchdown, kickoff_slot);
    const auto where = static_cast<std::size_t>(std::min(spot, last_spot));
    finish(DriveResult::fumble, pick(sampler_.fumble[where], draw()));
  }

  void interception() {
    const Plan& plan = *sampler_.table->plan;
    const Row& row = plan.rows[plan.row_of[state_index(down_, line_, own_)]];
    const int depth = pick(tables().depth[row.context], draw()) - depth_offset;
    const auto where = static_cast<std::size_t>(interception_spot(row.yards_to_goal, depth));
    finish(DriveResult::interception, pick(sampler_.interception[where], draw()));
  }

  void penalty(const StateEntry& entry) {
    const Outcome outcome =
        pick(sampler_.penalty[entry.penalty_set][static_cast<std::size_t>(own_)], draw());
    const auto kind = static_cast<PenaltyKind>(outcome >> penalty_kind_shift);
    own_ = outcome & ((1 << penalty_kind_shift) - 1);
    if (kind == PenaltyKind::next_down) ++end_.plays;
    if (kind == PenaltyKind::first_down || own_ > spots_short_of(line_)) return new_series();
    if (kind == PenaltyKind::next_down) next_down();
  }

  const Sampler& sampler_;
  Stream stream_;
  std::size_t quality_ = 0;
  int down_ = 1, line_ = 0, own_ = 1;
  bool over_ = false;
  DriveEnd end_;
};

/// Starts of drives: one state, or a table of spots.
struct Starts {
  std::optional<DriveState> state;
  AliasTable spots;

  DriveState draw(std::uint32_t bits) const {
    return state ? *state : first_down_at(pick(spots, bits));
  }
};

Tally play_unit(const Sampler& sampler, const Starts& starts, std::uint64_t seed,
                std::uint64_t first, std::uint64_t last) {
  Tally tally;
  for (std::uint64_t drive = first; drive < last; ++drive) {
    Stream stream(seed, Purpose::drive_outcome, drive);
    const std::uint64_t bits = stream();
    const std::size_t quality = pick(sampler.quality, static_cast<std::uint32_t>(bits >> 32));
    DrawnDrive drawn(sampler, stream);
    drawn.start(starts.draw(static_cast<std::uint32_t>(bits)), quality);
    tally.add(drawn.run());
  }
  return tally;
}

SampledValues play_all(const DriveModel& model, const Starts& starts, const SampleOptions& options,
                       const Progress& progress) {
  const Sampler sampler = make_sampler(model.table());
  const std::uint64_t units = (options.drives + drives_per_unit - 1) / drives_per_unit;
  Tally total;
  std::mutex mutex;
  for_each_unit(
      static_cast<std::size_t>(units), options.threads,
      [&](std::size_t unit) {
        const std::uint64_t first = unit * drives_per_unit;
        const std::uint64_t last = std::min(options.drives, first + drives_per_unit);
        const Tally tally = play_unit(sampler, starts, options.seed, first, last);
        const std::lock_guard lock(mutex);
        total.add(tally);
      },
      progress);
  return to_values(total, model.table().plan->points, model.table().plan->net);
}

}  // namespace
}  // namespace drive

SampledValues simulate(const DriveModel& model, const DriveState& start,
                       const SampleOptions& options, const Progress& progress) {
  return drive::play_all(model, {start, {}}, options, progress);
}

SampledValues simulate_over(const DriveModel& model, const std::vector<double>& start_share,
                            const SampleOptions& options, const Progress& progress) {
  std::vector<drive::WeightedOutcome> spots;
  for (std::size_t y = 1; y < start_share.size(); ++y)
    spots.push_back({static_cast<drive::Outcome>(y), start_share[y]});
  return drive::play_all(model, {std::nullopt, drive::make_alias(spots)}, options, progress);
}

}  // namespace callfit
