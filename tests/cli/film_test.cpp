// Film of the snaps behind a number, through the real program.
#include "program.hpp"

#include <catch2/catch.hpp>

#include <fstream>
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
  CHECK(count_of(slurp(scratch.path() / "all.vtt"), " --> ") == 26);
  CHECK(count_of(slurp(scratch.path() / "all.sh"), "-t 6.500 -i 'film ") == 26);

  const Outcome reel = run(words + "--cut all.edl --reel 1", scratch.path());
  CAPTURE(reel.err);
  REQUIRE(reel.code == 0);
  // A minute holds nine snaps of 6.5 seconds; of 26 throws 6 were caught: 9 x 6 / 26 = 2.08.
  CHECK(reel.out.find("2 of 9 complete, as 6 of all 26") != std::string::npos);
  CHECK(count_of(slurp(scratch.path() / "all.edl"), "* FROM CLIP NAME: film ") == 9);
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
