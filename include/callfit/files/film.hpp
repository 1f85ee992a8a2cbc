// Film cut into one file by ffmpeg, where that is installed.
#pragma once

#include <callfit/base/parallel.hpp>
#include <callfit/files/files.hpp>
#include <callfit/film/cuts.hpp>

#include <span>
#include <string>

namespace callfit {

/// Whether ffmpeg can be started.
bool has_ffmpeg();

/// Cuts the film into the MP4 file `path`, by the calls that piece_words() and joining_words()
/// name; Files::write_by() puts it in its place. Progress counts cuts. Throws InputError where a
/// cut's film is no file and where ffmpeg gives up, with its last words.
void cut_film(Files& disk, const std::string& path, std::span<const Cut> cuts,
              const Progress& progress = {});

}  // namespace callfit
