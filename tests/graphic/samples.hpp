// Made-up answers for every picture: used by the tests and by the program that draws the gallery.
#pragma once

#include <callfit/graphic/pictures.hpp>

#include <string>
#include <utility>
#include <vector>

namespace callfit::samples {

/// Odds from a normal with this number's centre and 90% interval: so that verdicts and intervals
/// of made-up answers agree.
Verdict above(const Number& number, double line);

/// A demand on a family, held against an estimate; its place in spreads and the odds follow.
DemandAnswer demand(std::size_t family, Measure measure, const Number& estimate, double asked,
                    double spread, double part, std::optional<double> level_odds = {});

FitAnswer fit();
DifferenceAnswer difference();  ///< leans
DifferenceAnswer difference_of(double centre, double half);
std::vector<ThrowZone> throws();
DrivesAnswer drives();
DrivesAgainst against();
SweepAnswer sweep();
SweepAnswer grid();
LeversAnswer levers();
CompareAnswer comparison();
TrendAnswer trend();
ValidationReport validation();

Dress dress(Frame frame, Theme theme);
inline const Wording wording;  ///< the house's own

/// Every picture, under the name of its file.
std::vector<std::pair<std::string, Panel>> all_panels(const Wording& wording);

/// All panels alone, and a sheet of two.
std::vector<std::pair<std::string, Figure>> all_figures(const Dress& dress, const TextRuler& ruler);

/// One of each, frames and themes taking turns.
std::vector<std::pair<std::string, Figure>> golden_figures();

std::string png_of_width(const Figure& figure, int width);

}  // namespace callfit::samples
