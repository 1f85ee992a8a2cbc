// What answers cost, as ratios to one exact solve (a player's table and his points at full
// accuracy) in the same run, on one core. docs/performance.md tells the results.
#include "demo_case.hpp"
#include "three_men.hpp"

#include <ask/memory.hpp>
#include <callfit/ask/study.hpp>

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <functional>
#include <string>
#include <vector>

using namespace callfit;
using namespace callfit::ask;

namespace {

// Processor time: neighbours on a shared machine do not count.
double seconds(const std::function<void()>& work) {
  const std::clock_t start = std::clock();
  work();
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

// The shortest of several: other work on a shared machine only ever adds time.
double shortest(int times, const std::function<void()>& work) {
  double best = seconds(work);
  for (int i = 1; i < times; ++i) best = std::min(best, seconds(work));
  return best;
}

Case one_core(std::size_t draws = default_draws) { return testing::demo_case(draws); }

class Report {
 public:
  explicit Report(double solve) : solve_(solve) {
    std::printf("%-58s %9.2f ms\n", "one exact solve", 1e3 * solve);
  }
  void line(const std::string& what, double time, const char* bar = "") const {
    std::printf("%-58s %9.1f ms %8.1f solves %s\n", what.c_str(), 1e3 * time, time / solve_, bar);
    std::fflush(stdout);
  }

 private:
  double solve_;
};

double exact_solve_time() {
  Memory memory(one_core(), 1);
  const Standing& standing = memory.standing({});
  return shortest(30, [&] { drive_points(*standing.matchup, *standing.mean); });
}

// Draws, gradient, bend, checks: everything that an interval of points needs once counts are there.
double interval_time(Memory& memory, const Profile& profile) {
  return shortest(7, [&] {
    Standing standing = memory.standing_of(profile, 0, 0);
    number_of(memory.worth(standing).net_points);
  });
}

void intervals(const Report& report) {
  Memory memory(one_core(), 1);
  memory.matchup(0);
  for (const auto& [name, profile] : testing::three_men(memory.about()))
    report.line("90% interval, " + name, interval_time(memory, profile), "(bar 25, aim 12)");
}

// A request to a study that knows the stand as it is; `turn` makes each repetition a new one.
double resident(const std::function<Request(int)>& turn) {
  Study study(one_core(), 1);
  study.answer(FitRequest{});
  study.answer(CompareRequest{});
  study.answer(TryRequest{{}, {{"warm", {}}}});
  int i = 0;
  return shortest(5, [&] { study.answer(turn(i++)); });
}

Request fit_at_weight(int i) {
  return FitRequest{{0, 0, {{"demand.screen.completion.weight", Change::Way::set, 2.0 + i, ""}}},
                    false};
}

Request try_at(const std::string& path, double value, int i) {
  return TryRequest{{}, {{"try", {{path, Change::Way::set, value + 0.001 * i, ""}}}}};
}

void turning(const Report& report) {
  report.line("resident: a demand's weight, fit and interval", resident(fit_at_weight), "(0.5)");
  report.line("resident: a call share, points and fit with intervals",
              resident([](int i) { return try_at("call.all.screen", 0.1, i); }), "(8)");
  report.line("resident: a rate, points and fit with intervals",
              resident([](int i) { return try_at("rate.deep_outside.completion", 0.4, i); }),
              "(8)");
}

// A study of its own each time: everything from the case on.
double whole(const Request& request) {
  return shortest(3, [&] {
    Study study(one_core(), 1);
    study.answer(request);
  });
}

void questions(const Report& report) {
  const double case_time = shortest(3, [] { Study study(one_core(), 1); });
  report.line("reading the case (charts, setting, profiles)", case_time);
  const Stand second{1, 0, {}};
  report.line("fit", whole(FitRequest{}));
  report.line("drives", whole(DrivesRequest{}));
  report.line("compare two", whole(CompareRequest{}));
  report.line("break-even",
              whole(BreakEvenRequest{second, {}, "rate.deep_outside.completion", false}), "(100)");
  report.line("levers", whole(LeversRequest{}), "(100)");
  report.line("tailor", whole(TailorRequest{}), "(100)");
  report.line("next", whole(NextRequest{}), "(100)");
  report.line("brief", whole(BriefRequest{{}, second}), "(100)");
}

// Quarterbacks of the population under every shipped kind of scheme.
void league(const Report& report, std::size_t men, std::size_t schemes) {
  Case about = one_core();
  const Scheme scheme = about.schemes.front();
  for (std::size_t s = 1; s < schemes; ++s) about.schemes.push_back(scheme);
  const Quarterback man = about.quarterbacks.front();
  about.quarterbacks.assign(men, man);
  double answer = 0;
  {
    Study study(std::move(about), 1);
    answer = seconds([&] { study.answer(CompareRequest{}); });
  }
  report.line("a league: " + std::to_string(men) + " quarterbacks x " + std::to_string(schemes) +
                  " schemes, a pair",
              answer / static_cast<double>(men * schemes));
  std::printf("%-58s %9.1f s\n", "  in all", answer);
}

}  // namespace

int main(int count, char** words) {
  const Report report(exact_solve_time());
  intervals(report);
  turning(report);
  questions(report);
  const bool all = count > 1 && std::string(words[1]) == "--league";
  league(report, all ? 130 : 8, all ? 8 : 2);
}
