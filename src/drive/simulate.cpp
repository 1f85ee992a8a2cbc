// The Monte Carlo engine: drives drawn one by one from the compiled table. Drive i uses the words
// of (seed, drive_outcome, i) alone, and all tallies are integers, so neither the number of threads
// nor the order of work can change a bit of the result.
#include <base/philox.hpp>
#include <callfit/base/random.hpp>
#include <callfit/drive/drive.hpp>
#include <drive/sampler.hpp>
#include <drive/tally.hpp>

#include <algorithm>
#include <array>
#include <mutex>
#include <optional>

namespace callfit {
namespace drive {
namespace {

constexpr std::uint64_t drives_per_unit = 16'384;

/// Random words of one drive: each block of the generator gives eight.
class Words {
 public:
  void start(std::uint64_t seed, std::uint64_t drive) {
    seed_ = seed;
    drive_ = drive;
    blocks_ = 0;
    refill();
  }

  std::uint32_t next() {
    if (used_ == words_.size()) refill();
    return words_[used_++];
  }

 private:
  void refill() {
    constexpr auto purpose = static_cast<std::uint64_t>(Purpose::drive_outcome);
    const auto block = philox({drive_, blocks_++, 0, 0}, {seed_, purpose});
    for (std::size_t i = 0; i < block.size(); ++i) {
      words_[2 * i] = static_cast<std::uint32_t>(block[i]);
      words_[2 * i + 1] = static_cast<std::uint32_t>(block[i] >> 32);
    }
    used_ = 0;
  }

  std::uint64_t seed_ = 0, drive_ = 0, blocks_ = 0;
  std::array<std::uint32_t, 8> words_{};
  std::size_t used_ = 8;
};

/// The line of a new series, by the own yard line where it starts.
struct SeriesLine {
  std::uint32_t base = 0;  // index of the line's first place
  int last_short = 0;      // own yard of the line's last place
};

constexpr SeriesLine at_line(int line) {
  return {static_cast<std::uint32_t>(line_start(line)), spots_short_of(line)};
}

constexpr std::array<SeriesLine, field_length> series_lines = [] {
  std::array<SeriesLine, field_length> lines;
  for (int own = 1; own < field_length; ++own)
    lines[static_cast<std::size_t>(own)] = at_line(line_of_series(field_length - own));
  return lines;
}();

/// Starts of drives: one state, or a table of spots.
struct Starts {
  std::optional<DriveState> state;
  AliasTable spots;

  DriveState draw(std::uint32_t bits) const {
    return state ? *state : first_down_at(pick(spots, bits));
  }
};

// A snap has three steps, so that many drives can look up their tables before the first needs what
// it looked up: aim at the table, land where the ball is down in the field (no branch depends on
// the draw), and resolve whatever is left: penalties, kicks, ends.
class DrawnDrive {
 public:
  /// Starts over as another drive.
  void start(const Sampler& sampler, const Starts& starts, std::uint64_t seed,
             std::uint64_t drive) {
    words_.start(seed, drive);
    sampler_ = &sampler;
    tables_ = &sampler.classes[pick(sampler.quality, words_.next())];
    const DriveState state = starts.draw(words_.next());
    line_ = at_line(state.yards_to_goal - state.to_go);
    down_ = state.down;
    own_ = field_length - state.yards_to_goal;
    over_ = false;
    end_ = {};
  }

  bool over() const { return over_; }
  const DriveEnd& end() const { return end_; }

  void aim() {
    entry_ = next_entry();
    const std::uint32_t draw = words_.next();
    column_ = column_of(tables_->columns.data() + entry_->first_column, entry_->bits, draw);
    within_ = within_column(entry_->bits, draw);
    __builtin_prefetch(column_);
  }

  /// Whether the ball is down in the field; else resolve() has to follow.
  bool land() {
    outcome_ = pick_within(*column_, within_);
    const bool in_field = down_at(own_ + outcome_ + sampler_->first_gain);
    __builtin_prefetch(next_entry());
    return in_field;
  }

  void resolve() { resolve(outcome_); }

 private:
  const StateEntry* next_entry() const {
    return tables_->states.data() + static_cast<std::size_t>(down_ - 1) * states_per_down +
           line_.base + static_cast<std::size_t>(own_ - 1);
  }

  void finish(DriveResult how, Slot where) {
    end_.result = how;
    end_.slot = where;
    over_ = true;
  }

  // A play that ends at `own`; changes nothing where that is not in the field. What is no gain is
  // coded as one far beyond it.
  bool down_at(int own) {
    const bool in_field = own > 0 && own < field_length;
    own_ = in_field ? own : own_;
    const bool fresh = own_ > line_.last_short;
    const SeriesLine& next = series_lines[static_cast<std::size_t>(own_)];
    line_.base = fresh ? next.base : line_.base;
    line_.last_short = fresh ? next.last_short : line_.last_short;
    down_ = fresh ? 1 : down_ + (in_field ? 1 : 0);
    end_.first_downs += fresh ? 1 : 0;
    end_.plays += in_field ? 1 : 0;
    return in_field;
  }

