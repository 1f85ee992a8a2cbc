#include "world.hpp"

#include "../support/example_setting.hpp"

#include <callfit/stats/logit.hpp>

#include <algorithm>

namespace callfit::testing {
namespace {

bool happens(double chance, Stream& stream) { return stream.uniform() < chance; }

int draw_yards(const YardPmf& pmf, Stream& stream) {
  double left = stream.uniform();
  for (int yards = pmf.first; yards < pmf.last(); ++yards) {
    left -= pmf.at(yards);
    if (left < 0) return yards;
  }
  return pmf.last();
}

// One snap in the making: its cell, its level, and the true rates that hold there.
class Maker {
 public:
  Maker(const Player& player, const Setting& setting, const ChartPlan& plan, Stream& stream)
      : player_(player), setting_(setting), plan_(plan), stream_(stream) {}

  Snap pass(const std::string& level) {
    Snap snap = start(level, pass_family);
    choose_cell(snap);
    outcome(snap);
    snap.pressure = happens(rate(Rate::pressured), stream_);
    if (is_throw(snap.result)) {
      snap.on_time = happens(rate(Rate::on_time), stream_);
      snap.catchable = happens(rate(Rate::catchable), stream_);
    }
    pass_yards(snap);
    finish(snap);
    return snap;
  }

  Snap run(const std::string& level) {
    Snap snap = start(level, run_family);
    snap.result = Result::run;
    snap.yards = gain(setting_.families[run_family].run, player_.families[run_family].run_bins);
    finish(snap);
    return snap;
  }

 private:
  Snap start(const std::string& level, std::size_t family) {
    family_ = family;
    shift_ = &setting_.find_level(level)->shift;
    cell_.reset();
    Snap snap;
    snap.game = level;
    snap.level = level;
    snap.family = setting_.families[family].id;
    snap.down = 1;
    snap.to_go = 10;
    return snap;
  }

  void choose_cell(Snap& snap) {
    if (plan_.by_platform) {
      snap.platform = happens(moving_share, stream_) ? Platform::moving : Platform::pocket;
      cell_ = *snap.platform == Platform::moving ? Cell::moving : Cell::pocket;
      return;
    }
    const auto mix = shell_mix(setting_);
    double left = stream_.uniform();
    std::size_t shell = 0;
    while (shell + 1 < shell_count && left >= mix[shell]) left -= mix[shell++];
    cell_ = static_cast<Cell>(shell);
    if (plan_.shells_charted) snap.shell = static_cast<Shell>(shell);
  }

  // The true rate on this snap. What holds in the pocket follows from the family's rate and the
  // rate on the move, since the family's is the average of both.
  double rate(Rate wanted) const {
    const PlayerFamily& own = player_.families[family_];
    double value = own.at(wanted);
    if (cell_ && *cell_ != Cell::pocket) value = own.at(wanted, *cell_);
    if (cell_ == Cell::pocket)
      value = (value - moving_share * own.at(wanted, Cell::moving)) / (1 - moving_share);
    return shifted(std::clamp(value, 0.0, 1.0), (*shift_)[static_cast<std::size_t>(wanted)]);
  }

  void outcome(Snap& snap) {
    const double u = stream_.uniform();
    const double sack = rate(Rate::sack);
    if (u < sack) {
      snap.result = Result::sack;
    } else if (u < sack + rate(Rate::scramble)) {
      snap.result = Result::scramble;
    } else {
      const double v = stream_.uniform();
      const double intercepted = rate(Rate::interception);
      snap.result = v < intercepted                            ? Result::intercepted
                    : v < intercepted + rate(Rate::completion) ? Result::complete
                                                               : Result::incomplete;
    }
  }

  int gain(const std::optional<GainPopulation>& population, const std::vector<double>& bins) {
    return draw_yards(gain_pmf(*population, bins), stream_);
  }

  void pass_yards(Snap& snap) {
    const PlayerFamily& own = player_.families[pass_family];
    const FamilyPopulation& population = setting_.families[pass_family];
    if (snap.result == Result::complete) {
      const int depth = gain(population.depth, own.depth_bins);
      snap.yards = depth + gain(population.yac, own.yac_bins);
      if (plan_.depth_charted) snap.air_yards = depth;
    } else if (snap.result == Result::scramble) {
      snap.yards = draw_yards(gain_pmf(setting_.scramble_gain, player_.scramble_bins), stream_);
    } else if (snap.result == Result::sack) {
      snap.yards = draw_yards(gain_pmf(setting_.sack_gain, player_.sack_bins), stream_);
    }
  }

  void finish(Snap& snap) {
    if (is_touch(snap.result)) snap.evaded = happens(rate(Rate::evaded), stream_) ? 1 : 0;
    if (plan_.yards != Yards::gains) {
      const bool made =
          happens(rate(plan_.yards == Yards::success ? Rate::success : Rate::explosive), stream_);
      const int enough =
          plan_.yards == Yards::success ? snap.to_go : setting_.success.explosive_pass;
      snap.result = family_ == pass_family ? Result::complete : Result::run;
      snap.air_yards.reset();
      snap.yards = made ? enough : 0;
      return;
    }
    snap.fumble_lost = happens(rate(Rate::fumble), stream_);
    snap.yards = std::min(snap.yards, snap.yards_to_goal);
  }

  const Player& player_;
  const Setting& setting_;
  const ChartPlan& plan_;
  Stream& stream_;
  std::size_t family_ = 0;
  const std::array<double, rate_count>* shift_ = nullptr;
  std::optional<Cell> cell_;
};

}  // namespace

Chart chart_of(const Player& player, const Setting& setting, const ChartPlan& plan,
               Stream& stream) {
  Maker maker(player, setting, plan, stream);
  Chart chart{"drawn", {}};
  for (int i = 0; i < plan.snaps; ++i) {
    const std::string& level = plan.levels[static_cast<std::size_t>(i) % plan.levels.size()];
    chart.snaps.push_back(maker.pass(level));
    chart.snaps.push_back(maker.run(level));
  }
  return chart;
}

}  // namespace callfit::testing
