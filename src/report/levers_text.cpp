#include <callfit/report/question_reports.hpp>
#include <callfit/report/table.hpp>

#include <algorithm>

namespace callfit {

std::string levers_text(const std::vector<LeverValue>& levers, const std::string& player,
                        const std::string& scheme, std::size_t most) {
  Table table({{"path", Align::left, 50},
               {"now"},
               {"a step to"},
               {"net points a game"},
               {"90% interval"},
               {"fit"}});
  for (std::size_t i = 0; i < std::min(most, levers.size()); ++i) {
    const LeverValue& lever = levers[i];
    table.add({lever.path, knob_value(lever.unit, lever.now),
               knob_value(lever.unit, lever.now + lever.step),
               signed_fixed(lever.net_per_game.value, 2),
               range(lever.net_per_game.interval90, 2, true),
               lever.is_call ? "" : signed_fixed(lever.fit_slope * lever.step, 1)});
  }
  const auto first = std::find_if(levers.begin(), levers.end(),
                                  [](const LeverValue& lever) { return !lever.of_handoffs; });
  const std::string head = first == levers.end()
                               ? std::string("nothing to turn")
                               : "the largest lever, handoffs apart, is " + first->about +
                                     ", worth " + signed_fixed(first->net_per_game.value, 2) +
                                     " net points a game for one step";
  return wrapped(player + " in " + scheme + ": " + head + '.', 100) + '\n' + table.text() +
         "\nOne step is one spread between quarterbacks of this level, or 10 percentage points of "
         "calls,\ntoward more points. Values are exact derivatives times the step.\n";
}

}  // namespace callfit
