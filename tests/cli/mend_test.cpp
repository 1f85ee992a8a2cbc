// Spreadsheets as people have them, through the real program.
#include "program.hpp"

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include <cstdlib>
#include <filesystem>
#include <map>
#include <string>

using namespace callfit::test;
using Catch::Matchers::Contains;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

const std::string messy =
    "Quillhaven;;;;;;;;\n"
    "game;level;down;to_go;yards_to_goal;family;result;yards;lane\n"
    "G1;college;1;10;own 25;quick_middle;comp;7,0;L\n"
    "G1;college;2;3;-32;quick_middle;INT;-;links\n"
    "Total;;;;;;;7,0;\n";

const std::string mended =
    "game,level,down,to_go,yards_to_goal,family,result,yards,lane\n"
    "G1,college,1,10,75,quick_middle,complete,7,left\n"
    "G1,college,2,3,68,quick_middle,intercepted,,left\n";

const std::string links = "column,from,to\nlane,links,left\n";

bool has_libreoffice() { return std::system("command -v soffice >/dev/null 2>&1") == 0; }

/// Into the folder "out", with settings of its own.
void convert(const fs::path& folder, const std::string& file, const std::string& format) {
  const std::string command =
      "cd '" + folder.string() + "' && soffice -env:UserInstallation=file://" + folder.string() +
      "/office --headless --convert-to '" + format + "' --outdir out " + file + " >/dev/null 2>&1";
  INFO(command);
  REQUIRE(std::system(command.c_str()) == 0);
}

}  // namespace

TEST_CASE("check says what mending would do, and --mend does it beside the chart") {
  const Scratch scratch;
  scratch.write("a.csv", messy);
  scratch.write("words.csv", links);
  const Outcome plain = run("check a.csv", scratch.path());
  CHECK(plain.code == 1);
  CHECK_THAT(plain.err,
             Contains("a.csv: cannot be read as it is; callfit check --mend writes a mended copy "
                      "beside it\n") &&
                 Contains("a.csv:1: 1 line above the column names; mending leaves it out\n") &&
                 Contains("a.csv:4: lane: unknown word \"links\""));
  CHECK_FALSE(fs::exists(scratch.path() / "a.mended.csv"));
  CHECK(run("check a.csv --words words.csv", scratch.path()).code == 1);

  const Outcome outcome = run("check a.csv --mend --words words.csv", scratch.path());
  CAPTURE(outcome.out, outcome.err);
  CHECK(outcome.code == 0);
  CHECK(scratch.read("a.csv") == messy);
  CHECK(scratch.read("a.mended.csv") == mended);
  CHECK_THAT(outcome.out,
             Contains("a.csv:1: left out \"Quillhaven;;;;;;;;\" (line above the column names)\n") &&
                 Contains("a.csv:4: lane: wrote left for \"links\"") &&
                 Contains("a.csv:5: left out \"Total 7,0\" (row of totals)\n") &&
                 Contains("a.mended.csv: 2 snaps, 0 errors, "));

  // What was written is not written again, and what somebody has changed since is his.
  CHECK(run("check a.csv --mend --words words.csv", scratch.path()).code == 0);
  scratch.write("a.mended.csv", mended + "G1,college,1,10,60,boot,sack,-3,\n");
  const Outcome kept = run("check a.csv --mend --words words.csv", scratch.path());
  CHECK(kept.code == 1);
  CHECK_THAT(kept.err, Contains("a.mended.csv: is already there and says something else"));
  CHECK_THAT(scratch.read("a.mended.csv"), Contains("sack"));
}

TEST_CASE("a chart that needs no mending gets no copy") {
  const Scratch scratch;
  scratch.write("a.csv", mended);
  const Outcome outcome = run("check a.csv --mend", scratch.path());
  CHECK(outcome.code == 0);
  CHECK(outcome.err.empty());
  CHECK_FALSE(fs::exists(scratch.path() / "a.mended.csv"));
}

TEST_CASE("a chart that can be read tells what else mending would do") {
  const Scratch scratch;
  scratch.write("a.csv",
                "game,level,down,to_go,yards_to_goal,family,result,yards,qtr\n"
                "G1,college,1,10,75,quick_middle,complete,7,1\n");
  const Outcome outcome = run("check a.csv", scratch.path());
  CHECK(outcome.code == 0);
  CHECK_THAT(outcome.err, Contains("a.csv:1: notice: quarter: 1 column under another name; mending "
                                   "writes quarter for \"qtr\"\n"));
}

