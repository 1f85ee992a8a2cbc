// One function for each kind of request.
#pragma once

#include <ask/memory.hpp>
#include <callfit/ask/answer.hpp>
#include <callfit/ask/request.hpp>

namespace callfit::ask {

FitAnswer answer(Memory& memory, const FitRequest& request, const Progress& progress);
DrivesAnswer answer(Memory& memory, const DrivesRequest& request, const Progress& progress);
CompareAnswer answer(Memory& memory, const CompareRequest& request, const Progress& progress);
TryAnswer answer(Memory& memory, const TryRequest& request, const Progress& progress);
SweepAnswer answer(Memory& memory, const SweepRequest& request, const Progress& progress);
LeversAnswer answer(Memory& memory, const LeversRequest& request, const Progress& progress);
BreakEvenAnswer answer(Memory& memory, const BreakEvenRequest& request, const Progress& progress);
PackageAnswer answer(Memory& memory, const PackageRequest& request, const Progress& progress);
TailorAnswer answer(Memory& memory, const TailorRequest& request, const Progress& progress);
NextAnswer answer(Memory& memory, const NextRequest& request, const Progress& progress);
TrendAnswer answer(Memory& memory, const TrendRequest& request, const Progress& progress);
BriefAnswer answer(Memory& memory, const BriefRequest& request, const Progress& progress);
SayAnswer answer(Memory& memory, const SayRequest& request, const Progress& progress);
SnapsAnswer answer(Memory& memory, const SnapsRequest& request, const Progress& progress);

/// What the change from one standing to another does, over paired draws; `moved` and `name` are the
/// caller's.
TryResult effect_of(Memory& memory, Standing& before, Standing& after);

/// Change of net points a game over paired draws, as in effect_of(). Both worths must be there.
Number net_change_per_game(const Standing& before, const Standing& after);

}  // namespace callfit::ask
