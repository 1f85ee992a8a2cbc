#include "../draw/png_pixels.hpp"
#include "folder.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/draw/raster.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/scheme.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>

using namespace callfit;
namespace fs = std::filesystem;
using callfit::testing::Folder;

TEST_CASE("what is written is read back byte for byte, and nothing else is left") {
  const Folder folder;
  const std::string bytes("a\r\n\0\xFF", 5);
  Files().write(folder / "x.json", "old text, longer than the new one");
  Files files;
  files.replace_all();
  files.write(folder / "x.json", bytes);
  CHECK(Files().read(folder / "x.json") == bytes);
  CHECK(std::distance(fs::directory_iterator(folder.path), fs::directory_iterator()) == 1);
}

TEST_CASE("files that cannot be read or written say why") {
  const Folder folder;
  CHECK_THROWS_WITH(Files().read(folder / "no.csv"),
                    (folder / "no.csv") + ": no such file; check the name and the folder");
  CHECK_THROWS_WITH(Files().read(folder.path.string()),
                    folder.path.string() + ": is a folder; name a file inside it");
  CHECK_THROWS_WITH(Files().write(folder.path.string(), "x"),
                    folder.path.string() + ": is a folder; name a file inside it");
  CHECK_THROWS_WITH(Files().write(folder / "no/x.svg", "x"),
                    (folder / "no/x.svg") + ": cannot be written: the folder " + (folder / "no") +
                        " does not exist; create it first");
  CHECK_THROWS_AS(Files().write("/proc/callfit", "x"), InputError);
}

TEST_CASE("what callfit wrote is replaced, what anybody else did is not") {
  const Folder folder;
  struct Kind {
    std::string name, first, second;
  };
  const std::string pixel = to_png("<svg xmlns='http://www.w3.org/2000/svg'/>", 1, 1);
  const std::string other = to_png("<svg xmlns='http://www.w3.org/2000/svg'/>", 2, 2);
  const std::vector<Kind> kinds{
      {"a.json", "{\n  \"a\": 1\n}\n", "{\n  \"b\": [2]\n}\n"},
      {"a.svg", "<svg xmlns=\"x\"></svg>\n", "<svg xmlns=\"x\"><g/></svg>\n"},
      {"a.txt", "one\n", "two\n"},
      {"b.txt", "WEBVTT", "#!/bin/sh\n"},
      {"a.pdf", "%PDF-1.5\n%%EOF\n", "%PDF-1.5\n1\n%%EOF\n"},
      {"a.png", pixel, other},
  };
  for (const Kind& kind : kinds) {
    CAPTURE(kind.name);
    const std::string path = folder / kind.name;
    const auto refused = [&] {
      CHECK_THROWS_WITH(Files().write(path, kind.second),
                        path +
                            ": is there already, and is not as callfit wrote it; write to "
                            "another file, or add --force to replace it");
    };
    Files().write(path, kind.first);
    const std::string written = Files().read(path);
    CHECK_THAT(written, Catch::Contains("callfit "));
    Files().write(path, kind.second);  // its own, as it was
    std::string touched = written;
    touched[touched.size() / 3] ^= 1;
    std::ofstream(path, std::ios::binary) << touched;
    refused();
    CHECK(Files().read(path) == touched);
    std::ofstream(path, std::ios::binary) << kind.first;  // never marked
    refused();
    Files files;
    files.replace_all();
    files.write(path, kind.second);
    Files().write(path, kind.first);
    CHECK(Files().read(path) == written);
    std::ofstream(path, std::ios::binary) << "";  // nothing is lost with it
    Files().write(path, kind.first);
  }
  CHECK(decode_png(Files().read(folder / "a.png")).width == 1);
}

TEST_CASE("a document with the mark is read like one without") {
  const Folder folder;
  Files().write(
      folder / "s.json",
      scheme_to_json(Files().scheme(CALLFIT_SOURCE_DIR "/schemes/quick-middle-option.json")));
  CHECK_THAT(Files().read(folder / "s.json"), Catch::Contains("\"written_by\": \"callfit "));
  CHECK(Files().scheme(folder / "s.json").id == "quick-middle-option");
  Files().write(folder / "empty.json", "{\n}\n");
  CHECK(Files().read(folder / "empty.json") == "{\n}\n");  // no key that one more could follow
}

TEST_CASE("links are followed and permissions kept") {
  const Folder folder;
  fs::create_directories(folder.path / "there");
  fs::create_symlink("there/real.txt", folder / "link.txt");
  fs::create_symlink("link.txt", folder / "second.txt");
  Files().write(folder / "second.txt", "one");  // nothing stands there yet
  CHECK(fs::is_regular_file(fs::symlink_status(folder / "there/real.txt")));
  constexpr auto secret = fs::perms::owner_read | fs::perms::owner_write | fs::perms::group_read;
  fs::permissions(folder / "there/real.txt", secret);
  Files().write(folder / "link.txt", "two");
  CHECK(fs::is_symlink(folder / "link.txt"));
  CHECK(fs::is_symlink(folder / "second.txt"));
  CHECK_THAT(Files().read(folder / "there/real.txt"), Catch::StartsWith("two\n"));
  CHECK(fs::status(folder / "there/real.txt").permissions() == secret);
  CHECK(std::distance(fs::directory_iterator(folder.path / "there"), {}) == 1);
  fs::create_symlink("round.txt", folder / "round.txt");
  CHECK_THROWS_AS(Files().write(folder / "round.txt", "x"), InputError);
}

