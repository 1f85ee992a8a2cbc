// The room where a chart is typed, called as a page calls it, and what is on the disk then.
#include "taping.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/charting/chart_rows.hpp>
#include <desk/charting_room.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <map>

using namespace callfit;
using namespace callfit::desk;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

std::string body_of(const std::vector<std::string>& keys, int film = 0, double at = 7.25) {
  json list = json::array();
  for (const std::string& key : keys) list.push_back({{"key", key}, {"at", at}, {"playing", true}});
  return json{{"keys", list}, {"film", film}}.dump();
}

const std::vector<std::string> first{"Enter", "G", "1", "Enter", "q", "7", "5", "g", "4"};
const std::string row = "G1,college,,,1,10,75,handoff,run,4,,,,,,,,,,,,,,\n";

}  // namespace

TEST_CASE("charting room: a chart is begun, and each finished row is on the disk") {
  const test::Scratch folder;
  ChartingRoom room(taping_in(folder));
  const std::string head = charting::ChartRows::fresh_text();
  CHECK(folder.read("game.csv") == head);
  json state = json::parse(room.keys(body_of(first)));
  CHECK(state["fault"] == "");
  CHECK(state["count"] == "0 rows on disk");
  CHECK(state["open"]["words"] == "Row 1, new: not on disk yet");
  CHECK(folder.read("game.csv") == head);
  state = json::parse(room.keys(body_of({"Shift+Enter"})));
  CHECK(state["count"] == "1 row on disk");
  CHECK(state["told"] == "row 1 of 1");
  CHECK(folder.read("game.csv") == head + row);
  CHECK(room.version() == 1);
  state = json::parse(room.keys(body_of({"Ctrl+z"})));
  CHECK(folder.read("game.csv") == head);
  state = json::parse(room.keys(body_of({"Ctrl+y"})));
  CHECK(folder.read("game.csv") == head + row);
  CHECK(state["table"]["rows"].size() == 1);
  for (const auto& one : fs::directory_iterator(folder.path()))
    CHECK_FALSE(one.path().string().ends_with(".part"));
}

TEST_CASE("charting room: what is asked, offered and refused is told in the program's words") {
  const test::Scratch folder;
  ChartingRoom room(taping_in(folder));
  json state = json::parse(room.state());
  CHECK(state["asked"].is_null());
  CHECK(state["asks_nothing"] == "Enter marks a snap and opens its row");
  state = json::parse(room.keys(body_of({"Enter"})));
  CHECK(state["asked"]["words"] == "game");
  CHECK(state["is_text"] == true);
  state = json::parse(room.keys(body_of({"G", "1", "Enter", "q", "7", "5", "t"})));
  CHECK(state["fault"] == "");
  CHECK(state["asked"]["words"] == "result");
  CHECK(state["asked"]["choices"].size() == 7);
  state = json::parse(room.keys(body_of({"c", "7", "6", "Enter"})));
  CHECK(state["fault"].get<std::string>().starts_with("yards: 76 lies beyond the goal line"));
  const json map = json::parse(room.key_map());
  CHECK(map["commands"].size() == charting::command_count);
  CHECK(map["file"] == "keys.json");
}

TEST_CASE("charting room: a second desk is told and can only look") {
  const test::Scratch folder;
  ChartingRoom room(taping_in(folder));
  room.keys(body_of(first));
  ChartingRoom second(taping_in(folder));
  json state = json::parse(second.state());
  CHECK(state["only_looked_at"] == "is open on another desk; here it can only be looked at");
  CHECK(state["table"]["rows"].empty());
  room.keys(body_of({"Shift+Enter"}));
  state = json::parse(second.state());  // sees what the first one wrote
  CHECK(state["table"]["rows"].size() == 1);
  state = json::parse(second.keys(body_of(first)));
  CHECK(state["fault"] == "is open on another desk; here it can only be looked at");
  CHECK(state["open"].is_null());
}

TEST_CASE("charting room: a chart changed by somebody else is not written over") {
  const test::Scratch folder;
  ChartingRoom room(taping_in(folder));
  room.keys(body_of(first));
  const std::string theirs = charting::ChartRows::fresh_text() + row + row;
  folder.write("game.csv", theirs);
  const json state = json::parse(room.keys(body_of({"Shift+Enter"})));
  CHECK(state["fault"].get<std::string>().find("was changed by somebody else") !=
        std::string::npos);
  CHECK(state["open"]["words"] == "Row 1, new: not on disk yet");
  CHECK(folder.read("game.csv") == theirs);
}

