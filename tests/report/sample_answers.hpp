// Made-up answers of every kind, each number of its own, and a case that they could be about.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/ask/case.hpp>
#include <callfit/ask/request.hpp>

#include <vector>

namespace callfit::test {

/// Three quarterbacks, two of one name; two schemes, two families, two situations.
Case sample_case();

FitAnswer sample_fit();
DrivesAnswer sample_drives();
CompareAnswer sample_compare();
TryAnswer sample_try(std::size_t tries);
SweepAnswer sample_sweep(std::size_t axes);
LeversAnswer sample_levers();
BreakEvenAnswer sample_break_even(bool found);
PackageAnswer sample_package();
TailorAnswer sample_tailor();
NextAnswer sample_next();
TrendAnswer sample_trend();
BriefAnswer sample_brief();
SayAnswer sample_say();
SnapsAnswer sample_snaps();

/// A request and an answer of its kind.
struct Asked {
  Request request;
  Answer answer;
};

/// At least one of every kind, with and without what may be left out.
std::vector<Asked> samples();

}  // namespace callfit::test
