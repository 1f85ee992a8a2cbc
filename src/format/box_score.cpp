#include <format/box_score.hpp>

#include <cstddef>

namespace callfit {

bool BoxScore::fewer_attempts_than_ends() const {
  return completions.value_or(0) + interceptions.value_or(0) > attempts.value_or(0);
}

BoxCounts BoxScore::counts() const {
  BoxCounts counts;
  const auto put = [&counts](BoxRate rate, const std::optional<double>& made, double of) {
    if (made) counts[static_cast<std::size_t>(rate)] = BoxCount{*made, of};
  };
  const double throws = attempts.value_or(0);
  const double dropbacks = throws + sacks.value_or(0) + scrambles.value_or(0);
  put(BoxRate::completion, completions, throws);
  put(BoxRate::interception, interceptions, throws);
  put(BoxRate::sack, sacks, dropbacks);
  put(BoxRate::scramble, scrambles, dropbacks);
  return counts;
}

}  // namespace callfit
