// Ratios between benchmarks of one run: times differ between machines and hours, ratios little.
#pragma once

#include <benchmark/benchmark.h>

#include <map>
#include <string>

/// Prints as the console does and remembers the CPU time per item of every benchmark.
class RatioReporter : public benchmark::ConsoleReporter {
 public:
  void ReportRuns(const std::vector<Run>& runs) override;
  /// Lines "what: ratio", for those benchmarks that ran.
  void print_ratios() const;

 private:
  void print_ratio(const std::string& what, const std::string& slow, const std::string& fast) const;

  std::map<std::string, double> seconds_;  ///< CPU seconds per item, by benchmark
};
