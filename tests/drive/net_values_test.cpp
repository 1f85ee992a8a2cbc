// Net values kept in files: the shipped ones are those that the engine works out.
#include "fixture.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/net_values.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <filesystem>

using namespace callfit;

TEST_CASE("shipped net values are those of their settings") {
  namespace fs = std::filesystem;
  const fs::path root = CALLFIT_SOURCE_DIR;
  int checked = 0;
  for (const auto& file : fs::directory_iterator(root / "settings")) {
    if (file.path().extension() != ".json") continue;
    INFO(file.path() << ": run callfit_derive");
    const Setting setting = Files().setting(file.path().string());
    const Scheme scheme = Files().scheme((root / "schemes" / setting.average_scheme).string());
    const std::string kept = (root / "settings" / "derived" / file.path().filename()).string();
    const auto values = parse_net_values(Files().read(kept), kept, net_values_key(setting, scheme));
    REQUIRE(values);
    const NetValues fresh = average_net_values(setting, scheme, true);
    for (std::size_t y = 1; y <= 99; ++y)
      CHECK(std::abs(values->first_and_ten[y] - fresh.first_and_ten[y]) < 1e-10);
    CHECK(std::abs(values->after_kickoff - fresh.after_kickoff) < 1e-10);
    CHECK(std::abs(values->after_safety_kick - fresh.after_safety_kick) < 1e-10);
    CHECK(std::abs(values->half_hazard - fresh.half_hazard) < 1e-10);
    ++checked;
  }
  CHECK(checked >= 3);
}

TEST_CASE("net values come back from text to the last bit, for their key alone") {
  const NetValues values = fixture::game().net;
  const std::string text = net_values_to_json(values, 0x123);
  const auto back = parse_net_values(text, "kept.json", 0x123);
  REQUIRE(back);
  CHECK(back->first_and_ten == values.first_and_ten);
  CHECK(back->after_kickoff == values.after_kickoff);
  CHECK(back->after_safety_kick == values.after_safety_kick);
  CHECK(back->half_hazard == values.half_hazard);
  CHECK_FALSE(parse_net_values(text, "kept.json", 0x124));
  for (const std::string bad : {"[]", "{}", R"({"format": "callfit-scheme/1"})"})
    CHECK_THROWS_AS(parse_net_values(bad, "kept.json", 0x123), InputError);
}

TEST_CASE("the key of net values changes with what they follow from") {
  const Setting setting = fixture::setting();
  const Scheme scheme = fixture::scheme();
  const std::uint64_t key = net_values_key(setting, scheme);
  const auto changed = [&](const auto& change) {
    Setting other = setting;
    Scheme called = scheme;
    change(other, called);
    return net_values_key(other, called) != key;
  };
  CHECK(changed([](Setting& s, Scheme&) { s.rules.try_mean += 1e-12; }));
  CHECK(changed([](Setting& s, Scheme&) { s.spotted_short += 1e-12; }));
  CHECK(changed([](Setting& s, Scheme&) { s.spotted_at_goal += 1e-12; }));
  CHECK(changed([](Setting& s, Scheme&) { s.own_goal[1].safety -= 1e-12; }));
  CHECK(changed([](Setting& s, Scheme&) { s.kickoff.return_touchdown += 1e-12; }));
  CHECK(changed([](Setting& s, Scheme&) { s.families.back().run->shape.p[0] += 1e-9; }));
  CHECK_FALSE(changed([](Setting& s, Scheme&) { s.families.back().run->concentration += 1; }));
  CHECK(changed([](Setting& s, Scheme&) { s.penalties.back().when.down.high = 3; }));
  CHECK(changed([](Setting& s, Scheme&) { s.cells.back().gain_shift[0] += 1e-12; }));
  CHECK(changed([](Setting&, Scheme& c) { c.situations.back().share[0] += 1e-12; }));
  CHECK(changed([](Setting&, Scheme& c) { c.families.front().like = "other"; }));
  CHECK_FALSE(changed([](Setting& s, Scheme& c) { s.label = c.name = "another name"; }));
}
