#include "program.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace callfit::test;
using Catch::Matchers::Contains;

namespace {

const std::vector<std::string> commands{"check", "read", "answer", "try",
                                        "desk",  "next", "trend",  "validate"};

std::ptrdiff_t lines_of(const std::string& text) {
  return std::count(text.begin(), text.end(), '\n');
}

}  // namespace

TEST_CASE("help names every command and the exit codes") {
  const Outcome help = run("--help");
  CHECK(help.code == 0);
  for (const std::string& command : commands) CHECK_THAT(help.out, Contains("\n  " + command));
  CHECK_THAT(help.out, Contains("Exit codes: 0 done, 1 bad input, 2 wrong usage"));
  CHECK_THAT(help.out, Contains("eligibility or betting decisions"));
  CHECK(run("").out == help.out);
  CHECK(run("").code == 2);
}

TEST_CASE("every command has help with an example and the cautions, on one screen") {
  for (const std::string& command : commands) {
    CAPTURE(command);
    const Outcome help = run(command + " --help");
    CHECK(help.code == 0);
    CHECK(help.err.empty());
    CHECK_THAT(help.out, Contains("Example\n  callfit " + command));
    CHECK_THAT(help.out, Contains("Cautions:"));
    CHECK_THAT(help.out, Contains("eligibility or betting decisions"));
    CHECK_THAT(help.out, Contains("minors"));
    CHECK_THAT(help.out, !Contains("0000000"));  // a number as people write it
    CHECK(lines_of(help.out) <= 60);
  }
}

TEST_CASE("the version is told") { CHECK_THAT(run("--version").out, Contains("callfit 0.")); }

TEST_CASE("a number that is none or out of range is told with the range") {
  struct Case {
    std::string words, range;
  };
  const std::vector<Case> cases{
      {"answer case.json --seed", "a whole number from 0 to 9007199254740991"},
      {"answer case.json --draws", "a whole number from 500 to 100000"},
      {"answer case.json --threads", "a whole number from 0 to 1024"},
      {"answer case.json --part drives --sample", "a whole number from 0 to 1000000000"},
      {"try case.json --levers", "a whole number from 1 to 10000"},
      {"try case.json --add qb_draw=15% --inside", "a whole number from 1 to 99"},
      {"try case.json --bend --move", "a number from 0 to 1"},
      {"try case.json --bend --run-pass", "a number from 0 to 1"},
      {"try case.json --bend --fade", "a number from 0 to 1000"},
      {"next case.json --snaps", "a number from 1 to 1000"},
      {"trend new-starter.csv --scheme balanced --before", "a whole number from 0 to 1000"},
      {"check new-starter.csv new-starter.csv --same-snaps --rows",
       "a whole number from 0 to 1000000"},
      {"read new-starter.csv --smoothing", "a number from 0 to 1000000"},
  };
  for (const Case& one : cases)
    for (const std::string number : {"-1", "1e300", "18446744073709551615", "nan", "inf", "3x"}) {
      const std::string words = one.words + "=" + number;
      CAPTURE(words);
      const Outcome outcome = run(words, demo_folder());
      CHECK(outcome.code == 2);
      CHECK(outcome.out.empty());
      CHECK_THAT(outcome.err, Contains(": give " + one.range + "; --help"));
      CHECK(lines_of(outcome.err) == 1);
    }
}

