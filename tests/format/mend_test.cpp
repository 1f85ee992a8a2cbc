// Spreadsheets as people have them. Each way of writing is common practice, no source, unless one
// is named.
#include <callfit/base/finding.hpp>
#include <callfit/format/chart.hpp>
#include <callfit/format/mend.hpp>
#include <format/encoding.hpp>

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <sstream>

using namespace callfit;
using Catch::Matchers::Contains;

namespace {

const std::string needed = "game,level,down,to_go,yards_to_goal,family,result,yards";

ChartWords words_with(const std::string& own = "") {
  ChartWords words{{{"glance", "Glance", FamilyKind::pass, "", ""},
                    {"draw", "Draw", FamilyKind::qb_run, "", ""},
                    {"give", "Give", FamilyKind::handoff, "", ""}},
                   {"high_school", "college"},
                   {}};
  if (!own.empty()) words.own = parse_dictionary("column,from,to\n" + own, "words.csv");
  return words;
}

MendedChart mend(const std::string& text, const ChartWords& words = words_with()) {
  return mend_chart(text, "c.csv", words);
}

/// The chart of these rows below the needed columns and others.
std::string chart_of(const std::string& other_columns, const std::vector<std::string>& rows) {
  std::string text = needed + other_columns + "\n";
  for (const std::string& row : rows) text += row + "\n";
  return text;
}

Findings refusal_of(const std::string& text, const ChartWords& words = words_with()) {
  Findings notices;
  try {
    parse_chart(text, "c.csv", notices, words);
  } catch (const InputError& error) {
    return error.findings();
  }
  return {};
}

std::vector<std::string> texts_of(const Findings& findings) {
  std::vector<std::string> texts;
  for (const Finding& finding : findings) texts.push_back(to_text(finding));
  return texts;
}

std::vector<std::string> texts_of(const std::vector<Mend>& mends) {
  std::vector<std::string> texts;
  for (const Mend& mend : mends) texts.push_back(mend_text(mend, "c.csv"));
  return texts;
}

using Texts = std::vector<std::string>;

const std::string cannot =
    "c.csv: cannot be read as it is; callfit check --mend writes a mended copy beside it";

/// Refused as it is; mended it is `right`, which is read, and of which nothing is to be mended.
void check_mended(const std::string& text, const std::string& right, const Texts& what,
                  const ChartWords& words = words_with()) {
  CHECK_FALSE(refusal_of(text, words).empty());
  const MendedChart mended = mend(text, words);
  CHECK(mended.text == right);
  CHECK(texts_of(mended.mends) == what);
  CHECK(texts_of(refusal_of(mended.text, words)) == Texts{});
  const MendedChart again = mend(mended.text, words);
  CHECK(again.mends.empty());
  CHECK(again.text == mended.text);
}

/// What the field of one column becomes in a row of a caught pass for 7 yards.
std::string mended_field(const std::string& column, const std::string& field,
                         const ChartWords& words = words_with()) {
  const auto row = [&](const std::string& value) {
    return chart_of("," + column, {"G1,college,1,10,75,glance,complete,7," + value});
  };
  const std::string text = mend(row(field), words).text;
  const std::string head = row("").substr(0, row("").size() - 1);
  REQUIRE(text.starts_with(head));
  return text.substr(head.size(), text.size() - head.size() - 1);
}

std::string slurp(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  REQUIRE(in);
  std::ostringstream bytes;
  bytes << in.rdbuf();
  return bytes.str();
}

}  // namespace

