#include <callfit/film/timecode.hpp>

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace callfit {
namespace {

struct Named {
  std::string_view word;
  FrameRate rate;
};

constexpr std::array rates{Named{"23.976", {24000, 1001, false}},
                           Named{"24", {24, 1, false}},
                           Named{"25", {25, 1, false}},
                           Named{"29.97", {30000, 1001, true}},
                           Named{"29.97ndf", {30000, 1001, false}},
                           Named{"30", {30, 1, false}},
                           Named{"50", {50, 1, false}},
                           Named{"59.94", {60000, 1001, true}},
                           Named{"59.94ndf", {60000, 1001, false}},
                           Named{"60", {60, 1, false}}};

constexpr std::int64_t minutes_a_block = 10;

// The number that a frame bears: numbers are left out at the start of each minute but every tenth.
std::int64_t number_of_frame(const FrameRate& rate, std::int64_t frame) {
  if (!rate.drop_frame) return frame;
  const std::int64_t dropped = rate.nominal() / 15;
  const std::int64_t minute = std::int64_t{60} * rate.nominal() - dropped;
  const std::int64_t block = minutes_a_block * minute + dropped;
  const std::int64_t blocks = frame / block;
  const std::int64_t within = frame % block;
  const std::int64_t minutes = within < dropped ? 0 : (within - dropped) / minute;
  return frame + dropped * ((minutes_a_block - 1) * blocks + minutes);
}

}  // namespace

int FrameRate::nominal() const { return (frames + seconds - 1) / seconds; }

std::optional<FrameRate> frame_rate(std::string_view word) {
  for (const Named& named : rates)
    if (named.word == word) return named.rate;
  return std::nullopt;
}

std::vector<std::string> frame_rate_words() {
  std::vector<std::string> words;
  words.reserve(rates.size());
  for (const Named& named : rates) words.emplace_back(named.word);
  return words;
}

std::int64_t frame_at(const FrameRate& rate, double seconds) {
  return std::llround(seconds * rate.frames / rate.seconds);
}

double seconds_at(const FrameRate& rate, std::int64_t frame) {
  return static_cast<double>(frame) * rate.seconds / rate.frames;
}

std::string timecode(const FrameRate& rate, std::int64_t frame) {
  const std::int64_t number = number_of_frame(rate, frame);
  const std::int64_t second = number / rate.nominal();
  return fmt::format("{:02}:{:02}:{:02}{}{:02}", second / 3600, second / 60 % 60, second % 60,
                     rate.drop_frame ? ';' : ':', number % rate.nominal());
}

}  // namespace callfit
