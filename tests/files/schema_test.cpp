// The schemas in docs/formats are for people and for other programs; ours reads without them. Here
// each is held against its reader, both ways: what one knows, asks for and refuses, so does the
// other.
#include "schema.hpp"
#include "../support/schema_check.hpp"
#include "../support/shipped.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/base/nearest.hpp>
#include <callfit/charting/keys.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/kept.hpp>
#include <callfit/format/observed.hpp>
#include <callfit/format/profile.hpp>
#include <callfit/format/record.hpp>
#include <callfit/format/scheme.hpp>
#include <callfit/format/setting.hpp>
#include <callfit/style/style.hpp>
#include <format/documents.hpp>
#include <format/json_text.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <functional>
#include <map>
#include <set>

using namespace callfit;
using callfit::testing::college;
using callfit::testing::paths_of;
using callfit::testing::root;
using callfit::testing::Spot;
using callfit::testing::spots_of;
using nlohmann::json;

namespace {

json shipped(const std::string& name) { return json::parse(Files().read(root + name)); }

struct Format {
  std::string kind;
  std::vector<json> documents;  ///< together they hold every key of the schema
  std::function<void(const std::string& text)> read;

  json schema = shipped("docs/formats/" + kind + "-1.schema.json");

  /// What the reader finds, by pointer; "" for a document that it takes.
  std::map<std::string, Finding> findings(const json& document) const {
    std::map<std::string, Finding> found;
    try {
      read(document.dump());
    } catch (const InputError& error) {
      for (const Finding& finding : error.findings()) found.emplace(finding.place.field, finding);
    }
    return found;
  }
};

json whole_scheme() {
  return json::parse(R"({
    "format": "callfit-scheme/1", "id": "small", "name": "Small", "about": "", "source": "assumed",
    "families": [
      {"id": "boot", "label": "Boot", "kind": "pass", "about": ""},
      {"id": "dive", "label": "Dive", "kind": "handoff", "about": "", "like": "handoff"}],
    "situations": [
      {"id": "third", "label": "Third", "snaps": 4,
       "when": {"down": [3, 3], "to_go": [7, 99], "yards_to_goal": [1, 99]},
       "calls": {"boot": 3, "dive": 1},
       "calls_by_shell": {"one_high": {"dive": 1}, "two_high": {"dive": 1}, "none_high": {"dive": 1}}},
      {"id": "rest", "label": "Rest", "when": {}, "calls": {"boot": 0.5, "dive": 0.5}}],
    "demands": [
      {"family": "boot", "measure": "completion", "level": 0.62, "weight": 2, "source": "assumed"},
      {"family": "boot", "measure": "interception", "cell": "moving", "level": 0.02},
      {"family": "dive", "measure": "run_gain", "level": 4.5, "better": "more"}],
    "correlations": [{"family": "boot", "matrix": [[1, 0.3], [0.3, 1]]}]
  })");
}

json whole_families() {
  return {{"format", "callfit-families/1"}, {"families", whole_scheme().at("families")}};
}

