#include <callfit/report/answer_text.hpp>
#include <callfit/report/snaps_text.hpp>

namespace callfit {
namespace {

std::string told(const FitAnswer& answer) { return fit_text(answer); }
std::string told(const DrivesAnswer& answer) { return drives_text(answer); }
std::string told(const CompareAnswer& answer) { return compare_text(answer); }
std::string told(const TryAnswer& answer) { return try_text(answer); }
std::string told(const SweepAnswer& answer) { return sweep_text(answer); }
std::string told(const LeversAnswer& answer) { return levers_text(answer); }
std::string told(const BreakEvenAnswer& answer) { return break_even_text(answer); }
std::string told(const PackageAnswer& answer) { return package_text(answer); }
std::string told(const TailorAnswer& answer) { return tailor_text(answer); }
std::string told(const NextAnswer& answer) { return next_text(answer); }
std::string told(const TrendAnswer& answer) { return trend_text(answer); }
std::string told(const BriefAnswer& answer) { return brief_text(answer); }
std::string told(const SayAnswer& answer) { return say_text(answer); }
std::string told(const SnapsAnswer& answer) { return snaps_text(answer); }

}  // namespace

std::string text_of(const Answer& answer) {
  return std::visit([](const auto& one) { return told(one); }, answer);
}

}  // namespace callfit
