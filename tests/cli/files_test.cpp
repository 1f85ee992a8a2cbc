// Nothing is overwritten and nothing is lost: through the real program.
#include "program.hpp"

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <map>
#include <string>
#include <utility>
#include <vector>

using namespace callfit::test;
using Catch::Matchers::Contains;
using nlohmann::json;
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
    copy("profiles/demo/new-starter-C4-second-chart.csv", "one-game.csv");
    copy("schemes/quick-middle-option.json", "scheme.json");
    copy("schemes/families.json", "families.json");
    copy("settings/college.json", "setting.json");
    copy("settings/pro.json", "pro.json");  // what the other one is laid over
    fs::create_directories(scratch.path() / "population");
    copy("settings/population/college.json", "population/college.json");
    copy("settings/population/pro.json", "population/pro.json");
    copy("profiles/demo/new-starter.csv", "new.svg");  // pictures end so, and a chart may not
    scratch.write("case.json", case_document().dump());
    scratch.write("logo.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>");
    fs::create_directories(scratch.path() / "folder");
  }

  static json case_document() {
    return {{"format", "callfit-case/1"},
            {"setting", "setting.json"},
            {"schemes", {{{"scheme", "scheme.json"}, {"calls", {"calls.csv"}}}}},
            {"quarterbacks",
             {{{"name", "New"}, {"charts", {"new.csv"}}},
              {{"name", "Last"}, {"charts", {"last.csv"}}}}},
            {"options", {{"draws", 500}}},
            {"tries",
             {{{"name", "deep"},
               {"changes", {{{"path", "rate.deep_outside.completion"}, {"set", 0.5}}}}}}}};
  }

  /// Every file by its name, with its bytes.
  std::map<std::string, std::string> files() const {
    std::map<std::string, std::string> all;
    for (const auto& entry : fs::recursive_directory_iterator(scratch.path()))
      all[entry.path().string()] = entry.is_regular_file() ? slurp(entry.path()) : "";
    return all;
  }
};

// Names only what differs: the files are long.
std::vector<std::string> changed(const std::map<std::string, std::string>& before,
                                 const std::map<std::string, std::string>& after) {
  std::vector<std::string> names;
  for (const auto& [name, bytes] : after)
    if (!before.contains(name) || before.at(name) != bytes) names.push_back(name);
  for (const auto& [name, bytes] : before)
    if (!after.contains(name)) names.push_back(name);
  return names;
}

const std::vector<std::string> nothing;

}  // namespace

TEST_CASE("no command writes over what it reads", "[plain]") {
  const Desk desk;
  const std::vector<std::string> cases{
      "read new.csv -o new.csv",
      "read new.csv --setting setting.json -o setting.json",
      "read new.csv --scheme scheme.json -o families.json",
      "read calls.csv --as scheme --scheme scheme.json -o scheme.json",
      "read new.csv last.csv --as setting --setting setting.json -o last.csv",
      "answer case.json --part fit --save case.json",
      "answer case.json --part fit --save calls.csv",
      "answer case.json --part fit -o folder --save families.json",
      "answer new.csv --scheme scheme.json --part fit --draws 500 --save scheme.json",
      "answer case.json --part fit -o .",
      "answer new.svg --scheme scheme.json -o new.svg",
      "answer case.json --part fit --logo logo.svg -o fit.svg -o logo.svg",
      "answer case.json --part fit --logo logo.svg -o folder -o logo.svg",
      "try new.svg --scheme scheme.json --levers -o new.svg",
      "try case.json --sweep rate.boot.completion=40%:60%:2 --logo logo.svg -o logo.svg",
      "trend new.svg --scheme scheme.json -o new.svg",
      "trend new.svg --scheme scheme.json -o trend.svg -o new.svg",
      "validate pro --logo logo.svg -o validate.svg -o logo.svg",
  };
  for (const std::string& words : cases) {
    CAPTURE(words);
    const auto before = desk.files();
    const Outcome outcome = run(words, desk.scratch.path());
    CHECK(outcome.code == 1);
    CHECK(outcome.out.empty());
    CHECK_THAT(outcome.err, Contains("is also an input of this command"));
    CHECK(std::count(outcome.err.begin(), outcome.err.end(), '\n') == 1);
    CHECK(changed(before, desk.files()) == nothing);
  }
}

