#include <ask/batches.hpp>
#include <ask/meeting.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <iterator>
#include <map>
#include <numeric>

namespace callfit::ask {
namespace {

using Draws = std::span<const double>;

Column sorted(Draws draws) {
  Column out(draws.begin(), draws.end());
  std::sort(out.begin(), out.end());
  return out;
}

// What a count that ties share has of values below x and at x.
double share_below(const Column& ascending, double x) {
  const auto [from, to] = std::equal_range(ascending.begin(), ascending.end(), x);
  const auto below = static_cast<double>(from - ascending.begin());
  return (below + static_cast<double>(to - from) / 2) / static_cast<double>(ascending.size());
}

double share_above_zero(Draws draws) {
  double sum = 0;
  for (const double value : draws) sum += value > 0 ? 1 : value == 0 ? 0.5 : 0;
  return sum / static_cast<double>(draws.size());
}

// How many differences of two ascending columns are at most x.
std::size_t meetings_up_to(const Column& first, const Column& second, double x) {
  std::size_t met = 0;
  std::size_t j = 0;
  for (const double a : first) {
    while (j < second.size() && a - second[j] > x) ++j;
    met += second.size() - j;
  }
  return met;
}

// Those above low and at most high.
void add_meetings_between(const Column& first, const Column& second, double low, double high,
                          Column& out) {
  std::size_t j = 0;
  for (const double a : first) {
    while (j < second.size() && a - second[j] > high) ++j;
    for (std::size_t k = j; k < second.size() && a - second[k] > low; ++k)
      out.push_back(a - second[k]);
  }
}

}  // namespace

Told operator+(Told told, const Column& more) {
  for (std::size_t i = 0; i < told.draws.size(); ++i) told.draws[i] += more[i];
  return told;
}

Told operator*(double factor, Told told) {
  for (double& value : told.draws) value *= factor;
  return told;
}

Meeting::Meeting(const Told& first, const Told& second)
    : draws_(first.draws.size()), mean_(mean_of(first.draws) - mean_of(second.draws)) {
  if (first.quarterback == second.quarterback) {
    std::transform(first.draws.begin(), first.draws.end(), second.draws.begin(),
                   std::back_inserter(with_himself_), std::minus<>());
    return;
  }
  for (std::size_t b = 0; b < batch_count; ++b)
    blocks_.push_back({sorted(batch_of(first.draws, b)), sorted(batch_of(second.draws, b))});
}

double Meeting::Block::odds() const {
  double sum = 0;
  for (const double a : first) sum += share_below(second, a);
  return sum / static_cast<double>(first.size());
}

// The least difference that a share p of all meetings is at most: closed in on until few are left,
// which are listed.
double Meeting::quantile(std::span<const Block> blocks, double p) {
  double low = HUGE_VAL;
  double high = -HUGE_VAL;
  std::size_t meetings = 0;
  std::size_t few = 0;
  for (const Block& block : blocks) {
    low = std::min(low, block.first.front() - block.second.back());
    high = std::max(high, block.first.back() - block.second.front());
    meetings += block.first.size() * block.second.size();
    few += block.first.size();
  }
  const auto up_to = [&](double x) {
    std::size_t met = 0;
    for (const Block& block : blocks) met += meetings_up_to(block.first, block.second, x);
    return met;
  };
  const auto wanted = static_cast<std::size_t>(std::ceil(p * static_cast<double>(meetings)));
  std::size_t below = up_to(low);
  if (below >= wanted) return low;
  std::size_t reached = meetings;
  for (double middle = std::midpoint(low, high);
       reached - below > few && low < middle && middle < high; middle = std::midpoint(low, high)) {
    const std::size_t met = up_to(middle);
    (met >= wanted ? high : low) = middle;
    (met >= wanted ? reached : below) = met;
  }
  Column left;
  for (const Block& block : blocks)
    add_meetings_between(block.first, block.second, low, high, left);
  const auto nth = left.begin() + static_cast<std::ptrdiff_t>(wanted - below - 1);
  std::nth_element(left.begin(), nth, left.end());
  return *nth;
}

Number Meeting::number() const {
  if (!with_himself_.empty()) return number_of(with_himself_);
  ByBatch low{};
  ByBatch high{};
  for (std::size_t b = 0; b < batch_count; ++b) {
    low[b] = quantile({&blocks_[b], 1}, 0.05);
    high[b] = quantile({&blocks_[b], 1}, 0.95);
  }
  return {quantile(blocks_, 0.5), quantile(blocks_, 0.05), quantile(blocks_, 0.95), draws_,
          2 * std::max(standard_error(low), standard_error(high))};
}

Verdict Meeting::verdict() const {
  if (!with_himself_.empty()) return verdict_of(with_himself_);
  ByBatch odds{};
  double above = 0;
  double meetings = 0;
  for (std::size_t b = 0; b < batch_count; ++b) {
    odds[b] = blocks_[b].odds();
    const auto met = static_cast<double>(blocks_[b].first.size() * blocks_[b].second.size());
    above += odds[b] * met;
    meetings += met;
  }
  return {above / meetings, 2 * standard_error(odds), {}};
}

std::vector<double> odds_of_being_most(const std::vector<Told>& told) {
  // What each quarterback's best is, draw by draw.
  std::map<std::size_t, Column> best;
  for (const Told& one : told) {
    Column& most = best.try_emplace(one.quarterback, one.draws).first->second;
    for (std::size_t i = 0; i < most.size(); ++i) most[i] = std::max(most[i], one.draws[i]);
  }
  std::vector<double> odds(told.size(), 0.0);
  for (std::size_t b = 0; b < batch_count; ++b) {
    std::map<std::size_t, Column> ascending;
    for (const auto& [quarterback, most] : best) ascending[quarterback] = sorted(batch_of(most, b));
    for (const auto& [quarterback, most] : best) {
      const Draws own = batch_of(most, b);
      for (std::size_t i = 0; i < own.size(); ++i) {
        double ahead = 1;  // of all others
        for (const auto& [other, values] : ascending)
          if (other != quarterback) ahead *= share_below(values, own[i]);
        const auto leads = [&, who = quarterback](const Told& one) {
          return one.quarterback == who && batch_of(one.draws, b)[i] == own[i];
        };
        const auto leaders = static_cast<double>(std::count_if(told.begin(), told.end(), leads));
        for (std::size_t e = 0; e < told.size(); ++e)
          if (leads(told[e])) odds[e] += ahead / leaders;
      }
    }
  }
  for (double& value : odds) value /= static_cast<double>(told.front().draws.size());
  return odds;
}

Verdict verdict_of(std::span<const double> draws) {
  ByBatch odds{};
  for (std::size_t b = 0; b < batch_count; ++b) odds[b] = share_above_zero(batch_of(draws, b));
  return {share_above_zero(draws), 2 * standard_error(odds), {}};
}

}  // namespace callfit::ask
