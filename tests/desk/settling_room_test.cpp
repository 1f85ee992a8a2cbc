// The room where two charts of the same snaps are held against each other, called as a page calls
// it, and what is on the disk then.
#include "taping.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/chart/agreement.hpp>
#include <callfit/charting/chart_rows.hpp>
#include <callfit/report/agreement_text.hpp>
#include <desk/charting_room.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <filesystem>

using namespace callfit;
using namespace callfit::desk;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

const std::string chart_head =
    "game,level,down,to_go,yards_to_goal,family,result,yards,platform,clip,start,end,mood\n";
const std::string mine = chart_head +
                         "G1,college,1,10,75,boot,complete,12,pocket,one.mp4,5,9,good\n"
                         "G1,college,1,10,63,boot,incomplete,0,moving,one.mp4,15,,\n"
                         "G1,college,2,10,63,handoff,run,3,,one.mp4,25,29,\n";
const std::string theirs = chart_head +
                           "G1,college,1,10,75,boot,complete,12,moving,,,,\n"
                           "G1,college,1,10,63,boot,complete,7,moving,,,,\n"
                           "G1,college,2,10,63,handoff,run,3,,,,,\n"
                           "G1,college,3,7,60,boot,complete,9,pocket,,,,\n";

Taping two_charts(const test::Scratch& folder) {
  Taping taping = taping_in(folder, "mine.csv");
  taping.against = (folder.path() / "theirs.csv").string();
  return taping;
}

void put_charts(const test::Scratch& folder, const std::string& a, const std::string& b) {
  folder.write("mine.csv", a);
  folder.write("theirs.csv", b);
  folder.write("one.mp4", std::string("\0\0\0\x18"
                                      "ftypisom\0\0\0\0",
                                      16));
}

std::string keys_body(const std::vector<std::string>& keys) { return json{{"keys", keys}}.dump(); }

std::string fault_of(const std::function<void()>& act) {
  try {
    act();
  } catch (const InputError& error) {
    return to_text(error.findings().front());
  }
  return "";
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t place = text.find(from);
  REQUIRE(place != std::string::npos);
  return text.replace(place, from.size(), to);
}

// What a page is told while a chart is typed.
std::vector<std::string> told_blind(const std::string& other) {
  const test::Scratch folder;
  put_charts(folder, chart_head, other);
  ChartingRoom room(two_charts(folder));
  std::vector<std::string> told{room.state(), room.key_map(), room.so_far()};
  for (const char* key : {"Enter", "G", "1", "Enter", "q", "7", "5", "t", "c", "9", "Shift+Enter"})
    told.push_back(room.keys(json{{"keys", {{{"key", key}}}}}.dump()));
  for (const auto& act : std::vector<std::function<void()>>{
           [&] { room.settling().state(); }, [&] { room.settling().keys(keys_body({"2"})); }})
    told.push_back(fault_of(act));
  CHECK(room.is_blind());
  return told;
}

}  // namespace

TEST_CASE("settling room: while a chart is typed, nothing that is told depends on the other one") {
  const std::vector<std::string> told = told_blind(theirs);
  // Other rows, more of them, other columns; the games are called the same, which is told.
  const std::string other =
      "game,level,down,to_go,yards_to_goal,family,result,yards,note\n"
      "G1,college,4,1,1,handoff,run,1,secret\nG1,college,1,10,50,handoff,run,1,\n"
      "G1,college,2,9,49,boot,intercepted,0,\nG1,college,1,10,20,boot,sack,-9,\n"
      "G1,college,2,19,29,boot,scramble,2,\n";
  CHECK(told_blind(other) == told);
  for (const std::string& one : told) CHECK(one.find("secret") == std::string::npos);
  CHECK(told_blind(replaced(theirs, "G1", "G9")) != told);
}

TEST_CASE("settling room: what was charted blind is sealed, and the two are held together") {
  const test::Scratch folder;
  put_charts(folder, mine, theirs);
  ChartingRoom room(two_charts(folder));
  CHECK(json::parse(room.state())["against"]["is_blind"] == true);
  const json state = json::parse(room.settling().begin());
  CHECK(folder.read("mine.csv.blind") == mine);
  CHECK(folder.read("mine.csv") == mine);
  CHECK_FALSE(room.is_blind());
  CHECK(json::parse(room.state())["against"]["is_blind"] == false);

  const auto chart_of = [&](const std::string& text) {
    return charting::ChartRows(text, "", two_charts(folder).words).chart();
  };
  const Agreement expected = agreement(chart_of(mine), chart_of(theirs));
  const json& figures = state["figures"];
  CHECK(figures["head"] ==
        "A is mine.csv as it was charted blind, B is theirs.csv: " + pairing_words(expected));
  auto cells = column_cells(expected);
  CHECK(figures["columns"]["heads"] == json(cells.front()));
  cells.erase(cells.begin());
  for (auto& row : cells) row.front() = plain(row.front());
  CHECK(figures["columns"]["rows"] == json(cells));
  CHECK(figures["lone"] == json::array({"Only in theirs.csv: row 4. No key settles those."}));

  CHECK(state["count"] == "3 left to settle; there were 3 in what was charted blind");
  CHECK(state["asked"]["head"] == "Row 1 of mine.csv, row 1 of theirs.csv");
  CHECK(state["asked"]["column"] == "platform");
  CHECK(state["asked"]["mine"] == "pocket");
  CHECK(state["asked"]["theirs"] == "moving");
  CHECK(state["asked"]["film"] == json{{"film", 1}, {"start", 5.0}, {"end", 9.0}});
}

