#include "../support/message_of.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/format/csv.hpp>

#include <catch2/catch.hpp>

using namespace callfit;
using callfit::testing::message_of;

namespace {

struct CsvTable {
  CsvRow header;
  std::vector<CsvRow> rows;
};

/// The rows of a text that comes in blocks of that many bytes.
CsvTable parse_csv(std::string_view text, const std::string& source, std::size_t block = 1 << 20) {
  std::vector<CsvRow> rows;
  CsvCutter cutter(source, [&](const CsvRow& row) { rows.push_back(row); });
  for (std::size_t at = 0; at < text.size(); at += block) cutter.feed(text.substr(at, block));
  cutter.finish();
  return {rows.front(), {rows.begin() + 1, rows.end()}};
}

std::string csv_message(const std::string& text) {
  return message_of([&] { parse_csv(text, "t.csv"); });
}

using Fields = std::vector<std::string>;

}  // namespace

// RFC 4180 (Shafranovich 2005), section 2, rules 1 to 7: its own examples.
TEST_CASE("the examples of RFC 4180 are cut as it says") {
  const CsvTable plain =
      parse_csv("field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx", "t.csv");
  CHECK(plain.header.fields == Fields{"field_name", "field_name", "field_name"});
  REQUIRE(plain.rows.size() == 2);
  CHECK(plain.rows[1].fields == Fields{"zzz", "yyy", "xxx"});

  const CsvTable quoted =
      parse_csv("a,b,c\r\n\"aaa\",\"b CRLF\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx\r\n", "t.csv");
  REQUIRE(quoted.rows.size() == 2);
  CHECK(quoted.rows[0].fields == Fields{"aaa", "b CRLF\r\nbb", "ccc"});

  const CsvTable doubled = parse_csv("a,b,c\n\"aaa\",\"b\"\"bb\",\"c,c\"\n", "t.csv");
  CHECK(doubled.rows.at(0).fields == Fields{"aaa", "b\"bb", "c,c"});
}

TEST_CASE("rows know their line, also after quoted line breaks and blank lines") {
  const CsvTable table = parse_csv("\na,b\n\"1\n2\n3\",x\n\n4,\"y\nz\"\r\n5,w\n", "t.csv");
  CHECK(table.header.line == 2);
  REQUIRE(table.rows.size() == 3);
  CHECK(table.rows[0].line == 3);
  CHECK(table.rows[1].line == 7);
  CHECK(table.rows[2].line == 9);
}

TEST_CASE("a byte order mark, old line ends, other separators and empty rows are accepted") {
  CHECK(parse_csv("\xEF\xBB\xBF\"game\",b\n1,2\n", "t.csv").header.fields == Fields{"game", "b"});
  const CsvTable returns = parse_csv("a,b\r1,2\r3,4\r", "t.csv");
  REQUIRE(returns.rows.size() == 2);
  CHECK(returns.rows[1].line == 3);
  CHECK(parse_csv("a;b\n1,5;2\n", "t.csv").rows.at(0).fields == Fields{"1,5", "2"});
  CHECK(parse_csv("a\tb\n1\t2\n", "t.csv").rows.at(0).fields == Fields{"1", "2"});
  CHECK(parse_csv("a,b\n1,2\n,\n  , \n", "t.csv").rows.size() == 1);
}

TEST_CASE("each fault of the text has its message") {
  struct Case {
    const char* text;
    const char* message;
  };
  const auto [text, message] = GENERATE(values<Case>({
      {"", "t.csv: the file is empty; begin with a row of column names"},
      {"\n \n", "t.csv: the file is empty; begin with a row of column names"},
      {"a,b\n1,2\n1\n",
       "t.csv:3: 1 fields where the header has 2; give one field a column; quote a field that "
       "holds a separator"},
      {"a,b\n1,2,3\n1\n",
       "t.csv:2: 3 fields where the header has 2; give one field a column; quote a field that "
       "holds a separator\n"
       "t.csv:3: 1 fields where the header has 2; give one field a column; quote a field that "
       "holds a separator"},
      {"a,b\n1,x\"y\n",
       "t.csv:2: a quote stands where none may; put the whole field in quotes and write a quote "
       "inside it twice"},
      {"a,b\n1,2\n3,\"open\n5,6\n", "t.csv:3: a quoted field is not closed; add the closing quote"},
      {"a,b\n1,caf\xE9\n",
       "t.csv:2: field 2: the text is not UTF-8; save the sheet as CSV in UTF-8"},
      {"\xFF\xFE"
       "a",
       "t.csv:1: the text is UTF-16; save the sheet as CSV in UTF-8"},
  }));
  CHECK(csv_message(text) == message);
}

// Unicode 15, table 3-7, and the examples below it: well-formed and ill-formed sequences.
TEST_CASE("UTF-8 is told from what only looks like it") {
  CHECK(is_utf8_text("plain \xC3\xA9 \xE2\x82\xAC \xF0\x9F\x8F\x88"));
  CHECK_FALSE(is_utf8_text("\xC0\xAF"));          // overlong
  CHECK_FALSE(is_utf8_text("\xE0\x9F\x80"));      // overlong
  CHECK_FALSE(is_utf8_text("\xED\xA0\x80"));      // surrogate
  CHECK_FALSE(is_utf8_text("\xF4\x90\x80\x80"));  // beyond U+10FFFF
  CHECK_FALSE(is_utf8_text("\xE2\x82"));          // cut short
  CHECK_FALSE(is_utf8_text(std::string_view("a\0b", 3)));
}

TEST_CASE("blocks of any size give the same rows and messages") {
  const std::string text =
      "\xEF\xBB\xBF\r\na;b\r\n\"1\r\n2\";caf\xC3\xA9\r\n\r3;4\n;\n5;\"x\"\"y\"";
  const CsvTable whole = parse_csv(text, "t.csv");
  REQUIRE(whole.rows.size() == 3);
  CHECK(whole.rows[0].fields == Fields{"1\r\n2", "caf\xC3\xA9"});
  CHECK(whole.rows[2].line == 8);
  for (std::size_t block = 1; block < text.size(); ++block) {
    CAPTURE(block);
    const CsvTable table = parse_csv(text, "t.csv", block);
    CHECK(table.header.fields == whole.header.fields);
    REQUIRE(table.rows.size() == whole.rows.size());
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
      CHECK(table.rows[i].fields == whole.rows[i].fields);
      CHECK(table.rows[i].line == whole.rows[i].line);
    }
    CHECK_THROWS_WITH(parse_csv("a,b\r\n1,2\r\n3,x\"y\r\n", "t.csv", block),
                      Catch::StartsWith("t.csv:3: a quote stands where none may"));
  }
}
