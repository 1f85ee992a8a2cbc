#include <ask/answers.hpp>
#include <callfit/base/finding.hpp>

namespace callfit::ask {
namespace {

SweepAxis axis_of(Memory& memory, const Standing& now, const SweepRange& range) {
  if (range.count < fewest_steps || range.count > most_steps)
    refuse_at(range.path, "cannot be swept over that many values",
              "take 2 to 101, for example 0.2:0.5:7");
  const Knob& knob = find_knob(memory.knobs(now), range.path);
  if (knob.unit == KnobUnit::word)
    refuse_at(range.path, "is a word, not a number", "set it instead");
  SweepAxis axis{knob.path, knob.about, knob.unit, knob.get(now.question), {}};
  for (std::size_t i = 0; i < range.count; ++i) axis.at.push_back(range.at(i));
  return axis;
}

SweepCell cell_of(Memory& memory, Standing& now, Standing& there) {
  const Worth& worth = memory.worth(there);
  memory.worth(now);
  return {number_of(memory.place(there)), number_of(worth.points), number_of(worth.net_points),
          net_change_per_game(now, there)};
}

}  // namespace

SweepAnswer answer(Memory& memory, const SweepRequest& request, const Progress& progress) {
  const auto& ranges = request.ranges;
  if (ranges.empty() || ranges.size() > 2)
    refuse_at("/ranges", "a sweep turns one path or two", "name one or two");
  if (ranges.size() == 2 && ranges[0].path == ranges[1].path)
    refuse_at(ranges[0].path, "is swept twice", "name two different paths");
  Standing& now = memory.held(request.stand);
  SweepAnswer answer;
  answer.about = about_of(memory, now);
  for (const SweepRange& range : ranges) answer.axes.push_back(axis_of(memory, now, range));
  const std::size_t columns = ranges.size() == 2 ? ranges[1].count : 1;
  for (std::size_t r = 0; r < ranges[0].count; ++r) {
    answer.cells.emplace_back();
    for (std::size_t c = 0; c < columns; ++c) {
      Stand stand = request.stand;
      stand.changes.push_back({ranges[0].path, Change::Way::set, answer.axes[0].at[r], ""});
      if (ranges.size() == 2)
        stand.changes.push_back({ranges[1].path, Change::Way::set, answer.axes[1].at[c], ""});
      answer.cells.back().push_back(cell_of(memory, now, memory.standing(stand)));
      if (progress) progress(r * columns + c + 1, ranges[0].count * columns);
    }
  }
  return answer;
}

}  // namespace callfit::ask
