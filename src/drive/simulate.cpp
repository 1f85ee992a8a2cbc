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
  DrawnDrive(const Sampler& sampler, const Stream& stream, const DriveState& state,
             std::size_t quality)
      : sampler_(&sampler),
        tables_(&sampler.classes[quality]),
        stream_(stream),
        down_(state.down),
        own_(field_length - state.yards_to_goal) {
    set_line(state.yards_to_goal - state.to_go);
  }

  bool over() const { return over_; }
  const DriveEnd& end() const { return end_; }

  void snap() {
    const std::uint64_t bits = stream_();
    const StateEntry& entry = tables_->states[state()];
    if (sampler_->half > 0 && draw() < sampler_->half)
      return finish(DriveResult::end_of_half, half_slot);
    if (static_cast<std::uint32_t>(bits) < entry.penalty) return penalty(entry);
    if (down_ == down_count && kicks()) return;
    ++end_.plays;
    const Outcome outcome = pick(tables_->columns.data() + entry.first_column, entry.bits,
                                 static_cast<std::uint32_t>(bits >> 32));
    if (outcome >= first_special) return special(entry, outcome);
    move_to(own_ + outcome + sampler_->first_gain);
  }

 private:
  std::uint32_t draw() { return static_cast<std::uint32_t>(stream_() >> 32); }

  std::size_t state() const {
    return static_cast<std::size_t>(down_ - 1) * states_per_down + line_base_ +
           static_cast<std::size_t>(own_ - 1);
  }

  void set_line(int line) {
    line_base_ = line_start(line);
    last_short_ = spots_short_of(line);
  }

  void finish(DriveResult how, Slot where) {
    end_.result = how;
    end_.slot = where;
    over_ = true;
  }

  // The ball is down at `own` after a play.
  void move_to(int own) {
    if (own >= field_length) return finish(DriveResult::touchdown, kickoff_slot);
    if (own <= 0) return finish(DriveResult::safety, safety_slot);
    own_ = own;
    if (own > last_short_) return new_series();
    next_down();
  }

  void new_series() {
    ++end_.first_downs;
    down_ = 1;
    set_line(line_of_series(field_length - own_));
  }

  void next_down() {
    if (down_ == down_count)
      return finish(DriveResult::downs, static_cast<Slot>(field_length - own_));
    ++down_;
  }

  bool kicks() {
    const auto spot = static_cast<std::size_t>(field_length - own_);
    const FourthDownThresholds& choice =
        tables_->fourth_down[line_base_ + static_cast<std::size_t>(own_ - 1)];
    const std::uint32_t chosen = draw();
    if (chosen < choice.go) return false;
    if (chosen < choice.punt) {
      finish(DriveResult::punt, pick(sampler_->punt[spot], draw()));
    } else if (draw() < sampler_->kick_made[spot]) {
      finish(DriveResult::field_goal, kickoff_slot);
    } else {
      finish(DriveResult::missed_field_goal, sampler_->missed_kick[spot]);
    }
    return true;
  }

  void special(const StateEntry& entry, Outcome outcome) {
    if (outcome == scored) return finish(DriveResult::touchdown, kickoff_slot);
    if (outcome == intercepted) return interception(entry);
    const int gain = pick(tables_->fumble[entry.slice], draw()) + sampler_->first_gain;
    const int spot = field_length - own_ - gain;
    if (spot <= 0) return finish(DriveResult::touchdown, kickoff_slot);
    const auto where = static_cast<std::size_t>(std::min(spot, last_spot));
    finish(DriveResult::fumble, pick(sampler_->fumble[where], draw()));
  }

  void interception(const StateEntry& entry) {
    const int depth = pick(tables_->depth[entry.slice], draw()) - depth_offset;
    const auto where = static_cast<std::size_t>(interception_spot(field_length - own_, depth));
    finish(DriveResult::interception, pick(sampler_->interception[where], draw()));
  }

  void penalty(const StateEntry& entry) {
    const Outcome outcome =
        pick(sampler_->penalty[entry.penalty_set][static_cast<std::size_t>(own_)], draw());
    const auto kind = static_cast<PenaltyKind>(outcome >> penalty_kind_shift);
    own_ = outcome & ((1 << penalty_kind_shift) - 1);
    if (kind == PenaltyKind::next_down) ++end_.plays;
    if (kind == PenaltyKind::first_down || own_ > last_short_) return new_series();
    if (kind == PenaltyKind::next_down) next_down();
  }

  const Sampler* sampler_;
  const ClassSampler* tables_;
  Stream stream_;
  std::size_t line_base_ = 0;  // index of the line's first place
  int last_short_ = 0;         // own yard of the line's last place
  int down_, own_;
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

DrawnDrive drawn_drive(const Sampler& sampler, const Starts& starts, std::uint64_t seed,
                       std::uint64_t drive) {
  Stream stream(seed, Purpose::drive_outcome, drive);
  const std::uint64_t bits = stream();
  const std::size_t quality = pick(sampler.quality, static_cast<std::uint32_t>(bits >> 32));
  return {sampler, stream, starts.draw(static_cast<std::uint32_t>(bits)), quality};
}

// Several drives are in flight at a time, a snap each in turn, so that one waits for memory while
// another computes. The order of snaps does not matter: every drive has its own stream.
Tally play_unit(const Sampler& sampler, const Starts& starts, std::uint64_t seed,
                std::uint64_t first, std::uint64_t last) {
  constexpr std::uint64_t in_flight = 8;
  Tally tally;
  std::vector<DrawnDrive> flight;
  std::uint64_t next = first;
  for (; next < std::min(last, first + in_flight); ++next)
    flight.push_back(drawn_drive(sampler, starts, seed, next));
  while (!flight.empty())
    for (std::size_t i = 0; i < flight.size(); ++i) {
      flight[i].snap();
      if (!flight[i].over()) continue;
      tally.add(flight[i].end());
      if (next < last) {
        flight[i] = drawn_drive(sampler, starts, seed, next++);
      } else {
        flight[i] = flight.back();
        flight.pop_back();
      }
    }
  return tally;
}

Tally play_all(const DriveModel& model, const Starts& starts, const SampleOptions& options,
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
  return total;
}

SampledValues values_of(const Tally& tally, const DriveModel& model) {
  return to_values(tally, model.table().plan->points, model.table().plan->net);
}

Starts starts_over(const std::vector<double>& start_share) {
  std::vector<WeightedOutcome> spots;
  for (std::size_t y = 1; y < start_share.size(); ++y)
    spots.push_back({static_cast<Outcome>(y), start_share[y]});
  return {std::nullopt, make_alias(spots)};
}

}  // namespace

Tally tally_over(const DriveModel& model, const std::vector<double>& start_share,
                 const SampleOptions& options) {
  return play_all(model, starts_over(start_share), options, {});
}

}  // namespace drive

SampledValues simulate(const DriveModel& model, const DriveState& start,
                       const SampleOptions& options, const Progress& progress) {
  return drive::values_of(drive::play_all(model, {start, {}}, options, progress), model);
}

SampledValues simulate_over(const DriveModel& model, const std::vector<double>& start_share,
                            const SampleOptions& options, const Progress& progress) {
  return drive::values_of(
      drive::play_all(model, drive::starts_over(start_share), options, progress), model);
}

}  // namespace callfit
