#include <callfit/ask/whatif.hpp>

#include <callfit/base/finding.hpp>

#include <cmath>

namespace callfit {
namespace {

// One number of a standing: at the posterior means, and by draw.
struct Series {
  double centre = 0;
  std::vector<double> draws;

  UncertainValue summary() const { return {centre, interval90_of(draws)}; }
};

Series fit_series(const Standing& standing) { return {standing.fit.fit, standing.fit_draws}; }

template <class Take>
Series point_series(const Standing& standing, double centre, double scale, Take take) {
  Series series{scale * centre, {}};
  series.draws.reserve(standing.draws.size());
  for (const DrivePoints& draw : standing.draws) series.draws.push_back(scale * take(draw));
  return series;
}

Series points_series(const Standing& standing, double scale = 1) {
  return point_series(standing, standing.drive.points, scale,
                      [](const DrivePoints& d) { return d.points; });
}

Series net_series(const Standing& standing, double scale = 1) {
  return point_series(standing, standing.drive.net_points, scale,
                      [](const DrivePoints& d) { return d.net_points; });
}

Series minus(const Series& after, const Series& before) {
  Series gap{after.centre - before.centre, after.draws};
  for (std::size_t i = 0; i < gap.draws.size(); ++i) gap.draws[i] -= before.draws[i];
  return gap;
}

Effect effect_of(const Series& before, const Series& after) {
  return {before.summary(), after.summary(), minus(after, before).summary()};
}

double share_above_zero(const Series& change) {
  double sum = 0;
  for (const double value : change.draws) sum += value > 0 ? 1 : value == 0 ? 0.5 : 0;
  return sum / static_cast<double>(change.draws.size());
}

SweepPoint sweep_point(double at, const Standing& standing, const Standing& now) {
  const Series change =
      minus(net_series(standing, standing.drives_per_game), net_series(now, now.drives_per_game));
  return {at, points_series(standing).summary(), net_series(standing).summary(), change.summary(),
          standing.fit.fit};
}

void require_range(const SweepRange& range) {
  constexpr std::size_t most = 101;
  if (range.count < 2 || range.count > most)
    throw InputError(Finding{{"", 0, range.path},
                             "cannot be swept over that many values",
                             "take 2 to 101, for example 0.2:0.5:7"});
}

// The question with the knob there; level weights go the way of changed().
Question turned(const Question& question, const std::string& path, double value) {
  return changed(question, {{path, Change::Way::set, value, ""}});
}

const Knob& swept_knob(const std::vector<Knob>& knobs, const SweepRange& range) {
  require_range(range);
  const Knob& knob = find_knob(knobs, range.path);
  if (knob.unit == KnobUnit::word)
    throw InputError(Finding{{"", 0, range.path}, "is a word, not a number", "use --set instead"});
  return knob;
}

}  // namespace

WhatIf compare_questions(const Question& before, const Question& after, const DrawOptions& options,
                         const Progress& progress) {
  const Standing was = stand(before, options, progress);
  const Standing is = stand(after, options, progress);
  WhatIf result;
  result.fit = effect_of(fit_series(was), fit_series(is));
  result.points_per_drive = effect_of(points_series(was), points_series(is));
  result.net_per_drive = effect_of(net_series(was), net_series(is));
  result.points_per_game =
      effect_of(points_series(was, was.drives_per_game), points_series(is, is.drives_per_game));
  const Series net_was = net_series(was, was.drives_per_game);
  const Series net_is = net_series(is, is.drives_per_game);
  result.net_per_game = effect_of(net_was, net_is);
  result.chance_better = share_above_zero(minus(net_is, net_was));
  result.drive_before = was.drive;
  result.drive_after = is.drive;
  return result;
}

WhatIf what_if(const Question& question, const std::vector<Change>& changes,
               const DrawOptions& options, const Progress& progress) {
  const Question after = changed(question, changes);
  WhatIf result = compare_questions(question, after, options, progress);
  result.moved = moved_knobs(question, after, changes);
  return result;
}

double SweepRange::at(std::size_t index) const {
  return std::lerp(from, to, static_cast<double>(index) / static_cast<double>(count - 1));
}

Sweep sweep(const Question& question, const SweepRange& range, const DrawOptions& options,
            const Progress& progress) {
  const auto knobs = knobs_of(question);
  const Knob& knob = swept_knob(knobs, range);
  Sweep result{knob.path, knob.about, knob.unit, knob.get(question), {}};
  const Standing now = stand(question, options);
  for (std::size_t i = 0; i < range.count; ++i) {
    const double at = range.at(i);
    result.points.push_back(sweep_point(at, stand(turned(question, knob.path, at), options), now));
    if (progress) progress(i + 1, range.count);
  }
  return result;
}

SweepGrid sweep_grid(const Question& question, const SweepRange& rows, const SweepRange& columns,
                     const DrawOptions& options, const Progress& progress) {
  const auto knobs = knobs_of(question);
  const Knob& row = swept_knob(knobs, rows);
  const Knob& column = swept_knob(knobs, columns);
  if (row.path == column.path)
    throw InputError(Finding{{"", 0, row.path}, "is swept twice", "name two different paths"});
  SweepGrid grid{{row.path, column.path},
                 {row.about, column.about},
                 {row.unit, column.unit},
                 {row.get(question), column.get(question)},
                 {},
                 {},
                 {}};
  for (std::size_t c = 0; c < columns.count; ++c) grid.columns.push_back(columns.at(c));
  const Standing now = stand(question, options);
  for (std::size_t r = 0; r < rows.count; ++r) {
    grid.rows.push_back(rows.at(r));
    grid.cell.emplace_back();
    for (const double at : grid.columns) {
      const Question both = turned(turned(question, row.path, grid.rows.back()), column.path, at);
      grid.cell.back().push_back(sweep_point(at, stand(both, options), now).net_change);
      if (progress)
        progress(r * columns.count + grid.cell.back().size(), rows.count * columns.count);
    }
  }
  return grid;
}

}  // namespace callfit
