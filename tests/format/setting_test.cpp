#include "../support/message_of.hpp"
#include "../support/shipped.hpp"
#include "../support/sum.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/setting.hpp>
#include <callfit/report/number_text.hpp>
#include <callfit/stats/beta.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <map>
#include <numeric>

using namespace callfit;
using callfit::testing::message_of;
using callfit::testing::root;
using callfit::testing::sum;
using nlohmann::json;

namespace {

json professional() { return json::parse(Files().read(root + "settings/pro.json")); }

SourceText beside_settings(const std::string& name, const std::string&) {
  return {Files().read(root + "settings/" + name), name};
}

Setting parse(const json& document) {
  return parse_setting(document.dump(), "s.json", beside_settings);
}

std::string setting_message(const json& document) {
  return message_of([&] { parse(document); });
}

}  // namespace

TEST_CASE("the shipped settings are read whole") {
  const std::string name = GENERATE("pro", "college", "high-school");
  const Setting setting = Files().setting(root + "settings/" + name + ".json");
  CHECK(setting.id == name);
  CHECK(setting.families.size() == 12);
  REQUIRE(setting.find_family("deep_middle"));
  const FamilyPopulation& deep = *setting.find_family("deep_middle");
  CHECK(deep.kind == FamilyKind::pass);
  CHECK(sum(deep.depth->shape.p) == Approx(1).epsilon(1e-12));
  CHECK(deep.depth->bin_start.front() == deep.depth->shape.first);
  CHECK(setting.find_level(setting.level));
  CHECK(sum(start_shares(setting)) == Approx(1).epsilon(1e-12));
  CHECK(setting.sack_gain.shape.last() <= 0);
  CHECK(first_match(setting.fourth_down, 4, 99, 99) < setting.fourth_down.size());
  CHECK(first_match(setting.shells, 1, 10, 75) < setting.shells.size());
  for (const FourthDownRule& rule : setting.fourth_down)
    CHECK(rule.go + rule.punt + rule.field_goal == Approx(1).epsilon(1e-12));
}

TEST_CASE("numbers arrive where they belong") {
  const json document = professional();
  const Setting setting = Files().setting(root + "settings/pro.json");
  const json& boot = document.at("families").at("boot").at("rates").at("completion");
  const auto& rate = setting.find_family("boot")->rates[static_cast<std::size_t>(Rate::completion)];
  CHECK(rate->mean == boot.at("mean").get<double>());
  // The spread follows from the population: to first order m (1 - m) times that of the log-odds.
  const Population& population = *setting.population;
  const Quantity& quantity = population.quantities[*population.find_quantity("boot.completion")];
  CHECK(rate->spread ==
        Approx(std::hypot(population.traits[quantity.trait].spread, quantity.own_spread) *
               rate->mean * (1 - rate->mean))
            .epsilon(0.03));
  CHECK(setting.rules.missed_kick_behind_line ==
        document.at("rules").at("missed_kick").at("behind_line").get<int>());
  CHECK(setting.rules.touchback_own_yard == document.at("rules").at("other_touchback").get<int>());
  CHECK(setting.field_goal.slope == document.at("field_goal").at("slope").get<double>());
  CHECK(setting.kickoff.own_yard.first == document.at("kickoff").at("start").at("from").get<int>());
  CHECK(setting.adjustments.size() == document.at("adjustments").size());
  CHECK(setting.penalties.size() == document.at("penalties").size());
  CHECK(setting.cells.size() == document.at("cells").size());
}

TEST_CASE("a population under which quarterbacks are all alike is refused") {
  json document = professional();
  document["population"] = json::parse(Files().read(root + "settings/population/pro.json"));
  document["population"]["traits"]["interception"]["spread"] = 0;
  for (json& rates : document["population"]["rates"])
    if (rates.contains("interception")) rates["interception"]["own_spread"] = 0;
  CHECK_THROWS_WITH(
      parse_setting(document.dump(), "s.json", beside_settings),
      Catch::Contains(
          "s.json: /population/rates/boot/interception: quarterbacks would all be alike"));
}

