#include <callfit/draw/scale.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

double round_step(double span, int wanted) {
  const double raw = span / std::max(wanted, 1);
  const double power = std::pow(10.0, std::floor(std::log10(raw)));
  const double fraction = raw / power;
  if (fraction <= 1) return power;
  if (fraction <= 2) return 2 * power;
  if (fraction <= 5) return 5 * power;
  return 10 * power;
}

double usable_span(double low, double high) {
  const double span = std::abs(high - low);
  return span > 0 ? span : std::max(std::abs(high), 1.0) * 1e-3;
}

}  // namespace

LinearScale::LinearScale(double low, double high, double pixel_low, double pixel_high)
    : low_(low), high_(high), pixel_low_(pixel_low), pixel_high_(pixel_high) {
  if (low_ == high_) {
    const double half = usable_span(low, high) / 2;
    low_ -= half;
    high_ += half;
  }
}

double LinearScale::operator()(double value) const {
  return pixel_low_ + (value - low_) / (high_ - low_) * (pixel_high_ - pixel_low_);
}

double LinearScale::clamped(double value) const {
  return (*this)(std::clamp(value, std::min(low_, high_), std::max(low_, high_)));
}

std::vector<double> round_ticks(double low, double high, int wanted) {
  const double step = round_step(usable_span(low, high), wanted);
  std::vector<double> ticks;
  const auto first = static_cast<long>(std::ceil(low / step - 1e-9));
  const auto last = static_cast<long>(std::floor(high / step + 1e-9));
  for (long k = first; k <= last; ++k) ticks.push_back(static_cast<double>(k) * step);
  return ticks;
}

int decimals_of(const std::vector<double>& ticks) {
  if (ticks.size() < 2) return 0;
  const double step = std::abs(ticks[1] - ticks[0]);
  return std::clamp(static_cast<int>(std::ceil(-std::log10(step) - 1e-9)), 0, 6);
}

Range round_range(double low, double high, int wanted) {
  const double step = round_step(usable_span(low, high), wanted);
  Range range{std::floor(low / step + 1e-9) * step, std::ceil(high / step - 1e-9) * step};
  if (range.high <= range.low) range.high = range.low + step;
  return range;
}

}  // namespace callfit