/// A shipped setting with the keys that it leaves out.
json whole_setting() {
  json setting = shipped("settings/pro.json");
  setting["end_of_half_share"] = 0.05;
  setting["source"] = "assumed";
  setting["about"] = "made whole for a test";
  setting["n"] = {{"rows", 3}};
  const json notes{{"source", "assumed"}, {"n", 3}, {"about", "a word"}};
  const json schema = shipped("docs/formats/callfit-setting-1.schema.json");
  for (const Spot& spot : spots_of(setting, schema)) {
    if (!spot.node || !spot.is_object()) continue;
    const json properties = spot.node->value("properties", json::object());
    for (const auto& [key, ignored] : properties.items()) {
      json& object = setting[spot.at];
      if (notes.contains(key) && !object.contains(key)) object[key] = notes.at(key);
      if (key == "spread_source") object[key] = "assumed";
      if (key == "kickoff_touchback") object[key] = 25;
      if (key == "stands" || key == "spot_foul" || key == "automatic_first_down")
        object[key] = object.value(key, false);
    }
  }
  json shifts = json::object(), gains = json::object(), cell_rates = json::object();
  for (const std::string& rate : all_words<Rate>()) {
    shifts[rate] = 0.1;
    cell_rates[rate] = {{"shift", 0.1}, {"kappa", 50}, {"n", 1}, {"source", "x"}, {"about", "y"}};
  }
  for (const std::string& part : all_words<GainPart>()) gains[part] = 0.1;
  for (json* one : {&shifts, &gains, &cell_rates}) one->update(notes);
  json& cell = setting["cells"][0];
  cell["rates"] = cell_rates;
  cell["gains"] = gains;
  cell["kinds"] = {"pass"};
  cell["families"] = {"boot"};
  json& adjustment = setting["adjustments"][0];
  adjustment.update(
      {{"rates", shifts}, {"gains", gains}, {"kinds", {"pass"}}, {"families", {"boot"}}});
  adjustment["when"] = {{"down", {1, 2}}, {"to_go", {1, 10}}, {"yards_to_goal", {1, 50}}};
  json& quality = setting["quality"]["classes"][0];
  quality.update({{"rates", shifts}, {"gains", gains}});
  json& yards = setting["penalties"][0]["yards"];
  yards = {{"from", 4}, {"p", {0.5, 0.5}}};
  yards.update(notes);
  setting["punt"][0]["return_touchdown"] = 0.01;
  return setting;
}

json whole_profile() {
  Findings notices;
  Files files;
  const Chart chart = files.chart(root + "profiles/demo/new-starter.csv", notices);
  Weighting weighting = weighting_of(college());
  for (Level& level : weighting.levels) level.shift.fill(0.1);
  Profile profile = build_profile("New", {chart}, college(), weighting);
  profile.evidence.sources = {source_after(*college().population, PlaceChange::new_team)};
  profile.evidence.sources[0].name = "team North";
  profile.evidence.tallies[0].source = 0;
  profile.evidence.opponents[0].effects = {OpponentEffect{0.1, 0.05}};
  profile.evidence.coming.assign(college().population->traits.size(), OpponentEffect{0.02, 0.01});
  MixtureCounts mixture{{{0, 1, 0.1}}, 10, 20, 3, 0, 0};
  profile.evidence.mixtures = {mixture};
  return json::parse(profile_to_json(profile, college()));
}

