#include <ask/standing.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace callfit::ask {
namespace {

constexpr std::size_t blocks = 16;
constexpr std::size_t meetings = 8;

double share_above(std::span<const double> draws) {
  double sum = 0;
  for (const double value : draws) sum += value > 0 ? 1 : value == 0 ? 0.5 : 0;
  return sum / static_cast<double>(draws.size());
}

Column less(Column values, double by_chance) {
  for (double& value : values) value -= by_chance;
  return values;
}

Column point_meetings(const Standing& standing) {
  return less(seated(standing.worth->points, standing.quarterback),
              standing.worth->points_by_chance);
}

}  // namespace

Column seated(std::span<const double> draws, std::size_t place) {
  Column out;
  out.reserve(draws.size() * meetings);
  for (std::size_t b = 0; b < blocks; ++b) {
    const std::size_t first = b * draws.size() / blocks;
    const std::size_t size = (b + 1) * draws.size() / blocks - first;
    for (std::size_t k = 0; k < meetings; ++k)
      for (std::size_t i = 0; i < size; ++i) out.push_back(draws[first + (i + k * place) % size]);
  }
  return out;
}

Column minus(Column first, std::span<const double> second) {
  for (std::size_t i = 0; i < first.size(); ++i) first[i] -= second[i];
  return first;
}

Number number_of_meetings(std::span<const double> values) {
  Number number = number_of(values);
  number.draws = values.size() / meetings;
  return number;
}

Verdict verdict_of(std::span<const double> draws) {
  std::array<double, blocks> odds{};
  for (std::size_t b = 0; b < blocks; ++b) {
    const std::size_t first = b * draws.size() / blocks;
    const std::size_t last = (b + 1) * draws.size() / blocks;
    odds[b] = share_above(draws.subspan(first, last - first));
  }
  const double mean = std::accumulate(odds.begin(), odds.end(), 0.0) / blocks;
  double squares = 0;
  for (const double value : odds) squares += (value - mean) * (value - mean);
  Verdict verdict;
  verdict.odds = share_above(draws);
  verdict.error = 2 * std::sqrt(squares / (blocks * (blocks - 1)));
  return verdict;
}

Column net_meetings(const Standing& standing) {
  return less(seated(standing.worth->net_points, standing.quarterback),
              standing.worth->net_by_chance);
}

Column net_gaps(const Standing& first, const Standing& second) {
  return minus(net_meetings(first), net_meetings(second));
}

DifferenceAnswer difference_of(const Standing& first, const Standing& second,
                               const std::string& first_name, const std::string& second_name) {
  const Column net = net_gaps(first, second);
  const Column points = minus(point_meetings(first), point_meetings(second));
  const double games = first.drives_per_game();
  DifferenceAnswer answer;
  answer.first = first_name;
  answer.second = second_name;
  answer.net_points_per_drive = number_of_meetings(net);
  answer.points_per_drive = number_of_meetings(points);
  answer.net_points_per_game = scaled(answer.net_points_per_drive, games);
  answer.points_per_game = scaled(answer.points_per_drive, games);
  answer.ahead = verdict_of(net);
  return answer;
}

}  // namespace callfit::ask
