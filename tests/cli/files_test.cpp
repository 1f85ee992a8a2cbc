// Nothing is overwritten and nothing is lost: through the real program.
#include "program.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

using namespace callfit::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// A folder with everything that a command can read, under short names.
struct Desk {
  Scratch scratch;

  Desk() {
    const auto copy = [&](const std::string& from, const std::string& to) {
      scratch.write(to, slurp(source_file(from)));
    };
    copy("profiles/demo/new-starter.csv", "new.csv");
    copy("profiles/demo/last-starter.csv", "last.csv");
    copy("profiles/demo/coordinator-calls.csv", "calls.csv");
    copy("schemes/quick-middle-option.json", "scheme.json");
    copy("schemes/families.json", "families.json");
    copy("settings/college.json", "setting.json");
    copy("profiles/demo/new-starter.csv", "new.svg");  // pictures end so, and a chart may not
    scratch.write("changes.json", R"({"format": "callfit-scenario/1", "changes": []})");
    scratch.write("style.json", R"({"format": "callfit-style/1"})");
    scratch.write("logo.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>");
    fs::create_directories(scratch.path() / "folder");
  }
};

}  // namespace

TEST_CASE("no command writes over what it reads") {
  const Desk desk;
  const std::vector<std::pair<std::string, std::string>> cases{
      {"profile new.csv -o new.csv", "new.csv"},
      {"profile new.csv --setting setting.json -o setting.json", "setting.json"},
      {"profile new.csv --scheme scheme.json -o families.json", "families.json"},
      {"scheme calls.csv --like scheme.json -o scheme.json", "scheme.json"},
      {"setting --from new.csv last.csv --setting setting.json -o last.csv", "last.csv"},
      {"tailor new.csv --scheme scheme.json -o scheme.json", "scheme.json"},
      {"brief new.csv --against last.csv --scheme scheme.json -o last.csv", "last.csv"},
      {"graphic new.csv --scheme scheme.json --logo logo.svg -o fit.svg -o logo.svg", "logo.svg"},
      {"compare new.csv last.csv --scheme scheme.json --logo logo.svg -o logo.svg", "logo.svg"},
      {"levers new.csv --scheme scheme.json --logo logo.svg -o logo.svg", "logo.svg"},
      {"trend new.csv --scheme scheme.json --logo logo.svg -o logo.svg", "logo.svg"},
      {"validate --setting pro --logo logo.svg -o logo.svg", "logo.svg"},
      {"whatif new.csv --scheme scheme.json --sweep rate.boot.completion=40%:60%:3 --logo logo.svg "
       "-o logo.svg",
       "logo.svg"},
      {"answer new.csv --last last.csv --scheme scheme.json -o .", "./scheme.json"},
  };
  for (const auto& [words, file] : cases) {
    CAPTURE(words);
    const std::string before = desk.scratch.read(file);
    const Outcome outcome = run(words, desk.scratch.path());
    CHECK(outcome.code == 1);
    CHECK(outcome.out.empty());
    CHECK_THAT(outcome.err, Contains("is also an input of this command"));
    CHECK(std::count(outcome.err.begin(), outcome.err.end(), '\n') == 1);
    CHECK(desk.scratch.read(file) == before);
    CHECK_FALSE(fs::exists(desk.scratch.path() / "fit.svg"));
  }
}

TEST_CASE("other names of an input are seen through") {
  const Desk desk;
  const fs::path& folder = desk.scratch.path();
  fs::create_symlink("new.csv", folder / "soft");
  fs::create_hard_link(folder / "new.csv", folder / "hard");
  fs::create_directory_symlink(".", folder / "here");
  const std::string before = desk.scratch.read("new.csv");
  const std::vector<std::string> names{"./new.csv",    "folder/../new.csv",
                                       "soft",         "hard",
                                       "here/new.csv", "'" + (folder / "new.csv").string() + "'"};
  for (const std::string& name : names) {
    CAPTURE(name);
    const Outcome outcome = run("profile new.csv -o " + name, folder);
    CHECK(outcome.code == 1);
    CHECK_THAT(outcome.err, Contains("is also an input of this command"));
    CHECK(desk.scratch.read("new.csv") == before);
  }
  CHECK(run("profile new.csv -o other.json", folder).code == 0);
  CHECK(run("profile last.csv -o other.json", folder).code == 0);  // an earlier result may go
}

TEST_CASE("an output that does not arrive is told, whatever the command") {
  const Desk desk;
  const std::vector<std::string> commands{
      "--help",
      "--version",
      "profile --help",
      "check new.csv",
      "check new.csv --json",
      "profile new.csv",
      "profile new.csv -o p.json",
      "scheme calls.csv --like scheme.json",
      "fit new.csv --scheme scheme.json --draws 20",
      "drives average --scheme scheme.json",
      "next new.csv --scheme scheme.json --draws 20",
      "agree new.csv new.csv",
      "graphic new.csv --scheme scheme.json --draws 20 -o fit.svg",
      "setting --from new.csv last.csv"};
  for (const std::string& words : commands) {
    CAPTURE(words);
    const Outcome full = run(words, desk.scratch.path(), ">/dev/full");
    CHECK(full.code == 1);
    CHECK_THAT(full.err, Contains("standard output could not be written to the end"));
    const Outcome closed = run(words, desk.scratch.path(), ">&-");
    CHECK(closed.code == 1);
    CHECK_THAT(closed.err, Contains("standard output is closed"));
  }
}

TEST_CASE("an output file that does not arrive is told") {
  const Desk desk;
  const Outcome outcome = run("profile new.csv -o /dev/full", desk.scratch.path());
  CHECK(outcome.code == 1);
  CHECK_THAT(outcome.err, Contains("/dev/full: cannot be written: No space left on device"));
  CHECK(outcome.out.empty());
}