const std::vector<Format>& formats() {
  const Beside beside = [](const std::string& name, const std::string&) {
    return SourceText{Files().read(root + "schemes/" + name), name};
  };
  static std::vector<Format> list{
      {"callfit-families", std::vector<json>{shipped("schemes/families.json"), whole_families()},
       [](const std::string& text) { parse_families(text, "d.json"); }},
      {"callfit-scheme", std::vector<json>{whole_scheme(), shipped("schemes/balanced.json")},
       [beside](const std::string& text) { parse_scheme(text, "d.json", beside); }},
      {"callfit-setting", std::vector<json>{whole_setting()},
       [](const std::string& text) {
         parse_setting(text, "d.json", [](const std::string& name, const std::string&) {
           return SourceText{Files().read(root + "settings/" + name), name};
         });
       }},
      {"callfit-observed", std::vector<json>{shipped("settings/observed/pro-2015-2018.json")},
       [](const std::string& text) { parse_observed(text, "d.json"); }},
      {"callfit-profile", std::vector<json>{whole_profile()},
       [](const std::string& text) { parse_profile(text, "d.json", college()); }},
      {"callfit-scenario",
       std::vector<json>{json::parse(R"({"format": "callfit-scenario/1", "name": "Bolder",
          "about": "x", "changes": [{"path": "rate.a.completion", "set": 0.4},
          {"path": "call.first.boot", "scale": 2}, {"path": "policy", "set": "best"}]})")},
       [](const std::string& text) { parse_scenario(text, "d.json"); }},
      {"callfit-kept",
       std::vector<json>{json::parse(R"({"format": "callfit-kept/1", "date": "2026-08-30",
          "quarterback": "A", "scheme": "B", "charted_snaps": 12,
          "games": [{"game": "opener", "charted_snaps": 12}], "verdicts": [{"family": "boot",
          "family_label": "Boot", "measure": "completion", "when": "moving", "label": "completion",
          "asked": 0.62, "more_is_better": true, "odds": 0.3,
          "estimate": {"centre": 0.6, "low": 0.5, "high": 0.7}}]})")},
       [](const std::string& text) { parse_kept(text, "d.json"); }},
      {"callfit-record",
       std::vector<json>{json::parse(R"({"format": "callfit-record/1", "of": "men", "source": "x",
          "verdicts": [{"low": 0.75, "high": 0.95, "pairs": 700, "mean_odds": 0.82,
          "came_true": 0.78, "standard_error": 0.05}]})"),
                         shipped("settings/record/professional.json")},
       [](const std::string& text) { parse_record(text, "d.json"); }},
      {"callfit-keys",
       std::vector<json>{json::parse(R"({"format": "callfit-keys/1", "commands": {"undo": "F6"},
          "order": ["shell", "platform+pressure"], "choices": {"shell": {"one_high": "s"}}})")},
       [](const std::string& text) { charting::keys_from_json(text, "d.json", {}); }},
      {"callfit-style",
       std::vector<json>{json::parse(R"({"format": "callfit-style/1", "about": "", "theme": "light",
          "colours": {}, "fonts": {"headline": "Open Sans", "text": "Open Sans"},
          "wording": {"fit_note": "A note"}})")},
       [](const std::string& text) { with_style({}, text, "d.json"); }}};
  for (Format& format : list)
    for (json& document : format.documents) document["written_by"] = "callfit 00000000";
  return list;
}

/// Pointers of values that the schema does not have, or has as another kind.
std::vector<std::string> not_described(const json& document, const json& schema) {
  std::vector<std::string> pointers;
  for (const Spot& spot : spots_of(document, schema))
    if (!spot.node) pointers.push_back(spot.at.to_string());
  return pointers;
}

/// One spot a path of the schema: readers read what one path describes at one place.
std::vector<Spot> each_path_once(const json& document, const json& schema) {
  std::set<std::string> seen;
  std::vector<Spot> spots = spots_of(document, schema);
  std::erase_if(spots,
                [&](const Spot& spot) { return !spot.node || !seen.insert(spot.path).second; });
  return spots;
}

std::vector<std::string> keys_of(const json& object) {
  std::vector<std::string> keys;
  for (const auto& [key, ignored] : object.items()) keys.push_back(key);
  return keys;
}

/// Changes every value for which `change` gives another one, all in one document, and checks that
/// the reader says of each what `check` asks.
void change_all(const Format& format, const json& document, const json& schema,
                const std::function<json(const Spot&, const json&)>& change,
                const std::function<void(const Spot&, const json&, const Finding*)>& check) {
  json spoiled = document;
  std::vector<Spot> changed;
  for (const Spot& spot : spots_of(document, schema)) {
    if (!spot.node || spot.at.to_string() == "/format" || spot.is_object() || spot.is_list())
      continue;
    const json other = change(spot, document.at(spot.at));
    if (other.is_discarded()) continue;
    spoiled[spot.at] = other;
    changed.push_back(spot);
  }
  const auto found = format.findings(spoiled);
  for (const Spot& spot : changed) {
    CAPTURE(format.kind, spot.at.to_string(), spot.path);
    const auto finding = found.find(spot.at.to_string());
    check(spot, spoiled.at(spot.at), finding == found.end() ? nullptr : &finding->second);
  }
}

const json unchanged = json(json::value_t::discarded);

void check_misfit(const Spot& spot, const json&, const Finding* finding) {
  REQUIRE(finding);
  CHECK_THAT(finding->what, Catch::EndsWith(" does not fit here"));
  CHECK(finding->mend == "give " + spot.want);
}