TEST_CASE("settling room: each key is on the disk, other bytes stay, the figures too") {
  const test::Scratch folder;
  put_charts(folder, mine, theirs);
  json figures;
  {
    ChartingRoom room(two_charts(folder));
    figures = json::parse(room.settling().begin())["figures"];
    json state = json::parse(room.settling().keys(keys_body({"1"})));
    CHECK(folder.read("mine.csv") == mine);
    CHECK(folder.read("mine.csv.upheld") == "line,column,mine,theirs\n2,platform,pocket,moving\n");
    CHECK(state["asked"]["column"] == "result");
    CHECK(state["asked"]["film"]["end"] == 23.0);  // 8 seconds of a snap without an end
    state = json::parse(room.settling().keys(keys_body({"2"})));
    CHECK(folder.read("mine.csv") == replaced(mine, "incomplete,0", "complete,0"));
    CHECK(state["figures"] == figures);
  }
  ChartingRoom room(two_charts(folder));  // whatever ended the desk
  json state = json::parse(room.settling().state());
  CHECK(state["figures"] == figures);
  CHECK(state["count"] == "1 left to settle; there were 3 in what was charted blind");
  CHECK(state["asked"]["column"] == "yards");
  state = json::parse(room.settling().keys(keys_body({"2"})));
  CHECK(state["asked"].is_null());
  CHECK(folder.read("mine.csv") == replaced(mine, "incomplete,0", "complete,7"));
  CHECK(folder.read("mine.csv.blind") == mine);
  CHECK(folder.read("theirs.csv") == theirs);
  state = json::parse(room.settling().keys(keys_body({"Ctrl+z"})));
  CHECK(state["asked"]["column"] == "yards");
  room.settling().keys(keys_body({"Ctrl+z"}));  // what a desk before did stays
  CHECK(folder.read("mine.csv") == replaced(mine, "incomplete,0", "complete,0"));
  state = json::parse(room.settling().keys(keys_body({"Ctrl+z"})));
  CHECK(state["fault"] == "there is nothing more to take back or bring back");
}

TEST_CASE("settling room: it is not begun too early, with strangers, or twice") {
  const test::Scratch folder;
  put_charts(folder, mine, replaced(theirs, "G1", "Other") + theirs.substr(theirs.size()));
  {
    ChartingRoom room(two_charts(folder));
    room.keys(R"({"keys": [{"key": "Enter"}, {"key": "t"}]})");
    CHECK(fault_of([&] { room.settling().begin(); }).find("a row is being typed") !=
          std::string::npos);
    room.keys(R"({"keys": [{"key": "Delete"}]})");
    ChartingRoom second(two_charts(folder));
    CHECK(fault_of([&] { second.settling().begin(); }).find("open on another desk") !=
          std::string::npos);
    CHECK_FALSE(fs::exists(folder.path() / "mine.csv.blind"));
    for (const char* body : {"", "{}", R"({"keys": [1]})", R"({"keys": [""]})"})
      CHECK_THROWS_AS(room.settling().keys(body), InputError);
    room.settling().begin();
    CHECK_THROWS_AS(room.settling().keys("{}"), InputError);
    room.settling().keys(keys_body({"2"}));
    room.settling().begin();
    CHECK(folder.read("mine.csv.blind") == mine);
  }
  Taping taping = two_charts(folder);
  taping.against = taping.chart;
  CHECK_THROWS_AS(ChartingRoom(taping), InputError);
  taping.against = (folder.path() / "nobodys.csv").string();
  CHECK_THROWS_AS(ChartingRoom(taping), InputError);
  taping.against.clear();
  ChartingRoom alone(taping);
  CHECK(json::parse(alone.state())["against"].is_null());
  CHECK(fault_of([&] { alone.settling(); }).find("held against no other one") != std::string::npos);
}

TEST_CASE("settling room: charts without a snap in common say what would do") {
  const test::Scratch folder;
  std::string strangers = theirs;
  for (std::size_t at = strangers.find("G1"); at != std::string::npos; at = strangers.find("G1"))
    strangers.replace(at, 2, "Week 3");
  put_charts(folder, mine, strangers);
  ChartingRoom room(two_charts(folder));
  const std::string fault = fault_of([&] { room.settling().begin(); });
  CHECK(fault.find("no snap of mine.csv is one of theirs.csv") != std::string::npos);
  CHECK(fault.find("calls its games Week 3") != std::string::npos);
  CHECK(room.is_blind());
}
