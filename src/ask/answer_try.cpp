#include <ask/answers.hpp>
#include <callfit/base/finding.hpp>

#include <algorithm>

namespace callfit::ask {
namespace {

Column times(const Column& column, double factor) {
  Column out = column;
  for (double& value : out) value *= factor;
  return out;
}

Effect effect(const Column& before, const Column& after) {
  return {number_of(before), number_of(after), number_of(minus(after, before))};
}

// The same numbers times the drives of a game, where a game has as many before and after.
Effect per_game(const Effect& drive, const Column& before, const Column& after, double games_before,
                double games_after) {
  if (games_before != games_after)
    return effect(times(before, games_before), times(after, games_after));
  return {scaled(drive.before, games_before), scaled(drive.after, games_before),
          scaled(drive.change, games_before)};
}

DrivesMoved drives_moved(const Worth& was, const Worth& is, double games_before,
                         double games_after) {
  DrivesMoved moved;
  moved.points_per_drive = effect(was.points, is.points);
  moved.net_points_per_drive = effect(was.net_points, is.net_points);
  moved.net_points_per_game = per_game(moved.net_points_per_drive, was.net_points, is.net_points,
                                       games_before, games_after);
  moved.points_per_game =
      per_game(moved.points_per_drive, was.points, is.points, games_before, games_after);
  moved.better =
      verdict_of(minus(times(is.net_points, games_after), times(was.net_points, games_before)));
  return moved;
}

}  // namespace

Number net_change_per_game(const Standing& before, const Standing& after) {
  const Column& was = before.worth->net_points;
  const Column& is = after.worth->net_points;
  const double games_before = before.drives_per_game();
  const double games_after = after.drives_per_game();
  if (games_before == games_after) return scaled(number_of(minus(is, was)), games_before);
  return number_of(minus(times(is, games_after), times(was, games_before)));
}

TryResult effect_of(Memory& memory, Standing& before, Standing& after) {
  TryResult result;
  result.place = effect(memory.place(before), memory.place(after));
  if (before.drives_turned || after.drives_turned ||
      before.drives_per_game() != after.drives_per_game())
    result.drives = drives_moved(memory.worth(before), memory.worth(after),
                                 before.drives_per_game(), after.drives_per_game());
  return result;
}

TryAnswer answer(Memory& memory, const TryRequest& request, const Progress& progress) {
  if (request.tries.empty())
    throw InputError(Finding{{"", 0, "/tries"}, "nothing to try", "give at least one try"});
  Standing& before = memory.held(request.stand);
  TryAnswer answer;
  for (const Try& one : request.tries) {
    Stand stand = request.stand;
    stand.changes.insert(stand.changes.end(), one.changes.begin(), one.changes.end());
    Standing& after = memory.standing(stand);
    TryResult result = effect_of(memory, before, after);
    result.name = one.name;
    result.moved = moved_knobs(memory.knobs(before), before.question, after.question, one.changes);
    answer.tries.push_back(std::move(result));
    if (progress) progress(answer.tries.size(), request.tries.size());
  }
  const bool is_of_drives =
      std::any_of(answer.tries.begin(), answer.tries.end(),
                  [](const TryResult& one) { return one.drives.has_value(); });
  answer.about = about_of(memory, before, is_of_drives ? Tells::both : Tells::place);
  return answer;
}

}  // namespace callfit::ask
