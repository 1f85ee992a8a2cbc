#include <callfit/report/answer_text.hpp>
#include <callfit/report/turning_text.hpp>

#include "report/phrases.hpp"

namespace callfit {
namespace {

std::string named(const TryResult& result) { return result.name.empty() ? "" : result.name + ": "; }

std::string seed_note(const TryResult& result) {
  if (!result.drives) return "";
  return seed_line(result.drives->net_points_per_game.change, Unit::points,
                   "the change of net points a game");
}

bool is_his(const Moved& moved) {
  return moved.path.starts_with("rate.") || moved.path.starts_with("gain.");
}

// Which of the two was meant, where a rate or gain of his was turned.
std::string meant(const TryAnswer& answer) {
  for (const TryResult& result : answer.tries)
    for (const Moved& moved : result.moved)
      if (moved.asked && is_his(moved))
        return wrapped(answer.about.as_learned
                           ? "Turned as if it had been learned: what goes with it moves along."
                           : "Turned alone: his other rates stay. --as-learned moves what goes "
                             "with it.");
  return "";
}

std::string below(const std::string& table) { return table.empty() ? "" : '\n' + table; }

std::string one_text(const TryAnswer& answer, const TryResult& result) {
  return wrapped(stand_text(answer.about) + ", " + named(result) + better_sentence(result) + ".") +
         tape_line(answer.about) + meant(answer) +
         below(moved_table(result, answer.about.as_learned)) + '\n' + effects_table(result) +
         seed_note(result);
}

std::string side_by_side(const TryAnswer& answer) {
  const auto rows = try_rows(answer);
  const std::vector<std::string>& heads = rows.front();
  Table table({{heads[0], Align::left, 26},
               {heads[1]},
               {heads[2]},
               {heads[3]},
               {heads[4]},
               {heads[5], Align::left, 16},
               {heads[6], Align::left, 12}});
  for (std::size_t i = 1; i < rows.size(); ++i) table.add(rows[i]);
  return table.text();
}

}  // namespace

std::string try_text(const TryAnswer& answer) {
  if (answer.tries.size() == 1) return one_text(answer, answer.tries.front());
  std::string text = stand_text(answer.about) + ", each try against the stand as it is\n";
  for (const TryResult& result : answer.tries)
    text += wrapped(named(result) + better_sentence(result) + ".");
  text += tape_line(answer.about) + meant(answer) + '\n' + side_by_side(answer) +
          wrapped("place: of 100 quarterbacks of this level, how many fit it worse; " +
                  std::string(net_points_meaning));
  for (const TryResult& result : answer.tries)
    if (const std::string moved = moved_table(result, answer.about.as_learned); !moved.empty())
      text += '\n' + result.name + '\n' + moved;
  return text;
}

}  // namespace callfit
