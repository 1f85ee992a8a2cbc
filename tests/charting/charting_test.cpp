// A chart typed key by key.
#include <callfit/charting/charting.hpp>

#include <catch2/catch.hpp>

using namespace callfit;
using namespace callfit::charting;

namespace {

ChartWords words() {
  ChartWords known;
  known.families = {{"quick_middle", "", FamilyKind::pass, "", ""},
                    {"intermediate", "", FamilyKind::pass, "", ""},
                    {"boot", "", FamilyKind::pass, "", ""},
                    {"zone_read", "", FamilyKind::qb_run, "", ""},
                    {"handoff", "", FamilyKind::handoff, "", ""}};
  known.levels = {"high_school", "college"};
  return known;
}

const std::string begun =
    "game,level,quarter,down,to_go,yards_to_goal,family,result,yards,shell,platform,pressure,"
    "air_yards,lane,on_time,catchable,yac,evaded,fumble_lost,note,clip,start,end\n";
const std::string first_row = "G1,college,1,1,10,75,boot,complete,8,,,,,,,,,,,,,,\n";

class Typed {
 public:
  explicit Typed(const std::string& text, std::vector<Mark> waiting = {})
      : charting_(ChartRows(text, "chart.csv", words()), usual_keys(), {std::move(waiting), {}}) {}

  // Keys parted by blanks.
  Typed& keys(const std::string& all) {
    for (std::size_t from = 0; from < all.size();) {
      const std::size_t end = std::min(all.find(' ', from), all.size());
      press(all.substr(from, end - from));
      from = end + 1;
    }
    return *this;
  }
  Typed& press(const std::string& key) {
    charting_.press({key, clip, at, is_playing});
    return *this;
  }
  Typed& film(double seconds, bool plays = true) {
    clip = "one.webm";
    at = seconds;
    is_playing = plays;
    return *this;
  }

  // The rows below `text`.
  std::string rows_after(const std::string& text) const {
    const std::string all = charting_.rows().text();
    REQUIRE(all.starts_with(text));
    return all.substr(text.size());
  }
  std::string asked() const {
    const auto question = charting_.asked();
    return question ? name_of(*question) : "nothing";
  }
  std::string value(ChartColumn column) const { return charting_.value(column); }
  Charting& charting() { return charting_; }
  const std::string& fault() const { return charting_.fault(); }

 private:
  Charting charting_;
  std::string clip;
  double at = 0;
  bool is_playing = false;
};

}  // namespace

TEST_CASE("charting: the first row of a chart from paper") {
  Typed chart(begun);
  chart.keys("Enter");
  CHECK(chart.asked() == "game");
  chart.keys("G 1 Enter");
  CHECK(chart.asked() == "level");
  chart.keys("w");
  CHECK(chart.value(ChartColumn::level) == "college");
  CHECK(chart.asked() == "yards_to_goal");
  chart.keys("7 5");
  chart.keys("t");
  CHECK(chart.value(ChartColumn::family) == "boot");
  CHECK(chart.value(ChartColumn::to_go) == "10");
  chart.keys("c 8 Shift+Enter");
  CHECK(chart.fault().empty());
  CHECK(chart.rows_after(begun) == "G1,college,,1,10,75,boot,complete,8,,,,,,,,,,,,,,\n");
  CHECK(chart.charting().revision() == 1);
}

TEST_CASE("charting: what follows is shown, needed columns are written, others stay blank") {
  Typed chart(begun + first_row);
  chart.keys("Enter");
  CHECK(chart.value(ChartColumn::down) == "2");
  CHECK(chart.value(ChartColumn::to_go) == "2");
  CHECK(chart.value(ChartColumn::yards_to_goal) == "67");
  CHECK(chart.value(ChartColumn::quarter) == "1");
  CHECK(chart.charting().standing(ChartColumn::down) == Standing::follows);
  chart.keys("q c 1 1 Shift+Enter");
  CHECK(chart.rows_after(begun + first_row) ==
        "G1,college,1,2,2,67,quick_middle,complete,11,,,,,,,,,,,,,,\n");
}

