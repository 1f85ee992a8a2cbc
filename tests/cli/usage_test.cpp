#include "program.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace callfit::test;
using Catch::Matchers::Contains;

TEST_CASE("help names every command and the exit codes") {
  const Outcome help = run("--help");
  CHECK(help.code == 0);
  for (const char* command :
       {"answer", "check", "profile", "scheme", "fit", "drives", "compare", "graphic"})
    CHECK_THAT(help.out, Contains(command));
  CHECK_THAT(help.out, Contains("Exit codes: 0 done, 1 bad input, 2 wrong usage"));
  CHECK_THAT(help.out, Contains("eligibility or betting decisions"));
}

TEST_CASE("every command has help with an example and the cautions") {
  for (const std::string command :
       {"answer", "check", "profile", "scheme", "fit", "drives", "compare", "graphic"}) {
    CAPTURE(command);
    const Outcome help = run(command + " --help");
    CHECK(help.code == 0);
    CHECK(help.err.empty());
    CHECK_THAT(help.out, Contains("Example\n  callfit " + command));
    CHECK_THAT(help.out, Contains("minors"));
  }
}

TEST_CASE("the version is told") { CHECK_THAT(run("--version").out, Contains("callfit 0.")); }

TEST_CASE("wrong words give one line and exit code 2") {
  struct Case {
    std::string words;
    std::string told;
  };
  const std::vector<Case> cases{
      {"profil x.csv", "did you mean profile?"},
      {"profile", "CHART"},
      {"fit --scheme balanced", "profile"},
      {"fit x.json", "scheme"},
      {"fit x.json --scheme balanced --draws 3", "--draws takes a whole number from 20"},
      {"fit x.json --scheme balanced --seed -4", "--seed takes a whole number"},
      {"fit x.json --scheme balanced --sedd 4", "--sedd"},
      {"drives average --scheme balanced --from 100", "--from takes 1 to 99 yards"},
      {"drives average --scheme balanced --from 8 --to-go 10", "--to-go takes 1 to 8 yards"},
      {"drives average --scheme balanced --down 2", "need --from"},
      {"drives average --scheme balanced --policy brave", "--policy takes table or best"},
      {"graphic x.json --scheme balanced -o picture.gif", "must end in .svg, .png or .pdf"},
      {"compare --scheme balanced", "PROFILE"},
  };
  for (const Case& one : cases) {
    CAPTURE(one.words);
    const Outcome outcome = run(one.words);
    CHECK(outcome.code == 2);
    CHECK(outcome.out.empty());
    CHECK_THAT(outcome.err, Contains(one.told));
    CHECK(std::count(outcome.err.begin(), outcome.err.end(), '\n') == 1);
  }
}
