#include "../support/message_of.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/scheme.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <filesystem>
#include <numeric>

using namespace callfit;
using callfit::testing::message_of;
using nlohmann::json;

namespace {

const std::string schemes = CALLFIT_SOURCE_DIR "/schemes";

/// Finds what a scheme names among the shipped ones.
SourceText shipped(const std::string& name, const std::string& source) {
  CHECK(source == "s.json");
  return {Files().read(schemes + "/" + name), name};
}

json small_scheme() {
  return json::parse(R"({
    "format": "callfit-scheme/1", "id": "small", "name": "Small", "about": "", "source": "assumed",
    "families": [
      {"id": "boot", "label": "Boot", "kind": "pass", "about": ""},
      {"id": "dive", "label": "Dive", "kind": "handoff", "about": "", "like": "handoff"}],
    "situations": [
      {"id": "third", "label": "Third", "when": {"down": [3, 3], "to_go": [7, 99]},
       "calls": {"boot": 3, "dive": 1}, "calls_by_shell": {"two_high": {"dive": 1}}},
      {"id": "rest", "label": "Rest", "when": {}, "calls": {"boot": 0.5, "dive": 0.5}}],
    "demands": [
      {"family": "boot", "measure": "completion", "level": 0.62, "weight": 2},
      {"family": "boot", "measure": "interception", "cell": "moving", "level": 0.02},
      {"family": "dive", "measure": "run_gain", "level": 4.5, "better": "more"}],
    "correlations": [{"family": "boot", "matrix": [[1, 0.3], [0.3, 1]]}]
  })");
}

std::string scheme_message(const json& document) {
  return message_of([&] { parse_scheme(document.dump(), "s.json", shipped); });
}

}  // namespace

TEST_CASE("a scheme is read as written, weights as shares") {
  const Scheme scheme = parse_scheme(small_scheme().dump(), "s.json");
  CHECK(scheme.families.at(1).kind == FamilyKind::handoff);
  CHECK(scheme.families.at(1).like == "handoff");
  CHECK(scheme.situations.at(0).share == std::vector<double>{0.75, 0.25});
  CHECK(scheme.situations.at(0).against(Shell::two_high) == std::vector<double>{0, 1});
  CHECK(scheme.situations.at(0).against(Shell::one_high) == std::vector<double>{0.75, 0.25});
  CHECK(first_match(scheme.situations, 3, 7, 50) == 0);
  CHECK(first_match(scheme.situations, 3, 6, 50) == 1);
  CHECK(scheme.demands.at(0).weight == 2);
  CHECK(scheme.demands.at(0).more_is_better);
  CHECK_FALSE(scheme.demands.at(1).more_is_better);
  CHECK(scheme.demands.at(1).cell == Cell::moving);
  CHECK(scheme.correlations.at(0).matrix[0][1] == 0.3);
}

TEST_CASE("a scheme written and read back is the same") {
  const Scheme first = Files().scheme(schemes + "/quick-middle-option.json");
  const std::string text = scheme_to_json(first);
  const Scheme second = parse_scheme(text, "again.json");
  CHECK(scheme_to_json(second) == text);
  CHECK(second.situations.size() == first.situations.size());
  CHECK(second.situations[0].share == first.situations[0].share);
}

TEST_CASE("each shipped scheme is sound") {
  std::size_t found = 0;
  for (const auto& entry : std::filesystem::directory_iterator(schemes)) {
    if (entry.path().stem() == "families" || entry.path().extension() != ".json") continue;
    INFO(entry.path());
    const Scheme scheme = Files().scheme(entry.path().string());
    CHECK(scheme.id == entry.path().stem().string());
    for (const CallSituation& situation : scheme.situations)
      CHECK(std::accumulate(situation.share.begin(), situation.share.end(), 0.0) ==
            Approx(1).epsilon(1e-12));
    ++found;
  }
  CHECK(found >= 6);
  CHECK(Files().families(schemes + "/families.json").size() == 12);
}

// A common check value of the trade, no source: a coordinator who rarely runs his quarterback
// calls it on a small share of snaps; an option scheme does so often.
TEST_CASE("planned quarterback runs are rare where the scheme says so") {
  const auto run_share = [](const char* name) {
    const Scheme scheme = Files().scheme(schemes + "/" + name + ".json");
    double share = 0;
    for (std::size_t f = 0; f < scheme.families.size(); ++f)
      if (scheme.families[f].kind == FamilyKind::qb_run) share += scheme.situations.back().share[f];
    return share;
  };
  CHECK(run_share("quick-middle-option") < 0.05);
  CHECK(run_share("dropback-timing") < 0.02);
  CHECK(run_share("spread-option-run") > 0.15);
}