TEST_CASE("docs/settings.md tells the 10% and 90% points of deep completion as they are") {
  const Setting setting = Files().setting(root + "settings/pro.json");
  std::vector<std::string> points;
  for (const char* family : {"deep_outside", "deep_middle"}) {
    const RatePopulation& rate =
        *setting.find_family(family)->rates[static_cast<std::size_t>(Rate::completion)];
    const Beta population = Beta::of_moments(rate.mean, rate.spread * rate.spread);
    for (const double p : {0.1, 0.9}) points.push_back(percent(quantile(population, p)));
  }
  const std::string text = Files().read(CALLFIT_SOURCE_DIR "/docs/settings.md");
  CHECK_THAT(text, Catch::Contains("completes less than " + points[0] + " of his deep"));
  CHECK_THAT(text, Catch::Contains("one in ten more than " + points[1]));
  CHECK_THAT(text, Catch::Contains("these points are " + points[2] + " and " + points[3]));
}

TEST_CASE("penalty yards are a distance, or a move of the ball where the play counts in") {
  json document = professional();
  document["penalties"] = json::parse(R"([
    {"id": "plain", "side": "offence", "probability": 0.01, "yards": 5, "source": "assumed"},
    {"id": "long", "side": "defence", "probability": 0.01, "spot_foul": true,
     "yards": {"from": 10, "p": [0.5, 0.5]}, "source": "assumed"},
    {"id": "with_play", "side": "offence", "probability": 0.01, "stands": true,
     "when": {"down": [3, 3]}, "yards": {"from": -2, "p": [0.25, 0, 0, 0.75]},
     "source": "assumed"}])");
  const Setting setting = parse(document);
  REQUIRE(setting.penalties.size() == 3);
  CHECK(setting.penalties[0].yards.at(5) == 1);
  CHECK(setting.penalties[0].move.p.empty());
  CHECK(setting.penalties[1].yards.at(11) == 0.5);
  CHECK(setting.penalties[1].spot_foul);
  // 1 yard against the offence moves the ball 1 back, -2 moves it 2 ahead.
  CHECK(setting.penalties[2].yards.p.empty());
  CHECK(setting.penalties[2].move.at(-1) == 0.75);
  CHECK(setting.penalties[2].move.at(2) == 0.25);
  CHECK(setting.penalties[2].down_counts);
  CHECK(setting.penalties[2].when.down.low == 3);
}

// RFC 7386, section 3, in our terms: objects merge, lists are replaced.
TEST_CASE("a setting can be laid over another one") {
  const std::map<std::string, std::string> texts{
      {"base", Files().read(root + "settings/pro.json")},
      {"mine", R"({"format": "callfit-setting/1", "based_on": "base",
    "id": "mine", "label": "Mine", "families": {"boot": {"rates": {"completion": {"mean": 0.5}}}},
    "fourth_down": [{"when": {}, "go": 1, "punt": 0, "field_goal": 0}]})"},
      {"loop", R"({"based_on": "loop"})"},
      {"lost", R"({"based_on": "nowhere"})"}};
  const Beside beside = [&](const std::string& name, const std::string& source) {
    if (name == "population/pro.json") return beside_settings(name, source);
    if (!texts.contains(name)) throw InputError(Finding{{name, 0, ""}, "no such text", ""});
    return SourceText{texts.at(name), name};
  };
  const auto read = [&](const std::string& name) {
    return parse_setting(texts.at(name), name, beside);
  };
  const Setting base = read("base");
  const Setting mine = read("mine");
  const auto completion = static_cast<std::size_t>(Rate::completion);
  CHECK(mine.id == "mine");
  CHECK(mine.find_family("boot")->rates[completion]->mean == 0.5);
  // The population's spread is one of log-odds: to first order m (1 - m) of it in shares.
  const RatePopulation& usual = *base.find_family("boot")->rates[completion];
  CHECK(mine.find_family("boot")->rates[completion]->spread ==
        Approx(usual.spread * 0.25 / (usual.mean * (1 - usual.mean))).epsilon(0.02));
  CHECK(mine.fourth_down.size() == 1);
  CHECK(mine.penalties.size() == base.penalties.size());
  CHECK_THROWS_WITH(read("loop"),
                    Catch::Contains("/based_on: settings are based on each other without end"));
  CHECK_THROWS_WITH(read("lost"), "nowhere: no such text");
}

