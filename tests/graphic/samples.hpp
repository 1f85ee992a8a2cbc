// Made-up values for every picture: used by the tests and by the program that draws the gallery.
#pragma once

#include <callfit/graphic/comparison_map.hpp>
#include <callfit/graphic/curves.hpp>
#include <callfit/graphic/drive_results.hpp>
#include <callfit/graphic/fit_picture.hpp>
#include <callfit/graphic/levers.hpp>
#include <callfit/graphic/throw_map.hpp>
#include <callfit/graphic/trend.hpp>
#include <callfit/graphic/validation_picture.hpp>

#include <string>
#include <utility>
#include <vector>

namespace callfit::samples {

FitPicture fit_picture();
ThrowMap throw_map();
DriveResults drive_results();
PointsByYard points_by_yard();
SweepCurve sweep();
LeverPicture levers();
ComparisonMap comparison();
TrendPicture trend();
ValidationPicture validation();

Dress dress(Frame frame, Theme theme);

/// Every picture, and a sheet of several, under the name of its file.
std::vector<std::pair<std::string, Figure>> all_figures(const Dress& dress, const TextRuler& ruler);

/// One of each, frames and themes taking turns.
std::vector<std::pair<std::string, Figure>> golden_figures();

std::string png_of_width(const Figure& figure, int width);

}  // namespace callfit::samples