TEST_CASE("wrong words give one line and exit code 2") {
  struct Case {
    std::string words;
    std::string told;
  };
  const std::vector<Case> cases{
      {"answr x.csv", "did you mean answer?"},
      {"profile x.csv", "use check, read, answer, try, desk, page, next, trend or validate"},
      {"read", "CHART"},
      {"read new-starter.csv --as tape", "--as takes profile, scheme or setting"},
      {"read new-starter.csv --as scheme", "--scheme"},
      {"read new-starter.csv --smoothing -3", "--smoothing -3: give a number from 0 to 1000000"},
      {"read new-starter.csv --level-weight college=2", "W from 0 to 1"},
      {"read a.csv b.csv --as setting --id 9x", "--id 9x"},
      {"answer", "name a case file"},
      {"answer new-starter.csv", "--scheme"},
      {"answer case.json --draws 3", "--draws 3: give a whole number from 500"},
      {"answer case.json --part fit --from 75", "add --part drives"},
      {"answer case.json --sample 9", "add --part drives"},
      {"answer case.json --part say --snaps place", "are asked one at a time"},
      {"try case.json --shell two_high", "--shell goes with --add"},
      {"try case.json --levers --fade 1", "--fade goes with --add or --bend"},
      {"try case.json --set 'boot completion=50%' --both", "--both goes with --even"},
      {"answer '\xff.csv'", "a word of the call is not UTF-8 text"},
      {"answer case.json --sedd 4", "--sedd"},
      {"answer case.json --scheme balanced", "the case file says it"},
      {"answer case.json new-starter.csv", "name nothing beside it"},
      {"answer case.json --changed a.csv=new_team", "the case file says it"},
      {"answer new-starter.csv --scheme balanced --changed 2024",
       "--changed 2024: give what was charted elsewhere and what changed since"},
      {"answer new-starter.csv --scheme balanced --totals '2025, attempts 300'",
       "give keys and values, each once"},
      {"answer new-starter.csv --scheme balanced --changed 'season 1, season 2=new_team'",
       "give keys and values, each once"},
      {"answer new-starter.csv --scheme balanced --totals a.csv --totals b.csv",
       "--totals a.csv: give one file of all seasons, or each season in words"},
      {"answer case.json --who 3", "use New starter or Last starter"},
      {"answer case.json --who 'Nwe starter'", "did you mean New starter?"},
      {"answer case.json --in 3", "--in 3"},
      {"answer case.json --part drive", "did you mean drives?"},
      {"answer case.json --part drives --from 100", "--from 100: give 75, or 3,8,40"},
      {"answer case.json --part drives --from 1,10,40,", "--from 1,10,40,"},
      {"answer case.json --part fit --weights luck", "--weights takes scheme or points"},
      {"answer case.json --policy brave", "--policy takes table or best"},
      {"answer new-starter.csv --scheme balanced --part brief", "needs a second quarterback"},
      {"answer new-starter.csv --scheme balanced --name A --name B", "more names"},
      {"answer case.json --draws 500 --part fit -o /dev/null/x.svg --frame broad", "--frame broad"},
      {"answer case.json --draws 500 --part fit -o /dev/null/x.svg --picture fitt",
       "did you mean fit?"},
      {"answer case.json --draws 500 --part fit -o /dev/null/picture.gif",
       "must end in .svg, .png or .pdf"},
      {"try case.json --bend --add qb_draw=15%", "one kind of try at a time"},
      {"try case.json --try deep", "give NAME:PATH=VALUE"},
      {"try case.json --try deep:", "--try deep:"},
      {"try case.json --levers=-1", "--levers"},
      {"try case.json --add qb_draw=x2", "give FAMILY=SHARE"},
      {"try case.json --add qb_draw=10% --shell three_high", "--shell takes one_high"},
      {"try case.json --draws 500 --set rate.boot.completion=60% -o /dev/null/x.svg",
       "have a picture of their own"},
      {"try case.json --levers -o levers.gif", "must end in .svg, .png or .pdf"},
      {"try new-starter.csv --scheme balanced --even rate.boot.completion",
       "needs a second quarterback"},
      {"try new-starter.csv --scheme balanced --saved", "the case holds no tries"},
      {"next case.json --snaps 0", "--snaps 0: give a number from 1 to 1000"},
      {"trend case.json --before -1", "--before"},
      {"trend case.json -o trend.gif", "must end in .svg, .png or .pdf"},
      {"check", "FILE"},
      {"check new-starter.csv --same-snaps", "takes two charts"},
      {"check new-starter.csv new-starter.csv --same-snaps --rows -1", "--rows"},
      {"validate", "--setting"},
      {"validate pro --observed pro-2015-2018 --drives x.csv", "not both"},
      {"validate pro -o picture.gif", "must end in .svg, .png or .pdf"},
  };
  for (const Case& one : cases) {
    CAPTURE(one.words);
    const Outcome outcome = run(one.words, demo_folder());
    CHECK(outcome.code == 2);
    CHECK(outcome.out.empty());
    CHECK_THAT(outcome.err, Contains(one.told));
    CHECK(lines_of(outcome.err) == 1);
  }
}
