#include "report/phrases.hpp"

#include <callfit/base/names.hpp>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace callfit {
namespace {

std::string moved_value(const Moved& moved, double value, const std::string& word) {
  return moved.unit == KnobUnit::word ? word : knob_text(moved.unit, value);
}

bool worth_a_line(const Moved& moved) {
  constexpr double visible = 0.002;
  return moved.asked || moved.unit == KnobUnit::word ||
         std::abs(moved.after - moved.before) >= visible;
}

void add_effect(Table& table, const std::string& name, const Effect& effect, Unit unit,
                Unit change) {
  table.add({name, value_text(unit, effect.before.centre), value_text(unit, effect.after.centre),
             value_text(change, effect.change.centre), range_text(change, effect.change)});
}

std::string in_short(std::size_t count) { return fixed(static_cast<double>(count), 0); }

}  // namespace

std::string stand_text(const About& about) { return about.quarterback + " in " + about.scheme; }

std::string tape_phrase(const About& about) {
  std::string text = fixed(about.snaps, 0) + " charted snaps";
  std::string levels;
  for (const LevelCount& level : about.tape)
    levels += (levels.empty() ? "" : ", ") + fixed(level.snaps, 0) + ' ' + plain(level.level);
  return levels.empty() ? text : text + " (" + levels + ')';
}

std::string tape_line(const About& about) {
  std::string text = wrapped(tape_phrase(about) + "; level of play: " + plain(about.level) + '.');
  if (const std::string rests = rests_text(about); !rests.empty()) text += wrapped(rests);
  return text;
}

namespace {

std::string shares_text(const VarianceShares& shares) {
  std::string text;
  if (shares.net_points) text = percent(*shares.net_points) + " of the variance of net points";
  if (shares.place)
    text += (text.empty() ? "" : ", ") + percent(*shares.place) +
            (text.empty() ? " of the variance of the place" : " of the place's");
  return text;
}

std::string narrower_text(double share) {
  return percent(std::abs(share)) + (share < 0 ? " wider" : " narrower");
}

std::string assumed_text(const VarianceShares& assumed) {
  std::string text = "Were assumed spreads half as wide, the interval of ";
  if (assumed.net_points) text += "net points would be " + narrower_text(*assumed.net_points);
  const std::string distance = "his distance from what is asked ";
  if (assumed.place)
    text += (assumed.net_points ? ", that of " + distance : distance + "would be ") +
            narrower_text(*assumed.place);
  return text;
}

std::string moved_text(const MeansMoved& moved) {
  std::string text;
  if (moved.net_points_per_game)
    text = "net points a game by " + value_text(Unit::signed_points, *moved.net_points_per_game);
  if (moved.place)
    text += (text.empty() ? "" : ", ") + std::string("the place by ") +
            value_text(Unit::signed_place, *moved.place);
  return text;
}

std::string schedule_text(const Footing& footing) {
  std::string text = footing.coming ? " Numbers are against the opponents to come, which moved " +
                                          moved_text(*footing.coming)
                                    : " Numbers are against an average opponent";
  if (!footing.schedule) return text + '.';
  const std::size_t known = footing.schedule->opponents;
  return text + "; what is known of " + in_short(known) +
         (known == 1 ? " charted opponent" : " charted opponents") + " moved " +
         moved_text(footing.schedule->moved) + '.';
}

std::string departure_text(const SeasonDeparture& one) {
  const auto share = [](const BoxCount& counts) {
    return fixed(counts.made, 0) + " of " + fixed(counts.of, 0) + " (" +
           percent(counts.made / counts.of) + ')';
  };
  return " Charted games depart from their season " + one.season + ": " + plain(word(one.rate)) +
         ' ' + share(one.charted) + " charted, " + share(one.rest) + " in the rest, " +
         fixed(std::abs(one.errors), 1) + " standard errors apart; see how the games were chosen.";
}

}  // namespace

std::string rests_text(const About& about) {
  if (!about.footing) return "";
  const Footing& footing = *about.footing;
  std::string text = assumed_text(footing.assumed);
  if (about.assumed_scale != 1)
    text += " (they are taken " + fixed(about.assumed_scale, 2) + " times as wide)";
  if (footing.moves)
    text += "; " + shares_text(*footing.moves) + " comes from what changed since he was charted";
  text += '.';
  if (footing.schedule || footing.coming) text += schedule_text(footing);
  for (const SeasonDeparture& one : about.departures) text += departure_text(one);
  return text;
}

std::string assumed_note(const About& about) {
  if (!about.footing) return "";
  std::string text = assumed_text(about.footing->assumed);
  if (about.assumed_scale != 1) text += " (taken x" + fixed(about.assumed_scale, 2) + ")";
  if (about.footing->coming)
    text += "; against the opponents to come, which moved " + moved_text(*about.footing->coming);
  return text;
}

std::string capital(std::string text) {
  if (!text.empty())
    text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
  return text;
}

