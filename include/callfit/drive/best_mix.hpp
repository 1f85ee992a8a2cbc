// What a drive could be worth if calls were chosen anew at every snap.
#pragma once

#include <callfit/drive/drive.hpp>

#include <functional>
#include <vector>

namespace callfit {

/// The most that a mix allowed in a situation against a shell is worth, given what each of the
/// scheme's families is worth there.
using BestWorth = std::function<double(std::size_t situation, std::size_t shell,
                                       const std::vector<double>& worth)>;

/// Net points per drive when every snap gets its own best mix, by down, distance, spot, shell and
/// quality class: an upper bound for one mix a situation. A linear choice in each state of the
/// exact engine's sweep, to about 1e-7. Where a family cannot be called its share counts as the
/// best of the others.
double best_net_points(const DrivePlan& plan, const Player& player,
                       const std::vector<double>& start_share, const BestWorth& best);

}  // namespace callfit