TEST_CASE("a folder that holds the case it is asked about keeps it") {
  const Desk desk;
  REQUIRE(run("read new.csv -o folder/new.profile.json", desk.scratch.path()).code == 0);
  fs::copy_file(desk.scratch.path() / "scheme.json", desk.scratch.path() / "folder/scheme.json");
  fs::copy_file(desk.scratch.path() / "families.json",
                desk.scratch.path() / "folder/families.json");
  desk.scratch.write("folder/case.json",
                     R"({"format": "callfit-case/1", "setting": "college",
                         "schemes": ["scheme.json"], "options": {"draws": 500},
                         "quarterbacks": [{"profile": "new.profile.json"}]})");
  const auto before = desk.files();
  const Outcome outcome = run("answer folder/case.json --part fit -o folder", desk.scratch.path());
  CHECK(outcome.code == 1);
  CHECK_THAT(outcome.err, Contains("folder/case.json: is also an input of this command"));
  CHECK(changed(before, desk.files()) == nothing);
}

TEST_CASE("other names of an input are seen through", "[plain]") {
  const Desk desk;
  const fs::path& folder = desk.scratch.path();
  fs::create_symlink("new.csv", folder / "soft");
  fs::create_hard_link(folder / "new.csv", folder / "hard");
  fs::create_symlink("new.svg", folder / "soft.svg");
  fs::create_hard_link(folder / "new.svg", folder / "hard.svg");
  fs::create_directory_symlink(".", folder / "here");
  const auto before = desk.files();
  const auto check_refused = [&](const std::string& words) {
    CAPTURE(words);
    const Outcome outcome = run(words, folder);
    CHECK(outcome.code == 1);
    CHECK_THAT(outcome.err, Contains("is also an input of this command"));
    CHECK(changed(before, desk.files()) == nothing);
  };
  for (const std::string& name :
       {std::string("./new.csv"), std::string("folder/../new.csv"), std::string("soft"),
        std::string("hard"), std::string("here/new.csv"),
        "'" + (folder / "new.csv").string() + "'"}) {
    check_refused("read new.csv -o " + name);
    check_refused("answer case.json --part fit --save " + name);
  }
  for (const std::string name : {"./new.svg", "soft.svg", "hard.svg", "here/new.svg"}) {
    check_refused("answer new.svg --scheme scheme.json -o " + name);
    check_refused("try new.svg --scheme scheme.json --levers -o " + name);
    check_refused("trend new.svg --scheme scheme.json -o " + name);
  }
  check_refused("answer case.json --part fit -o here");
  CHECK(run("read new.csv -o other.json", folder).code == 0);
  CHECK(run("read last.csv -o other.json", folder).code == 0);  // an earlier result may go
}

TEST_CASE("a file that callfit did not write stays, unless --force says otherwise", "[plain]") {
  const Desk desk;
  const fs::path& folder = desk.scratch.path();
  for (const std::string name : {"notes.txt", "mine.json", "mine.svg", "mine.png", "mine.pdf"})
    desk.scratch.write(name, "a day's work\n");
  desk.scratch.write("folder/answer.txt", "a day's work\n");
  desk.scratch.write("fit.txt", "a day's work\n");
  const std::string answer = "answer case.json --part fit ";
  const auto before = desk.files();
  for (const std::string& words :
       {std::string("read new.csv -o mine.json"), std::string("read new.csv -o notes.txt"),
        answer + "--save mine.json", answer + "--keep mine.json", answer + "-o mine.svg",
        answer + "-o mine.png", answer + "-o mine.pdf", answer + "-o fit.svg", answer + "-o folder",
        std::string("try case.json --levers -o mine.svg"),
        std::string("trend one-game.csv --scheme scheme.json --draws 500 -o mine.png"),
        std::string("validate pro -o mine.pdf")}) {
    CAPTURE(words);
    const Outcome outcome = run(words, folder);
    CHECK(outcome.code == 1);
    CHECK(outcome.out.empty());
    CHECK_THAT(outcome.err, Contains(": is there already, and is not as callfit wrote it; write to "
                                     "another file, or add --force to replace it"));
    CHECK(std::count(outcome.err.begin(), outcome.err.end(), '\n') == 1);
    CHECK(changed(before, desk.files()) == nothing);
  }
  CHECK(run("read new.csv -o mine.json --force", folder).code == 0);
  CHECK(run("read last.csv -o mine.json", folder).code == 0);  // its own now
  CHECK(run(answer + "-o fit.svg --force", folder).code == 0);
  CHECK(run(answer + "-o fit.svg", folder).code == 0);
  CHECK(run(answer + "-o folder --force", folder).code == 0);
  CHECK(run(answer + "-o folder", folder).code == 0);
  const std::string written = desk.scratch.read("mine.json");
  desk.scratch.write("mine.json", written + "\n");  // edited since
  CHECK(run("read new.csv -o mine.json", folder).code == 1);
}

