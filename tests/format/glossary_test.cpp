#include <callfit/files/files.hpp>
#include <callfit/format/glossary.hpp>

#include <catch2/catch.hpp>

#include <set>
#include <string>

using namespace callfit;

namespace {

const std::string text = Files().read(std::string(CALLFIT_SOURCE_DIR) + "/docs/glossary.md");

}  // namespace

TEST_CASE("every word of the glossary stands once and has a meaning") {
  std::set<std::string> words;
  for (const GlossaryEntry& entry : parse_glossary(text)) {
    CAPTURE(entry.words.front());
    CHECK(entry.meaning.size() > 20);
    for (const std::string& word : entry.words) CHECK(words.insert(word).second);
  }
  CHECK(words.size() > 30);
}

TEST_CASE("words that the answers use are found, whatever their case") {
  const auto entries = parse_glossary(text);
  for (const char* word : {"place", "Net points", "clear", "leans", "open", "D²", "costs", "boot",
                           "two-high", "surroundings", "spread", "odds"}) {
    CAPTURE(word);
    CHECK(find_entry(entries, word) != nullptr);
  }
  CHECK(find_entry(entries, "no such word") == nullptr);
}

TEST_CASE("a heading with several words is one entry, wrapped lines one paragraph") {
  const auto entries = parse_glossary("# Words\n\nIntro.\n\n## a, b\nOne\ntwo.\n\n## c\nThree.\n");
  REQUIRE(entries.size() == 2);
  CHECK(entries[0].words == std::vector<std::string>{"a", "b"});
  CHECK(entries[0].meaning == "One two.");
}
