// Film of the snaps behind a number, through the real program.
#include "program.hpp"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

using namespace callfit::test;

namespace {

const std::string demo_chart = source_file("profiles/demo/new-starter.csv");

// The demo's chart with times: a snap each half minute of its game's film.
void write_filmed(const std::filesystem::path& file) {
  std::ifstream in(demo_chart);
  std::ofstream out(file);
  std::string row;
  std::getline(in, row);
  out << row << ",clip,start,end\n";
  for (int at = 10; std::getline(in, row); at += 30)
    out << row << ",film " << row.substr(0, 2) << ".mp4," << at << ',' << at + 6.5 << '\n';
}

std::size_t count_of(const std::string& text, const std::string& what) {
  std::size_t count = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1))
    ++count;
  return count;
}

constexpr auto hostile = "-f $(touch owned)'`touch owned`; touch owned & .mp4";

// While it lives, programs are looked for in a folder of the scratch: with an ffmpeg that does what
// the script says, or without one.
class Path {
 public:
  explicit Path(const Scratch& scratch, const std::string& script = "") {
    const std::filesystem::path folder = scratch.path() / "bin";
    std::filesystem::create_directories(folder);
    for (const char* tool : {"sh", "rm", "mv", "cat", "mktemp", "touch"})
      std::filesystem::create_symlink("/bin/" + std::string(tool), folder / tool);
    if (!script.empty()) {
      std::ofstream(folder / "ffmpeg") << "#!/bin/sh\n" << script << '\n';
      std::filesystem::permissions(folder / "ffmpeg", std::filesystem::perms::owner_all);
    }
    setenv("PATH", folder.c_str(), 1);
  }
  ~Path() { setenv("PATH", before_.c_str(), 1); }
  Path(const Path&) = delete;
  Path& operator=(const Path&) = delete;

 private:
  std::string before_ = std::getenv("PATH");
};

void write_untitled(const std::filesystem::path& file) {
  std::ofstream(file) << "game,level,down,to_go,yards_to_goal,family,result,yards,start,end\n"
                         "1,high_school,1,10,60,boot,complete,6,1,2.5\n";
}

std::set<std::string> names_in(const std::filesystem::path& folder) {
  std::set<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    names.insert(entry.path().filename().string());
  return names;
}

}  // namespace

TEST_CASE("the snaps behind a number are cut to lists, and to an honest reel") {
  const Scratch scratch;
  write_filmed(scratch.path() / "filmed.csv");
  const std::string words =
      "answer filmed.csv --scheme balanced --draws 500 --snaps 'deep outside completion' ";
  const Outcome all = run(words + "--cut all.edl --cut all.vtt --cut all.sh", scratch.path());
  CAPTURE(all.err);
  REQUIRE(all.code == 0);
  CHECK(count_of(slurp(scratch.path() / "all.edl"), "* FROM CLIP NAME: film ") == 26);
  CHECK(count_of(slurp(scratch.path() / "all.vtt"), " --> ") == 28);  // and two of all
  CHECK(count_of(slurp(scratch.path() / "all.sh"), " -i 'file:film ") == 26);

  const Outcome reel = run(words + "--cut all.edl --reel 1", scratch.path());
  CAPTURE(reel.err);
  REQUIRE(reel.code == 0);
  // A minute holds nine snaps of 6.5 seconds; of 26 throws 6 were caught: 9 x 6 / 26 = 2.08.
  CHECK(reel.out.find("2 of 9 complete, as 6 of all 26") != std::string::npos);
  CHECK(reel.out.find("Respect local rules on data about minors. Written to") != std::string::npos);
  CHECK(count_of(slurp(scratch.path() / "all.edl"), "* FROM CLIP NAME: film ") == 9);
}

// What stands in a reel's captions: what is seen, which number it stands behind, its interval; and
// once, that it is a sample, and of whom.
TEST_CASE("the captions of a reel say what they show") {
  const Scratch scratch;
  write_filmed(scratch.path() / "filmed.csv");
  const Outcome reel = run(
      "answer filmed.csv --scheme balanced --draws 500 --snaps 'deep outside completion' --reel 1 "
      "--cut reel.vtt",
      scratch.path());
  REQUIRE(reel.code == 0);
  const std::string sheet = scratch.read("reel.vtt");
  CAPTURE(sheet);
  CHECK(count_of(sheet, "chosen by chance, each result as often as charted") == 1);
  CHECK(count_of(sheet, "data about minors") == 1);
  CHECK(count_of(sheet, " --> ") == 11);
  CHECK(count_of(sheet, "Not for medical, eligibility or betting decisions.") == 1);
  CHECK(count_of(sheet, "return to play belongs to licensed medical staff") == 1);
  CHECK(count_of(sheet, "In brackets: the central 90%") == 1);
  // Nine cues with down, result, family; the number with its interval.
  CHECK(count_of(sheet, "(Deep outside (go, out-and-up)). Completion, Deep outside ") == 9);
  CHECK(count_of(sheet, ", filmed in Balanced: 33% (27-39%)") == 9);  // as the answer's text has it
  CHECK(reel.out.find("filmed in Balanced: 33% (27-39%)") != std::string::npos);
}

