// Charts in workbooks. What files hold follows ECMA-376 (part 1, SpreadsheetML) and OpenDocument
// 1.3 (part 3), the sections that src/files names; the date of day 46269 is from memory, and
// checked by hand: 46023 is 2026-01-01, and 246 days on is 2026-09-04.
#include "folder.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/files/files.hpp>
#include <files/sheet.hpp>

#include <catch2/catch.hpp>

#include <zip.h>

#include <iterator>
#include <map>
#include <random>

using namespace callfit;
using callfit::testing::Folder;
using Catch::Matchers::Contains;

namespace {

/// A packed file of these.
std::string packed(const std::map<std::string, std::string>& files) {
  const Folder folder;
  const std::string path = folder / "packed.zip";
  zip_t* archive = zip_open(path.c_str(), ZIP_CREATE | ZIP_TRUNCATE, nullptr);
  REQUIRE(archive != nullptr);
  for (const auto& [name, text] : files) {
    zip_source_t* source = zip_source_buffer(archive, text.data(), text.size(), 0);
    REQUIRE(zip_file_add(archive, name.c_str(), source, ZIP_FL_OVERWRITE) >= 0);
  }
  REQUIRE(zip_close(archive) == 0);
  return Files().read(path);
}

std::map<std::string, std::string> book(const std::string& rows) {
  return {
      {"xl/workbook.xml",
       R"(<workbook xmlns:r="urn:r"><sheets><sheet name="Notes" state="hidden" r:id="rId9"/>
          <sheet name="Empty" r:id="rId2"/><sheet name="Chart" r:id="rId1"/></sheets></workbook>)"},
      {"xl/_rels/workbook.xml.rels",
       R"(<Relationships><Relationship Id="rId1" Target="worksheets/one.xml"/>
          <Relationship Id="rId2" Target="/xl/worksheets/two.xml"/></Relationships>)"},
      {"xl/worksheets/two.xml", "<worksheet><sheetData/></worksheet>"},
      {"xl/worksheets/one.xml", "<worksheet><sheetData>" + rows + "</sheetData></worksheet>"},
      {"xl/sharedStrings.xml",
       R"(<sst><si><t>game</t></si><si><r><t>Quill</t></r><r><t>haven, "A"</t></r><rPh><t>x</t></rPh>
          </si></sst>)"},
      {"xl/styles.xml",
       R"(<styleSheet><numFmts><numFmt numFmtId="170" formatCode="[h]:mm:ss"/>
          <numFmt numFmtId="171" formatCode="&quot;day&quot;0"/>
          <numFmt numFmtId="172" formatCode="yyyy\-mm\-dd hh:mm"/></numFmts><cellXfs>
          <xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="20"/><xf numFmtId="170"/>
          <xf numFmtId="171"/><xf numFmtId="172"/></cellXfs></styleSheet>)"},
  };
}

std::string csv_of(const std::string& bytes) {
  Findings notices;
  return workbook_as_csv(bytes, "w", notices);
}

std::string refusal_of(const std::string& bytes) {
  try {
    csv_of(bytes);
  } catch (const InputError& error) {
    return error.what();
  }
  return "read";
}

std::string flat(const std::string& tables) {
  return "<?xml version=\"1.0\"?><office:document><office:body><office:spreadsheet>" + tables +
         "</office:spreadsheet></office:body></office:document>";
}

}  // namespace

TEST_CASE("cells of Office Open XML count with their values") {
  const std::string bytes = packed(book(R"(
    <row r="2"><c r="A2" t="s"><v>0</v></c><c t="inlineStr"><is><t>two
lines</t></is></c><c r="D2" t="s"><v>1</v></c></row>
    <row r="4"><c r="A4"><v>7</v></c><c r="B4"><v>0.30000000000000004</v></c><c r="C4"><v>1E2</v></c>
      <c r="D4" t="b"><v>1</v></c><c r="E4" t="e"><v>#N/A</v></c><c r="F4" t="str"><f>A4</f><v>so</v></c>
      <c r="G4"><f>A4</f></c></row>
    <row><c s="1"><v>46269</v></c><c s="2"><v>0.52361111111111114</v></c><c s="3"><v>1.5</v></c>
      <c s="4"><v>3</v></c><c s="5"><v>46269.5</v></c><c s="1"><v>-1</v></c></row>)"));
  CHECK(is_workbook(bytes));
  Findings notices;
  CHECK(workbook_as_csv(bytes, "w", notices) ==
        "\ngame,two lines,,\"Quillhaven, \"\"A\"\"\",,\n"
        "\n7,0.30000000000000004,100,TRUE,#N/A,so\n"
        "2026-09-04,12:34:00,36:00:00,3,2026-09-04 12:00:00,-1\n");
  REQUIRE(notices.size() == 1);
  CHECK(to_text(notices.front()) ==
        "w: notice: has 2 sheets; \"Chart\" is read; put the chart first");
}

TEST_CASE("days from 1904 and names with a prefix") {
  auto files = book(R"(<row><c r="A1" s="1"><v>0</v></c></row>)");
  files["xl/workbook.xml"] =
      R"(<x:workbook xmlns:x="urn:x" xmlns:r="urn:r"><x:workbookPr date1904="1"/><x:sheets>
         <x:sheet name="Chart" r:id="rId1"/></x:sheets></x:workbook>)";
  CHECK(csv_of(packed(files)) == "1904-01-01\n");
}

