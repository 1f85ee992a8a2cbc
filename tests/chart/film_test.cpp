// How much film charted snaps lie on. The expected values follow from the rows by hand.
#include <callfit/chart/film.hpp>

#include <catch2/catch.hpp>

namespace callfit {
namespace {

Snap filmed(const char* clip, const char* game, const char* family, float start, float end) {
  Snap snap;
  snap.clip = clip;
  snap.game = game;
  snap.family = family;
  snap.start = start;
  snap.end = end;
  return snap;
}

}  // namespace

TEST_CASE("film runs from the first start to the last end of each clip") {
  const Chart chart{
      "a.csv",
      {filmed("one.mp4", "G1", "boot", 100, 106), filmed("one.mp4", "G1", "draw", 160, 168),
       filmed("two.mp4", "G1", "boot", 10, 20)}};
  const Film film = film_of({chart});
  CHECK(film.seconds == Approx(68 + 10));
  CHECK(film.snaps.at("boot") == 2);
  CHECK(film.snaps.at("draw") == 1);
  CHECK(film.seconds_for(6, 2) == Approx(78 * 3));
}

TEST_CASE("snaps of no named clip are taken by game, those of two charts apart") {
  const Chart first{"a.csv",
                    {filmed("", "G1", "boot", 0, 5), filmed("", "G1", "boot", 50, 60),
                     filmed("", "G2", "boot", 0, 7)}};
  const Chart second{"b.csv", {filmed("", "G1", "boot", 1000, 1010)}};
  CHECK(film_of({first, second}).seconds == Approx(60 + 7 + 10));
}

TEST_CASE("a snap without times tells nothing of film") {
  Snap half = filmed("one.mp4", "G1", "boot", 5, 9);
  half.end.reset();
  const Film film = film_of({Chart{"a.csv", {half, Snap{}}}});
  CHECK(film.seconds == 0);
  CHECK(film.snaps.empty());
}

}  // namespace callfit