TEST_CASE("what mending leaves is told at the lines of the copy, and in JSON") {
  const Scratch scratch;
  scratch.write("a.csv", messy);
  const Outcome outcome = run("check a.csv --mend --json", scratch.path());
  CHECK(outcome.code == 1);
  const json result = json::parse(outcome.out).at("result").at(0);
  CHECK(result.at("mended") == "a.mended.csv");
  CHECK(result.at("mends").size() == 9);
  CHECK(result.at("mends").at(0) == json{{"line", 1},
                                         {"column", ""},
                                         {"cause", "title"},
                                         {"from", "Quillhaven;;;;;;;;"},
                                         {"to", ""}});
  CHECK(result.at("findings").at(0).at("line") == 3);
  CHECK(result.at("findings").at(0).at("field") == "lane");
}

TEST_CASE("every command that reads a chart says what mending would do") {
  const Scratch scratch;
  scratch.write("a.csv", messy);
  for (const char* words : {"read a.csv", "answer a.csv --scheme balanced",
                            "next a.csv --scheme balanced", "check a.csv a.csv --same-snaps"}) {
    CAPTURE(words);
    const Outcome outcome = run(words, scratch.path());
    CHECK(outcome.code == 1);
    CHECK_THAT(outcome.err, Contains("a.csv: cannot be read as it is; callfit check --mend") &&
                                Contains("2 yard lines by side"));
  }
}

TEST_CASE("two men of one name are told apart by numbers, with a warning", "[plain]") {
  const Scratch scratch;
  scratch.write("new.csv", slurp(source_file("profiles/demo/new-starter.csv")));
  scratch.write("last.csv", slurp(source_file("profiles/demo/last-starter.csv")));
  const std::string words =
      " new.csv last.csv --name Brook --name Brook --scheme balanced --draws 500";
  const Outcome outcome =
      run("answer" + words + " --part compare --part fit --who 'Brook (2)'", scratch.path());
  CAPTURE(outcome.out, outcome.err);
  CHECK(outcome.code == 0);
  CHECK_THAT(outcome.err, Contains("warning: /quarterbacks: several are called \"Brook\"; they are "
                                   "shown with their numbers; give each a name of his own\n"));
  CHECK_THAT(outcome.out, Contains("Brook (1)") && Contains("Brook (2)"));
  const Outcome shared = run("answer" + words + " --part fit --who Brook", scratch.path());
  CHECK(shared.code == 2);
  CHECK_THAT(shared.err, Contains("Brook (1)"));
  const Outcome apart =
      run("answer new.csv last.csv --scheme balanced --draws 500 --part compare", scratch.path());
  CHECK_THAT(apart.err, !Contains("warning: /quarterbacks"));
  CHECK_THAT(apart.out, !Contains("(1)"));
}

TEST_CASE("LibreOffice's exports of the demo chart are read or refused with how to save them",
          "[slow-plain]") {
  if (!has_libreoffice()) {
    WARN("not run: soffice is not installed");
    return;
  }
  const Scratch scratch;
  const fs::path& folder = scratch.path();
  scratch.write("chart.csv", slurp(source_file("profiles/demo/new-starter.csv")));
  const std::string profile = run("read chart.csv --name New", folder).out;
  REQUIRE_FALSE(profile.empty());
  // Tokens of its filter: separator, quotes, encoding (76 UTF-8, 1 Windows-1252, 65535 UTF-16).
  const std::map<std::string, std::string> read{
      {"ods", "ods"},
      {"ots", "ots"},
      {"fods", "fods"},
      {"xlsx", "xlsx"},
      {"xltx", "xltx"},
      {"xlsm", "xlsm"},
      {"csv", "csv"},
      {"csv:Text - txt - csv (StarCalc):59,34,76", "csv"},
      {"csv:Text - txt - csv (StarCalc):9,34,1", "csv"},
      {"csv:Text - txt - csv (StarCalc):44,34,76,1,,0,true", "csv"},
  };
  for (const auto& [format, ending] : read) {
    CAPTURE(format);
    convert(folder, "chart.csv", format);
    const Outcome outcome = run("read out/chart." + ending + " --name New", folder);
    CAPTURE(outcome.err);
    CHECK(outcome.code == 0);
    CHECK((outcome.out == profile));
  }
  for (const char* format : {"xls", "xlt", "html", "slk", "dif", "uos", "pdf"}) {
    CAPTURE(format);
    convert(folder, "chart.csv", format);
    const Outcome outcome = run("check out/chart." + std::string(format), folder);
    CHECK(outcome.code == 1);
    CHECK_THAT(outcome.err, Contains("save it as CSV (UTF-8), .xlsx or .ods"));
  }
  // Saved as told, an old workbook is the chart that it was.
  fs::rename(folder / "out/chart.xls", folder / "old.xls");
  convert(folder, "old.xls", "xlsx");
  CHECK((run("read out/old.xlsx --name New", folder).out == profile));
  convert(folder, "chart.csv", "csv:Text - txt - csv (StarCalc):9,34,65535");
  const Outcome wide = run("check out/chart.csv --mend", folder);
  CAPTURE(wide.err);
  CHECK(wide.code == 0);
  CHECK((run("read out/chart.mended.csv --name New", folder).out == profile));
}
