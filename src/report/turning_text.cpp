#include <callfit/report/turning_text.hpp>

#include "report/phrases.hpp"

#include <algorithm>

namespace callfit {
namespace {

// "call.first.boot.two_high", "rate.boot.completion": the play family that a path is about.
std::string family_in(const LeverAnswer& lever) {
  std::size_t from = lever.path.find('.') + 1;
  if (lever.is_call) from = lever.path.find('.', from) + 1;
  return lever.path.substr(from, lever.path.find('.', from) - from);
}

std::string from_to(KnobUnit unit, double before, double after) {
  return knob_text(unit, before) + " to " + knob_text(unit, after);
}

bool is_new(const std::vector<LeverAnswer>& chosen, const LeverAnswer& lever) {
  return std::none_of(chosen.begin(), chosen.end(), [&lever](const LeverAnswer& one) {
    return family_in(one) == family_in(lever);
  });
}

bool all_alike(const std::vector<LeverAnswer>& chosen, bool is_call) {
  return std::all_of(chosen.begin(), chosen.end(),
                     [is_call](const LeverAnswer& one) { return one.is_call == is_call; });
}

}  // namespace

std::vector<LeverAnswer> worth_trying(const LeversAnswer& answer, std::size_t most) {
  std::vector<LeverAnswer> chosen;
  for (const LeverAnswer& lever : answer.levers) {
    if (chosen.size() >= most) break;
    if (lever.of_handoffs || lever.step == 0 || !is_new(chosen, lever)) continue;
    if (chosen.size() + 1 == most && most > 1 && all_alike(chosen, lever.is_call)) continue;
    chosen.push_back(lever);
  }
  return chosen;
}

std::string lever_words(const LeverAnswer& lever) {
  const std::string more = lever.is_call ? (lever.step > 0 ? "more " : "fewer ")
                                         : (lever.step > 0 ? "higher " : "lower ");
  return capital(more + lever.label) + ": " +
         from_to(lever.unit, lever.now, lever.now + lever.step);
}

std::string lever_gain(const LeverAnswer& lever) {
  return number_text(Unit::signed_points, lever.net_points_per_game) + " net points a game";
}

Change lever_change(const LeverAnswer& lever) {
  return {lever.path, Change::Way::set, lever.now + lever.step, ""};
}

std::string moved_words(const Moved& moved) {
  return capital(moved.label) + ": " +
         (moved.unit == KnobUnit::word ? moved.word_before + " to " + moved.word_after
                                       : from_to(moved.unit, moved.before, moved.after));
}

std::string try_words(const TryResult& result) { return capital(better_sentence(result)) + "."; }

std::string place_words(const TryResult& result) {
  return "Of 100 quarterbacks of this level " + value_text(Unit::place, result.place.after.centre) +
         " fit it worse (" + range_text(Unit::place, result.place.after) + "); before it was " +
         value_text(Unit::place, result.place.before.centre) + ".";
}

std::vector<std::vector<std::string>> try_rows(const TryAnswer& answer) {
  std::vector<std::vector<std::string>> rows{
      {"try", "place", "net a game", "change", "90%", "", "odds"}};
  for (const TryResult& result : answer.tries) {
    const std::string place = value_text(Unit::place, result.place.after.centre);
    if (!result.drives) {
      rows.push_back({result.name, place, "", "", "", "fit alone", ""});
      continue;
    }
    const Effect& net = result.drives->net_points_per_game;
    const Verdict& better = result.drives->better;
    rows.push_back({result.name, place, value_text(Unit::signed_points, net.after.centre),
                    value_text(Unit::signed_points, net.change.centre),
                    range_text(Unit::signed_points, net.change), better_words(better),
                    odds_words(better.odds)});
  }
  return rows;
}

std::string knob_value_text(const KnobValue& knob) {
  return knob.unit == KnobUnit::word ? knob.words.at(static_cast<std::size_t>(knob.now))
                                     : knob_text(knob.unit, knob.now);
}

std::string kept_words(const KeptVerdict& said) {
  return said.family_label + ", " + said.label + ": " + number_text(Unit::share, said.estimate) +
         ", asked " + value_text(Unit::share, said.asked) + ", " +
         reach_words(Verdict{said.odds, 0, {}});
}

std::string came_words(const KeptOutcome& outcome) {
  // The side that was the likelier one is what was said.
  const Verdict said{outcome.odds, 0, {}};
  const bool is_open = outcome.came == 0.5;
  const bool came = (outcome.came > 0.5) == said.yes();
  return counted(outcome.made, outcome.of) + " since: " +
         (is_open ? "on the line"
          : came  ? "it came so"
                  : "it came otherwise") +
         ", the odds were " + percent(said.of_side());
}

std::string kept_since_words(const std::optional<KeptScore>& score) {
  if (!score) return "Nothing of him was charted since.";
  if (score->outcomes.empty()) return "Since then nothing was charted often enough to score it.";
  return "Since then " + kept_groups_text(*score) + '.';
}

}  // namespace callfit
