// Two charts of the same snaps, and one settled by keys where they differ.
#include <callfit/chart/agreement.hpp>
#include <callfit/charting/settling.hpp>

#include <catch2/catch.hpp>

using namespace callfit;
using namespace callfit::charting;

namespace {

ChartWords known_words() {
  ChartWords known;
  known.families = {{"boot", "", FamilyKind::pass, "", ""},
                    {"screen", "", FamilyKind::pass, "", ""},
                    {"handoff", "", FamilyKind::handoff, "", ""}};
  known.levels = {"college"};
  return known;
}

// Mine has a column of its own, quotes that nobody needs and the line ends of a spreadsheet.
const std::string mine_text =
    "game,level,down,to_go,yards_to_goal,family,result,yards,platform,air_yards,yac,mood,note\r\n"
    "G1,college,1,10,75,boot,complete,12,pocket,8,4,good,\"my \"\"own\"\"\"\r\n"
    "\"G1\",college,1,10,63,screen,complete,5,\"pocket\",-2,7,,\r\n"
    "G1,college,2,5,58,handoff,run,3,,,,,\r\n"
    "G1,college,3,2,55,boot,incomplete,0,moving,6,,bad,\r\n";
const std::string theirs_text =
    "game,level,down,to_go,yards_to_goal,family,result,yards,platform,air_yards,yac,note\n"
    "G1,college,1,10,75,boot,complete,12,moving,8,4,theirs\n"
    "G1,college,1,10,63,screen,incomplete,0,pocket,-2,,\n"
    "G1,college,2,5,58,handoff,run,4,,,,\n"
    "G1,college,3,2,55,boot,complete,9,moving,6,3,\n";

ChartRows rows_of(const std::string& text, const std::string& source) {
  return {text, source, known_words()};
}

struct Pair {
  Charting mine{rows_of(mine_text, "mine.csv"), usual_keys()};
  Settling settling{rows_of(theirs_text, "theirs.csv")};

  Pair& keys(std::initializer_list<const char*> all) {
    for (const char* key : all) settling.press(key, mine);
    return *this;
  }
  std::string asked() const {
    const auto one = settling.asked(mine);
    if (!one) return "nothing";
    return std::to_string(one->row + 1) + ' ' + std::string(word(one->column)) + ' ' + one->mine +
           ' ' + one->theirs;
  }
  std::string text() const { return mine.rows().text(); }
};

std::string with(std::string text, const std::string& from, const std::string& to) {
  const std::size_t place = text.find(from);
  REQUIRE(place != std::string::npos);
  return text.replace(place, from.size(), to);
}

}  // namespace

TEST_CASE("settling: what is asked is what agreement() calls a disagreement, in the rows' order") {
  Pair two;
  const auto all = agreement(two.mine.rows().chart(), two.settling.theirs().chart()).disagreements;
  const auto open = two.settling.open(two.mine);
  REQUIRE(open.size() == all.size());
  for (std::size_t i = 0; i < all.size(); ++i) {
    CHECK(open[i].row == all[i].pair.first);
    CHECK(open[i].their_row == all[i].pair.second);
    CHECK(open[i].column == all[i].column);
    CHECK(open[i].mine == all[i].first);
    CHECK(open[i].theirs == all[i].second);
  }
  CHECK(two.asked() == "1 platform pocket moving");
}

TEST_CASE("settling: theirs goes into the one field, all other bytes stay") {
  Pair two;
  two.keys({"2"});
  CHECK(two.settling.fault().empty());
  CHECK(two.text() == with(mine_text, "pocket,8", "moving,8"));
  CHECK(two.mine.upheld().empty());
  CHECK(two.asked() == "2 result complete incomplete");
  two.keys({"Ctrl+z"});
  CHECK(two.text() == mine_text);
  CHECK(two.asked() == "1 platform pocket moving");
  two.keys({"Ctrl+y"});
  CHECK(two.text() == with(mine_text, "pocket,8", "moving,8"));
}

TEST_CASE("settling: mine stands without a byte changed, and is asked no more") {
  Pair two;
  two.keys({"1"});
  CHECK(two.text() == mine_text);
  CHECK(two.mine.upheld() == std::vector<Upheld>{{2, ChartColumn::platform, "pocket", "moving"}});
  CHECK(two.asked() == "2 result complete incomplete");
  two.keys({"Ctrl+z"});
  CHECK(two.mine.upheld().empty());
  CHECK(two.asked() == "1 platform pocket moving");
}