TEST_CASE("charting room: times wait beside the chart") {
  const test::Scratch folder;
  folder.write("one.mp4", std::string("\0\0\0\x18"
                                      "ftypisom\0\0\0\0",
                                      16));
  Taping taping = taping_in(folder);
  taping.films = {(folder.path() / "one.mp4").string()};
  {
    ChartingRoom room(taping);
    room.keys(body_of(first, 1));
    room.keys(body_of({"Enter"}, 1, 31));
    room.keys(body_of({"Enter"}, 1, 60.5));
    CHECK(folder.read("game.csv.marks") == "clip,start,end\none.mp4,31,\n");
  }
  ChartingRoom room(taping);  // a desk later
  json state = json::parse(room.state());
  CHECK(state["count"] == "1 row on disk, 1 marked and not charted yet");
  state = json::parse(room.keys(body_of({"End", "g", "2", "Shift+Enter"}, 1)));
  CHECK(state["count"] == "2 rows on disk");
  CHECK_FALSE(fs::exists(folder.path() / "game.csv.marks"));
  CHECK(room.films().part({"GET", "/film/1/t", {{"Range", "bytes=0-3"}}, ""}).status == 206);
  for (const char* other :
       {"/film/2/t", "/film/0/t", "/film/x/t", "/film/1", "/film/", "/film/-1/t"})
    CHECK(room.films().part({"GET", other, {{"Range", "bytes=0-3"}}, ""}).status == 404);
}

TEST_CASE("charting room: halves that a kill left are cleared away, nobody else's are") {
  const test::Scratch folder;
  const auto put = [&](const std::string& name, std::chrono::minutes age) {
    folder.write(name, "game,lev");
    const fs::path path = folder.path() / name;
    fs::last_write_time(path, fs::file_time_type::clock::now() - age);
    return path;
  };
  using std::chrono::minutes;
  const fs::path left = put(".callfit-4711-0.part", minutes(2));
  const fs::path young = put(".callfit-4711-1.part", minutes(0));
  const fs::path held = put(".callfit-4711-2.part", minutes(2));
  const fs::path others = put(".callfit-mine.part", minutes(2));
  const int handle = ::open(held.c_str(), O_RDONLY | O_CLOEXEC);
  REQUIRE(::flock(handle, LOCK_EX | LOCK_NB) == 0);
  { const ChartingRoom room(taping_in(folder)); }
  CHECK_FALSE(fs::exists(left));
  CHECK(fs::exists(young));
  CHECK(fs::exists(held));
  CHECK(fs::exists(others));
  ::close(handle);
  { const ChartingRoom room(taping_in(folder)); }
  CHECK_FALSE(fs::exists(held));
}

TEST_CASE("charting room: what follows is shown as such before it is written, none of it unseen") {
  const test::Scratch folder;
  folder.write("game.csv",
               "game,level,season,team,opponent,quarter,down,to_go,yards_to_goal,family,result,"
               "yards,shell,clip\n"
               "G1,college,2031,Harbour,Port Amble,2,1,10,75,handoff,run,4,one_high,one.mp4\n");
  ChartingRoom room(taping_in(folder));
  json state = json::parse(room.keys(body_of({"Enter", "g", "3"})));
  std::map<std::string, json> shown;
  for (const json& cell : state["open"]["cells"]) shown[cell["words"]] = cell;
  const std::map<std::string, std::string> follow{
      {"season", "2031"},      {"team", "Harbour"},  {"opponent", "Port Amble"},
      {"quarter", "2"},        {"clip", "one.mp4"},  {"down", "2"},
      {"to go", "6"},          {"level", "college"}, {"game", "G1"},
      {"yards to goal", "71"}, {"result", "run"}};
  for (const auto& [words, value] : follow) {
    CAPTURE(words);
    CHECK(shown.at(words)["value"] == value);
    CHECK(shown.at(words)["standing"] == "follows");
  }
  CHECK(shown.at("shell")["standing"] == "blank");
  room.keys(body_of({"Shift+Enter"}));
  CHECK(folder.read("game.csv")
            .ends_with("\nG1,college,2031,Harbour,Port Amble,2,2,6,71,handoff,run,3,,one.mp4\n"));
}

TEST_CASE("charting room: bad calls, bad keys and bad charts are refused in a line") {
  const test::Scratch folder;
  {
    ChartingRoom room(taping_in(folder));
    for (const char* body :
         {"", "[]", "{}", R"({"keys": [{"key": ""}]})", R"({"keys": [{"at": 1}]})",
          R"({"keys": [{"key": "a", "at": -1}]})", R"({"keys": 1})", R"({"keys": [], "film": "x"})",
          R"({"keys": [{"key": "a", "at": 1e999}]})"})
      CHECK_THROWS_AS(room.keys(body), InputError);
    CHECK_NOTHROW(room.keys(R"({"keys": []})"));
  }
  folder.write("keys.json", R"({"format": "callfit-keys/1", "commands": {"undo": "Enter"}})");
  CHECK_THROWS_AS(ChartingRoom(taping_in(folder)), InputError);
  fs::remove(folder.path() / "keys.json");
  folder.write("game.csv", "game,level\nG1,college\n");
  CHECK_THROWS_AS(ChartingRoom(taping_in(folder)), InputError);
}