TEST_CASE("a chart that needs nothing comes back byte for byte") {
  std::size_t charts = 0;
  for (const auto& entry : std::filesystem::directory_iterator(
           std::filesystem::path(CALLFIT_SOURCE_DIR) / "profiles/demo")) {
    if (entry.path().extension() != ".csv") continue;
    CAPTURE(entry.path());
    const std::string text = slurp(entry.path());
    for (const std::string& bytes : {text, "\xEF\xBB\xBF" + text}) {
      const MendedChart mended = mend_chart(bytes, "c.csv", {});
      CHECK(mended.mends.empty());
      CHECK(mended.doubts.empty());
      CHECK((mended.text == bytes));
    }
    ++charts;
  }
  CHECK(charts > 3);
  const Texts odd_but_fine{
      needed + ",weather\r\nG1,college,1,10,75,draw,run,4,\"n/a, -\"\r\n\r\n",
      needed + ",pressure,note\rG1,college,1,10,75,glance,complete,7, Y ,INT\xC2\xA0- 7\xC2\xBD\r",
      "game;level;down;to_go;yards_to_goal;family;result;yards\nG1;College;1;10;+8;DRAW; Run ;+4",
      "",
      "\n\n",
      "no chart at all",
  };
  for (const std::string& text : odd_but_fine) {
    CAPTURE(text);
    CHECK(mend(text).mends.empty());
    CHECK(mend(text).text == text);
  }
}

TEST_CASE("decimal commas and points, and dashes for a minus") {
  check_mended(
      "game;level;down;to_go;yards_to_goal;family;result;yards\n"
      "G1;college;1,0;10;75.0;draw;run;\xE2\x88\x92"
      "3,00\n"
      "G1;college;2;13;78;draw;run;\xE2\x80\x93"
      "0,0\n",
      needed + "\nG1,college,1,10,75,draw,run,-3\nG1,college,2,13,78,draw,run,0\n",
      {"c.csv:2: down: wrote 1 for \"1,0\" (number with a decimal comma, a point or a dash "
       "for a minus)",
       "c.csv:2: yards_to_goal: wrote 75 for \"75.0\" (number with a decimal comma, a point "
       "or a dash for a minus)",
       "c.csv:2: yards: wrote -3 for \"\xE2\x88\x92"
       "3,00\" (number with a decimal comma, a "
       "point or a dash for a minus)",
       "c.csv:3: yards: wrote 0 for \"\xE2\x80\x93"
       "0,0\" (number with a decimal comma, a "
       "point or a dash for a minus)"});
  CHECK(mended_field("yac", "\"4,5\"") == "\"4,5\"");  // no whole yard: left for its reader
  CHECK(mended_field("yac", "1.000") == "1");
  CHECK(mended_field("yac", "1.200") == "1.200");
  CHECK(mended_field("pressure", "1.0") == "1");
  CHECK(mended_field("pressure", "2.0") == "2.0");
}

TEST_CASE("words that people write") {
  check_mended(chart_of(",lane,pressure", {"G1,HS,1st,10,75,glance,INT,n/a,L,ja",
                                           "G1,hs,1,goal,8,glance,inc,-,M,Nein",
                                           "G1,college,1,10,75,glance,comp,7,R,x"}),
               chart_of(",lane,pressure", {"G1,high_school,1,10,75,glance,intercepted,,left,yes",
                                           "G1,high_school,1,8,8,glance,incomplete,,middle,no",
                                           "G1,college,1,10,75,glance,complete,7,right,yes"}),
               {"c.csv:2: level: wrote high_school for \"HS\" (word that a chart does not use)",
                "c.csv:2: down: wrote 1 for \"1st\" (word that a chart does not use)",
                "c.csv:2: result: wrote intercepted for \"INT\" (word that a chart does not use)",
                "c.csv:2: yards: wrote nothing for \"n/a\" (field with a mark for nothing)",
                "c.csv:2: lane: wrote left for \"L\" (word that a chart does not use)",
                "c.csv:2: pressure: wrote yes for \"ja\" (word that a chart does not use)",
                "c.csv:3: level: wrote high_school for \"hs\" (word that a chart does not use)",
                "c.csv:3: to_go: wrote 8 for \"goal\" (word that a chart does not use)",
                "c.csv:3: result: wrote incomplete for \"inc\" (word that a chart does not use)",
                "c.csv:3: yards: wrote nothing for \"-\" (field with a mark for nothing)",
                "c.csv:3: lane: wrote middle for \"M\" (word that a chart does not use)",
                "c.csv:3: pressure: wrote no for \"Nein\" (word that a chart does not use)",
                "c.csv:4: result: wrote complete for \"comp\" (word that a chart does not use)",
                "c.csv:4: lane: wrote right for \"R\" (word that a chart does not use)",
                "c.csv:4: pressure: wrote yes for \"x\" (word that a chart does not use)"});
  CHECK(mended_field("pressure", "yes ") == "yes ");  // read as it is
  CHECK(mended_field("shell", "2-high") == "two_high");
  CHECK(mended_field("opponent", "-") == "-");  // text says what it says
}