TEST_CASE("two results do not go into one file") {
  const Folder folder;
  fs::create_directory_symlink(".", folder / "here");
  Files files;
  files.will_write(folder / "a.json");
  for (const std::string& again : {folder / "a.json", folder / "./a.json", folder / "here/a.json"})
    CHECK_THROWS_WITH(files.will_write(again),
                      again + ": is named twice as an output; give each result a file of its own");
  files.write(folder / "a.json", "as announced");
  files.will_write("/dev/null");
  CHECK_NOTHROW(files.will_write("/dev/null"));
}

TEST_CASE("a file without end is not read") {
  CHECK_THROWS_WITH(Files().read("/dev/zero"),
                    "/dev/zero: is longer than 128 MiB; give a smaller file");
}

TEST_CASE("a device that takes nothing is told") {
  CHECK_THROWS_WITH(Files().write("/dev/full", "x"),
                    Catch::StartsWith("/dev/full: cannot be written: "));
}

TEST_CASE("a file is not both read and written, whatever its names") {
  const Folder folder;
  const std::string input = folder / "in.csv";
  Files().write(input, "kept");
  fs::create_symlink(input, folder / "soft");
  fs::create_hard_link(input, folder / "hard");
  const std::string said =
      ": is also an input of this command and would be lost; write to another file";
  for (const std::string& output :
       {input, folder / "./in.csv", folder / "../" + folder.path.filename().string() + "/in.csv",
        folder / "soft", folder / "hard"}) {
    CAPTURE(output);
    Files after;
    after.read(input);
    CHECK_THROWS_WITH(after.write(output, "lost"), output + said);
    Files before;
    before.will_write(output);
    CHECK_THROWS_WITH(before.read(input), output + said);
    Findings notices;
    CHECK_THROWS_WITH(before.chart(input, notices), output + said);
  }
  CHECK(Files().read(input) == "kept");
  Files apart;
  apart.read(input);
  apart.write(folder / "out.csv", "new");
  CHECK(Files().read(folder / "out.csv") == "new");
}

TEST_CASE("what a document names is looked for beside it") {
  const Folder folder;
  fs::create_directories(folder.path / "a/b");
  const std::string pro = CALLFIT_SOURCE_DIR "/settings/pro.json";
  Files files;
  files.write(folder / "a/base.json", Files().read(pro));
  fs::create_directories(folder.path / "a/population");
  files.write(folder / "a/population/pro.json",
              Files().read(CALLFIT_SOURCE_DIR "/settings/population/pro.json"));
  files.write(folder / "a/b/mid.json",
              R"({"format": "callfit-setting/1", "based_on": "../base.json", "id": "mid"})");
  files.write(folder / "top.json",
              R"({"format": "callfit-setting/1", "based_on": "a/b/mid.json", "label": "Top"})");
  const Setting top = Files().setting(folder / "top.json");
  CHECK(top.id == "mid");
  CHECK(top.label == "Top");
  CHECK_THROWS_WITH(Files().setting(folder / "none.json"), Catch::Contains("none.json: no such"));
  files.write(folder / "lost.json", R"({"based_on": "nowhere.json"})");
  CHECK_THROWS_WITH(Files().setting(folder / "lost.json"),
                    (folder / "nowhere.json") + ": no such file; check the name and the folder");
  // The base is an input too.
  Files guarded;
  guarded.setting(folder / "top.json");
  CHECK_THROWS_AS(guarded.write(folder / "a/base.json", "{}"), InputError);
}

TEST_CASE("drives are read from gzip and from plain text alike") {
  const std::string packed = CALLFIT_SOURCE_DIR "/data/college/drives_2025_even.csv.gz";
  const auto drives = Files().drives(packed);
  CHECK(drives.size() == 9406);  // rows, says data/college/SOURCES.md
  const Folder folder;
  Files().write(folder / "plain.csv",
                "season,game,quarter,start_yards_to_goal,plays,result,points,kneel_only\n"
                "2025,2,1,86,9,td,6.97,0\n");
  const auto plain = Files().drives(folder / "plain.csv");
  REQUIRE(plain.size() == 1);
  CHECK(plain[0].start_yards_to_goal == drives[0].start_yards_to_goal);
  CHECK(plain[0].points == drives[0].points);
}

TEST_CASE("a broken gzip is told with the row where it breaks off") {
  const std::string packed =
      Files().read(CALLFIT_SOURCE_DIR "/data/college/drives_2025_even.csv.gz");
  const Folder folder;
  const std::string path = folder / "broken.csv.gz";
  const auto told = [&](const std::string& bytes) {
    Files files;
    files.replace_all();
    files.write(path, bytes);
    try {
      Files().drives(path);
    } catch (const InputError& error) {
      return std::string(error.what());
    }
    return std::string("accepted");
  };
  std::string spoiled = packed;
  spoiled[packed.size() / 2] = static_cast<char>(~spoiled[packed.size() / 2]);
  std::string checksum = packed;
  checksum[packed.size() - 5] = static_cast<char>(~checksum[packed.size() - 5]);
  for (const std::string& bytes :
       {packed.substr(0, packed.size() / 2), packed.substr(0, packed.size() - 3),
        packed.substr(0, 5), spoiled, checksum}) {
    const std::string message = told(bytes);
    CAPTURE(message);
    CHECK(message.starts_with(path + ":"));
    CHECK_THAT(message, Catch::Contains("the packed data break off in this row: "));
    CHECK(std::count(message.begin(), message.end(), '\n') <= 1);
  }
  CHECK_THAT(told(""), Catch::Contains("the file is empty"));
}

TEST_CASE("games of quarterbacks are read from gzip") {
  const auto games =
      Files().quarterback_games(CALLFIT_SOURCE_DIR "/data/quarterbacks/quarterback_games.csv.gz");
  CHECK(games.size() == 5501);  // rows, says data/quarterbacks/SOURCES.md
}
