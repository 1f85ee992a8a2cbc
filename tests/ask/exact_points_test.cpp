// Ends of intervals of points by a few exact solves, against every draw solved exactly: the same
// draws, and 20,000 of them (exact_points.json, made by bench/exact_points.cpp).
#include "demo_case.hpp"
#include "three_men.hpp"

#include <ask/memory.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

using namespace callfit;
using namespace callfit::ask;
using namespace callfit::testing;
using nlohmann::json;

namespace {

double departure_of_ends(const Number& number, const json& exact) {
  return std::max(std::abs(number.low - exact.at("low").get<double>()),
                  std::abs(number.high - exact.at("high").get<double>()));
}

double largest_departure(const Number& number, const json& exact) {
  return std::max(departure_of_ends(number, exact),
                  std::abs(number.centre - exact.at("centre").get<double>()));
}

struct Man {
  std::string name;
  std::shared_ptr<const Worth> worth;
  json exact;
};

std::vector<Man> men() {
  Memory memory(demo_case(default_draws), 0);
  const json reference =
      json::parse(Files().read(std::string(CALLFIT_SOURCE_DIR) + "/tests/ask/exact_points.json"));
  std::vector<Man> men;
  for (const auto& [name, profile] : three_men(memory.about())) {
    Standing standing = memory.standing_of(profile, 0, 0);
    memory.worth(standing);
    men.push_back({name, standing.worth, reference.at(name)});
  }
  return men;
}

Column stretched(const Worth& worth, double factor) {
  Column net = worth.net_points;
  const double mean = worth.tangent->at_mean().net_points;
  for (double& value : net) value = mean + factor * (value - mean);
  return net;
}

}  // namespace

TEST_CASE("a few solves give the ends that solving every draw gives", "[plain]") {
  for (const Man& man : men()) {
    INFO(man.name << ", root mean square of checked draws " << man.worth->method.surrogate_error);
    CHECK_FALSE(man.worth->method.all_exact);
    CHECK(man.worth->method.exact_solves <= 25);
    const Number net = number_of(man.worth->net_points);
    const Number points = number_of(man.worth->points);
    CHECK(largest_departure(net, man.exact["net_points"][0]) <= tolerated_end);
    CHECK(largest_departure(points, man.exact["points"][0]) <= tolerated_end);
    // The reference has an error of its own, smaller by the root of the numbers of draws.
    const double both = std::sqrt(1 + static_cast<double>(default_draws) / 20'000);
    CHECK(departure_of_ends(net, man.exact["net_points"][1]) <= both * net.error);
    CHECK(departure_of_ends(points, man.exact["points"][1]) <= both * points.error);
    // The twin: a gradient that is 5% long, and one that is 5% short.
    for (const double factor : {1.05, 0.95})
      CHECK(largest_departure(number_of(stretched(*man.worth, factor)),
                              man.exact["net_points"][0]) > tolerated_end);
  }
}
