// Alias tables in integers: a draw of 32 bits becomes an outcome with one look and one compare.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace callfit::drive {

using Outcome = std::uint16_t;

/// One column of an alias table (Walker 1977): own() for the first `threshold` of its values, the
/// outcome other() for the rest. Both packed, so that a column is two words of 32 bits.
struct AliasColumn {
  std::uint32_t threshold = 0;
  std::uint32_t outcomes = 0;

  constexpr AliasColumn() = default;
  AliasColumn(std::uint32_t below, Outcome own, Outcome other)
      : threshold(below), outcomes(own | static_cast<std::uint32_t>(other) << 16) {}
  Outcome own() const { return static_cast<Outcome>(outcomes & 0xffff); }
  Outcome other() const { return static_cast<Outcome>(outcomes >> 16); }
};

/// 2^bits columns, 0 <= bits <= 16, of 2^(32 - bits) values each.
struct AliasTable {
  std::vector<AliasColumn> columns;
  int bits = 0;
};

struct WeightedOutcome {
  Outcome outcome = 0;
  double probability = 0;  ///< >= 0
};

/// Shares of 2^32 for each probability (scaled to sum to 1), summing to 2^32 exactly. Off by less
/// than 1 from the exact share, the largest one apart, which takes up the slack.
std::vector<std::uint64_t> integer_shares(std::span<const WeightedOutcome> outcomes);

/// Table of `outcomes` (at least one with a positive probability) built as Vose (1991) does, but
/// on the integer shares, so that sampled probabilities are exactly those shares / 2^32.
AliasTable make_alias(std::span<const WeightedOutcome> outcomes);

/// Which column 32 random bits lead to, and which of the column's values they are.
inline std::uint32_t column_of(int bits, std::uint32_t draw) {
  // Two shifts: a shift by 32 is undefined.
  return (draw >> 1) >> (31 - bits);
}
inline std::uint32_t within_column(int bits, std::uint32_t draw) {
  return draw & (0xffffffffU >> bits);
}
inline Outcome pick_within(const AliasColumn& column, std::uint32_t within) {
  const std::uint32_t outcomes = column.outcomes;  // read ahead of the choice: no branch
  return static_cast<Outcome>(within < column.threshold ? outcomes & 0xffff : outcomes >> 16);
}

/// The outcome of 32 random bits.
inline Outcome pick(const AliasTable& table, std::uint32_t draw) {
  return pick_within(table.columns[column_of(table.bits, draw)], within_column(table.bits, draw));
}

}  // namespace callfit::drive
