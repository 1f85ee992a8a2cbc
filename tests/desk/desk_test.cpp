// The demo's case on a desk, called as a page calls it.
#include "../ask/demo_case.hpp"
#include "../cli/program.hpp"
#include "../support/repeats.hpp"

#include <callfit/base/random.hpp>
#include <callfit/desk/desk.hpp>
#include <desk/reading.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <filesystem>

using namespace callfit;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

const char* const ball = "rate.intermediate.completion";
const char* const asked = "demand.intermediate.completion.level";
const char* const called = "call.all.intermediate";

// A case of the demo's men in a folder of its own; the desk's draws are few.
class OpenDesk {
 public:
  explicit OpenDesk(Case about = testing::demo_case(500))
      : file_(folder_.write("case.json", R"({"format": "callfit-case/1", "tries": []})")),
        desk_({with_no_tries(std::move(about)),
               folder_.read("case.json"),
               file_.string(),
               folder_.path().string(),
               {{{"odds"}, "How often."}}},
              1) {}

  json ask(const std::string& target, const json& question = json::object(), int status = 200) {
    const desk::Reply reply = desk_.answer({"POST", target, {}, question.dump()});
    INFO(target + ' ' + question.dump() + ' ' + reply.body.substr(0, 500));
    CHECK(reply.status == status);
    return json::parse(reply.body);
  }
  json view(const json& changes, const json& turn = nullptr, bool following = false) {
    json question{{"stand", {{"changes", changes}}}, {"following", following}};
    if (!turn.is_null()) question["turn"] = turn;
    return ask("/view", question);
  }

  const test::Scratch& folder() const { return folder_; }
  desk::Desk& desk() { return desk_; }

 private:
  static Case with_no_tries(Case about) {
    about.tries.clear();
    return about;
  }

  test::Scratch folder_;
  fs::path file_;
  desk::Desk desk_;
};

OpenDesk& shared() {
  static OpenDesk place;
  return place;
}

json handle(const json& view, const std::string& path) {
  for (const json& family : view.at("families")) {
    if (family.at("calls").at("path") == path) return family.at("calls");
    for (const json& demand : family.at("demands"))
      for (const char* kind : {"does", "asked"})
        if (demand.at(kind).is_object() && demand.at(kind).at("path") == path)
          return demand.at(kind);
  }
  return nullptr;
}

}  // namespace

TEST_CASE("the page's files are in the program, and nothing else is a file") {
  for (const char* target : {"/", "/desk.css", "/desk.js", "/store.js"})
    CHECK(desk::Desk::is_page_file(target));
  for (const char* target :
       {"/index.html", "//", "/../case.json", "/%2e%2e/case.json", "/case.json", "/desk.js/",
        "/desk.js%00", "/./desk.js", "/..%2fcase.json", "/desk.css?x", "\\desk.js", "/Desk.js"}) {
    CHECK_FALSE(desk::Desk::is_page_file(target));
    CHECK(shared().desk().answer({"GET", target, {}, ""}).status == 404);
  }
}

TEST_CASE("the first view says the verdict, draws it, and marks what can be turned") {
  const json view = shared().view(json::array());
  CHECK_FALSE(view.at("verdict").get<std::string>().empty());
  CHECK_FALSE(view.at("paragraph").get<std::string>().empty());
  CHECK(view.at("turned").empty());
  const auto svg = view.at("svg").get<std::string>();
  for (const char* path : {ball, asked, called}) {
    CHECK(svg.find(std::string("id=\"") + path + '"') != std::string::npos);
    REQUIRE(handle(view, path).is_object());
    CHECK(handle(view, path).at("text") == handle(view, path).at("began"));
  }
}

TEST_CASE("each kind of handle turns its path, and what it does is said") {
  for (const char* path : {ball, asked, called}) {
    const json view = shared().view(json::array(), {{"path", path}, {"steps", 3}});
    const json changes = view.at("stand").at("changes");
    REQUIRE(changes.size() == 1);
    CHECK(changes[0].at("path") == path);
    CHECK(handle(view, path).at("is_turned") == true);
    REQUIRE(view.at("turned").size() == 1);
    CHECK(view.at("turned")[0].at("path") == path);
    CHECK_FALSE(view.at("effect").get<std::string>().empty());
    const json back = shared().view(changes, {{"path", path}, {"steps", -3}});
    CHECK(back.at("stand").at("changes").empty());
  }
}