TEST_CASE("a touchdown is a gain to the goal, by what the row tells") {
  const auto becomes = [](const std::string& row, const std::string& right) {
    CAPTURE(row);
    CHECK(mend(chart_of(",yac", {row})).text == chart_of(",yac", {right}));
  };
  becomes("G1,college,1,10,12,draw,TD,,", "G1,college,1,10,12,draw,run,12,");
  becomes("G1,college,1,10,opp 12,give,td,12,", "G1,college,1,10,12,give,run,12,");
  becomes("G1,college,1,10,12,draw,run,TD,", "G1,college,1,10,12,draw,run,12,");
  becomes("G1,college,1,10,12,glance,TD,TD,3", "G1,college,1,10,12,glance,complete,12,3");
  // He may have thrown it or run.
  becomes("G1,college,1,10,12,glance,TD,,", "G1,college,1,10,12,glance,TD,,");
  becomes("G1,college,1,10,12,glance,TD,,n/a", "G1,college,1,10,12,glance,TD,,");
  // It says two things.
  becomes("G1,college,1,10,12,draw,TD,4,", "G1,college,1,10,12,draw,TD,4,");
  becomes("G1,college,1,10,,draw,TD,,", "G1,college,1,10,,draw,TD,,");
}

TEST_CASE("the user's words come first") {
  CHECK(mended_field("lane", "links", words_with("lane,links,left\n")) == "left");
  CHECK(mended_field("lane", "L", words_with("lane,l,right\n")) == "right");
  CHECK(mended_field("pressure", "Y", words_with("pressure,y,no\n")) == "no");
  CHECK(mended_field("evaded", "none", words_with("evaded,none,0\n")) == "0");
  CHECK(mended_field("opponent", "QUI", words_with("opponent,qui,Quillhaven\n")) == "Quillhaven");
  CHECK(mended_field("lane", "k.A.", words_with("any,k.a.,\n")).empty());
  const std::string by_team =
      mend(chart_of("", {"G1,college,1,10,QUI 25,draw,run,4"}), words_with("side,QUI,own\n")).text;
  CHECK(by_team == chart_of("", {"G1,college,1,10,75,draw,run,4"}));
  const std::string named =
      mend("game,level,down,to_go,ball on,family,result,yards\nG1,college,1,10,-25,draw,TD,\n",
           words_with("header,ball on,yards_to_goal\nresult,td,run\n"))
          .text;
  CHECK(named == chart_of("", {"G1,college,1,10,75,draw,run,"}));
}