TEST_CASE("a reel is cut by ffmpeg, to which names are names") {
  const Scratch scratch;
  write_filmed(scratch.path() / "filmed.csv");
  std::filesystem::create_directories(scratch.path() / "charts");
  std::ofstream(scratch.path() / "charts" / "one.csv")
      << "game,level,down,to_go,yards_to_goal,family,result,yards,clip,start,end\n"
      << "1,high_school,1,10,60,boot,complete,6,\"" << hostile << "\",1,2.5\n";
  std::ofstream(scratch.path() / "charts" / hostile) << "film";
  const std::string words =
      "answer charts/one.csv --scheme balanced --draws 500 --snaps 'boot completion' ";

  SECTION("by the program and by the script in the same calls, each word as it was") {
    const Path path(scratch, R"(for word; do echo "$word" >> said; last=$word; done
[ "$1" = -version ] || echo film > "${last#file:}")");
    const Outcome outcome = run(words + "--cut reel.mp4 --cut reel.sh", scratch.path());
    CAPTURE(outcome.err);
    REQUIRE(outcome.code == 0);
    CHECK(scratch.read("reel.mp4") == "film\n");
    CHECK(count_of(scratch.read("said"), std::string("\nfile:charts/") + hostile + "\n") == 1);
    CHECK(outcome.err.empty());  // no progress in a pipe
    std::filesystem::remove(scratch.path() / "said");
    const std::string script = "cd '" + scratch.path().string() + "' && sh reel.sh again.mp4";
    CHECK(std::system(script.c_str()) == 0);
    CHECK(scratch.read("again.mp4") == "film\n");
    CHECK(count_of(scratch.read("said"), std::string("\nfile:charts/") + hostile + "\n") == 1);
    CHECK_FALSE(std::filesystem::exists(scratch.path() / "owned"));
  }

  SECTION("a film that is there is not written over unless asked") {
    const Path path(scratch,
                    R"(for last; do :; done; [ "$1" = -version ] || echo film > "${last#file:}")");
    scratch.write("reel.mp4", "mine");
    CHECK(run(words + "--cut reel.mp4", scratch.path()).code == 1);
    CHECK(scratch.read("reel.mp4") == "mine");
    CHECK(run(words + "--cut reel.mp4 --force", scratch.path()).code == 0);
    CHECK(scratch.read("reel.mp4") == "film\n");
  }

  SECTION("what fails is told in one line, and nothing is left") {
    const Path path(scratch, R"([ "$1" = -version ] && exit 0
for last; do :; done; echo half > "${last#file:}"; echo 'first'; printf 'out of \033[2J tape\n' >&2; exit 3)");
    const Outcome outcome = run(words + "--cut reel.mp4", scratch.path());
    CHECK(outcome.code == 1);
    CHECK(count_of(outcome.err, "\n") == 1);
    CHECK(outcome.err.find("cannot be cut from 1.000 to 2.500 seconds: ffmpeg says out of ") !=
          std::string::npos);
    CHECK(outcome.err.find('\033') == std::string::npos);
    CHECK(names_in(scratch.path()) == std::set<std::string>{"bin", "charts", "filmed.csv"});
  }

  SECTION("film that is not there") {
    std::filesystem::remove(scratch.path() / "charts" / hostile);
    const Path path(scratch, "exit 0");
    const Outcome outcome = run(words + "--cut reel.mp4", scratch.path());
    CHECK(outcome.code == 1);
    CHECK(count_of(outcome.err, "\n") == 1);
    CHECK(outcome.err.find("no such file") != std::string::npos);
  }

  SECTION("a row that names no film") {
    write_untitled(scratch.path() / "charts" / "one.csv");
    const Path path(scratch, "exit 0");
    const Outcome outcome = run(words + "--cut reel.mp4", scratch.path());
    CHECK(outcome.code == 1);
    CHECK(outcome.err == "charts/one.csv:2: clip: names no film to cut; name its file\n");
  }

  SECTION("without ffmpeg the script is written, and the call is told") {
    const Path path(scratch);
    const Outcome outcome = run(words + "--cut 'my reel.mp4'", scratch.path());
    CHECK(outcome.code == 0);
    CHECK(outcome.err ==
          "my reel.mp4: notice: is not cut, since ffmpeg is not installed; install it (apt install "
          "ffmpeg) "
          "and run: sh 'my reel.mp4.sh' 'my reel.mp4'\n");
    CHECK(scratch.read("my reel.mp4.sh").starts_with("#!/bin/sh\n"));
    CHECK_FALSE(std::filesystem::exists(scratch.path() / "my reel.mp4"));
  }
}

TEST_CASE("film that cannot be cut is told in one line, and nothing is written") {
  const Scratch scratch;
  write_filmed(scratch.path() / "filmed.csv");
  const std::string words = "answer filmed.csv --scheme balanced --draws 500 ";
  for (const char* wrong :
       {"--cut x.edl", "--snaps place --reel 2", "--snaps place --cut x.mov",
        "--snaps place --cut x.edl --frames 26", "--snaps place --cut x.edl --reel 0",
        "--snaps place --cut x.edl --reel 0.01"}) {
    CAPTURE(wrong);
    const Outcome outcome = run(words + wrong, scratch.path());
    CHECK(outcome.code != 0);
    CHECK(count_of(outcome.err, "\n") == 1);
    CHECK_FALSE(std::filesystem::exists(scratch.path() / "x.edl"));
  }
  const Outcome untimed = run("answer '" + demo_chart +
                                  "' --scheme balanced --draws 500 "
                                  "--snaps place --cut x.edl",
                              scratch.path());
  CHECK(untimed.code == 1);
  CHECK(untimed.err.find("carries times of film") != std::string::npos);
}