TEST_CASE("charting: every column of a pass and of a run, key by key") {
  Typed chart(begun + first_row);
  // next, family, result, yards, shell, platform and pressure, air yards, lane, on time and
  // catchable, yards after the catch as they follow, evaded
  chart.keys("Enter q c 1 2 t q 7 w q f 1 Enter");
  CHECK(chart.rows_after(begun + first_row) ==
        "G1,college,1,2,2,67,quick_middle,complete,12,two_high,pocket,no,7,middle,yes,yes,5,1,,,,,"
        "\n");
  chart.keys("g - 2 o n Shift+Enter");  // a run's result follows from the family
  CHECK(chart.charting().rows().snap(2).yards == -2);
  CHECK(chart.charting().rows().snap(2).fumble_lost == false);
  CHECK(chart.charting().rows().snap(2).result == Result::run);
  CHECK(chart.charting().rows().snap(2).down == 1);
}

TEST_CASE("charting: the key after a number is the next column's already") {
  Typed chart(begun + first_row);
  chart.keys("Enter q c 1");
  CHECK(chart.asked() == "yards");
  REQUIRE(chart.charting().asked_then());
  CHECK(name_of(*chart.charting().asked_then()) == "shell");
  chart.keys(".");  // ends the number and leaves nothing blank
  CHECK(chart.asked() == "shell");
  CHECK(chart.value(ChartColumn::yards) == "1");
  CHECK_FALSE(chart.charting().asked_then());
}

TEST_CASE("charting: what cannot be is refused at the key, with its rule") {
  Typed chart(begun + first_row);
  chart.keys("Enter q c 6 8 o");
  CHECK(chart.fault() ==
        "yards: 68 lies beyond the goal line, which is 67 away; give at most 67 (a touchdown)");
  CHECK(chart.asked() == "yards");
  chart.keys("g");  // to the goal line
  CHECK(chart.value(ChartColumn::yards) == "67");
  CHECK(chart.fault().empty());
  chart.keys("v 7");
  CHECK(chart.fault() == "down: 7 is not possible; give 1 to 4");
  chart.keys("b 1 0 0 q");
  CHECK(chart.fault().starts_with("yards to goal: 100 is not possible"));
  CHECK(chart.charting().rows().size() == 1);
  chart.press("F10");
  CHECK(chart.fault().starts_with("the key F10 means nothing here"));
}

TEST_CASE("charting: a row that is not whole is not finished") {
  Typed chart(begun + first_row);
  chart.keys("Enter q c Shift+Enter");
  CHECK(chart.fault().starts_with("the row is not whole: yards: a play with result complete"));
  CHECK(chart.asked() == "yards");
  CHECK(chart.charting().rows().size() == 1);
  chart.keys("4 Shift+Enter");
  CHECK(chart.charting().rows().size() == 2);
}

TEST_CASE("charting: a new drive, a foul, a new quarter") {
  Typed chart(begun + first_row);
  chart.keys("Enter b 3 1 F2 g 3 Shift+Enter");
  CHECK(chart.rows_after(begun + first_row) ==
        "G1,college,2,1,10,31,handoff,run,3,,,,,,,,,,,,,,\n");
  chart.keys("Enter g , n Shift+Enter");
  CHECK(chart.charting().rows().snap(2).result == Result::no_play);
  chart.keys("Enter b 3 3 g 1 Shift+Enter");  // moved back five
  CHECK(chart.charting().rows().snap(3).down == 2);
  CHECK(chart.charting().rows().snap(3).to_go == 12);
  chart.keys("Enter v 1 9 g 1 Shift+Enter");
  CHECK(chart.charting().rows().snap(4).down == 1);
  CHECK(chart.charting().rows().snap(4).to_go == 9);
}

