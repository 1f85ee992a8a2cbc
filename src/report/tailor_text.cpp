#include <callfit/report/question_reports.hpp>
#include <callfit/report/table.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

constexpr double visible = 0.005;
constexpr std::size_t told_moves = 12;

std::vector<Moved> largest_first(std::vector<Moved> moved) {
  std::stable_sort(moved.begin(), moved.end(), [](const Moved& a, const Moved& b) {
    return std::abs(a.after - a.before) > std::abs(b.after - b.before);
  });
  return moved;
}

std::string moves_table(const std::vector<Moved>& moves, bool more) {
  std::size_t left_out = 0;
  std::size_t told = 0;
  Table table({{more ? "call more" : "call less", Align::left, 70}, {"from"}, {"to"}});
  for (const Moved& move : moves)
    if ((more ? 1 : -1) * (move.after - move.before) > visible) {
      if (++told <= told_moves)
        table.add({move.about, percent(move.before), percent(move.after)});
      else
        ++left_out;
    }
  return table.text() + (left_out > 0 ? "and " + std::to_string(left_out) + " more\n" : "");
}

}  // namespace

std::string tailor_text(const Tailored& result, const TailorLimits& limits,
                        const std::string& player, const std::string& scheme, double drives) {
  const std::vector<Moved> moves = largest_first(result.effect.moved);
  std::string text =
      wrapped(scheme + " bent to " + player + ", each share by at most " + percent(limits.move) +
                  ", passes by at most " + percent(limits.run_pass) + ": " +
                  change_claim(result.effect.net_per_game.change, "net points a game") + ".",
              100);
  text += wrapped("If every snap had its own best mix within the limits it would be " +
                      signed_fixed((result.net_bound - result.net_before) * drives, 1) +
                      " at most; one mix a situation, which a coach can use, gets " +
                      signed_fixed((result.net_after - result.net_before) * drives, 1) + ".",
                  100);
  text += '\n' + moves_table(moves, true) + '\n' + moves_table(moves, false);
  if (limits.fade > 0)
    text += '\n' + wrapped("Of an added share d the part " + fixed(limits.fade, 2) +
                               " x d is expected and worth no more than the mix as it was.",
                           100);
  return text + '\n' +
         wrapped(
             "Caution: defences adapt. What is called more is seen more; take these as the "
             "direction to lean, not as numbers to reach.",
             100);
}

}  // namespace callfit