TEST_CASE("settling: a value that cannot stand alone takes along what it needs, and no more") {
  Pair two;
  two.keys({".", "2"});  // an incomplete throw gains nothing, and nobody runs after it
  CHECK(two.settling.fault().empty());
  CHECK(two.text() ==
        with(mine_text, "complete,5,\"pocket\",-2,7,", "incomplete,0,\"pocket\",-2,,"));
  CHECK(two.asked() == "3 yards 3 4");
  const Dispute completed{3, 3, ChartColumn::result, "incomplete", "complete"};
  const Taking taken = taking(two.mine.rows(), two.settling.theirs(), completed);
  CHECK(taken.fault.empty());
  // With yards 0 my row would be a catch 6 yards on that gained nothing; that is possible.
  CHECK(taken.values == Answers{{ChartColumn::result, "complete"}});
  two.keys({"Ctrl+z"});  // one change, one step back
  CHECK(two.text() == mine_text);
}

TEST_CASE("settling: what is passed over comes again, backwards too") {
  Pair two;
  two.keys({"."});
  CHECK(two.asked() == "2 result complete incomplete");
  two.keys({",", ","});  // from the first to the last
  CHECK(two.asked() == "4 yards 0 9");
  two.keys({"."});
  CHECK(two.asked() == "1 platform pocket moving");
  CHECK(two.text() == mine_text);
  two.keys({"q"});
  CHECK(two.settling.fault() == "the key q means nothing here");
}

TEST_CASE("settling: to the end, and what stands is known again") {
  Pair two;
  two.keys({"1", "2", "1", "2", "2", "2", "2"});
  CHECK(two.asked() == "nothing");
  CHECK(two.settling.fault() == "nothing is left to settle");
  const std::string text = upheld_text(two.mine.upheld());
  CHECK(text == "line,column,mine,theirs\n2,platform,pocket,moving\n4,yards,3,4\n");
  const Charting later(rows_of(two.text(), "mine.csv"), usual_keys(),
                       {{}, upheld_in(text, "mine.csv.upheld")});
  CHECK(two.settling.open(later).empty());
  // Another value of mine is another disagreement.
  Charting changed(rows_of(with(two.text(), "handoff,run,3", "handoff,run,2"), "mine.csv"),
                   usual_keys(), {{}, upheld_in(text, "mine.csv.upheld")});
  CHECK(two.settling.open(changed).size() == 1);
  for (const char* bad : {"clip,start,end\n", "line,column,mine,theirs\n0,yards,1,2\n",
                          "line,column,mine,theirs\n1,mood,1,2\n"})
    CHECK_THROWS_AS(upheld_in(bad, "mine.csv.upheld"), InputError);
}

TEST_CASE("settling: a row that is being typed comes first") {
  Pair two;
  for (const char* key : {"Enter", "g", "u"}) two.mine.press({key, "", 0, false});
  REQUIRE(two.mine.is_being_typed());
  two.keys({"2"});
  CHECK(two.settling.fault().starts_with("a row is open"));
  CHECK(two.text() == mine_text);
}

TEST_CASE("settling: keys of settling mean nothing while a chart is typed") {
  Pair two;
  two.mine.press({"1", "", 0, false});
  CHECK(two.mine.fault().find("is for settling where two charts differ") != std::string::npos);
  CHECK(two.mine.revision() == 0);
}

TEST_CASE("settling: what theirs says of a run takes the whole play with it") {
  Pair two;
  const Charting mine(
      rows_of(with(mine_text, "handoff,run,3,,,,,", "boot,complete,3,pocket,1,2,,"), "mine.csv"),
      usual_keys());
  const auto open = two.settling.open(mine);
  const auto family = std::find_if(open.begin(), open.end(), [](const Dispute& one) {
    return one.row == 2 && one.column == ChartColumn::family;
  });
  REQUIRE(family != open.end());
  const Taking taken = taking(mine.rows(), two.settling.theirs(), *family);
  CHECK(taken.fault.empty());
  Values values = mine.rows().values(2);
  for (const auto& [column, value] : taken.values) at(values, column) = value;
  CHECK(mine.rows().read(values).snap.has_value());
  CHECK(at(values, ChartColumn::result) == "run");
  CHECK(at(values, ChartColumn::air_yards).empty());
}
