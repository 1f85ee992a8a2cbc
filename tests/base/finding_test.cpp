#include <callfit/base/finding.hpp>

#include <catch2/catch.hpp>

using namespace callfit;

TEST_CASE("a finding reads as one line with place, fault and mend") {
  CHECK(to_text({{"a.csv", 14, "to_go"}, "12 lies beyond the goal line", "give at most 8"}) ==
        "a.csv:14: to_go: 12 lies beyond the goal line; give at most 8");
  CHECK(to_text({{"s.json", 0, "/families/2/kind"}, "unknown kind", ""}) ==
        "s.json: /families/2/kind: unknown kind");
  CHECK(to_text({{}, "no input", "", Severity::warning}) == "warning: no input");
}

TEST_CASE("input errors tell every finding, capped and counted") {
  const Findings few(3, Finding{{"a.csv", 2, "down"}, "bad", ""});
  CHECK(std::string(InputError(few).what()) ==
        "a.csv:2: down: bad\na.csv:2: down: bad\na.csv:2: down: bad");
  const Findings many(InputError::shown_at_most + 7, few.front());
  const std::string text = InputError(many).what();
  CHECK(text.ends_with("... and 7 more"));
  CHECK(InputError(many).findings().size() == many.size());
}

TEST_CASE("what is said of many lines is said once, with their number") {
  const auto told = [](std::size_t line, const std::string& what) {
    return Finding{{"a.csv", line, "lane"}, what, "give left"};
  };
  const InputError error({told(2, "unknown"), told(3, "blank"), told(4, "unknown"),
                          told(9, "unknown"), told(9, "blank")});
  CHECK(error.findings().size() == 5);
  CHECK(std::string(error.what()) ==
        "a.csv:2: lane: unknown (here and in 2 more lines, to 9); give left\n"
        "a.csv:3: lane: blank (here and in 1 more line, to 9); give left");
}

TEST_CASE("only errors count as errors") {
  CHECK_FALSE(has_errors({{{}, "odd", "", Severity::warning}, {{}, "fyi", "", Severity::notice}}));
  CHECK(has_errors({{{}, "odd", "", Severity::warning}, {{}, "wrong", ""}}));
}
