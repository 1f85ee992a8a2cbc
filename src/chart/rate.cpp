#include <callfit/chart/rate.hpp>

namespace callfit {
namespace {

bool in_depth_cell(int air_yards, Cell cell) {
  if (air_yards >= deep_from) return cell == Cell::deep_throw;
  if (air_yards >= intermediate_from) return cell == Cell::intermediate_throw;
  return cell == Cell::short_throw;
}

template <class Charted>
bool matches(const std::optional<Charted>& charted, Cell cell, Cell first) {
  return charted && static_cast<std::size_t>(*charted) + static_cast<std::size_t>(first) ==
                        static_cast<std::size_t>(cell);
}

bool is_success(const Snap& snap, const SuccessRule& rule) {
  const double share = rule.share_of_to_go[static_cast<std::size_t>(snap.down - 1)];
  return snap.result != Result::intercepted && !snap.fumble_lost.value_or(false) &&
         snap.yards >= share * snap.to_go;
}

bool is_explosive(const Snap& snap, const SuccessRule& rule) {
  const bool on_the_ground = snap.result == Result::run || snap.result == Result::scramble;
  return snap.yards >= (on_the_ground ? rule.explosive_run : rule.explosive_pass);
}

std::optional<bool> throw_trial(const Snap& snap, Rate rate) {
  if (!is_throw(snap.result)) return std::nullopt;
  switch (rate) {
    case Rate::completion:
      return snap.result == Result::complete;
    case Rate::interception:
      return snap.result == Result::intercepted;
    case Rate::on_time:
      return snap.on_time;
    default:
      return snap.catchable;
  }
}

std::optional<bool> dropback_trial(const Snap& snap, Rate rate) {
  if (!is_dropback(snap.result)) return std::nullopt;
  switch (rate) {
    case Rate::sack:
      return snap.result == Result::sack;
    case Rate::scramble:
      return snap.result == Result::scramble;
    default:
      return snap.pressure;
  }
}

}  // namespace

bool in_cell(const Snap& snap, Cell cell) {
  if (cell <= Cell::none_high) return matches(snap.shell, cell, Cell::one_high);
  if (cell <= Cell::moving) return matches(snap.platform, cell, Cell::pocket);
  if (cell <= Cell::pressure) return matches(snap.pressure, cell, Cell::clean);
  if (cell <= Cell::right) return matches(snap.lane, cell, Cell::left);
  return snap.air_yards && in_depth_cell(*snap.air_yards, cell);
}

std::optional<bool> trial(const Snap& snap, Rate rate, const SuccessRule& rule) {
  if (snap.result == Result::no_play) return std::nullopt;
  switch (rate) {
    case Rate::sack:
    case Rate::scramble:
    case Rate::pressured:
      return dropback_trial(snap, rate);
    case Rate::completion:
    case Rate::interception:
    case Rate::on_time:
    case Rate::catchable:
      return throw_trial(snap, rate);
    case Rate::success:
      return is_success(snap, rule);
    case Rate::explosive:
      return is_explosive(snap, rule);
    case Rate::fumble:
      return snap.fumble_lost.value_or(false);
    case Rate::evaded:
      if (!is_touch(snap.result) || !snap.evaded) return std::nullopt;
      return *snap.evaded > 0;
  }
  return std::nullopt;
}

}  // namespace callfit
