#include "sample_answers.hpp"

#include <callfit/base/random.hpp>
#include <callfit/format/json.hpp>
#include <callfit/report/door.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace callfit;
using namespace callfit::test;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

Request read(const std::string& text) { return request_from_json(text, sample_case()); }

Findings faults_of(const std::string& text) {
  try {
    read(text);
  } catch (const InputError& error) {
    return error.findings();
  }
  return {};
}

// The one thing that is wrong.
std::string fault_of(const std::string& text) {
  const Findings findings = faults_of(text);
  INFO(text);
  REQUIRE(findings.size() == 1);
  return to_text(findings.front());
}

}  // namespace

TEST_CASE("a request says its kind, and leaves out what is usual") {
  const auto fit = std::get<FitRequest>(read(R"({"kind": "fit"})"));
  CHECK(fit.stand.quarterback == 0);
  CHECK_FALSE(fit.weights_by_points);
  const auto next = std::get<NextRequest>(read(R"({"kind": "next"})"));
  CHECK(next.snaps == NextRequest{}.snaps);
}

TEST_CASE("quarterbacks and schemes go by name, id or place from 1") {
  const auto named = std::get<LeversRequest>(
      read(R"({"kind": "levers", "quarterback": "new-starter", "scheme": "Balanced"})"));
  CHECK(named.stand.scheme == 1);
  const auto by_id = std::get<LeversRequest>(read(R"({"kind": "levers", "scheme": "balanced"})"));
  CHECK(by_id.stand.scheme == 1);
  const auto placed =
      std::get<LeversRequest>(read(R"({"kind": "levers", "quarterback": 3, "scheme": 2})"));
  CHECK(placed.stand.quarterback == 2);
  CHECK(placed.stand.scheme == 1);
}

TEST_CASE("every request reads back as it was written, with all that was left out") {
  for (const Asked& asked : samples()) {
    const std::string text = request_to_json(asked.request, sample_case());
    INFO(text);
    const Request again = read(text);
    CHECK(again.index() == asked.request.index());
    CHECK(request_to_json(again, sample_case()) == text);
  }
  const auto drives = std::get<DrivesRequest>(read(request_to_json(
      DrivesRequest{{2, 1, {{"policy", Change::Way::word, 0, "best"}}}, DriveState{2, 7, 40}, 500},
      sample_case())));
  CHECK(drives.stand.quarterback == 2);  // by place: two are called so
  CHECK(drives.stand.changes.at(0).word == "best");
  CHECK(drives.from->to_go == 7);
  CHECK(drives.sampled_drives == 500);
}

TEST_CASE("a bad request is refused with its place and what would be right") {
  CHECK(fault_of(R"({"kind": "levrs"})") ==
        "request: /kind: no question is called \"levrs\"; did you mean levers?");
  CHECK_THAT(fault_of(R"({"quarterback": 1})"), Contains("/kind: is missing; give fit, drives"));
  CHECK_THAT(fault_of(R"({"kind": "fit", "weights": true})"), Contains("/weights: unknown key"));
  CHECK_THAT(fault_of(R"({"kind": "fit", "weights_by_points": 1})"),
             Contains("/weights_by_points: 1 does not fit here; give true or false"));
  CHECK_THAT(fault_of(R"({"kind": "fit", "quarterback": "new-startr"})"),
             Contains("/quarterback: no quarterback of the case is called \"new-startr\"; did you "
                      "mean new-starter?"));
  CHECK_THAT(fault_of(R"({"kind": "fit", "quarterback": "last-starter"})"),
             Contains("/quarterback: \"last-starter\" fits 2 of the case; give the place: 2 or 3"));
  for (const char* place : {"0", "4", "-1", "1.5", "true", "99999999999999999999"})
    CHECK_THAT(fault_of(R"({"kind": "fit", "quarterback": )" + std::string(place) + "}"),
               Contains("/quarterback: ") && Contains("a place from 1 to 3"));
  CHECK_THAT(fault_of("[]"), Contains("a request such as"));
}

TEST_CASE("numbers out of range are refused where they stand") {
  CHECK_THAT(fault_of(R"({"kind": "drives", "from": {"down": 5, "to_go": 1, "yards_to_goal": 9}})"),
             Contains("/from/down: 5 does not fit here; give a whole number from 1 to 4"));
  CHECK_THAT(
      fault_of(R"({"kind": "drives", "from": {"down": 1, "to_go": 10, "yards_to_goal": 9}})"),
      Contains("/from/to_go: lies beyond the goal"));
  CHECK_THAT(fault_of(R"({"kind": "drives", "sampled_drives": -1})"), Contains("/sampled_drives"));
  CHECK_THAT(fault_of(R"({"kind": "sweep", "ranges": [
                        {"path": "a", "from": 0, "to": 1, "count": 1}]})"),
             Contains("/ranges/0/count: 1 does not fit here; give a whole number from 2 to 101"));
  CHECK_THAT(fault_of(R"({"kind": "sweep", "ranges": []})"), Contains("/ranges"));
  CHECK_THAT(fault_of(R"({"kind": "sweep", "ranges": [{"path": "a", "from": 0, "to": 1},
                                                      {"path": "a", "from": 0, "to": 1}]})"),
             Contains("/ranges: both ranges turn the same path"));
  CHECK_THAT(fault_of(R"({"kind": "next", "snaps": 0})"), Contains("/snaps"));
  CHECK_THAT(fault_of(R"({"kind": "tailor", "limits": {"move": 0}})"), Contains("/limits/move"));
  CHECK_THAT(fault_of(R"({"kind": "tailor", "limits": {"move": 0.5, "fade": 3}})"),
             Contains("/limits: fade x move is above 1"));
  CHECK_THAT(fault_of(R"({"kind": "tailor", "limits": {"fade": -1}})"), Contains("/limits/fade"));
}

