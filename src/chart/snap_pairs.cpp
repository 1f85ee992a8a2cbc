#include <callfit/chart/agreement.hpp>

#include <algorithm>
#include <cstdint>
#include <map>
#include <tuple>

namespace callfit {
namespace {

using Rows = std::vector<std::size_t>;

// The table of common runs grows with the product of the two lengths.
constexpr std::size_t largest_table = 25'000'000;

bool same_place(const Snap& a, const Snap& b) {
  return std::tie(a.down, a.to_go, a.yards_to_goal) == std::tie(b.down, b.to_go, b.yards_to_goal);
}

bool all_have_ids(const Chart& chart) {
  return std::all_of(chart.snaps.begin(), chart.snaps.end(),
                     [](const Snap& snap) { return !snap.snap_id.empty(); });
}

std::map<std::string_view, Rows> by_game(const Chart& chart) {
  std::map<std::string_view, Rows> games;
  for (std::size_t i = 0; i < chart.snaps.size(); ++i) games[chart.snaps[i].game].push_back(i);
  return games;
}

/// length[i][j]: longest common subsequence of the rows from i and from j on, row-major with
/// second.size() + 1 columns.
std::vector<std::uint32_t> common_lengths(const Chart& a, const Rows& first, const Chart& b,
                                          const Rows& second) {
  const std::size_t width = second.size() + 1;
  std::vector<std::uint32_t> length((first.size() + 1) * width, 0);
  for (std::size_t i = first.size(); i-- > 0;)
    for (std::size_t j = second.size(); j-- > 0;) {
      const bool same = same_place(a.snaps[first[i]], b.snaps[second[j]]);
      length[i * width + j] =
          same ? length[(i + 1) * width + j + 1] + 1
               : std::max(length[(i + 1) * width + j], length[i * width + j + 1]);
    }
  return length;
}

/// Positions within the two games that belong together.
std::vector<SnapPair> common_run(const Chart& a, const Rows& first, const Chart& b,
                                 const Rows& second) {
  std::vector<SnapPair> run;
  if (first.size() * second.size() > largest_table) return run;
  const std::vector<std::uint32_t> length = common_lengths(a, first, b, second);
  const std::size_t width = second.size() + 1;
  std::size_t i = 0;
  std::size_t j = 0;
  while (i < first.size() && j < second.size()) {
    if (same_place(a.snaps[first[i]], b.snaps[second[j]])) {
      run.push_back({i++, j++});
    } else if (length[(i + 1) * width + j] >= length[i * width + j + 1]) {
      ++i;
    } else {
      ++j;
    }
  }
  return run;
}

void pair_game(const Chart& a, const Rows& first, const Chart& b, const Rows& second,
               Pairing& pairing) {
  std::vector<SnapPair> run = common_run(a, first, b, second);
  run.push_back({first.size(), second.size()});
  std::size_t i = 0;
  std::size_t j = 0;
  for (const SnapPair& next : run) {
    const bool in_turn = next.first - i == next.second - j;
    for (; i < next.first; ++i)
      if (in_turn)
        pairing.pairs.push_back({first[i], second[j++]});
      else
        pairing.only_first.push_back(first[i]);
    for (; j < next.second; ++j) pairing.only_second.push_back(second[j]);
    if (next.first == first.size()) break;
    pairing.pairs.push_back({first[i++], second[j++]});
  }
}

Pairing pair_by_id(const Chart& first, const Chart& second) {
  Pairing pairing;
  std::map<std::string_view, std::size_t> seconds;
  for (std::size_t j = 0; j < second.snaps.size(); ++j) seconds.emplace(second.snaps[j].snap_id, j);
  std::vector<bool> used(second.snaps.size(), false);
  for (std::size_t i = 0; i < first.snaps.size(); ++i) {
    const auto found = seconds.find(first.snaps[i].snap_id);
    if (found == seconds.end() || used[found->second]) {
      pairing.only_first.push_back(i);
      continue;
    }
    used[found->second] = true;
    pairing.pairs.push_back({i, found->second});
  }
  for (std::size_t j = 0; j < used.size(); ++j)
    if (!used[j]) pairing.only_second.push_back(j);
  return pairing;
}

Pairing pair_by_order(const Chart& first, const Chart& second) {
  Pairing pairing;
  std::map<std::string_view, Rows> others = by_game(second);
  for (const auto& [game, rows] : by_game(first)) {
    pair_game(first, rows, second, others[game], pairing);
    others.erase(game);
  }
  for (const auto& [game, rows] : others)
    pairing.only_second.insert(pairing.only_second.end(), rows.begin(), rows.end());
  std::sort(pairing.pairs.begin(), pairing.pairs.end(),
            [](const SnapPair& a, const SnapPair& b) { return a.first < b.first; });
  std::sort(pairing.only_first.begin(), pairing.only_first.end());
  std::sort(pairing.only_second.begin(), pairing.only_second.end());
  return pairing;
}

}  // namespace

Pairing pair_snaps(const Chart& first, const Chart& second) {
  return all_have_ids(first) && all_have_ids(second) ? pair_by_id(first, second)
                                                     : pair_by_order(first, second);
}

}  // namespace callfit
