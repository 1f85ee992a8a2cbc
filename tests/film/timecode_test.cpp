// Timecodes: frame counts of an hour and of ten minutes as SMPTE ST 12-1 gives them (from memory),
// and a clock that counts frame by frame.
#include <callfit/film/timecode.hpp>

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

namespace callfit {
namespace {

/// Counts as ST 12-1 words it: at the start of each minute but every tenth, numbers are left out.
class Clock {
 public:
  explicit Clock(const FrameRate& rate) : rate_(rate) {}

  void tick() {
    if (++frame_ < rate_.nominal()) return;
    frame_ = 0;
    if (++second_ < 60) return;
    second_ = 0;
    ++minute_;
    if (rate_.drop_frame && minute_ % 10 != 0) frame_ = rate_.nominal() == 30 ? 2 : 4;
  }

  std::string text() const {
    const auto two = [](int value) { return (value < 10 ? "0" : "") + std::to_string(value); };
    return two(minute_ / 60) + ':' + two(minute_ % 60) + ':' + two(second_) +
           (rate_.drop_frame ? ';' : ':') + two(frame_);
  }

 private:
  FrameRate rate_;
  int minute_ = 0, second_ = 0, frame_ = 0;
};

FrameRate rate_of(std::string_view word) { return frame_rate(word).value(); }

}  // namespace

TEST_CASE("timecodes are those of a clock that counts frame by frame") {
  for (const std::string& word : frame_rate_words()) {
    CAPTURE(word);
    const FrameRate rate = rate_of(word);
    Clock clock(rate);
    bool same = true;
    for (std::int64_t frame = 0; frame < 25 * 60 * 60; ++frame) {
      same = same && timecode(rate, frame) == clock.text();
      clock.tick();
    }
    CHECK(same);
  }
}

TEST_CASE("drop-frame timecodes keep up with the clock") {
  // 107,892 frames an hour at 29.97, twice as many at 59.94; 17,982 in ten minutes.
  CHECK(timecode(rate_of("29.97"), 17981) == "00:09:59;29");
  CHECK(timecode(rate_of("29.97"), 17982) == "00:10:00;00");
  CHECK(timecode(rate_of("29.97"), 1800) == "00:01:00;02");
  CHECK(timecode(rate_of("29.97"), 107892) == "01:00:00;00");
  CHECK(timecode(rate_of("59.94"), 215784) == "01:00:00;00");
  CHECK(timecode(rate_of("29.97ndf"), 107892) == "00:59:56:12");
  for (const char* word : {"29.97", "59.94"})
    CHECK(timecode(rate_of(word), frame_at(rate_of(word), 2 * 3600)).starts_with("02:00:00"));
}

TEST_CASE("a time falls on the nearest frame, and comes back to half a frame") {
  for (const std::string& word : frame_rate_words()) {
    const FrameRate rate = rate_of(word);
    for (const double seconds : {0.0, 0.5, 59.99, 3661.04, 7199.999}) {
      const double back = seconds_at(rate, frame_at(rate, seconds));
      CHECK(std::abs(back - seconds) <= 0.5 * rate.seconds / rate.frames + 1e-9);
    }
  }
  CHECK(frame_at(rate_of("25"), 10) == 250);
  CHECK_FALSE(frame_rate("26").has_value());
}

}  // namespace callfit
