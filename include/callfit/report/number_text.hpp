// How numbers are written: one place for texts, tables and pictures.
#pragma once

#include <callfit/ask/knob.hpp>
#include <callfit/ask/number.hpp>
#include <callfit/stats/interval.hpp>

#include <string>

namespace callfit {

/// What a number is, which settles its decimals, its sign and the unit behind it.
enum class Unit {
  share,          ///< 0.294 -> "29%"; one decimal below 10%
  yards,          ///< "7.2 yd"
  points,         ///< per drive or game: "2.13"
  signed_points,  ///< net points and changes of points: "+0.21"
  place,          ///< of 100 quarterbacks: "54"
  signed_place,   ///< a change of place: "+3.2"
  distance,       ///< D^2 and its parts: "0.124"
  spreads,        ///< spreads between quarterbacks: "+0.42"
  count,          ///< plays, first downs, calls: "5.91"
  number,         ///< weights and what else has no unit: "1.50"
};

Unit unit_of(KnobUnit unit);          ///< a word has none: Unit::number
Unit unit_of_measure(bool in_yards);  ///< yards or share

/// All that follow throw std::logic_error for NaN or infinity, so that none is ever shown.
std::string value_text(Unit unit, double value);
std::string range_text(Unit unit, const Number& number);   ///< "21-34%"; else "1.2 to 3.4"
std::string number_text(Unit unit, const Number& number);  ///< "29% (21-34%)"
std::string knob_text(KnobUnit unit, double value);        ///< as value_text; no words

std::string percent(double share);                     ///< 0.294 -> "29%"; one decimal below 10%
std::string fixed(double value, int decimals);         ///< 1.236, 2 -> "1.24"; never "-0.00"
std::string signed_fixed(double value, int decimals);  ///< "+0.21", "-0.07", "0.00"
std::string percent_range(const Interval& interval);   ///< "21-34%"
std::string percent_range(const Number& number);
std::string range(const Interval& interval, int decimals, bool with_sign = false);  ///< "a to b"
std::string range(const Number& number, int decimals, bool with_sign = false);

/// For print: a hyphen in front of a digit becomes an en dash.
std::string with_dashes(const std::string& text);

}  // namespace callfit
