#include "ratios.hpp"

#include <algorithm>
#include <cstdio>

void RatioReporter::ReportRuns(const std::vector<Run>& runs) {
  for (const Run& run : runs) {
    if (run.error_occurred || run.run_type != Run::RT_Iteration) continue;
    const auto items = run.counters.find("items_per_second");
    const double per_iteration = run.cpu_accumulated_time / static_cast<double>(run.iterations);
    const double seconds = items == run.counters.end() ? per_iteration : 1 / items->second.value;
    const std::string name = run.run_name.function_name + run.run_name.args;
    const auto [known, is_new] = seconds_.try_emplace(name, seconds);
    if (!is_new) known->second = std::min(known->second, seconds);
  }
  ConsoleReporter::ReportRuns(runs);
}

void RatioReporter::print_ratio(const std::string& what, const std::string& slow,
                                const std::string& fast) const {
  const auto a = seconds_.find(slow);
  const auto b = seconds_.find(fast);
  if (a != seconds_.end() && b != seconds_.end())
    std::printf("%-62s %10.2f\n", what.c_str(), a->second / b->second);
}

void RatioReporter::print_ratios() const {
  std::printf("\nRatios of the shortest CPU times in this run\n");
  print_ratio("a sampled play, in 64-bit draws of its generator", "sampled_plays",
              "generator_draws");
  print_ratio("sparse LU of one class / exact points, all classes", "sparse_lu_one_class",
              "exact_points");
  print_ratio("sparse LU of one class / table and exact points, all classes", "sparse_lu_one_class",
              "table_and_points");
  print_ratio("all 13 columns of the exact engine / points and net alone", "exact_all_columns",
              "exact_points");
  print_ratio("compiling a player's table / solving his points", "compile_table", "exact_points");
  const std::string solved = "table_and_points";
  print_ratio("a gradient, in exact solves", "gradients", solved);
  print_ratio("a gradient with the worth of outcomes held, in exact solves", "gradients_elsewhere",
              solved);
  print_ratio("a solve to 1e-8 from one nearby, in exact solves", "solve_nearby", solved);
  print_ratio("a plan, in exact solves", "make_plan", solved);
  print_ratio("a plan with other calls, in exact solves", "plan_with_calls", solved);
  print_ratio("situation visits, in exact solves", "visits_of_situations", solved);
  print_ratio("net values of a setting, in exact solves", "net_values", solved);
  print_ratio("the bound of best mixes, in exact solves", "best_mix_everywhere", solved);
}