/// The value just outside a limit of the schema, or on it.
json at_limit(const json& node, bool low, bool outside) {
  const char* inclusive = low ? "minimum" : "maximum";
  const char* exclusive = low ? "exclusiveMinimum" : "exclusiveMaximum";
  if (node.contains(exclusive)) return outside ? node.at(exclusive) : unchanged;
  if (!node.contains(inclusive)) return unchanged;
  const json limit = node.at(inclusive);
  if (!outside) return limit;
  if (node.at("type") == "integer") return limit.get<int>() + (low ? -1 : 1);
  const double value = limit.get<double>();
  return std::nextafter(value, low ? value - 1 : value + 1);
}

}  // namespace

TEST_CASE("every document is described by its schema") {
  std::set<std::string> kinds;
  for (const Format& format : formats()) {
    kinds.insert(format.kind);
    CAPTURE(format.kind);
    for (const json& document : format.documents) {
      CHECK(not_described(document, format.schema).empty());
      for (const auto& [pointer, finding] : format.findings(document)) FAIL(to_text(finding));
    }
  }
  for (const char* folder : {"schemes", "settings", "settings/observed"})
    for (const auto& entry : std::filesystem::directory_iterator(root + folder)) {
      if (entry.path().extension() != ".json") continue;
      INFO(entry.path());
      Files files;
      const std::string path = entry.path().string();
      json document = merged_setting(parse_json(files.read(path), path), path, files.beside());
      document.erase("population");  // docs/formats.md describes it; the reader refuses what is not
      const auto kind = document.at("format").get<std::string>();
      const json schema =
          shipped("docs/formats/" + kind.substr(0, kind.find('/')) + "-1.schema.json");
      CHECK(not_described(document, schema) == std::vector<std::string>{});
    }
  const auto schemas = std::distance(std::filesystem::directory_iterator(root + "docs/formats"),
                                     std::filesystem::directory_iterator());
  // Cases are held by case_test.cpp, net values by the drive tests, answers by those of the report,
  // populations below.
  constexpr std::size_t held_elsewhere = 4;
  CHECK(kinds.size() + held_elsewhere == static_cast<std::size_t>(schemas));
}

TEST_CASE("the documents hold every key of the schemas") {
  for (const Format& format : formats()) {
    std::set<std::string> held;
    for (const json& document : format.documents)
      for (const Spot& spot : spots_of(document, format.schema)) held.insert(spot.path);
    for (const std::string& path : paths_of(format.schema)) {
      // Read before the rest, and colours in a test of their own.
      if (path == "/properties/based_on" || path.starts_with("/properties/colours/")) continue;
      CAPTURE(format.kind, path);
      CHECK(held.contains(path));
    }
  }
}

TEST_CASE("readers know the keys of the schemas and no others") {
  const std::string stranger = "zzzzzzzz";
  for (const Format& format : formats())
    for (const json& document : format.documents) {
      json spoiled = document;
      std::vector<Spot> objects;
      for (const Spot& spot : spots_of(document, format.schema)) {
        if (!spot.node || !spot.is_object() || !spot.has_own_keys()) continue;
        spoiled[spot.at][stranger] = 1;
        objects.push_back(spot);
      }
      const auto found = format.findings(spoiled);
      for (const Spot& spot : objects) {
        const std::string pointer = spot.at.to_string() + "/" + stranger;
        CAPTURE(format.kind, pointer);
        REQUIRE(found.contains(pointer));
        CHECK(found.at(pointer).what == "unknown key");
        CHECK(found.at(pointer).mend == suggest(stranger, keys_of(spot.node->at("properties"))));
      }
    }
}

