#include "../support/message_of.hpp"

#include <callfit/base/finding.hpp>

#include <callfit/format/json.hpp>
#include <catch2/catch.hpp>
#include <format/json_text.hpp>
#include <nlohmann/json.hpp>

using namespace callfit;
using callfit::testing::message_of;

namespace {

std::string json_message(const std::string& text) {
  return message_of([&] { parse_json(text, "t.json"); });
}

}  // namespace

TEST_CASE("the format of a document is found wherever it stands, and nowhere deeper") {
  CHECK(format_of(R"({"format": "a/1", "x": [)", "t.json") == "a/1");
  CHECK(format_of(R"({"x": {"format": "b/1"}, "y": [{"format": 1}], "format": "a/1"})", "t.json") ==
        "a/1");
  CHECK(format_of(R"({"format": {"format": "b/1"}})", "t.json").empty());
  CHECK(format_of("[1, 2]", "t.json").empty());
  CHECK_THROWS_AS(format_of(R"({"x": [)", "t.json"), InputError);
}

TEST_CASE("syntax errors give line and column") {
  CHECK_THAT(json_message("{\n  \"a\": 1,\n  \"b\": ]\n}"),
             Catch::StartsWith("t.json:3: column 8: not valid JSON: "));
  CHECK_THAT(json_message("{\"a\": 1,}"),
             Catch::StartsWith("t.json:1: column 9: not valid JSON: "));
  CHECK_THAT(json_message(""), Catch::StartsWith("t.json:1: column 1: not valid JSON: "));
  CHECK_THAT(json_message("{\"a\": NaN}"),
             Catch::StartsWith("t.json:1: column 7: not valid JSON: "));
  CHECK(json_message("{\"a\": 1e999}") ==
        "t.json: /a: the number is too large to read; give one below 1e308");
}

TEST_CASE("keys that stand twice are named by their pointer") {
  CHECK(json_message(R"({"a": 1, "b": {"c": 1, "c": 2}, "a": 3})") ==
        "t.json: /b/c: the key stands twice; keep one of them\n"
        "t.json: /a: the key stands twice; keep one of them");
  CHECK(json_message(R"({"a": [1, [], {"x": 1}, {"y": 1, "y": {"y": 1}}]})") ==
        "t.json: /a/3/y: the key stands twice; keep one of them");
  CHECK(json_message(R"([{"a": 1}, {"a": 1}])") == "accepted");
}

// RFC 6901, section 5, escapes.
TEST_CASE("pointers are escaped") {
  CHECK(child("", "a/b") == "/a~1b");
  CHECK(child("/x", "m~n") == "/x/m~0n");
  CHECK(child("/x", 3) == "/x/3");
}
