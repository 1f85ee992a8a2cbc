// Cuts of films in a row, as lists that editing programs and players read.
#pragma once

#include <callfit/film/timecode.hpp>

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// A piece of one file of film.
struct Cut {
  std::string clip;           ///< the file's name or path
  double start = 0, end = 0;  ///< seconds from the file's beginning, end above start
  std::string caption;        ///< what is seen
};

/// The text as one word of a POSIX shell, or of a script of ffmpeg's: in single quotes where it
/// needs them.
std::string shell_word(std::string_view text);

/// Events of an edit decision list: its numbers have three digits.
inline constexpr std::size_t most_edits = 999;

/// CMX 3600: one event a cut, pictures only, in a row from 00:00:00:00. Timecodes count from the
/// beginning of each file; names of files stand in comments. At most most_edits; throws
/// std::invalid_argument for more.
std::string edit_decision_list(std::string_view title, std::span<const Cut> cuts,
                               const FrameRate& rate);

/// The script of ffmpeg's concat demuxer (ffconcat version 1.0).
std::string concat_script(std::span<const Cut> cuts);

/// How ffmpeg cuts film into one file, in calls that each need the memory of one cut, whatever
/// their number: words without the program's name, and without what is written, which comes last.
/// Film is decoded and encoded anew, so that cuts fall on the frame; without sound, 1280 by 720,
/// with bars where film is of another shape. Names of files are names alone: no address, no
/// protocol.
std::vector<std::string> piece_words(const Cut& cut);
/// The pieces become one MP4 file: `list` is a script of the concat demuxer.
std::vector<std::string> joining_words(const std::string& list);
/// Names of pieces beside their list, counted from 0, and the list of so many.
std::string piece_name(std::size_t piece);
std::string pieces_list(std::size_t pieces);

/// A POSIX shell script of these calls; it takes the name of the film that it writes.
std::string cutting_script(std::span<const Cut> cuts);

/// WebVTT of the cuts played in a row: a cue a cut, its caption as plain text; `heads`, what is to
/// be said of all of them, one after the other at the top of the picture for the first seconds.
std::string caption_sheet(const std::vector<std::string>& heads, std::span<const Cut> cuts);

/// A table: number, clip, start, end (seconds), caption.
std::string cut_table(std::span<const Cut> cuts);

}  // namespace callfit
