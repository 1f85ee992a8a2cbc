// Speed of the drive engines beside references in the same run: the generator that feeds the Monte
// Carlo engine, and Eigen's SparseLU on the same chain. docs/performance.md holds figures.
#include "chain.hpp"
#include "ratios.hpp"
#include "workload.hpp"

#include <callfit/base/random.hpp>
#include <callfit/drive/adjoint.hpp>
#include <callfit/drive/drive.hpp>
#include <drive/exact.hpp>

#include <algorithm>
#include <cstdio>
#include <exception>
#include <string>
#include <vector>

using namespace callfit;

namespace {

// The two of the closest comparison are repeated, in mixed order: other work on the machine only
// ever adds time, and is met by both.
constexpr int repetitions = 9;

const Workload& workload() {
  static const Workload shared;
  return shared;
}

void generator_draws(benchmark::State& state) {
  Stream stream(1, Purpose::drive_outcome, 0);
  for (auto _ : state) benchmark::DoNotOptimize(stream());
  state.SetItemsProcessed(state.iterations());
}
BENCHMARK(generator_draws)->Repetitions(repetitions);

void sampled_plays(benchmark::State& state) {
  const Workload& work = workload();
  constexpr std::uint64_t drives = 1 << 22;
  double plays = 0;
  for (auto _ : state)
    plays += simulate_over(work.model, work.starts, {1, drives, 1}).mean.plays * drives;
  state.SetItemsProcessed(static_cast<std::int64_t>(plays));
}
BENCHMARK(sampled_plays)->Repetitions(repetitions)->Unit(benchmark::kMillisecond);

void sampled_plays_threads(benchmark::State& state) {
  const Workload& work = workload();
  constexpr std::uint64_t drives = 1 << 22;
  double plays = 0;
  for (auto _ : state)
    plays +=
        simulate_over(work.model, work.starts, {1, drives, static_cast<unsigned>(state.range(0))})
            .mean.plays *
        drives;
  state.SetItemsProcessed(static_cast<std::int64_t>(plays));
}
BENCHMARK(sampled_plays_threads)
    ->Arg(1)
    ->Arg(2)
    ->Arg(4)
    ->UseRealTime()
    ->Unit(benchmark::kMillisecond);

void exact_points(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(solve_points(workload().model));
}
BENCHMARK(exact_points)->Unit(benchmark::kMillisecond);

void exact_all_columns(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(solve(workload().model));
}
BENCHMARK(exact_all_columns)->Unit(benchmark::kMillisecond);

void compile_table(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(workload().plan.compile(workload().player));
}
BENCHMARK(compile_table)->Unit(benchmark::kMillisecond);

void table_and_points(benchmark::State& state) {
  for (auto _ : state)
    benchmark::DoNotOptimize(solve_points(workload().plan.compile(workload().player)));
}
BENCHMARK(table_and_points)->Unit(benchmark::kMillisecond);

// The reference of the ratios below is table_and_points: one exact solve.
void gradients(benchmark::State& state) {
  const Workload& work = workload();
  for (auto _ : state) benchmark::DoNotOptimize(differentiate(work.plan, work.player, work.starts));
}
BENCHMARK(gradients)->Unit(benchmark::kMillisecond);

void gradients_elsewhere(benchmark::State& state) {
  const Workload& work = workload();
  const OutcomeWorth worth = outcome_worth(work.plan, work.player, work.starts);
  for (auto _ : state) benchmark::DoNotOptimize(differentiate(worth, work.player));
}
BENCHMARK(gradients_elsewhere)->Unit(benchmark::kMillisecond);

// From the values of a quarterback whose rates are 2% lower.
void solve_nearby(benchmark::State& state) {
  const Workload& work = workload();
  Player lower = work.player;
  for (PlayerFamily& family : lower.families)
    for (auto& cell : family.cell)
      for (double& rate : cell) rate *= 0.98;
  const PointValues near = solve_points(work.plan.compile(lower));
  for (auto _ : state)
    benchmark::DoNotOptimize(solve_points(work.plan.compile(work.player), {1e-8, &near.by_class}));
}
BENCHMARK(solve_nearby)->Unit(benchmark::kMillisecond);

void plan_with_calls(benchmark::State& state) {
  const Workload& work = workload();
  for (auto _ : state) benchmark::DoNotOptimize(work.plan.with_calls(work.scheme));
}
BENCHMARK(plan_with_calls)->Unit(benchmark::kMillisecond);

void visits_of_situations(benchmark::State& state) {
  const Workload& work = workload();
  for (auto _ : state) benchmark::DoNotOptimize(situation_visits(work.model, work.starts));
}
BENCHMARK(visits_of_situations)->Unit(benchmark::kMillisecond);

void make_plan(benchmark::State& state) {
  const Workload& work = workload();
  for (auto _ : state)
    benchmark::DoNotOptimize(DrivePlan(work.scheme, work.families, work.setting, work.net));
}
BENCHMARK(make_plan)->Unit(benchmark::kMillisecond);

void net_values(benchmark::State& state) {
  for (auto _ : state)
    benchmark::DoNotOptimize(average_net_values(workload().setting, workload().scheme));
}
BENCHMARK(net_values)->Unit(benchmark::kMillisecond);

/// Table and points of a scheme cut down from the average one.
void time_scheme(benchmark::State& state, const Scheme& scheme) {
  const Workload& work = workload();
  const DrivePlan plan(scheme, work.families, work.setting, work.net);
  for (auto _ : state) benchmark::DoNotOptimize(solve_points(plan.compile(work.player)));
}

// The last situations of the scheme; the last of all matches everything.
void table_and_points_situations(benchmark::State& state) {
  Scheme scheme = workload().scheme;
  const auto kept = std::min<std::ptrdiff_t>(state.range(0), std::ssize(scheme.situations));
  scheme.situations.erase(scheme.situations.begin(), scheme.situations.end() - kept);
  time_scheme(state, scheme);
}
BENCHMARK(table_and_points_situations)->Arg(1)->Arg(12)->Arg(46)->Unit(benchmark::kMillisecond);

// Only the first families are called.
void table_and_points_families(benchmark::State& state) {
  Scheme scheme = workload().scheme;
  for (CallSituation& situation : scheme.situations) {
    situation.share_by_shell = {};
    double sum = 0;
    for (std::size_t f = 0; f < situation.share.size(); ++f) {
      if (static_cast<std::int64_t>(f) >= state.range(0)) situation.share[f] = 0;
      sum += situation.share[f];
    }
    for (double& share : situation.share) share /= sum;
  }
  time_scheme(state, scheme);
}
BENCHMARK(table_and_points_families)->Arg(2)->Arg(5)->Arg(12)->Unit(benchmark::kMillisecond);

// Factorising and solving for {points, net}; listing the outcomes is not counted.
void sparse_lu_one_class(benchmark::State& state) {
  const drive::Table& table = workload().model.table();
  const auto chain = chain::list_outcomes(table, 0, drive::table_policy(*table.plan));
  const Eigen::MatrixXd rewards = chain.r.leftCols(2);
  for (auto _ : state) benchmark::DoNotOptimize(chain::absorbing_values(chain.q, rewards).eval());
}
BENCHMARK(sparse_lu_one_class)->Unit(benchmark::kMillisecond)->Iterations(1);

}  // namespace

int main(int count, char** words) {
  // Before the caller's words, which hold where they say otherwise.
  std::string mixed = "--benchmark_enable_random_interleaving=true";
  std::vector<char*> all{words[0], mixed.data()};
  all.insert(all.end(), words + 1, words + count + 1);  // with the null that ends them
  count = static_cast<int>(all.size()) - 1;
  benchmark::Initialize(&count, all.data());
  if (benchmark::ReportUnrecognizedArguments(count, all.data())) return 2;
  try {
    RatioReporter reporter;
    benchmark::RunSpecifiedBenchmarks(&reporter);
    reporter.print_ratios();
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
  return 0;
}
