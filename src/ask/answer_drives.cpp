// Drives in full: beside points, whose draws the worth has, the shares of results, values by yard
// line, first downs and plays. Those are solved exactly for some of the draws, spread evenly over
// the order of their net points, and carried to all draws by least squares on the two points, each
// draw with the departure of one of the solved ones.
#include <ask/answers.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/base/names.hpp>

#include <algorithm>
#include <array>
#include <numeric>

namespace callfit::ask {
namespace {

constexpr std::size_t solved_draws = 24;
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
  const PointValues values = solve_points(model);
  row.insert(row.end(), values.points.begin() + 1, values.points.end());
  row.insert(row.end(), values.net_points.begin() + 1, values.net_points.end());
  add(flow_over(model, matchup.starts));
  return row;
}

// Ordinary least squares of one row's entry on (1, points, net points), and what is left of it.
class Carrier {
 public:
  Carrier(const Worth& worth, std::vector<std::size_t> solved)
      : worth_(worth), solved_(std::move(solved)) {
    for (const std::size_t i : solved_) {
      middle_[0] += worth.points[i] / static_cast<double>(solved_.size());
      middle_[1] += worth.net_points[i] / static_cast<double>(solved_.size());
    }
    for (const std::size_t i : solved_) {
      const auto [p, n] = centred(i);
      pp_ += p * p;
      pn_ += p * n;
      nn_ += n * n;
    }
  }

  Number carried(const std::vector<double>& y) const {
    const double mean = std::accumulate(y.begin(), y.end(), 0.0) / static_cast<double>(y.size());
    double py = 0;
    double ny = 0;
    for (std::size_t k = 0; k < y.size(); ++k) {
      const auto [p, n] = centred(solved_[k]);
      py += p * (y[k] - mean);
      ny += n * (y[k] - mean);
    }
    // The two go together nearly always; a ridge of a millionth keeps the system solvable.
    const double ridge = 1e-6 * (pp_ + nn_) + 1e-300;
    const double determinant = (pp_ + ridge) * (nn_ + ridge) - pn_ * pn_;
    const double a = (py * (nn_ + ridge) - ny * pn_) / determinant;
    const double b = (ny * (pp_ + ridge) - py * pn_) / determinant;
    const auto line = [&](std::size_t i) {
      const auto [p, n] = centred(i);
      return mean + a * p + b * n;
    };
    // Three numbers were fitted: departures are short by that much.
    const auto count = static_cast<double>(y.size());
    const double stretch = std::sqrt(count / (count - 3));
    Column draws(worth_.points.size());
    for (std::size_t i = 0; i < draws.size(); ++i) {
      const std::size_t k = i % y.size();
      draws[i] = line(i) + stretch * (y[k] - line(solved_[k]));
    }
    return number_of(draws);
  }

 private:
  std::array<double, 2> centred(std::size_t i) const {
    return {worth_.points[i] - middle_[0], worth_.net_points[i] - middle_[1]};
  }

  const Worth& worth_;
  std::vector<std::size_t> solved_;
  std::array<double, 2> middle_{};
  double pp_ = 0, pn_ = 0, nn_ = 0;
};

std::vector<std::size_t> evenly_by_worth(const Worth& worth) {
  std::vector<std::size_t> order(worth.net_points.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&worth](std::size_t a, std::size_t b) {
    return worth.net_points[a] < worth.net_points[b];
  });
  std::vector<std::size_t> chosen;
  for (std::size_t k = 0; k < solved_draws; ++k)
    chosen.push_back(order[(2 * k + 1) * order.size() / (2 * solved_draws)]);
  return chosen;
}

class DrivesTeller {
 public:
  DrivesTeller(Memory& memory, Standing& standing, const DrivesRequest& request,
               const Progress& progress)
      : memory_(memory), standing_(standing), request_(request) {
    const Worth& worth = memory.worth(standing);
    solved_ = evenly_by_worth(worth);
    rows_.resize(solved_.size());
    standing.sample->fill();
    for_each_unit(
        solved_.size(), memory.threads(),
        [&](std::size_t k) {
          rows_[k] =
              row_of(*standing_.matchup, standing_.sample->player_at(solved_[k]), request_.from);
        },
        progress);
    memory.count_solves(2 * solved_.size());
  }

  DrivesAnswer tell() {
    const Worth& worth = *standing_.worth;
    const Carrier carrier(worth, solved_);
    DrivesAnswer answer;
    answer.about = about_of(standing_);
    answer.from = request_.from;
    answer.method = worth.method;
    answer.method.exact_solves += 2 * solved_.size();
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
    const std::vector<double> visits = situation_visits(model, standing_.matchup->starts);
    for (std::size_t s = 0; s < visits.size(); ++s)
      answer.situations.push_back(
          {scheme.situations[s].id, scheme.situations[s].label, {visits[s], visits[s], visits[s]}});
    if (request_.sampled_drives == 0) return;
    const SampleOptions options{memory_.about().options.seed, request_.sampled_drives,
                                memory_.threads()};
    answer.sampled = request_.from ? simulate(model, *request_.from, options)
                                   : simulate_over(model, standing_.matchup->starts, options);
  }

  Memory& memory_;
  Standing& standing_;
  const DrivesRequest& request_;
  std::vector<std::size_t> solved_;
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
