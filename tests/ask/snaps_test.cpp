// The snaps behind a number: which rows count, and that what each moved it by adds up to the way
// from nothing charted to the whole tape.
#include "demo_case.hpp"

#include <ask/attribution.hpp>
#include <ask/memory.hpp>
#include <ask/snap_numbers.hpp>
#include <ask/tracked.hpp>
#include <callfit/ask/study.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/profile/profile.hpp>
#include <profile/weights.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

using namespace callfit;
using namespace callfit::ask;
using namespace callfit::testing;

namespace {

SnapsAnswer snaps(Study& study, const std::string& number, const Stand& stand = {}) {
  return std::get<SnapsAnswer>(study.answer(SnapsRequest{stand, number}));
}

double either_way(const std::vector<double>& moved) {
  double sum = 0;
  for (const double one : moved) sum += std::abs(one);
  return sum;
}

std::size_t family_of(const Setting& setting, const std::string& id) {
  return static_cast<std::size_t>(setting.find_family(id) - setting.families.data());
}

// The new starter, and what his tape did to a number.
struct Followed {
  Memory memory{demo_case(500), 2};
  Standing& standing = memory.standing({});
  const TapeStages& stages = *memory.stages(standing);

  std::size_t family(const char* id) const {
    return family_of(standing.question.ground->setting, id);
  }
  Attribution of(const Tracked& tracked) const {
    return attribution_of(stages, tracked, standing.question);
  }
};

}  // namespace

TEST_CASE("what snaps moved adds up; derivatives with the whole tape alone do not", "[plain]") {
  Followed followed;
  Standing& standing = followed.standing;
  const std::size_t middle = followed.family("quick_middle"), boot = followed.family("boot");
  // What parts may miss, by what all of them moved either way: the covariances of expectation
  // propagation are of first order in its skewness, so rare events are followed less closely.
  struct Case {
    const char* name;
    Tracked tracked;
    double most;
  };
  const std::vector<Case> cases{
      {"place", tracked_place(followed.memory, standing), 0.01},
      {"distance", tracked_distance(standing), 0.01},
      {"net points", tracked_points(standing, true), 0.01},
      {"points", tracked_points(standing, false), 0.01},
      {"completion", tracked_rate(standing, middle, Rate::completion), 0.03},
      {"interception", tracked_rate(standing, middle, Rate::interception), 0.03},
      {"sack", tracked_rate(standing, boot, Rate::sack), 0.06},
      {"cell", tracked_cell(standing, {boot, Rate::completion, Cell::moving}), 0.03},
      {"shell", tracked_cell(standing, {middle, Rate::completion, Cell::two_high}), 0.03},
      {"success", tracked_rate(standing, followed.family("qb_draw"), Rate::success), 0.03},
      {"gain", tracked_gain(standing, middle, GainPart::yac), 0.03}};
  TapeStages at_the_end = followed.stages;
  at_the_end.inside = {followed.stages.all};
  at_the_end.inside.front().width = 1;
  for (const Case& one : cases) {
    INFO(one.name);
    const Attribution parts = followed.of(one.tracked);
    const double all = either_way(parts.moved);
    CHECK(all > 0);
    CHECK(std::abs(parts.rest()) < one.most * all);
    const Attribution twin = attribution_of(at_the_end, one.tracked, standing.question);
    // The first snaps moved more than the last: parts at the end are all too small.
    CHECK(either_way(twin.moved) < 0.8 * all);
  }
}