TEST_CASE("each fault of a setting has its message") {
  struct Case {
    const char* pointer;
    const char* value;
    const char* message;
  };
  const auto [pointer, value, message] = GENERATE(values<Case>({
      {"/families/boot/rates/completion/mean", "1.2",
       "s.json: /families/boot/rates/completion/mean: 1.2 does not fit here; give a mean above 0 "
       "and below 1"},
      {"/families/boot/rates/completion/spread", "0.5",
       "s.json: /families/boot/rates/completion/spread: players cannot differ that much around "
       "this "
       "mean; give a spread below sqrt(mean (1 - mean))"},
      {"/families/boot/rates/completion", "{\"mean\": 0.6, \"spread\": 0.04}",
       "s.json: /families/boot/rates/completion/source: is missing; give where the numbers come "
       "from: a key of sources, or words; \"assumed\" if nowhere"},
      {"/families/handoff/rates/sack", "{\"mean\": 0.1, \"spread\": 0.01, \"source\": \"assumed\"}",
       "s.json: /families/handoff/rates/sack: does not apply to a handoff; leave it out"},
      {"/families/boot/rates",
       "{\"success\": {\"mean\": 0.5, \"spread\": 0.04, \"source\": \"assumed\"},"
       "\"explosive\": {\"mean\": 0.1, \"spread\": 0.04, \"source\": \"assumed\"},"
       "\"sack\": {\"mean\": 0.1, \"spread\": 0.04, \"source\": \"assumed\"},"
       "\"scramble\": {\"mean\": 0.1, \"spread\": 0.04, \"source\": \"assumed\"},"
       "\"completion\": {\"mean\": 0.6, \"spread\": 0.04, \"source\": \"assumed\"},"
       "\"fumble\": {\"mean\": 0.1, \"spread\": 0.04, \"source\": \"assumed\"}}",
       "s.json: /families/boot/rates/interception: is missing; give {\"mean\": ..., \"spread\": "
       "..., \"source\": ...}"},
      {"/families/boot/kind", "\"pas\"",
       "s.json: /families/boot/kind: unknown word \"pas\"; did you mean pass?"},
      {"/families/handoff/gains/run/kappa", "0",
       "s.json: /families/handoff/gains/run/kappa: 0 does not fit here; give the Dirichlet "
       "concentration of the bins, 0.01 to 1000000"},
      {"/cells/0/rates/completion/kappa", "1e-17",
       "s.json: /cells/0/rates/completion/kappa: 1e-17 does not fit here; give how many snaps the "
       "shifted family rate is worth, 0.01 to 1000000"},
      {"/families/boot/rates/completion/spread", "1e-17",
       "s.json: /families/boot/rates/completion/spread: 1e-17 does not fit here; give the standard "
       "deviation between players, 0.0001 to 0.5"},
      {"/kickoff/start/p", "[0.5, 0.4]",
       "s.json: /kickoff/start/p: the shares add up to 0.9; let them add up to 1"},
      {"/fourth_down",
       "[{\"when\": {\"down\": [4, 4]}, \"go\": 1, \"punt\": 0, \"field_goal\": 0},"
       "{\"when\": {\"to_go\": [1, 5]}, \"go\": 1, \"punt\": 0, \"field_goal\": 0}]",
       "s.json: /fourth_down/1/when: the last rule does not match everything; end the list with "
       "\"when\": {}"},
      {"/adjustments/0/families", "[\"bot\"]",
       "s.json: /adjustments/0/families/0: unknown family \"bot\"; did you mean boot?"},
      {"/adjustments/0/rates/completions", "0.1",
       "s.json: /adjustments/0/rates/completions: unknown key; did you mean completion?"},
      {"/cells/0/value", "\"two_hi\"",
       "s.json: /cells/0/value: unknown word \"two_hi\"; did you mean two_high?"},
      {"/level", "\"colege\"",
       "s.json: /level: \"colege\" is none of levels; did you mean college?"},
      {"/levels/college/weight", "2",
       "s.json: /levels/college/weight: 2 does not fit here; give the weight of its snaps, from 0 "
       "to 1"},
      {"/punt",
       "[{\"yards_to_goal\": [1, 98], \"touchback\": 0.1, \"net\": {\"from\": 40, \"p\": "
       "[1]}, \"source\": \"assumed\"}]",
       "s.json: /punt: no rule for 99 yards to goal; cover 1 to 99"},
      {"/penalties/0/probability", "0.99",
       "s.json: /penalties: penalties on down 1 add up to more than 0.9; give probabilities per "
       "snap"},
      {"/penalties/0/yards", "-5",
       "s.json: /penalties/0/yards: -5 does not fit here; give yards against the side that fouled: "
       "a number above 0, or probabilities of yards"},
      {"/penalties/0/yards", "{\"from\": 3, \"p\": [0.2]}",
       "s.json: /penalties/0/yards/p: the shares add up to 0.2; let them add up to 1"},
      {"/penalties/0/yards", "{\"from\": 3, \"p\": [-1]}",
       "s.json: /penalties/0/yards/p/0: -1 does not fit here; give a probability from 0 to 1"},
      {"/field_goal/slope", "0.1",
       "s.json: /field_goal/slope: 0.1 does not fit here; give a number of at most 0"},
      {"/rules/touchdown", "\"six\"",
       "s.json: /rules/touchdown: \"six\" does not fit here; give points of a touchdown"},
      {"/families/handoff/gains/run",
       R"({"from": -2, "p": [0.1, 0.2, 0.3, 0.4], "bins": [-3, 0], "kappa": 50, "source": "assumed"})",
       R"(s.json: /families/handoff/gains/run/bins: the first bin begins at -3, the probabilities at -2; let the first bin begin there too)"},
      {"/families/handoff/gains/run",
       R"({"from": -2, "p": [0.1, 0.2, 0.3, 0.4], "bins": [-2, 0, 0], "kappa": 50, "source": "assumed"})",
       R"(s.json: /families/handoff/gains/run/bins: the bins do not ascend; list the lowest yard of each bin in order)"},
      {"/families/handoff/gains/run",
       R"({"from": -2, "p": [0.1, 0.2, 0.3, 0.4], "bins": [-2, 0, 2], "kappa": 50, "source": "assumed"})",
       R"(s.json: /families/handoff/gains/run/bins/2: no gain falls into the bin; join it with a neighbour)"},
      {"/kickoff/start", R"({"from": 98, "p": [0.5, 0.2, 0.3]})",
       R"(s.json: /kickoff/start: yards 98 to 100 leave the field; give own yard lines within 1 to 99)"},
      {"/shells/0",
       R"({"when": {}, "one_high": 0.9, "two_high": 0.5, "none_high": 0.15, "source": "assumed"})",
       R"(s.json: /shells/0: the shares add up to 1.55; let them add up to 1)"},
      {"/quality/classes", R"([{"weight": 0.5}, {"weight": 0.75}])",
       R"(s.json: /quality/classes: the shares add up to 1.25; let them add up to 1)"},
      {"/shared_gains/sack",
       R"({"from": -2, "p": [0.1, 0.2, 0.3, 0.4], "bins": [-2, 0], "kappa": 50, "source": "assumed"})",
       R"(s.json: /shared_gains/sack: a sack cannot gain; give gains of 0 and below)"},
      {"/starts",
       R"({"any": {"share": 0.5, "start": {"from": 25, "p": [1]}, "source": "assumed"}})",
       R"(s.json: /starts: the shares add up to 0.5; let them add up to 1)"},
  }));
  json document = professional();
  document[json::json_pointer(pointer)] = json::parse(value);
  CHECK(setting_message(document) == message);
}
