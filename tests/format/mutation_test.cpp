// Broken files: whatever is in them, readers answer with InputError or with values, nothing else.
#include "../support/shipped.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/base/random.hpp>
#include <callfit/chart/odd_rows.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/observed.hpp>
#include <callfit/format/profile.hpp>
#include <callfit/format/scheme.hpp>
#include <callfit/format/setting.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <functional>

using namespace callfit;
using callfit::testing::root;
using nlohmann::json;

namespace {

/// Small whole numbers from a fixed seed.
class Dice {
 public:
  explicit Dice(std::uint64_t unit) : stream_(20261125, Purpose::player_draw, unit) {}
  std::size_t below(std::size_t n) { return static_cast<std::size_t>(stream_() % n); }

 private:
  Stream stream_;
};

std::string mutated_bytes(std::string text, Dice& dice) {
  static constexpr std::string_view spice("\"\n\r,;\t{}[]:-+.eE09\0\xFF\xC3\\", 23);
  for (std::size_t times = 1 + dice.below(6); times-- > 0 && !text.empty();) {
    const std::size_t at = dice.below(text.size());
    switch (dice.below(4)) {
      case 0:
        text[at] = spice[dice.below(spice.size())];
        break;
      case 1:
        text.insert(at, 1, spice[dice.below(spice.size())]);
        break;
      case 2:
        text.erase(at, 1 + dice.below(40));
        break;
      default:
        text.insert(at, text.substr(dice.below(text.size()), dice.below(80)));
    }
  }
  return text;
}

json any_value(Dice& dice) {
  static const std::vector<json> values{
      nullptr, true,   -1,    0,  1e300,         99999999999LL,  0.5,
      "",      "boot", "x/~", {}, json::array(), json::object(), json::array({1, 2}),
      -1e-320};
  return values[dice.below(values.size())];
}

void mutate(json& node, Dice& dice, int depth) {
  if (depth == 0 || !node.is_structured() || node.empty()) {
    node = any_value(dice);
    return;
  }
  auto entry = node.begin();
  std::advance(entry, static_cast<std::ptrdiff_t>(dice.below(node.size())));
  if (dice.below(12) == 0)
    node.erase(entry);
  else
    mutate(*entry, dice, depth - 1);
}

json mutated(json document, Dice& dice) {
  mutate(document, dice, 1 + static_cast<int>(dice.below(6)));
  return document;
}

/// How often reading was refused; anything but InputError escapes and fails the test.
int refusals(int times, std::uint64_t unit, const std::function<void(Dice&)>& read) {
  int refused = 0;
  Dice dice(unit);
  for (int i = 0; i < times; ++i) {
    try {
      read(dice);
    } catch (const InputError& error) {
      ++refused;
      CHECK_FALSE(std::string(error.what()).empty());
    }
  }
  return refused;
}

}  // namespace

TEST_CASE("mutated charts are read or refused") {
  const std::string whole = Files().read(root + "profiles/demo/new-starter.csv");
  const std::string chart = whole.substr(0, whole.find('\n', 6000) + 1);  // whole rows
  const int refused = refusals(400, 1, [&](Dice& dice) {
    Findings notices;
    odd_rows(parse_chart(mutated_bytes(chart, dice), "c.csv", notices));
  });
  CHECK(refused > 40);
  CHECK(refused < 400);
}

TEST_CASE("bytes of any kind are no chart") {
  const int refused = refusals(300, 2, [](Dice& dice) {
    std::string text;
    for (std::size_t n = dice.below(300); n-- > 0;) text += static_cast<char>(dice.below(256));
    Findings notices;
    parse_chart(text, "c.csv", notices);
  });
  CHECK(refused == 300);
}

TEST_CASE("mutated schemes are read or refused") {
  const std::string text = Files().read(root + "schemes/quick-middle-option.json");
  const json document = json::parse(text);
  const Beside beside = [](const std::string& name, const std::string&) {
    return SourceText{Files().read(root + "schemes/" + name), name};
  };
  const int refused = refusals(300, 3, [&](Dice& dice) {
    const std::string bad =
        dice.below(2) == 0 ? mutated_bytes(text, dice) : mutated(document, dice).dump();
    scheme_to_json(parse_scheme(bad, "s.json", beside));
  });
  CHECK(refused > 100);
}

TEST_CASE("mutated settings are read or refused") {
  json document = json::parse(Files().read(root + "settings/pro.json"));
  document["population"] =
      json::parse(Files().read(root + "settings/" + document.at("population").get<std::string>()));
  const int refused = refusals(60, 4, [&](Dice& dice) {
    start_shares(parse_setting(mutated(document, dice).dump(), "s.json"));
  });
  CHECK(refused > 20);
}

TEST_CASE("mutated profiles are read or refused") {
  const Setting setting = Files().setting(root + "settings/college.json");
  Findings notices;
  const Chart chart = Files().chart(root + "profiles/demo/new-starter.csv", notices);
  const json document = json::parse(
      profile_to_json(build_profile("New", {chart}, setting, weighting_of(setting)), setting));
  const int refused = refusals(100, 5, [&](Dice& dice) {
    mean_player(parse_profile(mutated(document, dice).dump(), "p.json", setting), setting);
  });
  CHECK(refused > 30);
}

TEST_CASE("mutated observations are read or refused") {
  const json document = json::parse(Files().read(root + "settings/observed/pro-2015-2018.json"));
  const int refused = refusals(
      100, 6, [&](Dice& dice) { parse_observed(mutated(document, dice).dump(), "o.json"); });
  CHECK(refused > 30);
}
