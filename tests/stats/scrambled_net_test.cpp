#include <callfit/stats/normal.hpp>
#include <stats/scrambled_net.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>
#include <set>
#include <vector>

using namespace callfit;

namespace {

constexpr std::size_t dimensions = 100;
constexpr std::size_t block = 256;  // any power of 2 up to the net's size

Stream stream_of(std::uint64_t seed, std::size_t dimension) {
  return {seed, Purpose::player_draw, 1, dimension};
}

std::vector<double> column(const ScrambledNet& net, std::size_t dimension, std::size_t count,
                           std::uint64_t seed = 1) {
  std::vector<double> values(count);
  net.fill(values, dimension, stream_of(seed, dimension));
  return values;
}

double mean_of(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

}  // namespace

TEST_CASE("every block has one point in each of 256 equal intervals of every dimension") {
  const ScrambledNet net(dimensions);
  for (std::size_t d = 0; d < dimensions; ++d) {
    const auto values = column(net, d, 2 * ScrambledNet::size);
    for (std::size_t b = 0; b < values.size() / block; ++b) {
      std::set<int> hit;
      for (std::size_t i = b * block; i < (b + 1) * block; ++i)
        hit.insert(static_cast<int>(values[i] * block));
      REQUIRE(hit.size() == block);
    }
  }
}

TEST_CASE("the whole net has one point in each of as many equal intervals") {
  const ScrambledNet net(3);
  const auto values = column(net, 2, ScrambledNet::size);
  std::set<int> hit;
  for (const double value : values) hit.insert(static_cast<int>(value * ScrambledNet::size));
  CHECK(hit.size() == ScrambledNet::size);
}

// Sobol's first two dimensions are a (0, m, 2)-net in base 2 (Sobol 1967), and scrambling keeps
// that (Owen 1995).
TEST_CASE("the first two dimensions fill every box of area 1 in 256 once") {
  const ScrambledNet net(2);
  const auto x = column(net, 0, block);
  const auto y = column(net, 1, block);
  for (int wide = 1; wide <= 256; wide *= 2) {
    std::set<std::pair<int, int>> hit;
    for (std::size_t i = 0; i < block; ++i)
      hit.emplace(static_cast<int>(x[i] * wide), static_cast<int>(y[i] * 256 / wide));
    CHECK(hit.size() == block);
  }
}

TEST_CASE("fewer draws are the beginning of more") {
  const ScrambledNet net(3);
  const auto some = column(net, 2, 300);
  auto more = column(net, 2, 1000);
  more.resize(300);
  CHECK(some == more);
}

// Of f = sum of products of neighbours z_d z_{d+1} of normals, E f = 0 and Var f = dimensions - 1:
// the mean of n independent draws has the standard error sqrt((dimensions - 1) / n).
TEST_CASE("means over draws are unbiased, and nearer than those of independent draws") {
  constexpr std::size_t few = 12;
  constexpr std::size_t count = 16 * block;
  constexpr int repeats = 60;
  const ScrambledNet net(few);
  double sum = 0;
  double squares = 0;
  for (int r = 0; r < repeats; ++r) {
    std::vector<std::vector<double>> z;
    for (std::size_t d = 0; d < few; ++d) {
      z.push_back(column(net, d, count, 100 + static_cast<std::uint64_t>(r)));
      for (double& value : z.back()) value = normal_quantile(value);
    }
    std::vector<double> f(count, 0.0);
    for (std::size_t i = 0; i < count; ++i)
      for (std::size_t d = 0; d + 1 < few; ++d) f[i] += z[d][i] * z[d + 1][i];
    const double mean = mean_of(f);
    sum += mean;
    squares += mean * mean;
  }
  const double independent = (few - 1) / static_cast<double>(count);  // variance of one mean
  CHECK(std::abs(sum / repeats) < 4 * std::sqrt(independent / repeats));
  CHECK(squares / repeats < independent / 2);
}