TEST_CASE("a ball goes where the hand goes, and a typed value is taken") {
  const double before = handle(shared().view(json::array()), ball).at("now");
  const json moved = shared().view(json::array(), {{"path", ball}, {"units", 1}});
  CHECK(handle(moved, ball).at("now").get<double>() > before);
  const json typed = shared().view(json::array(), {{"path", ball}, {"typed", "61%"}});
  CHECK(handle(typed, ball).at("now").get<double>() == Approx(0.61));
  CHECK(handle(typed, ball).at("text") == "61%");
}

TEST_CASE("while something moves the turn is the same, and no verdict on it is given", "[plain]") {
  for (const char* path : {ball, called}) {
    const json turn{{"path", path}, {"steps", 2}};
    const json quick = shared().view(json::array(), turn, true);
    const json settled = shared().view(json::array(), turn, false);
    CHECK(quick.at("stand") == settled.at("stand"));
    CHECK(handle(quick, path).at("text") == handle(settled, path).at("text"));
    CHECK_FALSE(quick.contains("effect"));
    CHECK(settled.contains("effect"));
  }
}

TEST_CASE("what cannot be turned is told, and the desk goes on") {
  const auto fault = [](const json& question) {
    return shared().ask("/view", question, 422).at("findings").at(0).at("path");
  };
  CHECK(fault({{"turn", {{"path", "rate.nothing"}, {"steps", 1}}}}) == "/turn/path");
  CHECK(fault({{"turn", {{"path", ball}}}}) == "/turn");
  CHECK(fault({{"turn", {{"path", ball}, {"steps", 1}, {"typed", "1"}}}}) == "/turn");
  CHECK(fault({{"turn", {{"path", ball}, {"steps", "far"}}}}) == "/turn/steps");
  CHECK(fault({{"stand", {{"quarterback", 3}}}}) == "/stand/quarterback");
  CHECK(fault({{"stand", 7}}) == "/stand");
  CHECK(fault({{"frame", "round"}}) == "/frame");
  CHECK(fault({{"nothing", 1}}) == "/nothing");
  shared().ask("/view", {{"turn", {{"path", ball}, {"typed", "200%"}}}}, 422);
  shared().ask("/view", {{"turn", {{"path", ball}, {"typed", "much"}}}}, 422);
  for (const char* body : {"", "[", "null", "[]", "{\"stand\":", "\xff\xfe", "{\"a\":1e999}"})
    CHECK(shared().desk().answer({"POST", "/view", {}, body}).status == 422);
  CHECK(shared().desk().answer({"POST", "/view", {}, std::string(100'000, '[')}).status == 422);
  CHECK(shared().view(json::array()).contains("svg"));
}

TEST_CASE("a request with some bytes changed is read or refused, never more", "[plain]") {
  const Case& about = testing::demo_case(500);
  const std::string whole =
      R"({"stand": {"quarterback": "New starter", "scheme": 2, "changes": [{"path": "a.b", "set": 0.5},
      {"path": "policy", "set": "best"}]}, "turn": {"path": "rate.boot.completion", "units": -1.5e1},
      "following": true, "frame": "tall", "theme": "dark"})";
  CHECK(desk::sight_in(whole, about).following);
  Stream random(7, Purpose::sampling, 1);
  const auto below = [&random](std::size_t bound) {
    return static_cast<std::size_t>(random.uniform() * static_cast<double>(bound));
  };
  std::size_t refused = 0;
  const std::size_t times = testing::repeats(20'000);
  for (std::size_t i = 0; i < times; ++i) {
    std::string text = whole;
    for (std::size_t edits = 1 + below(4); edits > 0; --edits) {
      const std::size_t at = below(text.size());
      if (below(3) == 0)
        text.erase(at, 1 + below(20));
      else if (below(2) == 0)
        text.insert(at, 1, static_cast<char>(below(256)));
      else
        text[at] = static_cast<char>(below(256));
      if (text.empty()) break;
    }
    try {
      desk::sight_in(text, about);
    } catch (const InputError&) {
      ++refused;
    }
  }
  CHECK(refused > times / 2);
}

TEST_CASE("two or three things worth trying can be laid over the stand") {
  const json levers = shared().ask("/levers").at("levers");
  REQUIRE(levers.size() >= 2);
  REQUIRE(levers.size() <= 3);
  for (const json& lever : levers) {
    CHECK_FALSE(lever.at("words").get<std::string>().empty());
    CHECK(shared().view(lever.at("changes")).at("turned").size() == 1);
  }
}

TEST_CASE("tries are kept in the case's file by name, and dropped") {
  OpenDesk place;
  const json changes{{{"path", ball}, {"set", 0.6}}};
  json table = place.ask("/tries/keep", {{"name", "more"}, {"stand", {{"changes", changes}}}});
  REQUIRE(table.at("tries").size() == 1);
  CHECK(table.at("tries")[0].at("cells").size() == table.at("heads").size());
  const json kept = json::parse(place.folder().read("case.json"));
  CHECK(kept.at("format") == "callfit-case/1");
  REQUIRE(kept.at("tries").size() == 1);
  CHECK(kept.at("tries")[0] == json{{"name", "more"}, {"changes", changes}});
  const json other{{{"path", ball}, {"set", 0.7}}};
  place.ask("/tries/keep", {{"name", "more"}, {"stand", {{"changes", other}}}});
  CHECK(json::parse(place.folder().read("case.json")).at("tries").size() == 1);
  place.ask("/tries/drop", {{"name", "nothing"}}, 422);
  CHECK(place.ask("/tries/drop", {{"name", "more"}}).at("tries").empty());
  CHECK(json::parse(place.folder().read("case.json")).at("tries").empty());
}

TEST_CASE("what somebody else wrote into the case is not lost") {
  OpenDesk place;
  const std::string theirs = R"({"format": "callfit-case/1", "tries": [], "name": "theirs"})";
  place.folder().write("case.json", theirs);
  place.ask("/tries/keep", {{"name", "mine"}}, 422);
  CHECK(place.folder().read("case.json") == theirs);
  CHECK(place.ask("/tries").at("tries").empty());
}

TEST_CASE("a second desk on one case is told") {
  OpenDesk place;
  const std::string file = (place.folder().path() / "case.json").string();
  const auto second = [&] {
    return desk::Desk({testing::demo_case(500), place.folder().read("case.json"), file, ".", {}},
                      1);
  };
  CHECK_THROWS_WITH(second(), Catch::Contains("is open on another desk"));
}

TEST_CASE("a picture is written beside the case, over nothing that is there", "[plain]") {
  OpenDesk place;
  const auto names = [&](const char* name) {
    return place.ask("/publish", {{"name", name}}).at("files");
  };
  CHECK(names("case") == json{"case.svg", "case.png", "case.txt"});
  CHECK(names("case") == json{"case-2.svg", "case-2.png", "case-2.txt"});
  CHECK(names("../../up & away") == json{"up-away.svg", "up-away.png", "up-away.txt"});
  CHECK(place.folder().read("case.png").substr(1, 3) == "PNG");
  CHECK(place.folder().read("case.txt").find("Cautions:") != std::string::npos);
  fs::create_symlink("/nowhere", place.folder().path() / "away.svg");
  CHECK(names("away")[0] == "away-2.svg");
}

TEST_CASE("names from a case never become markup") {
  Case about = testing::demo_case(500);
  const std::string hostile = "<script>alert(1)</script>\"'&amp;<img src=x onerror=alert(1)>";
  about.quarterbacks[0].profile.name = hostile;
  OpenDesk place(std::move(about));
  const auto svg = place.view(json::array()).at("svg").get<std::string>();
  CHECK(svg.find("&lt;script&gt;") != std::string::npos);
  CHECK(svg.find("<script") == std::string::npos);
  CHECK(svg.find("<img") == std::string::npos);
  CHECK(place.ask("/case").at("quarterbacks")[0] == hostile);
}

TEST_CASE("kept answers of the folder are listed, other files passed over") {
  OpenDesk place;
  place.folder().write("other.json", "{}");
  place.folder().write("broken.json", "{");
  CHECK(place.ask("/kept").at("kept").empty());
  place.folder().write("said.json", R"({"format": "callfit-kept/1", "date": "2026-09-01",
    "quarterback": "A", "scheme": "B", "charted_snaps": 40, "games": [], "verdicts": [{"family": "boot",
    "family_label": "Boot", "measure": "completion", "label": "completion", "asked": 0.6,
    "more_is_better": true, "estimate": {"centre": 0.5, "low": 0.4, "high": 0.55}, "odds": 0.02}]})");
  const json kept = place.ask("/kept").at("kept");
  REQUIRE(kept.size() == 1);
  CHECK(kept[0].at("date") == "2026-09-01");
  CHECK(kept[0].at("verdicts")[0].at("said").get<std::string>().find("clearly short") !=
        std::string::npos);
}

TEST_CASE("the snaps behind a number come as words, row by row") {
  const json view = shared().view(json::array());
  const std::string number = handle(view, ball).at("snaps");
  const json snaps = shared().ask("/snaps", {{"number", number}});
  CHECK(snaps.at("number") == ball);
  const json whole = shared().ask("/ask", {{"kind", "snaps"}, {"number", number}}).at("answer");
  REQUIRE(snaps.at("rows").size() == whole.at("rows").size());
  REQUIRE_FALSE(snaps.at("up").empty());
  const std::size_t first = whole.at("most_up")[0];
  CHECK(snaps.at("up")[0] == snaps.at("rows")[first]);
  const json& row = whole.at("rows")[first];
  CHECK(snaps.at("up")[0][0].get<std::string>().ends_with(
      ":" + std::to_string(row.at("line").get<int>())));
  for (const json& cells : snaps.at("rows")) CHECK(cells.size() == snaps.at("heads").size());
  CHECK(shared().ask("/snaps", {{"number", handle(view, asked).at("snaps")}}).at("number") ==
        "demand.intermediate.completion");
  CHECK_FALSE(handle(view, called).contains("snaps"));
  CHECK(snaps.at("numbers").size() > 100);
  CHECK(shared().ask("/snaps", {{"number", "nothing"}}, 422).at("format") == "callfit-error/1");
  CHECK(shared().ask("/snaps", {{"stand", json::object()}}, 422).at("findings")[0].at("path") ==
        "/number");
}

TEST_CASE("kept answers are told with what came of them", "[plain]") {
  OpenDesk place;
  const Case about = testing::demo_case(500);
  const auto said = [&about](double of_each_game) {
    json games = json::array();
    for (const GameContribution& game : about.quarterbacks[0].profile.games)
      games.push_back({{"game", game.game}, {"charted_snaps", of_each_game * game.snaps}});
    return json{{"format", "callfit-kept/1"},
                {"date", "2026-09-01"},
                {"quarterback", "New starter"},
                {"scheme", "B"},
                {"charted_snaps", 40},
                {"games", games},
                {"verdicts",
                 {{{"family", "quick_middle"},
                   {"family_label", "Quick middle"},
                   {"measure", "completion"},
                   {"label", "completion"},
                   {"asked", 0.01},
                   {"more_is_better", true},
                   {"estimate", {{"centre", 0.6}, {"low", 0.5}, {"high", 0.7}}},
                   {"odds", 0.99}}}}}
        .dump();
  };
  place.folder().write("said.json", said(0.5));
  json kept = place.ask("/kept").at("kept")[0];
  CHECK(kept.at("since").get<std::string>().starts_with("Since then clear: 1 said"));
  CHECK(kept.at("verdicts")[0].at("came").get<std::string>().find("it came so") !=
        std::string::npos);
  place.folder().write("said.json", said(1));
  kept = place.ask("/kept").at("kept")[0];
  CHECK(kept.at("since") == "Nothing of him was charted since.");
  CHECK_FALSE(kept.at("verdicts")[0].contains("came"));
}

TEST_CASE("the door answers through the desk as everywhere") {
  const json answer = shared().ask("/ask", {{"kind", "say"}});
  CHECK(answer.at("format") == "callfit-answer/1");
  CHECK(shared().ask("/ask", {{"kind", "nothing"}}, 422).at("format") == "callfit-error/1");
}