TEST_CASE("charting: times first, details later") {
  Typed chart(begun + first_row);
  chart.film(10.5).keys("Enter").film(40).keys("Enter").film(71.25).keys("Enter");
  REQUIRE(chart.charting().waiting().size() == 2);
  CHECK(chart.charting().rows().size() == 1);
  chart.film(80, false).keys("End");  // the open one waits too, and the first of them is opened
  CHECK(chart.charting().waiting().size() == 2);
  REQUIRE(chart.charting().film());
  CHECK(chart.charting().film()->start == 10.5);
  chart.keys("g 3 Enter");
  CHECK(chart.charting().film()->start == 40);
  chart.keys("g 3 Enter g 2 Enter");
  CHECK(chart.charting().waiting().empty());
  CHECK(chart.rows_after(begun + first_row) ==
        "G1,college,1,2,2,67,handoff,run,3,,,,,,,,,,,,one.webm,10.5,\n"
        "G1,college,1,1,10,64,handoff,run,3,,,,,,,,,,,,one.webm,40,\n"
        "G1,college,1,2,7,61,handoff,run,2,,,,,,,,,,,,one.webm,71.25,\n");
}

TEST_CASE("charting: the next mark finishes the row, and no time is lost where it cannot") {
  Typed chart(begun + first_row);
  chart.film(10).keys("Enter").film(20).keys("g 3").film(45).keys("Enter");
  CHECK(chart.charting().rows().size() == 2);
  CHECK(chart.value(ChartColumn::start) == "45");
  chart.keys("q c").film(80).keys("Enter");
  CHECK_FALSE(chart.fault().empty());
  REQUIRE(chart.charting().waiting().size() == 1);
  CHECK(chart.charting().waiting()[0].start == "80");
  chart.film(80.5).keys("Enter");  // pressed twice, marked once
  CHECK(chart.charting().waiting().size() == 1);
  CHECK(chart.value(ChartColumn::start) == "45");
  chart.film(50).keys("3 z");
  CHECK(chart.value(ChartColumn::end) == "50");
}

TEST_CASE("charting: marks go to text and back; one whose row was written waits no more") {
  const std::vector<Mark> marks{
      {"a, b.mp4", "1.5", ""}, {"one.webm", "10.5", "12"}, {" two.webm\t", "11", "12"}};
  CHECK(marks_in(marks_text(marks), "marks.csv") == marks);
  CHECK_THROWS_AS(marks_in("game,level\n", "marks.csv"), InputError);
  const std::string text =
      begun + "G1,college,1,1,10,75,boot,complete,8,,,,,,,,,,,,one.webm,10.5,\n";
  CHECK(Typed(text, marks).charting().waiting().size() == 2);
}

TEST_CASE("charting: a mark whose time is no number leads to no place of the film") {
  for (const char* start : {"nan", "inf", "1e999", "soon"}) {
    Typed chart(begun + first_row, {{"one.webm", start, ""}});
    chart.keys("End");
    CHECK(chart.value(ChartColumn::start) == start);
    CHECK_FALSE(chart.charting().film());
  }
}

TEST_CASE("charting: a row is opened, changed and dropped") {
  Typed chart(begun + first_row);
  chart.keys("PageUp e");
  CHECK(chart.fault().starts_with("the key e means nothing"));
  chart.keys("q");
  CHECK(chart.value(ChartColumn::family) == "quick_middle");
  chart.keys("PageDown");
  CHECK_FALSE(chart.fault().empty());
  chart.keys("Shift+Enter");
  CHECK(chart.rows_after(begun) == "G1,college,1,1,10,75,quick_middle,complete,8,,,,,,,,,,,,,,\n");
  chart.keys("Home 1 Enter Delete");
  CHECK(chart.charting().rows().size() == 0);
  chart.keys("Ctrl+z");
  CHECK(chart.charting().rows().size() == 1);
  chart.keys("Ctrl+z Ctrl+z Ctrl+z Ctrl+z Ctrl+z");
  CHECK(chart.rows_after(begun) == first_row);
  chart.keys("Ctrl+y Ctrl+y Ctrl+y Ctrl+y");
  CHECK(chart.rows_after(begun) != first_row);
  chart.keys("Home 9 Enter");
  CHECK(chart.fault() == "there is no row 9; the chart has 1");
}