  void resolve(Outcome outcome) {
    switch (outcome) {
      case penalised:
        return penalty();
      case goes:
        return play_fourth();
      case punts:
        return punt();
      case kicks:
        return kick();
      case half_over:
        return finish(DriveResult::end_of_half, half_slot);
      case intercepted:
        return interception();
      case fumbled:
        return fumble();
      default:
        return leave_field(outcome);
    }
  }

  void leave_field(Outcome outcome) {
    ++end_.plays;
    if (own_ + outcome + sampler_->first_gain > 0)
      finish(DriveResult::touchdown, kickoff_slot);
    else
      finish(DriveResult::safety, safety_slot);
  }

  void play_fourth() {
    const Outcome outcome = pick(tables_->play[entry_->slice], words_.next());
    if (!down_at(own_ + outcome + sampler_->first_gain)) return resolve(outcome);
    if (down_ > down_count) turn_over();
  }

  void turn_over() { finish(DriveResult::downs, static_cast<Slot>(field_length - own_)); }

  std::size_t spot() const { return static_cast<std::size_t>(field_length - own_); }

  void punt() { finish(DriveResult::punt, pick(sampler_->punt[spot()], words_.next())); }

  void kick() {
    if (words_.next() < sampler_->kick_made[spot()])
      finish(DriveResult::field_goal, kickoff_slot);
    else
      finish(DriveResult::missed_field_goal, sampler_->missed_kick[spot()]);
  }

  void fumble() {
    ++end_.plays;
    const int gain = pick(tables_->fumble[entry_->slice], words_.next()) + sampler_->first_gain;
    const int where = field_length - own_ - gain;
    if (where <= 0) return finish(DriveResult::touchdown, kickoff_slot);
    const auto lost = static_cast<std::size_t>(std::min(where, last_spot));
    finish(DriveResult::fumble, pick(sampler_->fumble[lost], words_.next()));
  }

  void interception() {
    ++end_.plays;
    const AliasTable& depths = tables_->depth[sampler_->context[entry_->slice]];
    const int depth = pick(depths, words_.next()) - depth_offset;
    const auto where = static_cast<std::size_t>(interception_spot(field_length - own_, depth));
    finish(DriveResult::interception, pick(sampler_->interception[where], words_.next()));
  }

  void penalty() {
    const auto& tables = sampler_->penalty[entry_->penalty_set];
    const Outcome outcome = pick(tables[static_cast<std::size_t>(own_)], words_.next());
    const auto kind = static_cast<PenaltyKind>(outcome >> penalty_kind_shift);
    own_ = outcome & ((1 << penalty_kind_shift) - 1);
    if (kind == PenaltyKind::next_down) ++end_.plays;
    if (kind == PenaltyKind::first_down || own_ > line_.last_short) return new_series();
    if (kind == PenaltyKind::next_down && ++down_ > down_count) turn_over();
  }

  void new_series() {
    ++end_.first_downs;
    down_ = 1;
    line_ = series_lines[static_cast<std::size_t>(own_)];
  }

  const Sampler* sampler_ = nullptr;
  const ClassSampler* tables_ = nullptr;
  const StateEntry* entry_ = nullptr;
  const AliasColumn* column_ = nullptr;
  Words words_;
  SeriesLine line_;
  std::uint32_t within_ = 0;
  int down_ = 1, own_ = 1;
  Outcome outcome_ = 0;
  bool over_ = false;
  DriveEnd end_;
};

// Many drives are in flight at a time, so that one waits for memory while others compute. The
// order of snaps does not matter: every drive has words of its own.
class Flight {
 public:
  Flight(const Sampler& sampler, const Starts& starts, std::uint64_t seed, std::uint64_t first,
         std::uint64_t last)
      : sampler_(sampler), starts_(starts), seed_(seed), next_(first), last_(last) {
    while (flying_ < in_flight && next_ < last_)
      drives_[flying_++].start(sampler_, starts_, seed_, next_++);
  }

  Tally play() {
    while (flying_ > 0) snap();
    return tally_;
  }

 private:
  static constexpr std::size_t in_flight = 32;

  void snap() {
    std::array<std::size_t, in_flight> unresolved;
    std::size_t count = 0;
    for (std::size_t i = 0; i < flying_; ++i) drives_[i].aim();
    for (std::size_t i = 0; i < flying_; ++i) {
      unresolved[count] = i;
      count += drives_[i].land() ? 0U : 1U;
    }
    // From the last on: the gap that a finished drive leaves is filled by one already resolved.
    while (count > 0) resolve(unresolved[--count]);
  }

  void resolve(std::size_t i) {
    drives_[i].resolve();
    if (!drives_[i].over()) return;
    tally_.add(drives_[i].end());
    if (next_ < last_)
      drives_[i].start(sampler_, starts_, seed_, next_++);
    else
      drives_[i] = drives_[--flying_];
  }

  const Sampler& sampler_;
  const Starts& starts_;
  std::uint64_t seed_, next_, last_;
  std::array<DrawnDrive, in_flight> drives_;
  std::size_t flying_ = 0;
  Tally tally_;
};

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
        const Tally tally = Flight(sampler, starts, options.seed, first, last).play();
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
