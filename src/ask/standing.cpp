#include <ask/standing.hpp>

namespace callfit::ask {
namespace {

Told without_chance(const Standing& standing, const std::vector<double>& draws, double by_chance) {
  return Told{standing.quarterback, draws} + Column(draws.size(), -by_chance);
}

Told points_of(const Standing& standing) {
  return without_chance(standing, standing.worth->points, standing.worth->points_by_chance);
}

}  // namespace

Column minus(Column first, std::span<const double> second) {
  for (std::size_t i = 0; i < first.size(); ++i) first[i] -= second[i];
  return first;
}

Told net_points_of(const Standing& standing) {
  return without_chance(standing, standing.worth->net_points, standing.worth->net_by_chance);
}

DifferenceAnswer difference_of(const Standing& first, const Standing& second,
                               const std::string& first_name, const std::string& second_name) {
  const Meeting net(net_points_of(first), net_points_of(second));
  const Meeting points(points_of(first), points_of(second));
  const double games = first.drives_per_game();
  DifferenceAnswer answer;
  answer.first = first_name;
  answer.second = second_name;
  answer.net_points_per_drive = net.number();
  answer.points_per_drive = points.number();
  answer.net_points_per_game = scaled(answer.net_points_per_drive, games);
  answer.points_per_game = scaled(answer.points_per_drive, games);
  answer.ahead = net.verdict();
  return answer;
}

}  // namespace callfit::ask
