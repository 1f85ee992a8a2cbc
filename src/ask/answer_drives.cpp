// Drives in full: beside points, whose draws the worth has, the shares of results, values by yard
// line, first downs and plays. Those are solved exactly for some of the draws and carried to all.
#include <ask/answers.hpp>
#include <ask/carrier.hpp>
#include <ask/estimates.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/base/names.hpp>

#include <algorithm>

namespace callfit::ask {
namespace {

constexpr std::size_t solved_draws = 20;
constexpr std::size_t row_cost = 2;  // exact solves, about
constexpr std::size_t spots = 99;

// What is carried: points and net at each spot, results, first downs, plays; or the same of one
// state.
std::vector<double> row_of(const Matchup& matchup, const Player& player,
                           const std::optional<DriveState>& from) {
  const DriveModel model = compile_drives(matchup, player);
  std::vector<double> row;
  const auto add = [&row](const auto& values) {
    row.insert(row.end(), values.share.begin(), values.share.end());
    row.insert(row.end(), {values.first_downs, values.plays});
  };
  if (from) {
    const DriveValues values = solve(model).at(*from);
    row = {values.points, values.net_points};
    add(values);
    return row;
  }
  const PointValues values = solve_points(model, {1e-9, nullptr});
  row.insert(row.end(), values.points.begin() + 1, values.points.end());
  row.insert(row.end(), values.net_points.begin() + 1, values.net_points.end());
  add(flow_over(model, matchup.starts));
  return row;
}

// How often his passes are intercepted, of all that is called: of how drives end, what points tell
// least of.
Column interceptions_of(const Standing& standing) {
  const BoundScheme& bound = standing.matchup->bound;
  const Setting& setting = standing.question.ground->setting;
  Column sum(standing.sample->size(), 0.0);
  for (std::size_t f = 0; f < bound.setting_family.size(); ++f) {
    const std::size_t family = bound.setting_family[f];
    if (!setting.families[family].rates[static_cast<std::size_t>(Rate::interception)]) continue;
    const Column rate = standing.sample->measure(family, Measure::interception, {});
    for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += bound.call_share[f] * rate[i];
  }
  return sum;
}

class DrivesTeller {
 public:
  DrivesTeller(Memory& memory, Standing& standing, const DrivesRequest& request,
               const Progress& progress)
      : memory_(memory), standing_(standing), request_(request) {
    carrier_.emplace(memory.worth(standing), solved_draws,
                     std::vector<Column>{interceptions_of(standing)});
    if (!request.from && standing.drive_rows) {
      rows_ = *standing.drive_rows;
      return;
    }
    const std::vector<std::size_t>& chosen = carrier_->chosen();
    rows_.resize(chosen.size());
    standing.sample->fill();
    for_each_unit(
        chosen.size(), memory.threads(),
        [&](std::size_t k) {
          rows_[k] =
              row_of(*standing_.matchup, standing_.sample->player_at(chosen[k]), request_.from);
        },
        progress);
    memory.count_solves(row_cost * solved_draws);
    if (!request.from)
      standing.drive_rows = std::make_shared<const std::vector<std::vector<double>>>(rows_);
  }

  DrivesAnswer tell() {
    const Worth& worth = *standing_.worth;
    const Carrier& carrier = *carrier_;
    DrivesAnswer answer;
    answer.about = about_of(memory_, standing_, Tells::net_points);
    answer.from = request_.from;
    answer.method = worth.method;
    answer.method.exact_solves += row_cost * solved_draws;
    std::size_t column = 0;
    if (request_.from) {
      answer.points = carrier.carried(entries(column++));
      answer.net_points = carrier.carried(entries(column++));
    } else {
      answer.points = number_of(worth.points);
      answer.net_points = number_of(worth.net_points);
      for (std::size_t s = 0; s < spots; ++s)
        answer.points_at.push_back(carrier.carried(entries(column++)));
      for (std::size_t s = 0; s < spots; ++s)
        answer.net_points_at.push_back(carrier.carried(entries(column++)));
    }
    for (std::size_t r = 0; r < drive_result_count; ++r, ++column) {
      const auto result = static_cast<DriveResult>(r);
      if (result == DriveResult::end_of_half && !standing_.question.options.end_of_half) continue;
      answer.results.push_back({std::string(word(result)), plain(word(result)),
                                within(carrier.carried(entries(column)), 0, 1)});
    }
    answer.first_downs = carrier.carried(entries(column++));
    answer.plays = carrier.carried(entries(column));
    finish(answer);
    return answer;
  }

 private:
  std::vector<double> entries(std::size_t column) const {
    std::vector<double> y;
    for (const auto& row : rows_) y.push_back(row[column]);
    return y;
  }

  static Number within(Number number, double least, double most) {
    number.low = std::clamp(number.low, least, most);
    number.centre = std::clamp(number.centre, least, most);
    number.high = std::clamp(number.high, least, most);
    return number;
  }

  void finish(DrivesAnswer& answer) const {
    answer.drives_per_game = standing_.drives_per_game();
    answer.points_per_game = scaled(answer.points, answer.drives_per_game);
    answer.net_points_per_game = scaled(answer.net_points, answer.drives_per_game);
    const Scheme& scheme = standing_.question.scheme;
    const DriveModel model = compile_drives(*standing_.matchup, *standing_.mean);
    const std::vector<double> plays = request_.from
                                          ? situation_visits(model, *request_.from)
                                          : situation_visits(model, standing_.matchup->starts);
    for (std::size_t s = 0; s < plays.size(); ++s)
      answer.situations.push_back({scheme.situations[s].id, scheme.situations[s].label, plays[s]});
    answer.handoffs = handoffs();
    if (request_.sampled_drives == 0) return;
    const SampleOptions options{memory_.about().options.seed, request_.sampled_drives,
                                memory_.threads()};
    answer.sampled = request_.from ? simulate(model, *request_.from, options)
                                   : simulate_over(model, standing_.matchup->starts, options);
  }

  // Of the first family of handoffs that is called.
  std::optional<HandoffAnswer> handoffs() const {
    const BoundScheme& bound = standing_.matchup->bound;
    const Setting& setting = standing_.question.ground->setting;
    for (std::size_t f = 0; f < bound.scheme.families.size(); ++f) {
      const std::size_t family = bound.setting_family[f];
      if (bound.scheme.families[f].kind != FamilyKind::handoff || bound.call_share[f] <= 0 ||
          !setting.families[family].rates[static_cast<std::size_t>(Rate::success)])
        continue;
      return HandoffAnswer{estimate_of(standing_, family, Measure::success, {}, {}),
                           measure_of(memory_.average(), setting, family, Measure::success)};
    }
    return std::nullopt;
  }

  Memory& memory_;
  Standing& standing_;
  const DrivesRequest& request_;
  std::optional<Carrier> carrier_;
  std::vector<std::vector<double>> rows_;
};

void require_state(const std::optional<DriveState>& from) {
  if (!from) return;
  const bool known = from->down >= 1 && from->down <= 4 && from->yards_to_goal >= 1 &&
                     from->yards_to_goal <= 99 && from->to_go >= 1 &&
                     from->to_go <= from->yards_to_goal;
  if (!known)
    throw InputError(Finding{{"", 0, "/from"},
                             "no such down, distance and spot",
                             "take down 1 to 4, to_go 1 to yards_to_goal, yards_to_goal 1 to 99"});
}

}  // namespace

DrivesAnswer answer(Memory& memory, const DrivesRequest& request, const Progress& progress) {
  require_state(request.from);
  return DrivesTeller(memory, memory.standing(request.stand), request, progress).tell();
}

}  // namespace callfit::ask
