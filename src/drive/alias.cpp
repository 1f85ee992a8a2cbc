#include <drive/alias.hpp>

#include <algorithm>
#include <bit>
#include <cstddef>

namespace callfit::drive {
namespace {

constexpr std::uint64_t whole = std::uint64_t{1} << 32;

struct Share {
  Outcome outcome = 0;
  std::uint64_t share = 0;
};

std::vector<Share> positive_shares(std::span<const WeightedOutcome> outcomes) {
  const std::vector<std::uint64_t> shares = integer_shares(outcomes);
  std::vector<Share> out;
  out.reserve(2 * shares.size());  // make_alias() rounds up to a power of two
  for (std::size_t i = 0; i < shares.size(); ++i)
    if (shares[i] > 0) out.push_back({outcomes[i].outcome, shares[i]});
  return out;
}

}  // namespace

std::vector<std::uint64_t> integer_shares(std::span<const WeightedOutcome> outcomes) {
  double sum = 0;
  for (const WeightedOutcome& o : outcomes) sum += o.probability;
  std::vector<std::uint64_t> shares(outcomes.size());
  std::uint64_t given = 0;
  std::size_t largest = 0;
  for (std::size_t i = 0; i < outcomes.size(); ++i) {
    // Rounded by adding one half and cutting off the fraction: no call of the library.
    const double raised = outcomes[i].probability / sum * static_cast<double>(whole) + 0.5;
    shares[i] = static_cast<std::uint64_t>(raised);
    given += shares[i];
    if (outcomes[i].probability > outcomes[largest].probability) largest = i;
  }
  shares[largest] += whole - given;  // modular: also right when too much was given
  return shares;
}

AliasTable make_alias(std::span<const WeightedOutcome> outcomes) {
  std::vector<Share> left = positive_shares(outcomes);
  AliasTable table;
  table.bits = static_cast<int>(std::bit_width(left.size() - 1));
  const std::size_t count = std::size_t{1} << table.bits;
  const std::uint64_t capacity = whole >> table.bits;
  left.resize(count, Share{left.front().outcome, 0});
  table.columns.resize(count);

  // Two stacks in one array: shares below a column's capacity, from the front, and the others, from
  // the back.
  std::vector<std::uint32_t> todo(count);
  std::size_t small = 0;
  std::size_t large = count;
  for (std::uint32_t i = 0; i < count; ++i) todo[left[i].share < capacity ? small++ : --large] = i;
  while (small > 0) {
    const std::uint32_t giver = todo[large];  // exists: shares sum to count * capacity
    const std::uint32_t column = todo[--small];
    table.columns[column] = {static_cast<std::uint32_t>(left[column].share), left[column].outcome,
                             left[giver].outcome};
    left[giver].share -= capacity - left[column].share;
    if (left[giver].share >= capacity) continue;
    ++large;
    todo[small++] = giver;
  }
  for (; large < count; ++large) {  // exactly full: both ways lead to the same outcome
    const Outcome outcome = left[todo[large]].outcome;
    table.columns[todo[large]] = {0, outcome, outcome};
  }
  return table;
}

}  // namespace callfit::drive
