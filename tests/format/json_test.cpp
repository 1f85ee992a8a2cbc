#include <callfit/base/finding.hpp>

#include <catch2/catch.hpp>
#include <format/json_text.hpp>
#include <nlohmann/json.hpp>

using namespace callfit;

namespace {

std::string message_of(const std::string& text) {
  try {
    parse_json(text, "t.json");
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}

}  // namespace

TEST_CASE("syntax errors give line and column") {
  CHECK_THAT(message_of("{\n  \"a\": 1,\n  \"b\": ]\n}"),
             Catch::StartsWith("t.json:3: column 8: not valid JSON: "));
  CHECK_THAT(message_of("{\"a\": 1,}"), Catch::StartsWith("t.json:1: column 9: not valid JSON: "));
  CHECK_THAT(message_of(""), Catch::StartsWith("t.json:1: column 1: not valid JSON: "));
  CHECK_THAT(message_of("{\"a\": NaN}"), Catch::StartsWith("t.json:1: column 7: not valid JSON: "));
  CHECK(message_of("{\"a\": 1e999}") ==
        "t.json: /a: the number is too large to read; give one below 1e308");
}

TEST_CASE("keys that stand twice are named by their pointer") {
  CHECK(message_of(R"({"a": 1, "b": {"c": 1, "c": 2}, "a": 3})") ==
        "t.json: /b/c: the key stands twice; keep one of them\n"
        "t.json: /a: the key stands twice; keep one of them");
  CHECK(message_of(R"({"a": [1, [], {"x": 1}, {"y": 1, "y": {"y": 1}}]})") ==
        "t.json: /a/3/y: the key stands twice; keep one of them");
  CHECK(message_of(R"([{"a": 1}, {"a": 1}])") == "accepted");
}

// RFC 6901, section 5, escapes.
TEST_CASE("pointers are escaped") {
  CHECK(child("", "a/b") == "/a~1b");
  CHECK(child("/x", "m~n") == "/x/m~0n");
  CHECK(child("/x", 3) == "/x/3");
}
