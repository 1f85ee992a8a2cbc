// What if: one question against its changed copy, and answers swept over one or two knobs.
#pragma once

#include <callfit/ask/knob.hpp>
#include <callfit/ask/question.hpp>

#include <vector>

namespace callfit {

/// A value before and after, and the change over paired draws.
struct Effect {
  UncertainValue before, after, change;
};

struct WhatIf {
  std::vector<Moved> moved;  ///< by what_if() and tailor()
  Effect fit;                ///< of 100
  Effect points_per_drive, net_per_drive, points_per_game, net_per_game;
  double chance_better = 0.5;  ///< share of draws with more net points a game; ties count half
  DriveValues drive_before, drive_after;
};

/// Both questions must be of the same profile. Draws are paired, so that no change is exactly 0.
/// What moved is left to the caller.
WhatIf compare_questions(const Question& before, const Question& after, const DrawOptions& options,
                         const Progress& progress = {});

WhatIf what_if(const Question& question, const std::vector<Change>& changes,
               const DrawOptions& options, const Progress& progress = {});

/// A knob turned from one value to another in equal steps.
struct SweepRange {
  std::string path;
  double from = 0, to = 1;
  std::size_t count = 11;  ///< values, both ends included; at least 2

  double at(std::size_t index) const;
};

struct SweepPoint {
  double at = 0;
  UncertainValue points, net;  ///< per drive
  UncertainValue net_change;   ///< per game, against the question as it stands
  double fit = 0;
};

struct Sweep {
  std::string path, about;
  KnobUnit unit = KnobUnit::share;
  double now = 0;
  std::vector<SweepPoint> points;
};
Sweep sweep(const Question& question, const SweepRange& range, const DrawOptions& options,
            const Progress& progress = {});

/// Two knobs at once: cell[row][column] is net points a game against the question as it stands.
struct SweepGrid {
  std::array<std::string, 2> path, about;  ///< of rows, of columns
  std::array<KnobUnit, 2> unit{};
  std::array<double, 2> now{};
  std::vector<double> rows, columns;
  std::vector<std::vector<UncertainValue>> cell;
};
SweepGrid sweep_grid(const Question& question, const SweepRange& rows, const SweepRange& columns,
                     const DrawOptions& options, const Progress& progress = {});

}  // namespace callfit
