#include <callfit/base/random.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <fstream>
#include <set>
#include <sstream>
#include <string>
#include <vector>

using namespace callfit;

namespace {

std::vector<std::uint64_t> hex_words(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::uint64_t> words;
  for (std::string word; in >> word;) words.push_back(std::stoull(word, nullptr, 16));
  return words;
}

std::vector<std::string> split(const std::string& line) {
  std::istringstream in(line);
  std::vector<std::string> fields;
  for (std::string field; std::getline(in, field, ',');) fields.push_back(field);
  return fields;
}

}  // namespace

// Known-answer vectors published with Random123 (Salmon, Moraes, Dror & Shaw, SC'11;
// repository DEShawResearch/random123, tests/kat_vectors).
TEST_CASE("the generator reproduces its published known-answer vectors") {
  std::ifstream file(CALLFIT_KAT_FILE);
  REQUIRE(file);
  int checked = 0;
  for (std::string line; std::getline(file, line);) {
    const auto fields = split(line);
    if (fields[0] != "philox4x64" || fields[1] != "10") continue;
    const auto counter = hex_words(fields[2]);
    const auto key = hex_words(fields[3]);
    const auto expected = hex_words(fields[4]);
    const auto block =
        philox_block({counter[0], counter[1], counter[2], counter[3]}, {key[0], key[1]});
    CHECK(std::vector<std::uint64_t>(block.begin(), block.end()) == expected);
    ++checked;
  }
  CHECK(checked == 3);
}

TEST_CASE("streams of different units, purposes and seeds do not meet") {
  std::set<std::uint64_t> seen;
  for (std::uint64_t seed : {1U, 2U})
    for (auto purpose : {Purpose::drive_outcome, Purpose::player_draw})
      for (std::uint64_t unit = 0; unit < 100; ++unit) {
        Stream stream(seed, purpose, unit);
        for (int i = 0; i < 10; ++i) seen.insert(stream());
      }
  CHECK(seen.size() == 2U * 2U * 100U * 10U);
}

TEST_CASE("a stream repeats itself and is uniform") {
  Stream first(7, Purpose::sampling, 3);
  Stream second(7, Purpose::sampling, 3);
  constexpr int draws = 200'000;
  double sum = 0;
  double sum_of_squares = 0;
  for (int i = 0; i < draws; ++i) {
    const double u = first.uniform();
    REQUIRE(u == second.uniform());
    sum += u;
    sum_of_squares += u * u;
  }
  // Uniform(0,1): mean 1/2, sd 1/sqrt(12); E u^2 = 1/3, sd sqrt(4/45). Five standard errors.
  CHECK(std::abs(sum / draws - 0.5) < 5 * std::sqrt(1.0 / 12 / draws));
  CHECK(std::abs(sum_of_squares / draws - 1.0 / 3) < 5 * std::sqrt(4.0 / 45 / draws));
}
