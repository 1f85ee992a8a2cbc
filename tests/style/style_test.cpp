#include <callfit/base/finding.hpp>
#include <callfit/style/style.hpp>

#include <catch2/catch.hpp>

using namespace callfit;

namespace {

std::string message_of(const std::string& text, Dress& dress) {
  try {
    dress = with_style(dress, text, "s.json");
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}

}  // namespace

TEST_CASE("a style changes what it names and leaves the rest") {
  Dress dress;
  const Style before = dress.style;
  const std::string key(phrases().front().key);
  CHECK(message_of(R"({"format": "callfit-style/1", "colours": {"first": "#002255"},
                       "fonts": {"text": "Open Sans, sans-serif"},
                       "wording": {")" +
                       key + R"(": "Another text"}})",
                   dress) == "accepted");
  CHECK(to_hex(dress.style[Ink::first]) == "#002255");
  CHECK(dress.style[Ink::second] == before[Ink::second]);
  CHECK(dress.style.text_family == "Open Sans, sans-serif");
  CHECK(dress.style.headline_family == before.headline_family);
  CHECK(dress.wording(key) == "Another text");
}

TEST_CASE("a theme goes first") {
  Dress dress;
  CHECK(message_of(R"({"format": "callfit-style/1", "colours": {"second": "#ffcc99"},
                       "theme": "dark"})",
                   dress) == "accepted");
  CHECK(dress.style.theme == Theme::dark);
  CHECK(dress.style[Ink::paper] == house_style(Theme::dark)[Ink::paper]);
  CHECK(to_hex(dress.style[Ink::second]) == "#ffcc99");
}

TEST_CASE("bad styles are named and change nothing") {
  Dress dress;
  const Style before = dress.style;
  CHECK(message_of(R"({"format": "callfit-style/1", "colours": {"first": "blue"}})", dress) ==
        "s.json: /colours/first: \"blue\" does not fit here; give a colour such as \"#1a4c96\"");
  CHECK(message_of(R"({"format": "callfit-style/1", "colours": {"papre": "#ffffff"}})", dress) ==
        "s.json: /colours/papre: unknown key; did you mean paper?");
  CHECK_THAT(message_of(R"({"format": "callfit-style/1", "colours": {"quiet": "#cccccc"}})", dress),
             Catch::StartsWith("s.json: /colours/quiet: #cccccc on paper ") &&
                 Catch::Contains("below 4.5; the nearest colour that passes is #"));
  CHECK_THAT(
      message_of(R"({"format": "callfit-style/1", "wording": {"no such phrase": "x"}})", dress),
      Catch::StartsWith("s.json: /wording/no such phrase: "));
  CHECK_THAT(message_of(R"({"format": "callfit-style/1", "fonts": {"text": "a\"b"}})", dress),
             Catch::StartsWith("s.json: /fonts/text: "));
  for (std::size_t i = 0; i < ink_count; ++i) CHECK(dress.style.colours[i] == before.colours[i]);
}