TEST_CASE("a table of words is held to what columns can hold") {
  const auto refused = [](const std::string& text) {
    try {
      parse_dictionary(text, "w.csv");
    } catch (const InputError& error) {
      return std::string(error.what());
    }
    return std::string("accepted");
  };
  CHECK(
      refused(
          "column,from,to\nlane,l,left\nyes_no,kyllä,yes\nany,leer,\nyards,td,{yards_to_goal}\n") ==
      "accepted");
  CHECK(refused("from,to\nl,left\n") ==
        "w.csv:1: column: the column is missing; begin with the row column,from,to");
  CHECK(refused("column,from,to\nlanes,l,left\nlane,l,lefty\nyac,few,some\nlane,,left\nany,leer,0\n"
                "header,dn,downs\n") ==
        "w.csv:2: column: words have no place \"lanes\"; did you mean lane?\n"
        "w.csv:3: to: lane cannot be \"lefty\"; did you mean left?\n"
        "w.csv:4: to: \"some\" is not a whole number; write one such as 7, or {yards_to_goal}\n"
        "w.csv:5: from: is blank; write the word that stands in charts\n"
        "w.csv:6: to: any cannot be \"0\"; leave it blank\n"
        "w.csv:7: to: header cannot be \"downs\"; did you mean down?");
  CHECK_THAT(refused("column,from,to\nnote,a,b\n"),
             Contains("words have no place \"note\"; use game, level"));  // notes are never read
  CHECK(refused(std::string(accepted_words_text())) == "accepted");
  CHECK(refused(std::string(mended_words_text())) == "accepted");
}

TEST_CASE("docs/chart.md lists the shipped words") {
  const std::string page = slurp(std::filesystem::path(CALLFIT_SOURCE_DIR) / "docs/chart.md");
  CHECK_THAT(page, Contains("\n```csv\n" + std::string(mended_words_text()) + "```\n"));
}

TEST_CASE("spaces that do not break, and those without width") {
  check_mended(
      "game,level,down,to_go,yards to\xC2\xA0goal,family,result,yards\n"
      "G1\xC2\xA0,college,1,10\xE2\x80\xAF,75,\xE2\x80\x8B"
      "draw,run,7\xC2\xA0\n",
      needed + "\nG1,college,1,10,75,draw,run,7\n",
      {"c.csv:1: yards_to_goal: wrote yards_to_goal for \"yards to\xC2\xA0goal\" (field with "
       "spaces that do not break)",
       "c.csv:2: game: wrote G1 for \"G1\xC2\xA0\" (field with spaces that do not break)",
       "c.csv:2: to_go: wrote 10 for \"10\xE2\x80\xAF\" (field with spaces that do not "
       "break)",
       "c.csv:2: family: wrote draw for \"\xE2\x80\x8B"
       "draw\" (field with spaces that do "
       "not break)",
       "c.csv:2: yards: wrote 7 for \"7\xC2\xA0\" (field with spaces that do not break)"});
}

TEST_CASE("a line that names the separator, titles and totals") {
  check_mended(
      "sep=;\nQuillhaven, autumn;;;;;;;\n\n;;;;;;;\n"
      "game;level;dn;dist;yards_to_goal;family;result;yards\n"
      "G1;college;1;10;75;draw;run;4\n"
      "Total;;;;;;-;4\n"
      ";;1;10,0;;;;4\n",
      needed + "\nG1,college,1,10,75,draw,run,4\n",
      {"c.csv:1: left out \"sep=;\" (line that only names the separator)",
       "c.csv:2: left out \"Quillhaven, autumn;;;;;;;\" (line above the column names)",
       "c.csv:5: down: wrote down for \"dn\" (column under another name)",
       "c.csv:5: to_go: wrote to_go for \"dist\" (column under another name)",
       "c.csv:7: left out \"Total - 4\" (row of totals)",
       "c.csv:8: left out \"1 10,0 4\" (row of totals)"});
  // A team of that name is a team, and a row that lacks something is no total.
  const std::string team = chart_of("", {"Total,college,1,10,75,draw,run,4"});
  CHECK(mend(team).text == team);
  const std::string lacks =
      chart_of("", {"G1,college,1,10,75,draw,,4", ",,2,6,71,,,3", "G1,college,3,3,68,draw,run,4"});
  CHECK(mend(lacks).text == lacks);
}

