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

std::string shell_words(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += ' ' + shell_word(word);
  return out;
}

// Square pixels, as large as the frame holds, bars around.
constexpr std::string_view one_size =
    "scale=trunc(iw*sar/2)*2:ih,"
    "scale=1280:720:force_original_aspect_ratio=decrease:force_divisible_by=2,"
    "pad=1280:720:-1:-1,setsar=1";

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

std::string shell_word(std::string_view text) {
  const bool is_plain = text.find_first_not_of(
                            "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789"
                            "%+,-./:=@_") == std::string_view::npos;
  if (is_plain && !text.empty()) return std::string(text);
  return '\'' + with_escapes(text, '\'', "'\\''") + '\'';
}

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
    out += fmt::format("file {}\ninpoint {:.3f}\noutpoint {:.3f}\n", shell_word(one_line(cut.clip)),
                       cut.start, cut.end);
  return out;
}

std::vector<std::string> piece_words(const Cut& cut) {
  return {
      "-nostdin", "-hide_banner", "-loglevel", "error", "-abort_on", "empty_output",
      // Film that names other places, or asks for them, is not followed there.
      "-protocol_whitelist", "file", "-ss", fmt::format("{:.3f}", cut.start), "-i",
      "file:" + cut.clip, "-map", "0:v:0", "-vf",
      // The length counts from the start asked for: -t would count from the first frame after it.
      fmt::format("trim=end={:.3f},setpts=PTS-STARTPTS,{}", cut.end - cut.start, one_size), "-c:v",
      "libx264", "-preset", "veryfast", "-crf", "20",
      // All pieces alike: no frame out of its order, one unit of time.
      "-bf", "0", "-pix_fmt", "yuv420p", "-video_track_timescale", "90000", "-f", "mp4"};
}

std::vector<std::string> joining_words(const std::string& list) {
  return {"-nostdin", "-hide_banner", "-loglevel", "error",     "-f",         "concat", "-i",
          list,       "-c",           "copy",      "-movflags", "+faststart", "-f",     "mp4"};
}

std::string piece_name(std::size_t piece) { return fmt::format("{}.mp4", piece + 1); }

std::string pieces_list(std::size_t pieces) {
  std::string out = "ffconcat version 1.0\n";
  for (std::size_t i = 0; i < pieces; ++i) out += "file " + piece_name(i) + '\n';
  return out;
}

std::string cutting_script(std::span<const Cut> cuts) {
  std::string out =
      "#!/bin/sh\n# Cuts the film into one file: sh this-script reel.mp4\nset -eu\nfilm=$1\n"
      "pieces=$(mktemp -d)\ntrap 'rm -rf \"$pieces\"' EXIT\n";
  for (std::size_t i = 0; i < cuts.size(); ++i)
    out +=
        fmt::format("ffmpeg{} \"$pieces/{}\"\n", shell_words(piece_words(cuts[i])), piece_name(i));
  return out + fmt::format(
                   "cat > \"$pieces/list\" << 'end'\n{}end\n"
                   "(cd \"$pieces\" && ffmpeg{} film.mp4)\nmv -- \"$pieces/film.mp4\" \"$film\"\n",
                   pieces_list(cuts.size()), shell_words(joining_words("list")));
}

std::string caption_sheet(const std::vector<std::string>& heads, std::span<const Cut> cuts) {
  constexpr double head_seconds = 12;  // some forty words (common practice, no source)
  double length = 0;
  for (const Cut& cut : cuts) length += cut.end - cut.start;
  const double each = std::min(length / static_cast<double>(heads.size()), head_seconds);
  std::string out = "WEBVTT\n";
  double at = 0;
  for (const std::string& head : heads) {
    out +=
        fmt::format("\n{} --> {} line:0\n{}\n", cue_time(at), cue_time(at + each), cue_text(head));
    at += each;
  }
  at = 0;
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
