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

/// CMX 3600: one event a cut, pictures only, in a row from 00:00:00:00. Timecodes count from the
/// beginning of each file; names of files stand in comments. At most 999 cuts: the format has three
/// digits; throws std::invalid_argument for more.
std::string edit_decision_list(std::string_view title, std::span<const Cut> cuts,
                               const FrameRate& rate);

/// The script of ffmpeg's concat demuxer (ffconcat version 1.0).
std::string concat_script(std::span<const Cut> cuts);

/// WebVTT of the cuts played in a row: a cue a cut, its caption as plain text.
std::string caption_sheet(std::span<const Cut> cuts);

/// A table: number, clip, start, end (seconds), caption.
std::string cut_table(std::span<const Cut> cuts);

}  // namespace callfit