TEST_CASE("yard lines by side") {
  const auto spot = [](const std::string& field) {
    const std::string row = "G1,college,1,1,";
    const std::string text = mend(chart_of("", {row + field + ",draw,run,0"})).text;
    const std::size_t begin = text.find(row) + row.size();
    return text.substr(begin, text.find(',', begin) - begin);
  };
  CHECK(spot("own 25") == "75");
  CHECK(spot("OWN25") == "75");
  CHECK(spot("25 own") == "75");
  CHECK(spot("opp 8") == "8");
  CHECK(spot("Opponent-8") == "8");
  CHECK(spot("-25") == "75");
  CHECK(spot("\xE2\x88\x92"
             "25") == "75");
  CHECK(spot("-25.0") == "75");
  CHECK(spot("+8") == "+8");  // read as it is
  CHECK(spot("own 50") == "50");
  CHECK(spot("midfield") == "50");
  CHECK(spot("own 51") == "own 51");
  CHECK(spot("-51") == "-51");
  CHECK(spot("own 0") == "own 0");
  CHECK(spot("elsewhere 8") == "elsewhere 8");
  CHECK(spot("own 2 5") == "own 2 5");
}

TEST_CASE("times as sheets show them") {
  const auto times = [](const Texts& starts) {
    std::vector<std::string> rows;
    for (const std::string& start : starts)
      rows.push_back("G1,college,1,10,75,draw,run,4," + start);
    const std::string text = mend(chart_of(",start", rows)).text;
    Texts out;
    std::istringstream in(text);
    std::string line;
    std::getline(in, line);
    while (std::getline(in, line)) out.push_back(line.substr(line.rfind(",4,") + 3));
    return out;
  };
  // Typed as 12:34 and 0:07, shown with hours.
  CHECK(times({"12:34:00", "00:07:00"}) == Texts{"12:34", "0:07"});
  // Real hours: one of them has seconds, or there is one alone.
  CHECK(times({"0:12:34", "1:02:00"}) == Texts{"0:12:34", "1:02:00"});
  CHECK(times({"\"0:12:34,500\"", "1:02:00"}) == Texts{"0:12:34.500", "1:02:00"});
  CHECK(times({"1:02:00", ""}) == Texts{"1:02:00", ""});
  CHECK(times({"\"12:34,5\"", "\"75,25\"", "1:15", "75.5", "80", ""}) ==
        Texts{"12:34.5", "75.25", "1:15", "75.5", "80", ""});
  CHECK(times({"soon", "1:2:3:4", "1::2", "n/a"}) == Texts{"soon", "1:2:3:4", "1::2", ""});
}

TEST_CASE("bytes of Windows-1252 and UTF-16") {
  const std::string row = "G\xE9ry \x96 1,college,1,10,75,draw,run,4";
  check_mended(chart_of("", {row}),
               chart_of("", {"G\xC3\xA9ry \xE2\x80\x93 1,college,1,10,75,draw,run,4"}),
               {"c.csv:2: read as Windows-1252 (line that is not UTF-8)"});
  CHECK(mend(chart_of("", {"\x81,college,1,10,75,draw,run,4"})).mends.empty());  // no character
  // The code page's euro, and a pair of UTF-16 (Unicode 15, table 3-5: U+10302).
  CHECK(from_windows_1252("\x80") == "\xE2\x82\xAC");
  CHECK(from_utf16(std::string("\xFF\xFE\x00\xD8\x02\xDF", 6)) == "\xF0\x90\x8C\x82");
  CHECK_FALSE(from_utf16(std::string("\xFF\xFE\x00\xD8", 4)));
  CHECK_FALSE(from_utf16(std::string("\xFF\xFE\x41", 3)));
  std::string wide = "\xFF\xFE";
  std::string tabs = chart_of("", {"G1,college,1,10,75,draw,run,4"});
  for (char& c : tabs) c = c == ',' ? '\t' : c;
  for (const char c : tabs) wide += {c, '\0'};
  check_mended(wide, chart_of("", {"G1,college,1,10,75,draw,run,4"}),
               {"c.csv:1: read as UTF-16 (line that is not UTF-8)"});
}

