// Frame, theme, style, logo and footer of pictures, and pictures into files.
#pragma once

#include "cli/options.hpp"

#include <callfit/ask/case.hpp>
#include <callfit/graphic/dress.hpp>

#include <string>

namespace callfit::cli {

/// Adds --frame, --theme, --style, --logo and --source.
void add_dress_options(Options& options);
/// The words over the style text and the tape source that a case holds.
Dress dress_from(Files& disk, const po::variables_map& values, const Case& about);

/// Throws po::error unless the file ends in .svg, .png or .pdf.
void require_picture_ending(const std::string& file);

/// A drawing as .svg, .png or .pdf.
std::string picture_bytes(const Figure& drawing, Frame frame, const std::string& ending);

/// One drawing into each file, by its ending.
void write_pictures(Files& disk, const Figure& drawing, Frame frame, const Words& files);

}  // namespace callfit::cli
