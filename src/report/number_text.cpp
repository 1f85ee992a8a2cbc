#include <callfit/report/number_text.hpp>

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <stdexcept>

namespace callfit {
namespace {

/// How a unit is written; shares have a rule of their own.
struct Manner {
  int decimals = 2;
  bool with_sign = false;
  const char* behind = "";
};

constexpr std::array<Manner, 10> manners{{{0, false, "%"},
                                          {1, false, " yd"},
                                          {2, false, ""},
                                          {2, true, ""},
                                          {0, false, ""},
                                          {1, true, ""},
                                          {3, false, ""},
                                          {2, true, ""},
                                          {2, false, ""},
                                          {2, false, ""}}};

void require_finite(double value) {
  if (!std::isfinite(value)) throw std::logic_error("a number to print is not finite");
}

std::string percent_number(double share) {
  require_finite(share);
  const double value = 100 * share;
  const bool small = std::abs(value) < 9.95 && std::abs(value) > 0;
  return fixed(value, small ? 1 : 0);
}

std::string bare(Unit unit, double value) {
  if (unit == Unit::share) return percent_number(value);
  const Manner& manner = manners[static_cast<std::size_t>(unit)];
  return manner.with_sign ? signed_fixed(value, manner.decimals) : fixed(value, manner.decimals);
}

const char* behind(Unit unit) { return manners[static_cast<std::size_t>(unit)].behind; }

Interval ends_of(const Number& number) { return {number.low, number.high}; }

}  // namespace

Unit unit_of(KnobUnit unit) {
  if (unit == KnobUnit::share) return Unit::share;
  return unit == KnobUnit::yards ? Unit::yards : Unit::number;
}

Unit unit_of_measure(bool in_yards) { return in_yards ? Unit::yards : Unit::share; }

std::string value_text(Unit unit, double value) { return bare(unit, value) + behind(unit); }

std::string range_text(Unit unit, const Number& number) {
  const char* between = unit == Unit::share ? "-" : " to ";
  return bare(unit, number.low) + between + bare(unit, number.high) + behind(unit);
}

std::string number_text(Unit unit, const Number& number) {
  return value_text(unit, number.centre) + " (" + range_text(unit, number) + ")";
}

std::string knob_text(KnobUnit unit, double value) { return value_text(unit_of(unit), value); }

std::string fixed(double value, int decimals) {
  require_finite(value);
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find_first_not_of("-0.") == std::string::npos && text.front() == '-') text.erase(0, 1);
  return text;
}

std::string signed_fixed(double value, int decimals) {
  std::string text = fixed(value, decimals);
  const bool zero = text.find_first_not_of("0.") == std::string::npos;
  return zero || text.front() == '-' ? text : '+' + text;
}

std::string percent(double share) { return percent_number(share) + '%'; }

std::string percent_range(const Interval& interval) {
  return percent_number(interval.low) + '-' + percent_number(interval.high) + '%';
}

std::string percent_range(const Number& number) { return percent_range(ends_of(number)); }

std::string range(const Interval& interval, int decimals, bool with_sign) {
  const auto number = [&](double v) {
    return with_sign ? signed_fixed(v, decimals) : fixed(v, decimals);
  };
  return number(interval.low) + " to " + number(interval.high);
}

std::string range(const Number& number, int decimals, bool with_sign) {
  return range(ends_of(number), decimals, with_sign);
}

std::string with_dashes(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool before_digit = i + 1 < text.size() && text[i + 1] >= '0' && text[i + 1] <= '9';
    if (text[i] == '-' && before_digit)
      out += "–";
    else
      out += text[i];
  }
  return out;
}

}  // namespace callfit
