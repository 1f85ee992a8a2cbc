#include <callfit/charting/keys.hpp>

#include <catch2/catch.hpp>

#include <set>

using namespace callfit;
using namespace callfit::charting;

namespace {

ChartWords few_words() {
  ChartWords known;
  for (const char* id : {"quick_middle", "boot", "handoff", "flood"})
    known.families.push_back({id, id, FamilyKind::pass, "", ""});
  known.levels = {"high_school", "college", "pro"};
  return known;
}

std::string fault_of(const std::string& text) {
  try {
    keys_from_json(text, "keys.json", few_words());
    return "none";
  } catch (const InputError& error) {
    return error.findings().front().place.field + ": " + error.findings().front().what;
  }
}

}  // namespace

TEST_CASE("keys: the usual map has no key for two things") {
  CHECK_NOTHROW(keys_from_json(R"({"format": "callfit-keys/1"})", "keys.json", few_words()));
  const KeyMap keys = usual_keys();
  std::set<std::string> all(keys.commands.begin(), keys.commands.end());
  CHECK(all.size() == command_count);
  for (std::size_t i = 0; i < command_count; ++i)
    CHECK_FALSE(meaning_of(static_cast<Command>(i)).empty());
}

TEST_CASE("keys: every word has one, those of a scheme's own too") {
  const auto families = choices_of(usual_keys(), {ChartColumn::family}, few_words());
  REQUIRE(families.size() == 4);
  CHECK(families[3].values.front() == "flood");
  std::set<std::string> keys;
  for (const Choice& one : families) keys.insert(one.key);
  CHECK(keys.size() == 4);
  CHECK(choices_of(usual_keys(), {ChartColumn::level}, few_words()).size() == 3);
  CHECK(choices_of(usual_keys(), {ChartColumn::yards}, few_words()).empty());
  CHECK(choices_of(usual_keys(), {ChartColumn::platform, ChartColumn::pressure}, few_words())
            .size() == 8);
  CHECK(choices_of(usual_keys(), {ChartColumn::pressure}, few_words()).front().key == "y");
}

TEST_CASE("keys: a map that is changed") {
  const KeyMap keys = keys_from_json(
      R"({"format": "callfit-keys/1", "commands": {"next": "F6"}, "order": ["yac", "shell"],
          "choices": {"family": {"boot": "m"}}})",
      "keys.json", few_words());
  CHECK(keys.command_of("F6") == Command::next);
  CHECK_FALSE(keys.command_of("Enter"));
  CHECK(keys.order == std::vector<Question>{{ChartColumn::yac}, {ChartColumn::shell}});
  for (const Choice& one : choices_of(keys, {ChartColumn::family}, few_words()))
    if (one.values.front() == "boot") CHECK(one.key == "m");
}

TEST_CASE("keys: what is wrong with a map is said") {
  CHECK(fault_of(R"({"format": "callfit-keys/1", "commands": {"jump": "a"}})") ==
        "/commands/jump: there is no such command");
  CHECK(fault_of(R"({"format": "callfit-keys/1", "commands": {"undo": "Enter"}})") ==
        "/commands/undo: \"Enter\" is the key of next");
  CHECK(fault_of(R"({"format": "callfit-keys/1", "commands": {"loop": "q"}})") ==
        "/choices/family: \"q\" is the key of loop");
  CHECK(fault_of(R"({"format": "callfit-keys/1", "choices": {"shell": {"one_high": "t"}}})") ==
        "/choices/shell: \"t\" stands for two values");
  CHECK(fault_of(R"({"format": "callfit-keys/1", "order": ["down"]})").starts_with("/order/0: "));
  CHECK(fault_of(R"({"format": "callfit-keys/1", "order": ["yac+shell"]})")
            .starts_with("/order/0: "));
}
