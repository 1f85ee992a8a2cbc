// Film in ranges of bytes: odd ones, long files, and files that change meanwhile.
#include "../cli/program.hpp"

#include <desk/film.hpp>

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

using namespace callfit;
using namespace callfit::desk;
namespace fs = std::filesystem;

namespace {

const std::string mp4_head(
    "\0\0\0\x18"
    "ftypisom\0\0\0\0",
    16);

Call asking(const std::string& range) {
  Call call{"GET", "/film/1/x", {}, ""};
  if (!range.empty()) call.headers.emplace_back("Range", range);
  return call;
}

std::string header_of(const Reply& reply, const std::string& name) {
  for (const auto& [key, value] : reply.headers)
    if (key == name) return value;
  return "";
}

std::string told(const std::optional<ByteRange>& range) {
  return range ? std::to_string(range->first) + "-" + std::to_string(range->last) : "none";
}

}  // namespace

TEST_CASE("film: ranges as RFC 9110 has them, and what is none") {
  CHECK(told(range_in("bytes=0-99", 1000)) == "0-99");
  CHECK(told(range_in("bytes=0-", 1000)) == "0-999");
  CHECK(told(range_in("bytes=990-2000", 1000)) == "990-999");
  CHECK(told(range_in("bytes=-1", 1000)) == "999-999");
  CHECK(told(range_in("bytes=-5000", 1000)) == "0-999");
  CHECK(told(range_in("bytes=999-999", 1000)) == "999-999");
  for (const char* odd :
       {"", "bytes=", "bytes=-", "bytes=1000-", "bytes=5-2", "bytes=-0", "bytes=a-b",
        "bytes=1-2,5-6", "bytes= 0-1", "bytes=0-1 ", "lines=0-1", "bytes=--1", "bytes=+1-2",
        "bytes=0x1-2", "bytes=99999999999999999999-", "bytes=1-99999999999999999999999"})
    CHECK(told(range_in(odd, 1000)) == "none");
  CHECK(told(range_in("bytes=0-", 0)) == "none");
}

TEST_CASE("film: a file of many hours is read at its end without the rest") {
  const test::Scratch folder;
  const fs::path file = folder.write("long.mp4", mp4_head);
  constexpr std::uint64_t size = std::uint64_t{40} << 30U;  // sparse: it takes no room
  fs::resize_file(file, size);
  const Film film{"long.mp4", file.string()};
  const Reply end = part_of_film(film, asking("bytes=-1000"));
  CHECK(end.status == 206);
  CHECK(end.type == "video/mp4");
  CHECK(end.body.size() == 1000);
  CHECK(header_of(end, "Content-Range") == "bytes " + std::to_string(size - 1000) + "-" +
                                               std::to_string(size - 1) + "/" +
                                               std::to_string(size));
  const Reply all = part_of_film(film, asking("bytes=0-"));
  CHECK(all.status == 206);
  CHECK(all.body.size() == most_bytes_of_film);
  CHECK(all.body.starts_with(mp4_head));
  CHECK(header_of(all, "Content-Range").starts_with("bytes 0-2097151/"));
  const Reply beyond = part_of_film(film, asking("bytes=" + std::to_string(size) + "-"));
  CHECK(beyond.status == 416);
  CHECK(header_of(beyond, "Content-Range") == "bytes */" + std::to_string(size));
  CHECK(part_of_film(film, asking("")).status == 416);
  CHECK(part_of_film(film, asking("bytes=0-1,4-5")).status == 416);
}

TEST_CASE("film: a file that shrinks, changes or vanishes is told as it is") {
  const test::Scratch folder;
  const fs::path file = folder.write("a.mp4", mp4_head + std::string(5000, 'x'));
  const Film film{"a.mp4", file.string()};
  CHECK(part_of_film(film, asking("bytes=4000-")).status == 206);
  fs::resize_file(file, 3000);
  CHECK(part_of_film(film, asking("bytes=4000-")).status == 416);
  CHECK(part_of_film(film, asking("bytes=2000-9999")).body.size() == 1000);
  folder.write("a.mp4", "game,level\n");
  CHECK(part_of_film(film, asking("bytes=0-")).status == 415);
  fs::remove(file);
  CHECK(part_of_film(film, asking("bytes=0-")).status == 404);
  fs::create_directory(file);
  CHECK(part_of_film(film, asking("bytes=0-")).status == 404);
}

TEST_CASE("film: what browsers do not play is told with what to do") {
  const test::Scratch folder;
  CHECK(film_fault(folder.write("a.mp4", mp4_head).string()).empty());
  CHECK(film_fault(folder.write("a.webm", "\x1A\x45\xDF\xA3 webm").string()).empty());
  const std::string avi = film_fault(folder.write("a.avi", "RIFF1234AVI LIST").string());
  CHECK(avi.starts_with("is AVI, which browsers do not play; `ffmpeg -i file:a.avi -c:v"));
  CHECK(film_fault(folder.write("a.txt", "hello").string()).starts_with("is no film"));
  CHECK(film_fault(folder.write("empty.mp4", "").string()).starts_with("is no film"));
  CHECK(film_fault((folder.path() / "none.mp4").string()).starts_with("there is no such file"));
  CHECK(film_fault(folder.path().string()).starts_with("there is no such file"));
}

TEST_CASE("film: clips that a chart names lie beside it") {
  const test::Scratch folder;
  folder.write("a.mp4", mp4_head);
  folder.write("chart.csv", "game\n");
  const auto films = films_named({"a.mp4", "", "gone.mp4", "chart.csv", "a.mp4"},
                                 (folder.path() / "chart.csv").string());
  REQUIRE(films.size() == 1);
  CHECK(films[0].name == "a.mp4");
}

TEST_CASE("film: what a chart names outside its folder is not given out") {
  const test::Scratch folder;
  const fs::path home = folder.path() / "season";
  fs::create_directories(home / "week 1");
  const fs::path outside = folder.write("private.mp4", mp4_head);
  std::ofstream(home / "week 1" / "a.mp4") << mp4_head;
  fs::create_symlink(outside, home / "link.mp4");
  const auto films =
      films_named({"../private.mp4", outside.string(), "link.mp4", "week 1/../../private.mp4",
                   "week 1/a.mp4", "week 1/../week 1/a.mp4"},
                  (home / "chart.csv").string());
  REQUIRE(films.size() == 2);
  CHECK(films[0].name == "week 1/a.mp4");
  CHECK(films[1].name == "week 1/../week 1/a.mp4");
}