TEST_CASE("cells of OpenDocument count with their values") {
  const std::string row = R"(
    <table:table-header-rows><table:table-row table:number-rows-repeated="2">
      <table:table-cell table:number-columns-repeated="3"/></table:table-row>
    <table:table-row><table:table-cell office:value-type="string"><office:annotation><text:p>no</text:p>
      </office:annotation><text:p>yards<text:s text:c="2"/>to</text:p><text:p>goal</text:p></table:table-cell>
      <table:table-cell table:number-columns-repeated="2" office:value-type="float" office:value="7">
      <text:p>7,00</text:p></table:table-cell></table:table-row></table:table-header-rows>
    <table:table-row table:number-rows-repeated="2">
      <table:table-cell office:value-type="time" office:time-value="PT12H34M05.5S"/>
      <table:covered-table-cell/>
      <table:table-cell office:value-type="date" office:date-value="2026-09-04T00:00:00"/>
      <table:table-cell office:value-type="boolean" office:boolean-value="true"/></table:table-row>
    <table:table-row table:number-rows-repeated="1000000"><table:table-cell/></table:table-row>)";
  const std::string tables =
      "<table:table table:name='Empty'/><table:table table:name='Chart'>" + row + "</table:table>";
  const std::string text =
      "\n\nyards  to goal,7,7,\n12:34:05.500,,2026-09-04,TRUE\n12:34:05.500,,2026-09-04,TRUE\n";
  CHECK(csv_of(flat(tables)) == text);
  CHECK(csv_of(packed({{"content.xml", flat(tables)}})) == text);
}

TEST_CASE("workbooks that cannot be read say how to save them") {
  const std::string how = "save it as CSV (UTF-8), .xlsx or .ods";
  CHECK_THAT(refusal_of("\xD0\xCF\x11\xE0 old"), Contains("(.xls)") && Contains(how));
  CHECK_THAT(refusal_of("<!DOCTYPE html><table>"), Contains("web page") && Contains(how));
  CHECK_THAT(refusal_of("ID;PCALC\nC;X1\n"), Contains("SYLK") && Contains(how));
  CHECK_THAT(refusal_of("TABLE\n0,1\n\"x\"\n"), Contains("DIF") && Contains(how));
  CHECK_THAT(refusal_of("%PDF-1.6"), Contains("PDF") && Contains(how));
  CHECK_THAT(refusal_of(packed({{"word/document.xml", "<w/>"}})), Contains(how));
  CHECK_THAT(refusal_of(flat("<table:table/>")), Contains("no sheet that holds anything"));
}

TEST_CASE("damaged and oversized workbooks are refused") {
  const std::string whole = packed(book(R"(<row><c r="A1"><v>1</v></c></row>)"));
  CHECK(refusal_of(whole) == "read");
  CHECK_THAT(refusal_of(whole.substr(0, whole.size() / 2)), Contains("is a damaged workbook: "));
  CHECK_THAT(refusal_of(packed(book("<row>"))), Contains("xl/worksheets/one.xml: "));
  CHECK_THAT(
      refusal_of(packed({{"xl/workbook.xml", "<workbook><sheets><sheet/></sheets></workbook>"}})),
      Contains("xl/_rels/workbook.xml.rels: is missing"));
  CHECK_THAT(refusal_of(packed(book(R"(<row r="9999999"/>)"))), Contains("outside of the sheet"));
  CHECK_THAT(refusal_of(packed(book(R"(<row><c r="XFE1"><v>1</v></c></row>)"))),
             Contains("outside of the sheet"));
  CHECK_THAT(refusal_of(packed({{"content.xml", std::string(Archive::longest + 1, ' ')}})),
             Contains("holds more than 32 MB"));
  const std::string wide =
      "<table:table><table:table-row table:number-rows-repeated='1000000'>"
      "<table:table-cell office:value-type='float' office:value='1' "
      "table:number-columns-repeated='16384'/></table:table-row></table:table>";
  CHECK_THAT(refusal_of(flat(wide)), Contains("more than 5000000 cells"));
  std::string rows;  // far to the right in one row, and many others
  for (int i = 0; i < 2000; ++i) rows += "<row><c><v>1</v></c></row>";
  CHECK_THAT(refusal_of(packed(book(rows + R"(<row><c r="XFD2001"><v>1</v></c></row>)"))),
             Contains("more than 5000000 cells"));
}

