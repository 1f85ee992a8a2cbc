#include <callfit/stats/rank.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <stdexcept>

namespace callfit {

std::vector<double> ranks_of(const std::vector<double>& values) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(),
            [&values](std::size_t i, std::size_t j) { return values[i] < values[j]; });
  std::vector<double> ranks(values.size());
  for (std::size_t first = 0; first < order.size();) {
    std::size_t last = first;
    while (last + 1 < order.size() && values[order[last + 1]] == values[order[first]]) ++last;
    const double shared = static_cast<double>(first + last) / 2 + 1;
    for (; first <= last; ++first) ranks[order[first]] = shared;
  }
  return ranks;
}

double spearman(const std::vector<double>& a, const std::vector<double>& b) {
  if (a.size() != b.size() || a.size() < 2)
    throw std::invalid_argument("spearman: needs two samples of one length, at least 2");
  const std::vector<double> x = ranks_of(a);
  const std::vector<double> y = ranks_of(b);
  const double centre = (static_cast<double>(a.size()) + 1) / 2;
  double xy = 0;
  double xx = 0;
  double yy = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    xy += (x[i] - centre) * (y[i] - centre);
    xx += (x[i] - centre) * (x[i] - centre);
    yy += (y[i] - centre) * (y[i] - centre);
  }
  return xx > 0 && yy > 0 ? xy / std::sqrt(xx * yy) : 0;
}

}  // namespace callfit
