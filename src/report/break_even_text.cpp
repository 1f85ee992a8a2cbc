#include <callfit/report/question_reports.hpp>
#include <callfit/report/table.hpp>

namespace callfit {
namespace {

std::string ends_text(const BreakEven& result) {
  return "at " + knob_value(result.unit, result.low) + " the difference is " +
         signed_fixed(result.net_at_low, 1) + " net points a game, at " +
         knob_value(result.unit, result.high) + " " + signed_fixed(result.net_at_high, 1);
}

std::string chance_text(const BreakEven& result, const std::string& first) {
  if (!result.chance) return "";
  return " The chance that " + first + "'s own value is " +
         (result.more_helps ? "above" : "below") + " it is " + percent(*result.chance) + ".";
}

}  // namespace

std::string break_even_text(const BreakEven& result, const std::string& first,
                            const std::string& second) {
  std::string answer;
  if (result.value)
    answer = first + " is worth as much as " + second + " when his " + result.about + " is " +
             (result.unit == KnobUnit::share ? fixed(100 * *result.value, 1) + '%'
                                             : knob_value(result.unit, *result.value)) +
             "; now it is " + knob_value(result.unit, result.now) + "." +
             chance_text(result, first);
  else
    answer = "No value of " + first + "'s " + result.about +
             " makes them worth the same: " + ends_text(result) + ".";
  return wrapped(answer, 100) +
         wrapped("As things stand " + first + " is " + signed_fixed(result.net_now.value, 1) +
                     " net points a game against " + second + ", 90% interval " +
                     range(result.net_now.interval90, 1, true) +
                     ". Everything else is held at its best estimate.",
                 100);
}

}  // namespace callfit
