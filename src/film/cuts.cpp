#include <callfit/base/csv_field.hpp>
#include <callfit/film/cuts.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace callfit {
namespace {

/// On one line, without what ends a line or moves a cursor.
std::string one_line(std::string_view text) {
  std::string out(text);
  std::replace_if(
      out.begin(), out.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20; }, ' ');
  return out;
}

std::string with_escapes(std::string_view text, char what, std::string_view instead) {
  std::string out;
  for (const char c : text)
    if (c == what)
      out += instead;
    else
      out += c;
  return out;
}

std::string cue_text(std::string_view caption) {
  std::string out = with_escapes(one_line(caption), '&', "&amp;");
  out = with_escapes(out, '<', "&lt;");
  return with_escapes(out, '>', "&gt;");  // "-->" would be a time
}

std::string cue_time(double seconds) {
  const std::int64_t thousandths = std::llround(1000 * seconds);
  const std::int64_t second = thousandths / 1000;
  return fmt::format("{:02}:{:02}:{:02}.{:03}", second / 3600, second / 60 % 60, second % 60,
                     thousandths % 1000);
}

}  // namespace

std::string edit_decision_list(std::string_view title, std::span<const Cut> cuts,
                               const FrameRate& rate) {
  if (cuts.size() > most_edits)
    throw std::invalid_argument("edit_decision_list: more cuts than three digits count");
  std::string out =
      fmt::format("TITLE: {}\nFCM: {}DROP FRAME\n", one_line(title), rate.drop_frame ? "" : "NON-");
  std::int64_t at = 0;
  for (std::size_t i = 0; i < cuts.size(); ++i) {
    const std::int64_t in = frame_at(rate, cuts[i].start);
    const std::int64_t end = std::max(frame_at(rate, cuts[i].end), in + 1);
    out += fmt::format("\n{:03}  AX       V     C        {} {} {} {}\n* FROM CLIP NAME: {}\n",
                       i + 1, timecode(rate, in), timecode(rate, end), timecode(rate, at),
                       timecode(rate, at + end - in), one_line(cuts[i].clip));
    if (!cuts[i].caption.empty()) out += "* COMMENT: " + one_line(cuts[i].caption) + '\n';
    at += end - in;
  }
  return out;
}

std::string concat_script(std::span<const Cut> cuts) {
  std::string out = "ffconcat version 1.0\n";
  for (const Cut& cut : cuts)
    out += fmt::format("file '{}'\ninpoint {:.3f}\noutpoint {:.3f}\n",
                       with_escapes(one_line(cut.clip), '\'', "'\\''"), cut.start, cut.end);
  return out;
}

std::string cutting_script(std::span<const Cut> cuts) {
  std::string out =
      "#!/bin/sh\n# Cuts the film into one file: sh this-script reel.mp4\nexec ffmpeg";
  for (const Cut& cut : cuts)
    out += fmt::format(" \\\n  -ss {:.3f} -t {:.3f} -i '{}'", cut.start, cut.end - cut.start,
                       with_escapes(one_line(cut.clip), '\'', "'\\''"));
  return out + fmt::format(" \\\n  -filter_complex 'concat=n={}:v=1:a=0' \"$1\"\n", cuts.size());
}

std::string caption_sheet(std::span<const Cut> cuts) {
  std::string out = "WEBVTT\n";
  double at = 0;
  for (std::size_t i = 0; i < cuts.size(); ++i) {
    const double end = at + cuts[i].end - cuts[i].start;
    out += fmt::format("\n{}\n{} --> {}\n{}\n", i + 1, cue_time(at), cue_time(end),
                       cue_text(cuts[i].caption));
    at = end;
  }
  return out;
}

std::string cut_table(std::span<const Cut> cuts) {
  std::string out = "number,clip,start,end,caption\n";
  for (std::size_t i = 0; i < cuts.size(); ++i)
    out += fmt::format("{},{},{:.3f},{:.3f},{}\n", i + 1, csv_field(cuts[i].clip), cuts[i].start,
                       cuts[i].end, csv_field(cuts[i].caption));
  return out;
}

}  // namespace callfit
