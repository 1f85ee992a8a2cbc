// Two numbers that change only if results change, so that a refactoring can prove that it changed
// nothing.
#pragma once

#include <callfit/drive/drive.hpp>

#include <cstdint>
#include <vector>

namespace callfit {

struct DriveSignature {
  /// FNV-1a (Fowler, Noll and Vo) over the integer tallies of sampled drives: the same for every
  /// compiler, machine and number of threads as long as the outcome table rounds alike.
  std::uint64_t sampled = 0;
  /// FNV-1a over the exact values of every first and ten, rounded to 1e-9.
  std::uint64_t exact = 0;
};

DriveSignature signature_of(const DriveModel& model, const std::vector<double>& start_share,
                            const SampleOptions& options);

}  // namespace callfit