TEST_CASE("readers ask for the keys that the schemas require", "[plain]") {
  // Which of these keys are needed depends on the family and the setting.
  const std::set<std::string> depends{"rates", "gains", "interception_depth", "families"};
  for (const Format& format : formats())
    for (const json& document : format.documents) {
      std::map<std::string, std::string> wants;
      for (const Spot& spot : spots_of(document, format.schema))
        wants.emplace(spot.at.to_string(), spot.want);
      for (const Spot& spot : each_path_once(document, format.schema)) {
        if (!spot.is_object() || !spot.has_own_keys()) continue;
        const json required = spot.node->value("required", json::array());
        for (const auto& [key, ignored] : document.at(spot.at).items()) {
          if (key == "format") continue;
          json spoiled = document;
          spoiled[spot.at].erase(key);
          const std::string pointer = (spot.at / key).to_string();
          CAPTURE(format.kind, pointer);
          const auto found = format.findings(spoiled);
          const bool is_missing = found.contains(pointer) && found.at(pointer).what == "is missing";
          const bool is_required =
              std::find(required.begin(), required.end(), key) != required.end();
          if (is_required) {
            CHECK(is_missing);
          } else if (!depends.contains(key) &&
                     (spot.at.empty() || !depends.contains(spot.at.back()))) {
            CHECK_FALSE(is_missing);
          }
          if (!is_missing || !is_required) continue;
          CHECK(found.at(pointer).mend == "give " + wants.at(pointer));
        }
      }
    }
}

TEST_CASE("readers refuse another kind of value, in the words of the schemas", "[plain]") {
  for (const Format& format : formats())
    for (const json& document : format.documents) {
      change_all(
          format, document, format.schema,
          [](const Spot& spot, const json&) -> json {
            if (spot.node->value("type", json()) == "boolean") return 3;
            return true;
          },
          check_misfit);
      for (const Spot& spot : each_path_once(document, format.schema)) {
        if ((!spot.is_object() && !spot.is_list()) || spot.at.empty()) continue;
        json spoiled = document;
        spoiled[spot.at] = true;
        const auto found = format.findings(spoiled);
        CAPTURE(format.kind, spot.at.to_string());
        const auto finding = found.find(spot.at.to_string());
        REQUIRE(finding != found.end());
        check_misfit(spot, true, &finding->second);
      }
    }
}

TEST_CASE("readers have the limits of the schemas") {
  for (const Format& format : formats())
    for (const json& document : format.documents)
      for (const bool low : {true, false}) {
        const auto limit = [low](bool outside) {
          return [low, outside](const Spot& spot, const json& value) {
            return value.is_number() ? at_limit(*spot.node, low, outside) : unchanged;
          };
        };
        change_all(format, document, format.schema, limit(true), check_misfit);
        change_all(format, document, format.schema, limit(false),
                   [](const Spot&, const json&, const Finding* finding) {
                     CHECK_FALSE((finding && finding->what.ends_with(" does not fit here")));
                   });
      }
}

TEST_CASE("readers have the words, patterns and lengths of the schemas") {
  for (const Format& format : formats())
    for (const json& document : format.documents) {
      change_all(
          format, document, format.schema,
          [](const Spot& spot, const json&) {
            return spot.node->contains("enum") ? json("zzzzzzzzzzzzzz") : unchanged;
          },
          [](const Spot& spot, const json& value, const Finding* finding) {
            REQUIRE(finding);
            CHECK(finding->what == "unknown word " + value.dump());
            const auto words = spot.node->at("enum").get<std::vector<std::string>>();
            CHECK(finding->mend == suggest(value.get<std::string>(), words));
          });
      change_all(
          format, document, format.schema,
          [](const Spot& spot, const json&) {
            return spot.node->contains("pattern") ? json("<A b>") : unchanged;
          },
          check_misfit);
      change_all(
          format, document, format.schema,
          [](const Spot& spot, const json&) {
            return spot.node->value("minLength", 0) > 0 ? json("") : unchanged;
          },
          check_misfit);
      change_all(
          format, document, format.schema,
          [](const Spot& spot, const json&) {
            return spot.node->contains("maxLength")
                       ? json(std::string(spot.node->at("maxLength").get<std::size_t>() + 1, 'a'))
                       : unchanged;
          },
          check_misfit);
    }
}