TEST_CASE("a saved case is read from where it was saved") {
  const Desk desk;
  const fs::path& folder = desk.scratch.path();
  fs::create_directories(folder / "deep/down");
  const std::string words =
      "answer new.csv last.csv --scheme scheme.json --scheme balanced --setting setting.json "
      "--calls calls.csv --part fit --draws 500";
  const Outcome first = run(words + " --save deep/down/case.json", folder);
  REQUIRE(first.code == 0);
  const Outcome again = run("answer deep/down/case.json --part fit", folder);
  CHECK(again.code == 0);
  CHECK(again.out == first.out);
  REQUIRE(run("answer case.json --part fit --save deep/moved.json", folder).code == 0);
  CHECK(run("answer deep/moved.json --part fit", folder).out ==
        run("answer case.json --part fit", folder).out);
  CHECK(run("check deep/moved.json deep/down/case.json", folder).code == 0);
}

TEST_CASE("what could not be read back is not written, and what is there stays") {
  const Desk desk;
  const fs::path& folder = desk.scratch.path();
  const std::string long_name(300, 'n');
  desk.scratch.write("mine.json", "");
  const auto before = desk.files();
  for (const std::string& words :
       {"read new.csv -o mine.json --name " + long_name,
        "read calls.csv --as scheme --scheme scheme.json -o mine.json --name " +
            long_name.substr(0, 81),
        "read new.csv --as setting -o mine.json --id " + long_name,
        std::string("read new.csv --as setting -o mine.json --id ../x"),
        "answer new.csv --scheme balanced --draws 500 --part fit --save mine.json --name " +
            long_name,
        "answer new.csv --scheme balanced --calls calls.csv --draws 500 --part fit -o folder "
        "--calls-name " +
            long_name.substr(0, 81)}) {
    CAPTURE(words);
    const Outcome outcome = run(words, folder);
    CHECK((outcome.code == 1 || outcome.code == 2));
    CHECK(outcome.out.empty());
    CHECK(changed(before, desk.files()) == nothing);
  }
}

TEST_CASE("a logo that cannot be drawn is told, and nothing is drawn without it", "[plain]") {
  const Desk desk;
  const fs::path& folder = desk.scratch.path();
  const std::string signature = "\x89PNG\r\n\x1a\n";
  const std::string header = signature + std::string("\0\0\0\rIHDR", 8);
  desk.scratch.write("words.png", "no picture");
  desk.scratch.write("empty.svg", "");
  desk.scratch.write("open.svg", "<svg xmlns='http://www.w3.org/2000/svg'><g>");
  desk.scratch.write("wide.png", header + std::string("\0\0\x27\x10\0\0\0\1\x08\2\0\0\0", 13));
  desk.scratch.write("cut.png", header + std::string("\0\0\0\1\0\0\0\1\x08\2\0\0\0", 13));
  desk.scratch.write("long.png", signature + std::string(8'000'000, 'x'));
  desk.scratch.write("inside.svg",
                     "<svg xmlns='http://www.w3.org/2000/svg'><image href='data:,'/></svg>");
  const auto before = desk.files();
  const auto check_told = [&](const std::string& logo, const std::string& told) {
    for (const std::string picture : {"l.svg", "l.png", "folder"}) {
      CAPTURE(logo, picture);
      const Outcome outcome =
          run("answer case.json --part fit --logo " + logo + " -o " + picture, folder);
      CHECK(outcome.code == 1);
      CHECK(outcome.out.empty());
      CHECK_THAT(outcome.err, Contains(logo + ": the logo " + told));
      CHECK(std::count(outcome.err.begin(), outcome.err.end(), '\n') == 1);
      CHECK(changed(before, desk.files()) == nothing);
    }
  };
  check_told("words.png", "is neither PNG nor SVG");
  check_told("empty.svg", "is neither PNG nor SVG");
  check_told("open.svg", "is no SVG that can be drawn");
  check_told("wide.png", "is larger than 4096 pixels");
  check_told("cut.png", "is a broken PNG");
  check_told("long.png", "is longer than 4 MiB");
  check_told("inside.svg", "holds image, which is not drawn");
  fs::copy_file(folder / "logo.svg", folder / "logo.of.any.name");
  CHECK(run("answer case.json --part fit --logo logo.of.any.name -o l.svg", folder).code == 0);
}