TEST_CASE("charting: undo leads back to the first byte, redo to the last") {
  const std::string text = begun + first_row;
  Typed chart(text);
  chart.keys("Enter q c 1 2 t q 7 w q f 1 Enter g - 2 o n Enter b 8 0 q i Shift+Enter");
  const std::string last = chart.charting().rows().text();
  std::size_t steps = 0;
  for (; chart.fault().empty(); ++steps) chart.press("Ctrl+z");
  CHECK(chart.charting().rows().text() == text);
  CHECK_FALSE(chart.charting().open());
  chart.press("x");
  for (std::size_t i = 0; i + 1 < steps; ++i) chart.press("Ctrl+y");
  CHECK(chart.charting().rows().text() == last);
}

TEST_CASE("charting: a row between, a value again, a value erased") {
  Typed chart(begun + first_row + "G1,college,1,1,10,50,handoff,run,3,two_high,,,,,,,,,,,,,\n");
  chart.keys("Home 2 Enter Insert");
  CHECK(chart.value(ChartColumn::yards_to_goal) == "67");
  chart.keys("g 1 7 x");
  CHECK(chart.fault().starts_with("the row before has no shell"));
  chart.keys("Shift+Enter");
  CHECK(chart.charting().rows().size() == 3);
  CHECK(chart.charting().rows().snap(1).yards == 17);
  chart.keys("End x");
  CHECK(chart.fault().empty());
  CHECK(chart.value(ChartColumn::family) == "handoff");
  chart.keys("4 x");
  CHECK(chart.value(ChartColumn::shell) == "two_high");
  chart.keys("Backspace");
  CHECK(chart.value(ChartColumn::shell).empty());
  CHECK(chart.asked() == "shell");
  chart.keys(". .");
  CHECK(chart.asked() == "nothing");
}

TEST_CASE("charting: what is odd is told, not refused") {
  Typed chart(begun + first_row);
  chart.keys("Enter v 1 1 0 g 3");
  chart.keys(".");
  REQUIRE(chart.charting().odd().size() == 1);
  CHECK(chart.charting().odd()[0].what.starts_with("a first down that does not follow"));
  chart.keys("Shift+Enter");
  CHECK(chart.charting().rows().size() == 2);
}

TEST_CASE("charting: drives that end are counted") {
  Typed chart(begun + first_row);
  chart.keys("Enter q c 4 Shift+Enter");
  CHECK(chart.charting().drives_ended() == 0);
  chart.keys("Enter q p Shift+Enter");  // intercepted
  CHECK(chart.charting().drives_ended() == 1);
  chart.keys("Enter b 8 0 g 1 Shift+Enter");
  CHECK(chart.charting().drives_ended() == 1);
  chart.keys("Enter b 2 0 g 1 Shift+Enter");  // a punt between
  CHECK(chart.charting().drives_ended() == 2);
}

TEST_CASE("charting: a chart without columns for film") {
  const std::string bare =
      "game,level,down,to_go,yards_to_goal,family,result,yards\nG1,college,1,10,75,boot,complete,"
      "4\n";
  Typed chart(bare);
  chart.film(5).keys("Enter g 3 Shift+Enter");
  CHECK(chart.rows_after(bare) == "G1,college,2,6,71,handoff,run,3\n");
  chart.charting().add_film_columns();
  chart.film(9).keys("Enter g 2 Shift+Enter");
  CHECK(chart.charting().rows().snap(2).start == 9.0F);
  CHECK(chart.charting().rows().text().starts_with(
      "game,level,down,to_go,yards_to_goal,family,result,yards,clip,start,end\n"
      "G1,college,1,10,75,boot,complete,4,,,\n"));
}