TEST_CASE("changes, packages and lists are checked inside") {
  CHECK_THAT(fault_of(R"({"kind": "try", "tries": [{"changes": [{"path": "a"}]}]})"),
             Contains("/tries/0/changes/0: needs either set or scale"));
  CHECK_THAT(fault_of(R"({"kind": "fit", "changes": [{"path": "a", "scale": -1}]})"),
             Contains("/changes/0/scale"));
  CHECK_THAT(fault_of(R"({"kind": "package", "package": {"family": "bot", "share": 0.1}})"),
             Contains("/package/family: the scheme has no family \"bot\"; did you mean boot?"));
  // Of an unknown scheme's families nothing is said.
  CHECK_THAT(fault_of(R"({"kind": "package", "scheme": "quik-middle",
                          "package": {"family": "bot", "share": 0.1}})"),
             Contains("/scheme: no scheme of the case is called \"quik-middle\"; did you mean "
                      "quick-middle?"));
  CHECK_THAT(fault_of(R"({"kind": "package", "package": {"family": "boot", "share": 1.1}})"),
             Contains("/package/share: 1.1 does not fit here"));
  CHECK_THAT(fault_of(R"({"kind": "package", "package": {"family": "boot", "share": 0.1,
                                                         "inside_yards": 0}})"),
             Contains("/package/inside_yards: 0 does not fit here"));
  CHECK_THAT(fault_of(R"({"kind": "compare", "quarterbacks": [1, "new-starter"]})"),
             Contains("/quarterbacks/1: stands twice"));
  CHECK_THAT(fault_of(R"({"kind": "brief", "first": {}})"), Contains("/second: is missing"));
  const Findings both = faults_of(R"({"kind": "brief", "first": {"scheme": 7}, "second": 2})");
  CHECK(both.size() == 2);
}

TEST_CASE("what is no JSON, twice said, too long or too deep is refused in one line") {
  CHECK_THAT(fault_of("{\"kind\": }"), Contains("request:1: column 10: not valid JSON"));
  CHECK_THAT(fault_of(""), Contains("not valid JSON"));
  CHECK_THAT(fault_of(R"({"kind": "fit", "kind": "fit"})"), Contains("the key stands twice"));
  CHECK_THAT(fault_of("{\"kind\": \"\xff\"}"), Contains("not valid JSON"));
  CHECK_THAT(fault_of(R"({"kind": "next", "snaps": 1e999})"), Contains("too large"));
  CHECK_THAT(fault_of(std::string(longest_request + 1, ' ')), Contains("give at most 1048576"));
  CHECK_THAT(fault_of(std::string(deepest_json + 1, '[')),
             Contains("is nested 65 levels deep; give at most 64"));
  CHECK_THAT(fault_of(std::string(500'000, '[')), Contains("is nested 500000 levels deep"));
  // Brackets in a text are no levels.
  CHECK_THAT(fault_of(R"({"kind": ")" + std::string(100, '[') + "\\\"{\"}"),
             Contains("/kind: no question is called"));
}

TEST_CASE("a request mutated at random is read or refused, nothing else") {
  Stream random(7, Purpose::sampling, 0);
  const auto below = [&](std::size_t end) { return static_cast<std::size_t>(random() % end); };
  constexpr std::string_view bytes = "{}[]\",:0123456789.-+eEtrufalsn\\ /\x01\xff";
  std::size_t refused = 0;
  std::vector<std::string> texts;
  for (const Asked& asked : samples())
    texts.push_back(request_to_json(asked.request, sample_case()));
  constexpr std::size_t tries = 4000;
  for (std::size_t i = 0; i < tries; ++i) {
    std::string text = texts[below(texts.size())];
    for (std::size_t change = 0; change <= below(3); ++change) {
      const std::size_t at = below(text.size());
      if (below(2) == 0)
        text[at] = bytes[below(bytes.size())];
      else
        text.erase(at, 1 + below(8));
    }
    try {
      read(text);
    } catch (const InputError& error) {
      ++refused;
      CHECK_FALSE(error.findings().empty());
    }
  }
  CHECK(refused > tries / 2);
  CHECK(refused < tries);
}

TEST_CASE("what is wrong goes back as a document") {
  const InputError error(Findings{{{"request", 0, "/kind"}, "is missing", "give fit"},
                                  {{"request", 0, "/x"}, "unknown key", ""}});
  const json document = json::parse(error_document(error));
  CHECK(document.at("format") == "callfit-error/1");
  CHECK(document.at("findings").at(0) ==
        json{{"path", "/kind"}, {"what", "is missing"}, {"mend", "give fit"}});
  CHECK(document.at("findings").size() == 2);
}
