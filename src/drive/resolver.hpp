// What a look at a table leads to where the ball is not simply down in the field: another table or
// an end. In line for the loop that needs it so.
#pragma once

#include <drive/sampler.hpp>
#include <drive/series_line.hpp>

#include <algorithm>
#include <cstdint>

namespace callfit::drive {

/// A drive between two looks.
struct DriveNow {
  std::uint32_t place = 0;  ///< of the table that it looks up next
  SeriesLine line;
  std::uint32_t own = 1;  ///< own yard line of the ball
  Outcome outcome = 0;    ///< of the last look
  std::uint32_t plays = 0, first_downs = 0;

  std::size_t state() const { return line.place(own); }
  int yards_to_goal() const { return field_length - static_cast<int>(own); }
};

inline DriveNow started_at(const DriveState& state) {
  DriveNow drive;
  drive.line = SeriesLine(state.down, state.yards_to_goal - state.to_go);
  drive.own = static_cast<std::uint32_t>(field_length - state.yards_to_goal);
  drive.place = drive.line.place(drive.own);
  return drive;
}

class Resolver {
 public:
  explicit Resolver(const Sampler& sampler) : plan_(*sampler.plan), places_(sampler.places) {}

  /// Follows an outcome of this kind; whether the drive goes on. If not, its outcome is an end.
  template <Kind kind>
  bool resolve(DriveNow& drive) const {
    const int value = value_of(drive.outcome);
    switch (kind) {
      case Kind::gain:
        return gain(drive, drive.yards_to_goal() - value - plan_.first_gain);
      case Kind::lost_gain:
        return fumble(drive, drive.yards_to_goal() - value - plan_.first_gain);
      case Kind::depth:
        return look(drive, places_.interception,
                    interception_spot(drive.yards_to_goal(), value - depth_offset));
      case Kind::move:
        drive.plays += (first_part(value) & with_play_flag) != 0 ? 1U : 0U;
        return move(drive, static_cast<PenaltyKind>(first_part(value) & ~with_play_flag),
                    static_cast<std::uint32_t>(second_part(value)));
      case Kind::out_of_downs:
        return end(drive, Kind::end, DriveResult::downs, static_cast<Slot>(drive.yards_to_goal()));
      case Kind::reached:
        ++drive.own;
        drive.line = SeriesLine::fresh_at(drive.own);
        ++drive.first_downs;
        return look(drive, 0, drive.state());
      case Kind::pulled_back:
        drive.line.next_down_if(1);
        return look(drive, 0, drive.state());
      case Kind::kept_out:
        drive.own = 1;
        drive.line.next_down_if(1);
        return look(drive, 0, drive.state());
      case Kind::go:
        return look(drive, places_.go, slice(drive));
      case Kind::penalty:
        return look(drive, places_.penalty,
                    plan_.penalty_set_of[drive.state()] * std::size_t{field_length} + drive.own);
      case Kind::fumble:
        ++drive.plays;
        return look(drive, places_.lost_gain, slice(drive));
      case Kind::interception:
        ++drive.plays;
        return look(drive, places_.depth, row(drive).context);
      case Kind::end:
      case Kind::end_on_play:
        break;
    }
    return false;
  }

 private:
  const Row& row(const DriveNow& drive) const { return plan_.rows[plan_.row_of[drive.state()]]; }
  std::uint32_t slice(const DriveNow& drive) const {
    return plan_.layout.slice_of[plan_.row_of[drive.state()]];
  }

  template <class Index>
  static bool look(DriveNow& drive, std::uint32_t first, Index index) {
    drive.place = first + static_cast<std::uint32_t>(index);
    return true;
  }

  static bool end(DriveNow& drive, Kind kind, DriveResult how, Slot where) {
    drive.outcome = end_outcome(kind, how, where);
    return false;
  }

  // A gain that stays on the field comes here only where it just reaches the line. Until it is
  // known where it is spotted, the ball lies a yard short.
  bool gain(DriveNow& drive, int where) const {
    if (where <= 0) return end(drive, Kind::end_on_play, DriveResult::touchdown, kickoff_slot);
    ++drive.plays;
    if (where >= field_length) return look(drive, places_.own_goal, drive.yards_to_goal());
    drive.own = drive.line.last_short();
    return look(drive, places_.at_the_line, 0);
  }

  bool fumble(DriveNow& drive, int where) const {
    if (where <= 0) return end(drive, Kind::end, DriveResult::touchdown, kickoff_slot);
    return look(drive, places_.fumble, std::min(where, last_spot));
  }

  static bool move(DriveNow& drive, PenaltyKind kind, std::uint32_t own) {
    const std::uint32_t down_used = kind == PenaltyKind::next_down ? 1 : 0;
    const bool fresh = kind == PenaltyKind::first_down || own > drive.line.last_short();
    drive.own = own;
    drive.line.next_down_if(down_used);
    drive.line.become_if(fresh ? 1 : 0, SeriesLine::fresh_at(own));
    drive.first_downs += fresh ? 1 : 0;
    return look(drive, 0, drive.state());
  }

  const Plan& plan_;
  const Places& places_;
};

}  // namespace callfit::drive
