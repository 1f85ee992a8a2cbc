#include <ask/answers.hpp>
#include <callfit/base/finding.hpp>

#include <boost/math/tools/toms748_solve.hpp>

#include <cmath>
#include <cstdint>
#include <limits>

namespace callfit::ask {
namespace {

constexpr int grid_steps = 12;

struct Bracket {
  double low = 0, high = 0, at_low = 0, at_high = 0;
};

// The change of sign nearest to `now` on an even grid over [low, high].
template <class Gap>
std::optional<Bracket> nearest_bracket(const Gap& gap, const BreakEvenAnswer& sought, double at_low,
                                       double at_high) {
  std::optional<Bracket> nearest;
  double distance = std::numeric_limits<double>::infinity();
  double last_x = sought.low;
  double last = at_low;
  for (int i = 1; i <= grid_steps; ++i) {
    const double x = std::lerp(sought.low, sought.high, static_cast<double>(i) / grid_steps);
    const double value = i == grid_steps ? at_high : gap(x);
    const double off = std::abs((x + last_x) / 2 - sought.now);
    if ((value >= 0) != (last >= 0) && off < distance) {
      nearest = Bracket{last_x, x, last, value};
      distance = off;
    }
    last_x = x;
    last = value;
  }
  return nearest;
}

class EvenPoint {
 public:
  EvenPoint(Memory& memory, const BreakEvenRequest& request)
      : memory_(memory),
        request_(request),
        first_(memory.standing(request.first)),
        second_(memory.standing(request.second)),
        knob_(find_knob(memory.knobs(first_), request.path)) {
    const Stale& stale = knob_.stale;
    if (knob_.unit == KnobUnit::word || stale.tape ||
        !(stale.plan || stale.calls || stale.quarterback))
      throw InputError(Finding{
          {"", 0, request.path}, "has no even point", "name a rate, a gain or a share of calls"});
    if (&first_ == &second_)
      throw InputError(Finding{{"", 0, "/second"},
                               first_.question.profile->name + " is held against himself",
                               "name another quarterback, scheme or change"});
    seconds_ = memory.worth(second_).tangent->at_mean().net_points;
  }

  BreakEvenAnswer find() {
    BreakEvenAnswer answer;
    answer.first = about_of(memory_, first_, Tells::net_points);
    answer.second = about_of(memory_, second_, Tells::net_points);
    answer.path = knob_.path;
    answer.label = knob_.about;
    answer.unit = knob_.unit;
    answer.both = request_.both;
    answer.now = knob_.get(first_.question);
    // A mean gain can only move so far; its ends come from the gains themselves.
    const bool yards = knob_.unit == KnobUnit::yards;
    answer.low = yards ? answer.now - std::abs(answer.now) / 2 : knob_.low;
    answer.high = yards ? answer.now + std::abs(answer.now) / 2 : knob_.high;
    // Calls of all situations move together and reach neither 0 nor 1.
    if (knob_.path.starts_with("call.all.")) {
      answer.low = answer.now / 4;
      answer.high = answer.now + (1 - answer.now) / 4;
    }
    memory_.worth(first_);
    answer.now_difference =
        difference_of(first_, second_, answer.first.quarterback, answer.second.quarterback);
    search(answer);
    return answer;
  }

 private:
  double net_at(const Standing& from, double value) {
    const Question question = with_knob(from.question, knob_, value);
    memory_.count_solves(1);
    const auto net = [&from](const DrivePlan& plan, const Player& player) {
      return solve_points(plan.compile(player)).net_over(from.matchup->starts);
    };
    if (knob_.stale.calls) return net(from.matchup->plan->with_calls(question.scheme), *from.mean);
    if (knob_.stale.plan) return net(plan_of(question), *from.mean);
    return net(*from.matchup->plan, question.mean_player());
  }

  double gap(double value) {
    const double against = request_.both ? net_at(second_, value) : seconds_;
    return net_at(first_, value) - against;
  }

  void search(BreakEvenAnswer& answer) {
    const auto gap_at = [this](double value) { return gap(value); };
    const double at_low = gap(answer.low);
    const double at_high = gap(answer.high);
    answer.net_at_low = at_low * first_.drives_per_game();
    answer.net_at_high = at_high * first_.drives_per_game();
    const auto bracket = nearest_bracket(gap_at, answer, at_low, at_high);
    if (!bracket) return;
    std::uintmax_t steps = 40;
    const auto close = [](double a, double b) { return std::abs(a - b) < 1e-9; };
    const auto [below, above] = boost::math::tools::toms748_solve(
        gap_at, bracket->low, bracket->high, bracket->at_low, bracket->at_high, close, steps);
    answer.value = (below + above) / 2;
    answer.residual = gap(*answer.value);
    answer.more_helps = bracket->at_high > bracket->at_low;
    if (knob_.stale.quarterback && !request_.both) answer.ahead_of_it = own_side(answer);
  }

  // How sure one can be of the first's own value.
  Verdict own_side(const BreakEvenAnswer& answer) {
    Question one = first_.question;
    Column beyond(first_.sample->size());
    for (std::size_t i = 0; i < beyond.size(); ++i) {
      one.mean = std::make_shared<const Player>(first_.sample->unmoved()->player_at(i));
      const double over = knob_.get(one) - *answer.value;
      beyond[i] = answer.more_helps ? over : -over;
    }
    return verdict_of(beyond);
  }

  Memory& memory_;
  const BreakEvenRequest& request_;
  Standing& first_;
  Standing& second_;
  const Knob& knob_;
  double seconds_ = 0;
};

}  // namespace

BreakEvenAnswer answer(Memory& memory, const BreakEvenRequest& request, const Progress&) {
  return EvenPoint(memory, request).find();
}

}  // namespace callfit::ask
