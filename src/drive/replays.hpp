// Replays of the same down of the same series, settled at once: the spots short of a line lead to
// each other, x = settled + R x. The triangular factors of I - R are those of every line, since
// fewer spots are a leading part of the matrix.
#pragma once

#include <drive/states.hpp>

#include <array>
#include <cstdint>
#include <vector>

namespace callfit::drive {

class Replays {
 public:
  Replays() = default;
  /// Of own yards 1 to `last`, and of fewer. `moves_at(own)`: the replays from there; `played_on`:
  /// the chance that a penalty that is called counts.
  template <class MovesAt>
  Replays(int last, const MovesAt& moves_at, double played_on) {
    Matrix matrix{};
    for (int own = 1; own <= last; ++own) {
      at(matrix, own, own) += 1;
      for (const auto& move : moves_at(own))
        at(matrix, own, move.own_yard) -= played_on * move.probability;
    }
    factorise(matrix, last);
  }

  /// Values of own yards 1 to `last` (values[0] is that of 1) out of those without replays.
  template <class Values>
  void settle(Values* values, int last) const {
    for (int own = 2; own <= last; ++own) {
      Values sum = values[own - 1];  // in registers
      for (const Entry& entry : before(own)) sum.add_product(-entry.factor, values[entry.own - 1]);
      values[own - 1] = sum;
    }
    for (int own = last; own >= 1; --own) {
      Values sum = values[own - 1];
      for (const Entry& entry : after(own)) {
        if (entry.own > last) break;
        sum.add_product(-entry.factor, values[entry.own - 1]);
      }
      sum.scale(over_pivot_[static_cast<std::size_t>(own)]);
      values[own - 1] = sum;
    }
  }

  /// The transpose: visits of own yards 1 to `last` out of those that do not come by a replay.
  template <class Values>
  void spread(Values* visits, int last) const {
    for (int own = 1; own <= last; ++own) {
      visits[own - 1].scale(over_pivot_[static_cast<std::size_t>(own)]);
      for (const Entry& entry : after(own)) {
        if (entry.own > last) break;
        visits[entry.own - 1].add_product(-entry.factor, visits[own - 1]);
      }
    }
    for (int own = last; own >= 2; --own)
      for (const Entry& entry : before(own))
        visits[entry.own - 1].add_product(-entry.factor, visits[own - 1]);
  }

 private:
  using Matrix = std::array<std::array<double, field_length>, field_length>;
  struct Entry {
    int own = 0;
    double factor = 0;
  };
  struct Entries {
    const Entry* first;
    const Entry* last;
    const Entry* begin() const { return first; }
    const Entry* end() const { return last; }
  };

  static double& at(Matrix& matrix, int row, int column) {
    return matrix[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)];
  }
  void factorise(Matrix& matrix, int last);
  Entries before(int own) const { return part(lower_, lower_start_, own); }
  Entries after(int own) const { return part(upper_, upper_start_, own); }
  static Entries part(const std::vector<Entry>& all,
                      const std::array<std::uint32_t, field_length + 1>& start, int own) {
    const auto i = static_cast<std::size_t>(own);
    return {all.data() + start[i], all.data() + start[i + 1]};
  }

  std::vector<Entry> lower_, upper_;  // by own yard of the row, then of the column
  std::array<std::uint32_t, field_length + 1> lower_start_{}, upper_start_{};
  std::array<double, field_length> over_pivot_{};  // by own yard
};

}  // namespace callfit::drive