TEST_CASE("a snap left out of a short tape takes away what it moved", "[plain]") {
  Case about = demo_case(500);
  Quarterback& man = about.quarterbacks[0];
  Tape tape = *man.tape;
  auto& rows = tape.charts.front().snaps;
  rows.resize(30);
  const auto profile = [&](const Tape& from) {
    return build_profile("short", from.charts, about.setting, man.profile.weighting, from.like);
  };
  man.profile = profile(tape);
  man.tape = std::make_shared<const Tape>(tape);
  Study study(about, 2);
  const SnapsAnswer answer = snaps(study, "rate.quick_middle.completion");
  const std::size_t family = family_of(about.setting, "quick_middle");
  const auto rate = [&](const Profile& of) {
    return of.families[family].rates[static_cast<std::size_t>(Rate::completion)]->mean;
  };
  const double whole = rate(man.profile);
  std::size_t compared = 0;
  for (const SnapRow& row : answer.rows) {
    if (!row.counts) continue;
    Tape without = tape;
    std::erase_if(without.charts.front().snaps,
                  [&row](const Snap& snap) { return snap.line == row.line; });
    const double left_out = whole - rate(profile(without));
    INFO(row.line << ' ' << left_out << ' ' << *row.moved);
    // Few snaps: effects are nearly linear, first and last differ by a fifth at most.
    CHECK(std::abs(*row.moved - left_out) < 0.2 * std::abs(left_out));
    ++compared;
  }
  CHECK(compared >= 3);
}

TEST_CASE("a number's rows are those that are counted in it") {
  Memory memory(demo_case(500), 2);
  Standing& standing = memory.standing({});
  const Profile& profile = *standing.question.profile;
  const Setting& setting = standing.question.ground->setting;
  const auto numbers = snap_numbers(standing);
  std::size_t rates = 0;
  for (const NumberPlace& number : numbers) {
    const auto* rate = std::get_if<MeasureNumber>(&number.what);
    if (rate == nullptr) continue;
    double made = 0, of = 0;
    weigh(standing.question.tape->charts, setting, standing.question.weighting, {},
          [&](const WeightedSnap& one) {
            if (!is_about(number, one.family, *one.snap)) return;
            const Counting counting = counting_of(number, *one.snap, one.weight, setting.success);
            CHECK(counting.counts == counting.why_not.empty());
            if (!counting.counts) return;
            of += 1;
            if (*counting.made) made += 1;
          });
    const FamilyProfile& tape = profile.families[rate->family];
    RateCounts known = tape.rates[static_cast<std::size_t>(rate->rate)]->counts;
    for (const CellEstimate& cell : tape.cells)
      if (rate->cell == cell.cell && rate->rate == cell.rate) known = cell.counts;
    INFO(number.number.address);
    CHECK(made == known.made);
    CHECK(of == known.of);
    ++rates;
  }
  CHECK(rates > 50);
}

TEST_CASE("a number is found by words of its address, near ones are offered") {
  Study study(demo_case(500));
  CHECK(snaps(study, "family.boot").number.address == "family.boot");
  CHECK(snaps(study, "deep outside completion").number.address == "rate.deep_outside.completion");
  CHECK_THROWS_WITH(snaps(study, "net_pionts"), Catch::Contains("net_points"));
  CHECK_THROWS_AS(snaps(study, "completion"), InputError);
}

TEST_CASE("rows say where they are in the chart, and what a foul wiped out does not count") {
  Study study(demo_case(500));
  const SnapsAnswer answer = snaps(study, "family.quick_middle");
  CHECK_FALSE(answer.moves);
  std::size_t counted = 0, wiped_out = 0;
  std::size_t line = 0;
  for (const SnapRow& row : answer.rows) {
    CHECK(row.line > line);
    line = row.line;
    CHECK(row.snap.family == "quick_middle");
    CHECK(row.counts == (row.snap.result != Result::no_play));
    ++(row.counts ? counted : wiped_out);
  }
  const auto fit = std::get<FitAnswer>(study.answer(FitRequest{}));
  const auto family = std::find_if(fit.families.begin(), fit.families.end(),
                                   [](const auto& one) { return one.id == "quick_middle"; });
  CHECK(static_cast<double>(counted) == family->snaps);
}

TEST_CASE("of a profile without charts there are no rows, and that is said") {
  Case about = demo_case(500);
  about.quarterbacks[0].tape = nullptr;
  Study study(about);
  const SnapsAnswer answer = snaps(study, "place");
  CHECK_FALSE(answer.has_charts);
  CHECK(answer.rows.empty());
  CHECK_FALSE(answer.moves);
  CHECK(answer.shown);
}
