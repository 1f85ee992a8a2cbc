#include <callfit/report/answer_text.hpp>

#include "report/phrases.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace callfit {
namespace {

constexpr auto tape_mark = " *";
constexpr auto shrunk_meaning =
    "he: what was charted, pulled toward quarterbacks of this level the more the fewer snaps there "
    "are, and moved where they are of another level; so it is not the charted share. Costs, "
    "brings: "
    "net points a game against what is asked, first order; ";

// What a verdict owes to the level is a mark, with a line below the table.
std::string words_in_table(const Verdict& reaches) {
  return reach_odds_words(reaches) + (reaches.is_the_levels() ? tape_mark : "");
}

bool any_marked(const FitAnswer& answer) {
  for (const DemandAnswer& demand : answer.demands)
    if (words_in_table(demand.reaches).ends_with(tape_mark)) return true;
  return false;
}

std::string place_sentence(const FitAnswer& answer) {
  return stand_text(answer.about) + ": " + value_text(Unit::place, answer.place.centre) +
         " of 100 quarterbacks of this level fit it worse; " +
         range_text(Unit::place, answer.place) + ".";
}

std::string named(const FitAnswer& answer, const DemandAnswer& demand) {
  return demand.label + " (" + answer.families[demand.family].label + ")";
}

// The demands with the words of one side, as "clearly short of 2 of 9 demands: ...".
std::string settled_sentence(const FitAnswer& answer, bool reached) {
  std::string names;
  std::size_t count = 0;
  for (const DemandAnswer& demand : answer.demands)
    if (demand.reaches.lean() == Lean::clear && demand.reaches.yes() == reached) {
      names += (count > 0 ? ", " : "") + named(answer, demand);
      ++count;
    }
  const std::string what = reached ? "Clearly there (odds " : "Clearly short (odds ";
  if (count == 0) return " " + what + odds_words(clear_from) + "): no demand.";
  return " " + what + odds_words(clear_from) + " and more) on " + std::to_string(count) + " of " +
         std::to_string(answer.demands.size()) + " demands: " + names + ".";
}

std::string costs_text(const FamilyAnswer& family) {
  const std::string points = value_text(Unit::points, std::abs(family.costs));
  if (points == value_text(Unit::points, 0)) return "";
  return family.costs > 0 ? ", costs " + points + " net points a game"
                          : ", brings " + points + " more than asked";
}

std::string family_line(const FamilyAnswer& family) {
  return family.label + ": " + percent(family.call_share) + " of calls, " +
         (family.unseen ? "nothing charted" : fixed(family.snaps, 0) + " snaps") +
         ", mean part of D² " + value_text(Unit::distance, family.part) + costs_text(family);
}

// The families with demands, those first that cost most points, then the others.
std::vector<std::size_t> by_cost(const FitAnswer& answer) {
  std::vector<std::size_t> order(answer.families.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&answer](std::size_t a, std::size_t b) {
    return answer.families[a].costs > answer.families[b].costs;
  });
  return order;
}

std::vector<std::string> demand_cells(const DemandAnswer& demand) {
  const Unit unit = unit_of_measure(demand.in_yards);
  return {"  " + demand.label,
          (demand.more_is_better ? "≥ " : "≤ ") + value_text(unit, demand.asked),
          value_text(unit, demand.estimate.centre),
          range_text(unit, demand.estimate),
          counted(demand.made, demand.of),
          value_text(Unit::distance, demand.part),
          words_in_table(demand.reaches)};
}

std::string demands_table(const FitAnswer& answer) {
  Table table({{"demand", Align::left, 25},
               {"asked"},
               {"he"},
               {"90%"},
               {"charted"},
               {"of D²"},
               {"", Align::left, 20}});
  for (const std::size_t f : by_cost(answer)) {
    table.add_line(family_line(answer.families[f]));
    for (const DemandAnswer& demand : answer.demands)
      if (demand.family == f) table.add(demand_cells(demand));
  }
  return table.text();
}

std::string unused_lines(const FitAnswer& answer) {
  if (answer.unused.empty()) return "";
  std::string text = "\nStrengths that the scheme leaves unused\n";
  for (const UnusedAnswer& unused : answer.unused) {
    const Unit unit = unit_of_measure(unused.in_yards);
    text +=
        wrapped(unused.family + ", " + unused.label + ": " + number_text(unit, unused.estimate) +
                    ", usual " + value_text(unit, unused.usual) + ", called on " +
                    percent(unused.call_share) + " of snaps",
                text_width, "  ");
  }
  return text;
}

std::string weights_lines(const FitAnswer& answer) {
  if (!answer.weights) return "";
  Table table({{"weights by points", Align::left, 60}, {"weight"}});
  for (const DemandAnswer& demand : answer.demands)
    table.add({named(answer, demand), percent(demand.weight)});
  const WeightAgreement& agreement = *answer.weights;
  return '\n' + table.text() +
         wrapped("Measures that drives do not use weigh nothing by points. Spearman over " +
                 std::to_string(agreement.quarterbacks) +
                 " quarterbacks drawn from the setting: the two fits " +
                 fixed(agreement.between_fits, 2) + "; the scheme's fit and net points " +
                 fixed(agreement.scheme_points, 2) + "; the fit by points and net points " +
                 fixed(agreement.points_points, 2) + ". " + capital(net_points_meaning) + ".");
}

}  // namespace

std::string fit_text(const FitAnswer& answer) {
  std::string text =
      wrapped(place_sentence(answer) + settled_sentence(answer, false) +
              settled_sentence(answer, true)) +
      tape_line(answer.about) + '\n' + demands_table(answer) +
      wrapped("D² " + number_text(Unit::distance, answer.distance) + "; its mean over the draws, " +
              value_text(Unit::distance, answer.mean_distance) +
              ", is the sum of the parts, which are means too.") +
      wrapped(std::string(shrunk_meaning) + net_points_meaning + '.');
  if (any_marked(answer)) text += "*: as most of his level are, by what is known of it alone\n";
  return text + seed_line(answer.place, Unit::signed_place, "the place") + unused_lines(answer) +
         weights_lines(answer);
}

}  // namespace callfit
