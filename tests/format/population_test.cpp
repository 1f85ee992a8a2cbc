#include "../support/message_of.hpp"
#include "../support/shipped.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/setting.hpp>
#include <callfit/population/posterior.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <string>

using namespace callfit;
using callfit::testing::message_of;
using callfit::testing::root;
using nlohmann::json;

namespace {

/// The professional setting with its population in place.
json with_population() {
  json document = json::parse(Files().read(root + "settings/pro.json"));
  document["population"] = json::parse(Files().read(root + "settings/population/pro.json"));
  return document;
}

std::string population_message(const json& document) {
  return message_of([&] { parse_setting(document.dump(), "s.json"); });
}

}  // namespace

TEST_CASE("shipped settings know how their quarterbacks differ") {
  for (const char* name : {"pro", "college", "high-school"}) {
    CAPTURE(name);
    const Setting setting = Files().setting(root + "settings/" + name + ".json");
    REQUIRE(setting.population);
    const Population& population = *setting.population;
    for (const FamilyPopulation& family : setting.families)
      for (std::size_t r = 0; r < rate_count; ++r)
        if (family.rates[r])
          CHECK(
              population.find_quantity(family.id + "." + std::string(word(static_cast<Rate>(r)))));
    CHECK(population.find_quantity("shared.scramble"));
    for (const Trait& trait : population.traits) CHECK(trait.loadings.size() == population.factors);
  }
}

// docs/population.md: (1 - completion) / (1 - success). A population made before its setting was
// changed has other slopes.
TEST_CASE("populations are made of the professional setting as it is") {
  const json families = json::parse(Files().read(root + "settings/pro.json"))["families"];
  for (const char* level : {"pro", "college", "high-school"}) {
    const json rates =
        json::parse(Files().read(root + "settings/population/" + level + ".json"))["rates"];
    for (const auto& [id, family] : families.items()) {
      if (family["kind"] != "pass") continue;
      CAPTURE(level, id);
      const auto missed = [&family = family](const char* rate) {
        return 1 - family["rates"][rate]["mean"].get<double>();
      };
      CHECK_THAT(rates[id]["success"]["slope"].get<double>(),
                 Catch::WithinAbs(missed("completion") / missed("success"), 0.0005001));
    }
  }
}

TEST_CASE("a rate's mean in the population is the family's") {
  const Setting setting = Files().setting(root + "settings/pro.json");
  const Population& population = *setting.population;
  const Posterior nothing_known = posterior_of(population, {});
  for (const FamilyPopulation& family : setting.families)
    for (const Rate rate : {Rate::completion, Rate::scramble, Rate::fumble}) {
      const auto& known = family.rates[static_cast<std::size_t>(rate)];
      if (!known) continue;
      const auto q = *population.find_quantity(family.id + "." + std::string(word(rate)));
      CHECK(mean_rate(population.quantities[q].thresholds.front(), nothing_known.marginals[q]) ==
            Approx(known->mean).epsilon(1e-9));
    }
}

TEST_CASE("assumed spreads are scaled, measured ones are not") {
  Population population = *Files().setting(root + "settings/pro.json").population;
  population.assumed_scale = 1.5;
  const Population wider = with_assumed_spreads(population, 2);
  std::size_t assumed = 0;
  for (std::size_t t = 0; t < population.traits.size(); ++t) {
    const double factor = population.traits[t].assumed ? 3 : 1;
    if (population.traits[t].assumed) ++assumed;
    CHECK(wider.traits[t].spread == Approx(factor * population.traits[t].spread));
  }
  CHECK(assumed > 0);
  CHECK(assumed < population.traits.size());
}

TEST_CASE("what is wrong with a population is told by its place") {
  const auto spoiled = [](const std::string& pointer, const json& value) {
    json document = with_population();
    document[json::json_pointer(pointer)] = value;
    return population_message(document);
  };
  REQUIRE(population_message(with_population()) == "accepted");
  CHECK_THAT(spoiled("/population/traits/sack/spread", -1),
             Catch::Contains("s.json: /population/traits/sack/spread: "));
  CHECK_THAT(spoiled("/population/traits/sack/loadings", {0.5}),
             Catch::Contains("/population/traits/sack/loadings: ") &&
                 Catch::Contains("one loading a factor"));
  CHECK_THAT(spoiled("/population/traits/sack/loadings", {0.9, 0.9}),
             Catch::Contains("add up to more than 1"));
  CHECK_THAT(
      spoiled("/population/rates/boot/completion/trait", "completion_quik"),
      Catch::Contains("unknown trait \"completion_quik\"") && Catch::Contains("completion_quick"));
  CHECK_THAT(spoiled("/population/rates/handoff/completion",
                     {{"trait", "sack"}, {"own_spread", 0}, {"source", "x"}}),
             Catch::Contains("the family has no such rate"));
  CHECK_THAT(spoiled("/population/gains/shared/punt", 1),
             Catch::Contains("there is no such gain here"));
  CHECK_THAT(spoiled("/population/levels/college/shift/sak", 0.1),
             Catch::Contains("unknown trait \"sak\""));
  CHECK_THAT(spoiled("/population/traits/sack/level_spread/moon", 0.1),
             Catch::Contains("unknown level \"moon\""));
  CHECK_THAT(spoiled("/population/traits/sack/sprad", 0.1), Catch::Contains("unknown key"));
}
