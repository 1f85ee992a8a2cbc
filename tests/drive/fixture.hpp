// A small invented setting and scheme with every feature that drives know. All numbers are made up.
#pragma once

#include <callfit/drive/drive.hpp>

#include <cstdint>
#include <random>
#include <vector>

namespace fixture {

using namespace callfit;

/// Probabilities over first, first + 1, ... falling geometrically from `peak` on both sides.
YardPmf hump(int first, int last, int peak, double down, double up);

Setting setting();
Scheme scheme();
std::vector<std::size_t> families();  ///< of scheme() in setting()

/// A setting with nothing in it but one run family with these gains: no penalties, no fumbles,
/// no quality classes; field goals never, punts never, always go on fourth down.
Setting bare_setting(const YardPmf& run_gain);
Scheme bare_scheme();

/// Shakes every rate, gain, share and shift of the fixture; the same for the same seed.
Setting random_setting(std::uint32_t seed);
Scheme random_scheme(std::uint32_t seed);

struct Game {
  Setting setting;
  Scheme scheme;
  NetValues net;
  Player player;
  DriveOptions options;

  DriveModel model() const;
};

Game game(const DriveOptions& options = {});
/// Of random_setting(seed) with a single quality class.
/// Of random_setting(seed) with a single quality class.
Game random_game(std::uint32_t seed, const DriveOptions& options = {});

}  // namespace fixture