TEST_CASE("JSON too deep or too long is refused before it is built") {
  const Desk desk;
  const auto repeated = [](const std::string& part, std::size_t times) {
    std::string text;
    for (std::size_t i = 0; i < times; ++i) text += part;
    return text;
  };
  desk.scratch.write("lists.json", repeated("[", 50'000));
  desk.scratch.write("objects.json", repeated("{\"a\":", 100'000) + "1" + repeated("}", 100'000));
  desk.scratch.write("values.json", "[" + repeated("1,", 4'000'000) + "1]");
  desk.scratch.write("number.json", R"({"format": "callfit-case/1", "a": [1, 1e999]})");
  for (const std::string words :
       {"check ", "answer --scheme balanced ", "answer new.csv --scheme ",
        "answer new.csv --scheme balanced --setting ", "read new.csv --setting "}) {
    for (const auto& [file, what] :
         {std::pair{"lists.json", "is nested 50000 levels deep; give at most 64"},
          std::pair{"objects.json", "is nested 100000 levels deep; give at most 64"},
          std::pair{"values.json", "holds 4000002 values; give at most 4000000"},
          std::pair{"number.json", "/a/1: the number is too large to read"}}) {
      const Outcome outcome = run(words + file, desk.scratch.path());
      CAPTURE(words, file);
      CHECK(outcome.code == 1);
      CHECK_THAT(outcome.err, Contains(std::string(file) + ": " + what));
    }
  }
}

TEST_CASE("control characters of a file do not reach the terminal") {
  const Desk desk;
  std::string chart = slurp(source_file("profiles/demo/new-starter.csv"));
  const auto replace = [&chart](const std::string& from, const std::string& to) {
    const std::size_t at = chart.find(from);
    REQUIRE(at != std::string::npos);
    chart.replace(at, from.size(), to);
  };
  replace(",boot,", ",bo\x1b[31mot,");
  desk.scratch.write("steer.csv", chart);
  const Outcome told = run("check steer.csv", desk.scratch.path());
  CHECK(told.code == 1);
  CHECK_THAT(told.err, Contains("\"bo\\u001b[31mot\""));
  const std::string name = "--name \"$(printf 'a\\033[2J\\302\\233b')\" ";
  const Outcome shown = run("answer new.csv --scheme balanced --draws 500 " + name + "-o fit.svg",
                            desk.scratch.path());
  CHECK(shown.code == 0);
  CHECK_THAT(shown.out, Contains("a\\u001b[2J\\u009bb"));
  for (const std::string& text :
       {told.err, told.out, shown.out, shown.err, desk.scratch.read("fit.txt")})
    CHECK(text.find('\x1b') == std::string::npos);
}

TEST_CASE("content tells a chart, whatever its ending") {
  const Desk desk;
  fs::copy_file(desk.scratch.path() / "new.csv", desk.scratch.path() / "NEW.CSV");
  fs::copy_file(desk.scratch.path() / "new.csv", desk.scratch.path() / "new.txt");
  fs::copy_file(desk.scratch.path() / "scheme.json", desk.scratch.path() / "scheme");
  const Outcome checked = run("check NEW.CSV new.txt new.csv scheme", desk.scratch.path());
  CHECK(checked.code == 0);
  CHECK_THAT(checked.out, Contains("NEW.CSV: 416 snaps"));
  CHECK_THAT(checked.out, Contains("new.txt: 416 snaps"));
  CHECK_THAT(checked.out, Contains("scheme: scheme with"));
  for (const std::string name : {"NEW.CSV", "new.txt"}) {
    CHECK(run("read " + name, desk.scratch.path()).code == 0);
    CHECK(run("answer " + name + " --scheme scheme --part fit --draws 500", desk.scratch.path())
              .code == 0);
  }
}

TEST_CASE("a case that names what is not there is told by its JSON path", "[plain]") {
  struct Broken {
    std::string pointer;  ///< what is replaced, or added
    json value;
    std::string told;
  };
  const std::vector<Broken> cases{
      {"/setting", "collage", "case.json: /setting: names collage: no such file"},
      {"/schemes/0/scheme", "balansed", "case.json: /schemes/0"},
      {"/schemes/0/calls/0", "no.csv", "case.json: /schemes/0/calls/0: names no.csv: no such file"},
      {"/quarterbacks/1/charts/0", "no.csv",
       "case.json: /quarterbacks/1/charts/0: names no.csv: no such file"},
      {"/style", "no.json", "case.json: /style: names no.json: no such file"},
      {"/options/draws", 3, "case.json: /options/draws"},
      {"/options/policy", "brave", "case.json: /options/policy: unknown word"},
      {"/trys", json::array(), "case.json: /trys: unknown key; did you mean tries?"},
      {"/quarterbacks", json::array(), "case.json: /quarterbacks"},
  };
  for (const Broken& broken : cases) {
    const Desk desk;
    json document = Desk::case_document();
    document[json::json_pointer(broken.pointer)] = broken.value;
    desk.scratch.write("case.json", document.dump());
    const auto before = desk.files();
    for (const std::string words :
         {"check case.json", "try case.json --saved", "answer case.json --part fit -o results"}) {
      CAPTURE(words, broken.pointer);
      const Outcome outcome = run(words, desk.scratch.path());
      CHECK(outcome.code == 1);
      CHECK_THAT(outcome.err, Contains(broken.told));
      CHECK(std::count(outcome.err.begin(), outcome.err.end(), '\n') == 1);
      CHECK(changed(before, desk.files()) == nothing);
    }
  }
}

TEST_CASE("a saved try that cannot be made is told before it is asked for") {
  const Desk desk;
  json document = Desk::case_document();
  document["tries"][0]["changes"][0]["path"] = "rate.deep_outsied.completion";
  desk.scratch.write("case.json", document.dump());
  const Outcome checked = run("check case.json", desk.scratch.path());
  CHECK(checked.code == 1);
  CHECK_THAT(checked.err, Contains("case.json: /tries/0/changes/0"));
  const Outcome tried = run("try case.json --saved", desk.scratch.path());
  CHECK(tried.code == 1);
  CHECK(tried.out.empty());
  CHECK_THAT(tried.err, Contains("did you mean rate.deep_outside.completion"));
}

TEST_CASE("words that are wrong leave no half-written folder", "[plain]") {
  const Desk desk;
  const auto before = desk.files();
  for (const std::string words : {"--frame broad", "--theme dim", "--picture fitt",
                                  "--style no.json", "--logo no.svg", "--save no/case.json"}) {
    CAPTURE(words);
    const Outcome outcome =
        run("answer case.json --part fit -o results " + words, desk.scratch.path());
    CHECK((outcome.code == 1 || outcome.code == 2));
    CHECK(outcome.out.empty());
    CHECK(changed(before, desk.files()) == nothing);
  }
}

TEST_CASE("an output that does not arrive is told, whatever the command", "[plain]") {
  const Desk desk;
  const std::vector<std::string> commands{"--help",
                                          "--version",
                                          "read --help",
                                          "check new.csv",
                                          "check new.csv --json",
                                          "check new.csv new.csv --same-snaps",
                                          "read new.csv",
                                          "read new.csv -o p.json",
                                          "read calls.csv --as scheme --scheme scheme.json --json",
                                          "read new.csv last.csv --as setting",
                                          "answer case.json --part fit",
                                          "answer case.json --part fit --json --save saved.json",
                                          "try case.json --set rate.boot.completion=60%",
                                          "try case.json --paths boot",
                                          "next case.json",
                                          "trend one-game.csv --scheme balanced --draws 500",
                                          "validate pro"};
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

TEST_CASE("an output file that does not arrive is told", "[plain]") {
  const Desk desk;
  for (const std::string words :
       {"read new.csv -o /dev/full", "answer case.json --part fit --save /dev/full"}) {
    CAPTURE(words);
    const Outcome outcome = run(words, desk.scratch.path());
    CHECK(outcome.code == 1);
    CHECK_THAT(outcome.err, Contains("/dev/full: cannot be written: No space left on device"));
    CHECK(outcome.out.empty());
  }
  for (const std::string words :
       {"read new.csv -o no/p.json", "answer case.json --part fit --save no/case.json",
        "answer case.json --part fit -o no/fit.svg", "answer case.json --part fit -o new.csv/x",
        "trend one-game.csv --scheme scheme.json --draws 500 -o no/trend.svg",
        "validate pro -o no/validate.svg"}) {
    CAPTURE(words);
    const Outcome outcome = run(words, desk.scratch.path());
    CHECK(outcome.code == 1);
    CHECK(outcome.out.empty());
    CHECK(std::count(outcome.err.begin(), outcome.err.end(), '\n') == 1);
  }
}
