#include "folder.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/io/read_file.hpp>
#include <callfit/io/write_file.hpp>

#include <catch2/catch.hpp>

#include <filesystem>

using namespace callfit;
namespace fs = std::filesystem;
using callfit::testing::Folder;

TEST_CASE("what is written is read back byte for byte, and nothing else is left") {
  const Folder folder;
  const std::string bytes("a\r\n\0\xFF", 5);
  write_file(folder / "x.json", "old text, longer than the new one");
  write_file(folder / "x.json", bytes);
  CHECK(read_file(folder / "x.json") == bytes);
  CHECK(std::distance(fs::directory_iterator(folder.path), fs::directory_iterator()) == 1);
}

TEST_CASE("files that cannot be read or written say why") {
  const Folder folder;
  CHECK_THROWS_WITH(read_file(folder / "no.csv"),
                    (folder / "no.csv") + ": no such file; check the name and the folder");
  CHECK_THROWS_WITH(read_file(folder.path.string()),
                    folder.path.string() + ": is a folder; name a file inside it");
  CHECK_THROWS_WITH(write_file(folder.path.string(), "x"),
                    folder.path.string() + ": is a folder; name a file inside it");
  CHECK_THROWS_WITH(write_file(folder / "no/x.svg", "x"),
                    (folder / "no/x.svg") + ": cannot be written: the folder " + (folder / "no") +
                        " does not exist; create it first");
  CHECK_THROWS_AS(write_file("/proc/callfit", "x"), InputError);
}
