// Cuts of films in a row, as lists that editing programs and players read.
#pragma once

#include <callfit/film/timecode.hpp>

#include <span>
#include <string>
#include <string_view>

namespace callfit {

/// A piece of one file of film.
struct Cut {
  std::string clip;           ///< the file's name or path
  double start = 0, end = 0;  ///< seconds from the file's beginning, end above start
  std::string caption;        ///< what is seen
};

/// Events of an edit decision list: its numbers have three digits.
inline constexpr std::size_t most_edits = 999;

/// CMX 3600: one event a cut, pictures only, in a row from 00:00:00:00. Timecodes count from the
/// beginning of each file; names of files stand in comments. At most
/// most_edits; throws std::invalid_argument for more.
std::string edit_decision_list(std::string_view title, std::span<const Cut> cuts,
                               const FrameRate& rate);

/// The script of ffmpeg's concat demuxer (ffconcat version 1.0).
std::string concat_script(std::span<const Cut> cuts);

/// A POSIX shell script that has ffmpeg cut the film into the one file it is given: decoded and
/// encoded anew, so that cuts fall on the frame; without sound. Films have to be of one size.
std::string cutting_script(std::span<const Cut> cuts);

/// WebVTT of the cuts played in a row: a cue a cut, its caption as plain text.
std::string caption_sheet(std::span<const Cut> cuts);

/// A table: number, clip, start, end (seconds), caption.
std::string cut_table(std::span<const Cut> cuts);

}  // namespace callfit
