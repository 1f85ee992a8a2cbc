#include <callfit/base/nearest.hpp>

#include <catch2/catch.hpp>

using namespace callfit;

TEST_CASE("the nearest word is suggested only when it is near") {
  const std::vector<std::string> known{"complete", "incomplete", "sack"};
  CHECK(nearest_word("complte", known) == "complete");
  CHECK(nearest_word("sakc", known) == "sack");
  CHECK(nearest_word("touchdown", known).empty());
  CHECK(suggest("complte", known) == "did you mean complete?");
  CHECK(suggest("zzzzzzzzz", known) == "use complete, incomplete or sack");
  CHECK(nearest_word("x", {}).empty());
}

// Levenshtein's textbook pair: kitten -> sitting takes 3 edits, kitten -> mitten 1.
TEST_CASE("edits are counted as Levenshtein does") {
  CHECK(nearest_word("kitten", std::vector<std::string>{"sitting", "mitten"}) == "mitten");
  CHECK(nearest_word("kitten", std::vector<std::string>{"sitting"}) == "sitting");
}