TEST_CASE("small workbooks that would grow without bound are refused") {
  const std::string length = "holds more than 32 MB";
  const std::string text(1U << 20U, 'x');
  CHECK_THAT(
      refusal_of(flat("<table:table><table:table-row><table:table-cell "
                      "table:number-columns-repeated='1000000'><text:p>" +
                      text + "</text:p></table:table-cell></table:table-row></table:table>")),
      Contains(length));
  auto files = book([] {
    std::string cells;
    for (int i = 0; i < 10'000; ++i) cells += R"(<c t="s"><v>0</v></c>)";
    return "<row>" + cells + "</row>";
  }());
  files["xl/sharedStrings.xml"] = "<sst><si><t>" + text + "</t></si></sst>";
  CHECK_THAT(refusal_of(packed(files)), Contains(length));
  files = book("");  // many sheets that are one and empty
  std::string sheets;
  for (int i = 0; i < 10'000; ++i) sheets += R"(<sheet name="a" r:id="rId2"/>)";
  files["xl/workbook.xml"] =
      R"(<workbook xmlns:r="urn:r"><sheets>)" + sheets + "</sheets></workbook>";
  files["xl/worksheets/two.xml"] = "<worksheet>" + std::string(1U << 20U, ' ') + "</worksheet>";
  CHECK_THAT(refusal_of(packed(files)), Contains(length));
}

TEST_CASE("mutated workbooks are read or refused") {
  std::mt19937 dice(1);
  const std::string row =
      R"(<row r="2"><c r="B2" s="1"><v>46269</v></c><c t="s"><v>1</v></c></row>)";
  const auto mutated = [&](std::string bytes) {
    for (int i = 0; i < 3; ++i) bytes[dice() % bytes.size()] = static_cast<char>(dice() % 256);
    return bytes;
  };
  int refused = 0;
  for (int i = 0; i < 300; ++i) {
    auto files = book(row);
    auto& text = std::next(files.begin(), static_cast<long>(dice() % files.size()))->second;
    text = mutated(text);
    refused += refusal_of(packed(files)) != "read";
    refused += refusal_of(mutated(packed(book(row)))) != "read";
    refused += refusal_of(mutated(flat("<table:table><table:table-row><table:table-cell "
                                       "office:value-type='time' office:time-value='PT1H'/>"
                                       "</table:table-row></table:table>"))) != "read";
  }
  CHECK(refused > 90);
  CHECK(refused < 900);
}

TEST_CASE("a chart in a workbook is read wherever a chart is, and its rows keep their numbers") {
  const auto cells = [](std::initializer_list<std::string> fields) {
    std::string row = "<row>";
    for (const std::string& field : fields)
      row += "<c t=\"inlineStr\"><is><t>" + field + "</t></is></c>";
    return row + "</row>";
  };
  const std::string header =
      cells({"game", "level", "down", "to_go", "yards_to_goal", "family", "result", "yards"});
  const std::string good =
      packed(book(header + cells({"G1", "college", "1", "10", "75", "draw", "run", "4"})));
  const std::string bad =
      packed(book(header + cells({"G1", "college", "9", "10", "own 25", "draw", "run", "4"})));
  const Folder folder;  // one at a time: packed() has had its own
  const std::string path = folder / "chart.xlsx";
  Files().write(path, good);
  Findings notices;
  const Chart chart = Files().chart(path, notices);
  REQUIRE(chart.snaps.size() == 1);
  CHECK(chart.snaps[0].yards == 4);
  CHECK(chart.snaps[0].line == 2);
  Files over;
  over.replace_all();  // a workbook cannot hold the mark of what callfit wrote
  over.write(path, bad);
  CHECK_THROWS_WITH(Files().chart(path, notices),
                    Contains(path + ":2: yards_to_goal: 1 yard line by side") &&
                        Contains(path + ":2: down: 9 is not possible"));
}