TEST_CASE("each fault of a scheme has its message") {
  struct Case {
    const char* pointer;
    const char* value;
    const char* message;
  };
  const auto [pointer, value, message] = GENERATE(values<Case>({
      {"/format", "\"callfit-setting/1\"",
       "s.json: /format: \"callfit-setting/1\" is not what is read here; give a file of format "
       "\"callfit-scheme/1\""},
      {"/format", "\"callfit-scheme/2\"",
       "s.json: /format: \"callfit-scheme/2\" is not what is read here; give a file of format "
       "\"callfit-scheme/1\""},
      {"/families/0/kind", "\"pas\"",
       "s.json: /families/0/kind: unknown word \"pas\"; did you mean pass?"},
      {"/families/0/id", "\"Boot 1\"",
       "s.json: /families/0/id: \"Boot 1\" does not fit here; give an id of small letters, digits "
       "and underscores that begins with a letter, such as deep_middle"},
      {"/families/1/id", "\"boot\"",
       "s.json: /families/1/id: the id boot is taken; give each family its own"},
      {"/families", "\"no.json\"", nullptr},
      {"/colour", "1",
       "s.json: /colour: unknown key; use about, correlations, demands, families, format, id, "
       "name, "
       "situations, source or written_by"},
      {"/situations", "[]",
       "s.json: /situations: a list of 0 does not fit here; give a list of situations; the first "
       "that matches counts, the last must match everything"},
      {"/situations/1/when", "{\"down\": [1, 3]}",
       "s.json: /situations/1/when: the last situation does not match everything; end the list "
       "with "
       "a situation whose when is {}"},
      {"/situations/0/when/down", "[3, 2]",
       "s.json: /situations/0/when/down: the range [3,2] runs backwards; give [low, high] with low "
       "at most high"},
      {"/situations/0/when/to_go", "[0, 0]",
       "s.json: /situations/0/when/to_go: reaches nothing; give a range within 1 to 99"},
      {"/situations/0/when/down", "3",
       "s.json: /situations/0/when/down: 3 does not fit here; give an inclusive range of whole "
       "numbers [low, high]"},
      {"/situations/0/calls/boots", "2",
       "s.json: /situations/0/calls/boots: unknown family \"boots\"; did you mean boot?"},
      {"/situations/0/calls/boot", "-2",
       "s.json: /situations/0/calls/boot: -2 does not fit here; give a weight of 0 or more"},
      {"/situations/0/calls/boot", "\"2\"",
       "s.json: /situations/0/calls/boot: \"2\" does not fit here; give a weight of 0 or more"},
      {"/situations/1/calls", "{\"boot\": 0}",
       "s.json: /situations/1/calls: nothing is called here; give at least one family a weight "
       "above 0"},
      {"/situations/1/id", "\"third\"",
       "s.json: /situations/1/id: the id third is taken; give each situation its own"},
      {"/demands/0/measure", "\"completions\"",
       "s.json: /demands/0/measure: unknown word \"completions\"; did you mean completion?"},
      {"/demands/0/cell", "\"on_the_run\"",
       "s.json: /demands/0/cell: unknown word \"on_the_run\"; use one_high, two_high, none_high, "
       "pocket, moving, clean, pressure, left, middle, right, short, intermediate or deep"},
      {"/demands/0/level", "62",
       "s.json: /demands/0/level: 62 does not fit here; give a share from "
       "0 to 1, or yards for yards_after_catch and run_gain"},
      {"/demands/0/level", "1.2",
       "s.json: /demands/0/level: 1.2 is not a share; give a share from 0 to 1"},
      {"/demands/0/weight", "-1",
       "s.json: /demands/0/weight: -1 does not fit here; give a weight of 0 or more"},
      {"/demands/2/measure", "\"completion\"",
       "s.json: /demands/2/level: 4.5 is not a share; give a share from 0 to 1\n"
       "s.json: /demands/2/measure: completion does not apply to dive, which is a handoff; demand "
       "success, explosive, fumble, evaded or run_gain"},
      {"/demands/0/family", "\"bot\"",
       "s.json: /demands/0/family: unknown family \"bot\"; did you mean boot?"},
      {"/demands/0/family", "\"\"",
       "s.json: /demands/0/family: unknown family \"\"; use boot or dive"},
      {"/situations/0/calls", "{\"\": 1}",
       "s.json: /situations/0/calls/: unknown family \"\"; use boot or dive"},
      {"/correlations/0/matrix", "[[1, 0.3], [0.2, 1]]",
       "s.json: /correlations/0/matrix: the matrix is not symmetric; give a symmetric, positive "
       "definite matrix with ones on its diagonal"},
      {"/correlations/0/matrix", "[[1, 1], [1, 1]]",
       "s.json: /correlations/0/matrix: the matrix is not positive definite; give a symmetric, "
       "positive definite matrix with ones on its diagonal"},
      {"/correlations/0/matrix", "[[0.9, 0.3], [0.3, 1]]",
       "s.json: /correlations/0/matrix: the diagonal is not all 1; give a symmetric, positive "
       "definite matrix with ones on its diagonal"},
      {"/correlations/0/matrix", "[[1, 0.3], [0.3]]",
       "s.json: /correlations/0/matrix: row 2 has 1 entries where the family's demands make it 2 x "
       "2; give a symmetric, positive definite matrix with ones on its diagonal"},
  }));
  json document = small_scheme();
  document[json::json_pointer(pointer)] = json::parse(value);
  if (message)
    CHECK(scheme_message(document) == message);
  else
    CHECK(scheme_message(document) ==
          schemes + "/no.json: no such file; check the name and the folder");
}

TEST_CASE("missing keys and several faults are told together") {
  json document = small_scheme();
  document.erase("name");
  document["demands"][0].erase("level");
  document["demands"][1]["measure"] = 3;
  CHECK(scheme_message(document) ==
        "s.json: /name: is missing; give a name of 1 to 80 characters\n"
        "s.json: /demands/0/level: is missing; give a share from 0 to 1, or yards for "
        "yards_after_catch and run_gain\n"
        "s.json: /demands/1/measure: 3 does not fit here; give sack, scramble, completion, "
        "interception, on_time, catchable, pressured, success, explosive, fumble, evaded, "
        "yards_after_catch or run_gain");
  CHECK(scheme_message(json::array()) ==
        "s.json: is not a JSON object; write {\"format\": \"callfit-scheme/1\", ...}");
  CHECK(scheme_message(json::object()) ==
        "s.json: /format: is missing; add \"format\": \"callfit-scheme/1\"");
}