std::string odds_text(const Verdict& verdict, const std::string& yes, const std::string& no) {
  const std::string odds = odds_words(verdict.odds);
  const bool even = odds == odds_words(0.5);
  std::string text = "odds " + odds;
  if (verdict.lean() == Lean::open && !even) text += " for " + (verdict.yes() ? yes : no);
  if (verdict.near_threshold()) text += "; near the line, another seed may say it in another word";
  return text;
}

std::string difference_sentence(const DifferenceAnswer& difference) {
  const Number& game = difference.net_points_per_game;
  const std::string words = ahead_words(difference.ahead, difference.first, difference.second);
  // A clear verdict begins with a name, which stays as it is.
  return (difference.ahead.lean() == Lean::clear ? words : capital(words)) + " (" +
         odds_text(difference.ahead, difference.first, difference.second) +
         "): " + value_text(Unit::signed_points, game.centre) + " net points a game for " +
         difference.first + ", 90% interval " + range_text(Unit::signed_points, game) + ".";
}

std::string better_sentence(const TryResult& result) {
  if (!result.drives)
    return "no drive can change, the fit alone is turned; place " +
           value_text(Unit::place, result.place.before.centre) + " to " +
           value_text(Unit::place, result.place.after.centre) + " of 100";
  const Number& change = result.drives->net_points_per_game.change;
  const Verdict& better = result.drives->better;
  const bool open = better.lean() == Lean::open;
  return (open ? "open whether better or worse" : better_words(better)) + " (" +
         odds_text(better, "better", "worse") + "): net points a game change by " +
         value_text(Unit::signed_points, change.centre) + ", 90% interval " +
         range_text(Unit::signed_points, change);
}

std::string effects_table(const TryResult& result) {
  Table table({{"", Align::left}, {"before"}, {"after"}, {"change"}, {"90% interval"}});
  add_effect(table, "place of 100", result.place, Unit::place, Unit::signed_place);
  if (!result.drives) return table.text();
  const DrivesMoved& drives = *result.drives;
  add_effect(table, "points per drive", drives.points_per_drive, Unit::points, Unit::signed_points);
  add_effect(table, "net points per drive", drives.net_points_per_drive, Unit::signed_points,
             Unit::signed_points);
  add_effect(table, "points per game", drives.points_per_game, Unit::points, Unit::signed_points);
  add_effect(table, "net points per game", drives.net_points_per_game, Unit::signed_points,
             Unit::signed_points);
  return table.text() + net_points_meaning + '\n';
}

std::string moved_table(const TryResult& result, bool as_learned) {
  Table table({{"what moved", Align::left, 60}, {"before"}, {"after"}, {"", Align::left, 12}});
  bool any = false;
  bool along = false;
  for (const bool asked : {true, false})
    for (const Moved& moved : result.moved)
      if (moved.asked == asked && worth_a_line(moved)) {
        table.add({moved.label, moved_value(moved, moved.before, moved.word_before),
                   moved_value(moved, moved.after, moved.word_after), asked ? "asked" : "along"});
        any = true;
        along = along || !asked;
      }
  if (!any) return "";
  if (!along) return table.text();
  return table.text() +
         (as_learned ? "along: what goes with it in quarterbacks, as if it had been learned\n"
                     : "along: the rest of a mix gives or takes in proportion, so that it still "
                       "sums to 1\n");
}

std::string method_line(const Method& method) {
  const std::string error = fixed(method.surrogate_error, 4) + " net points per drive";
  if (method.all_exact)
    return wrapped("Every draw was solved exactly (" + in_short(method.exact_solves) +
                   " solves), since the shortcut between solves was off by " + error + ".");
  return wrapped(in_short(method.exact_solves) + " exact solves; between them a shortcut, off by " +
                 error + " (root mean square over checked draws).");
}

std::string seed_line(const Number& number, Unit unit, const std::string& what) {
  if (number.draws == 0) return "";
  std::string error = value_text(unit, number.error);
  if (error.front() == '+') error.erase(0, 1);
  return wrapped("With another seed the ends of the interval of " + what + " move by up to " +
                 error + " (" + in_short(number.draws) + " draws).");
}

bool one_sided(const Number& number) { return number.low > 0 || number.high < 0; }

std::string counted(double made, double of) {
  return of > 0 ? fixed(made, 0) + " of " + fixed(of, 0) : "";
}

std::string kept_groups_text(const KeptScore& score) {
  const auto count = [](double value) { return fixed(value, value == std::floor(value) ? 0 : 1); };
  std::string text;
  for (const KeptGroup& group : score.groups)
    if (group.verdicts > 0)
      text += (text.empty() ? "" : "; ") + std::string(word(group.lean)) + ": " +
              fixed(static_cast<double>(group.verdicts), 0) + " said, " + count(group.said) +
              " expected to come, " + count(group.came) + " came";
  return text;
}

}  // namespace callfit