TEST_CASE("lines that end in CR alone are read and keep their numbers") {
  std::string text =
      chart_of("", {"G1,college,1,10,75,draw,run,4", "G1,college,2,6,71,draw,run,\"3,0\""});
  for (char& c : text) c = c == '\n' ? '\r' : c;
  check_mended(
      text, chart_of("", {"G1,college,1,10,75,draw,run,4", "G1,college,2,6,71,draw,run,3"}),
      {"c.csv:3: yards: wrote 3 for \"3,0\" (number with a decimal comma, a point or a dash "
       "for a minus)"});
}

TEST_CASE("a chart that cannot be read tells one thing a cause, with counts") {
  std::vector<std::string> rows{"G1,college,1,10,own 25,draw,INT,\"4,0\",L"};
  for (int i = 0; i < 99; ++i) rows.emplace_back("G1,college,1,10,opp 25,draw,rush,\"3,0\",L");
  rows.emplace_back("G1,college,5,10,opp 25,draw,rush,\"2,0\",L");
  const std::string text = "Quillhaven\n" + chart_of(",lane", rows);
  CHECK(
      texts_of(refusal_of(text)) ==
      Texts{cannot, "c.csv:1: 1 line above the column names; mending leaves it out",
            "c.csv:3: yards_to_goal: 101 yard lines by side; mending writes 75 for \"own 25\", 25 "
            "for \"opp 25\"",
            "c.csv:3: result: 101 words that a chart does not use; mending writes intercepted for "
            "\"INT\", run for \"rush\"",
            "c.csv:3: yards: 101 numbers with a decimal comma, a point or a dash for a minus; "
            "mending writes 4 for \"4,0\", 3 for \"3,0\", 2 for \"2,0\"",
            "c.csv:3: lane: 101 words that a chart does not use; mending writes left for \"L\"",
            // What mending leaves, at the lines of the text as it is.
            "c.csv:3: result: intercepted on draw, which is a run; chart a run, or the pass family "
            "that was called",
            "c.csv:3: yards: 4 yards on an intercepted throw; give 0: the return is not the "
            "offence's gain",
            "c.csv:103: down: 5 is not possible; give 1 to 4"});
}

TEST_CASE("doubts that only the one who charted can settle") {
  const auto doubts = [](const std::string& column, const Texts& fields) {
    std::vector<std::string> rows;
    for (const std::string& field : fields)
      rows.push_back("G1,college,1,1," +
                     (column == "spot" ? field + ",draw,run,0," : "75,draw,run,0," + field));
    return texts_of(
        mend(chart_of("," + (column == "spot" ? std::string("lane") : column), rows)).doubts);
  };
  CHECK(doubts("pressure", {"", "x", "x"}) ==
        Texts{"c.csv:3: warning: pressure: is marked 2 times and never says no; write no where you "
              "looked and it was not so: a blank field is not charted"});
  CHECK(doubts("pressure", {"no", "x"}) == Texts{});
  CHECK(doubts("pressure", {"yes", "yes"}) == Texts{});
  const Texts sides{
      "c.csv:3: warning: yards_to_goal: a plain number stands among yard lines by side; "
      "see that it counts to the opponent's goal line"};
  CHECK(doubts("spot", {"own 25", "30"}) == sides);
  CHECK(doubts("spot", {"-25", "75"}) == sides);
  CHECK(doubts("spot", {"-25", "30"}) == Texts{});
  CHECK(doubts("spot", {"own 25", "50", "+8"}) == Texts{});
}

TEST_CASE("what cannot be cut into rows is said with what stands above left out") {
  const std::string text = "A title\n" + needed + "\nG1,college,1,10\n";
  CHECK(
      texts_of(refusal_of(text)) ==
      Texts{cannot, "c.csv:1: 1 line above the column names; mending leaves it out",
            "c.csv:3: 4 fields where the header has 8; give one field a column; quote a field that "
            "holds a separator"});
}