TEST_CASE("readers have the sizes of the schemas", "[plain]") {
  for (const Format& format : formats())
    for (const json& document : format.documents)
      for (const Spot& spot : each_path_once(document, format.schema)) {
        const json& value = document.at(spot.at);
        const char* fewest = spot.is_list() ? "minItems" : "minProperties";
        std::vector<json> wrong;
        if (spot.node->value(fewest, 0) > 0)
          wrong.push_back(spot.is_list() ? json::array() : json::object());
        if (spot.node->contains("maxItems") && !value.empty())
          wrong.push_back(json(spot.node->at("maxItems").get<std::size_t>() + 1, value[0]));
        for (const json& size : wrong) {
          CAPTURE(format.kind, spot.at.to_string(), size.size());
          json spoiled = document;
          spoiled[spot.at] = size;
          const auto found = format.findings(spoiled);
          const auto finding = found.find(spot.at.to_string());
          REQUIRE(finding != found.end());
          check_misfit(spot, size, &finding->second);
        }
      }
}

TEST_CASE("the style's schema knows every colour") {
  const json schema = shipped("docs/formats/callfit-style-1.schema.json");
  const json& colours = schema.at("properties").at("colours").at("properties");
  CHECK(keys_of(colours).size() == ink_count);
  for (const std::string& ink : all_words<Ink>()) CHECK(colours.contains(ink));
}

// A population has no format of its own: it stands in a setting. Reader and schema are held to
// refuse the same.
TEST_CASE("populations are described by their schema") {
  const json schema = shipped("docs/formats/callfit-population-1.schema.json");
  for (const std::string name : {"college", "high-school", "pro"}) {
    CAPTURE(name);
    CHECK(test::schema_faults(shipped("settings/population/" + name + ".json"), schema) ==
          std::vector<std::string>{});
  }
  const json good = shipped("settings/population/pro.json");
  const auto is_read = [](const json& population) {
    json setting = shipped("settings/pro.json");
    setting["population"] = population;
    try {
      parse_setting(setting.dump(), "d.json", Files().beside());
    } catch (const InputError&) {
      return false;
    }
    return true;
  };
  REQUIRE(is_read(good));
  const auto check_refused = [&](const json& population, const std::string& what) {
    CAPTURE(what);
    CHECK_FALSE(test::schema_faults(population, schema).empty());
    CHECK_FALSE(is_read(population));
  };
  struct Object {
    std::string at, definition;
  };
  for (const Object& object :
       {Object{"", ""}, Object{"/traits/sack", "trait"},
        Object{"/rates/quick_outside/completion", "link"}, Object{"/levels/college", "level"}}) {
    const json& described =
        object.definition.empty() ? schema : schema["definitions"][object.definition];
    for (const json& key : described["required"]) {
      json lacking = good;
      lacking[json::json_pointer(object.at)].erase(key.get<std::string>());
      check_refused(lacking, object.at + " lacks " + key.dump());
    }
    json stranger = good;
    stranger[json::json_pointer(object.at)]["zzz"] = 1;
    check_refused(stranger, object.at + " has a stranger");
    for (const auto& [key, ignored] : described["properties"].items()) {
      const json* node = &described["properties"][key];
      if (node->contains("$ref"))
        node = &schema.at(json::json_pointer((*node)["$ref"].get<std::string>().substr(1)));
      if (!node->contains("maximum")) continue;
      json too_much = good;
      too_much[json::json_pointer(object.at)][key] = (*node)["maximum"].get<double>() + 0.5;
      check_refused(too_much, object.at + "/" + key + " is too much");
      too_much[json::json_pointer(object.at)][key] = (*node)["minimum"].get<double>() - 0.5;
      check_refused(too_much, object.at + "/" + key + " is too little");
    }
  }
  json noted = good;
  noted["traits"]["sack"]["spread_why"] = "x";
  CHECK(test::schema_faults(noted, schema).empty());
  CHECK(is_read(noted));
}
