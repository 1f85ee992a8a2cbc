// Frames and timecodes: SMPTE ST 12-1, drop-frame counting included.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// Frames a second, a ratio of whole numbers: 30000/1001 is written 29.97.
struct FrameRate {
  int frames = 25, seconds = 1;
  /// Frame numbers are left out so that timecodes keep up with the clock: two in each minute but
  /// every tenth at 29.97, four at 59.94. Frames themselves are never dropped.
  bool drop_frame = false;

  int nominal() const;  ///< numbers a second: 30 at 29.97
};

/// "24", "25", "30", "50", "60"; "23.976"; "29.97" and "59.94", drop-frame unless "ndf" follows.
std::optional<FrameRate> frame_rate(std::string_view word);
/// All words that frame_rate() takes.
std::vector<std::string> frame_rate_words();

/// The frame nearest to a time: seconds from 0 to a day.
std::int64_t frame_at(const FrameRate& rate, double seconds);
double seconds_at(const FrameRate& rate, std::int64_t frame);

/// HH:MM:SS:FF, with ; before the frames where numbers are dropped. Frames from 0.
std::string timecode(const FrameRate& rate, std::int64_t frame);

}  // namespace callfit
