// The scheme bent to what is special about the quarterback. What he and the average quarterback are
// worth in each call is told apart by exact derivatives in the call shares, what follows a play
// being worth the same to both; over a few draws of him it shows how sure the difference is.
#include <ask/answers.hpp>
#include <ask/mix.hpp>
#include <callfit/base/finding.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace callfit::ask {
namespace {

constexpr std::size_t asked_draws = 48;  // spread over all draws; a share of them is odds

void require_limits(const TailorLimits& limits) {
  if (!(limits.move > 0 && limits.move <= 1))
    refuse_at("/limits/move", "shares cannot move by that much", "take a move above 0, at most 1");
  if (!(limits.run_pass >= 0 && limits.run_pass <= 1))
    refuse_at("/limits/run_pass", "runs and passes cannot move by that much", "take 0 to 1");
  if (!(limits.fade >= 0 && limits.fade * limits.move <= 1))
    refuse_at("/limits/fade", "the surprise fades too fast for moves of that size",
              "keep the fade times the move at 1 or below");
}

/// [block][scheme family]
template <class Value>
using ByBlock = std::vector<std::vector<Value>>;
using CallGradient = decltype(DriveGradient::call);

class Tailor {
 public:
  Tailor(const Standing& standing, const Player& average, const TailorLimits& limits)
      : standing_(standing),
        scheme_(standing.question.scheme),
        limits_(limits),
        blocks_(mix_blocks(scheme_)),
        worth_(outcome_worth(*standing.matchup->plan, average, standing.matchup->starts)),
        usual_(differentiate_by_calls(worth_, average).net_points.call) {}

  Scheme bent() const {
    const ByBlock<Turn> turns = all_turns();
    std::vector<bool> passes;
    for (const Family& family : scheme_.families) passes.push_back(family.kind == FamilyKind::pass);
    Scheme scheme = scheme_;
    for (std::size_t b = 0; b < blocks_.size(); ++b) {
      std::vector<double>& share = shares_of(scheme, blocks_[b]);
      share = bent_mix(share, turns[b], passes, limits_);
    }
    return scheme;
  }

  /// What of a bent scheme still surprises: the part that the defence expects is worth no more than
  /// the mix as it was.
  Scheme surprising(Scheme scheme) const {
    for (const MixBlock& block : blocks_) {
      const std::vector<double>& was = shares_of(scheme_, block);
      std::vector<double>& share = shares_of(scheme, block);
      const std::vector<double> called = share;
      for (std::size_t f = 0; f < share.size(); ++f) {
        const double added = std::max(0.0, called[f] - was[f]);
        const double expected = limits_.fade * added * added;
        share[f] -= expected;
        for (std::size_t g = 0; g < share.size(); ++g) share[g] += expected * was[g];
      }
    }
    return scheme;
  }

 private:
  ByBlock<Turn> all_turns() const {
    const ByBlock<double> odds = odds_of_more();
    ByBlock<Turn> turns;
    for (std::size_t b = 0; b < blocks_.size(); ++b) {
      const std::vector<bool> may = may_grow(blocks_[b]);
      std::vector<Turn>& own = turns.emplace_back(odds[b].size(), Turn::stay);
      for (std::size_t f = 0; f < own.size(); ++f) {
        if (!may[f]) own[f] = Turn::hold;
        if (odds[b][f] >= leans_from && may[f]) own[f] = Turn::more;
        if (odds[b][f] <= 1 - leans_from) own[f] = Turn::less;
      }
    }
    return turns;
  }

  // What may be called more: what the situation calls at all, can call everywhere, and was charted.
  std::vector<bool> may_grow(const MixBlock& block) const {
    const std::vector<double>& share = shares_of(scheme_, block);
    const Matchup& matchup = *standing_.matchup;
    std::vector<bool> may(share.size());
    for (std::size_t f = 0; f < may.size(); ++f) {
      const std::size_t family = matchup.bound.setting_family[f];
      may[f] = share[f] > 0 &&
               (limits_.uncharted || !standing_.question.profile->families[family].unseen());
    }
    for (const CallPlace& place : matchup.call_places)
      if (place.situation == block.situation && place.plays > 0)
        for (const std::size_t f : place.out_of_reach) may[f] = false;
    return may;
  }

  // Share of his draws in which a call has more over the average quarterback than the block's mix.
  ByBlock<double> odds_of_more() const {
    const Sample& sample = *standing_.sample;
    sample.fill();
    ByBlock<double> odds;
    for (const MixBlock& block : blocks_) odds.emplace_back(shares_of(scheme_, block).size(), 0.0);
    for (std::size_t k = 0; k < asked_draws; ++k) {
      const Player player = sample.player_at(k * sample.size() / asked_draws);
      const CallGradient his = differentiate_by_calls(worth_, player).net_points.call;
      for (std::size_t b = 0; b < blocks_.size(); ++b) {
        const std::vector<double> lead = lead_over_mix(blocks_[b], his);
        for (std::size_t f = 0; f < lead.size(); ++f)
          odds[b][f] += (lead[f] > 0 ? 1 : lead[f] == 0 ? 0.5 : 0) / asked_draws;
      }
    }
    return odds;
  }

  std::vector<double> lead_over_mix(const MixBlock& block, const CallGradient& his) const {
    const auto& own = scheme_.situations[block.situation].share_by_shell;
    const std::vector<double>& share = shares_of(scheme_, block);
    std::vector<double> lead(share.size(), 0.0);
    for (std::size_t shell = 0; shell < shell_count; ++shell) {
      const bool here = block.shell ? *block.shell == shell : !own[shell];
      for (std::size_t f = 0; here && f < lead.size(); ++f)
        lead[f] += his[block.situation][shell][f] - usual_[block.situation][shell][f];
    }
    const double mix = std::inner_product(share.begin(), share.end(), lead.begin(), 0.0);
    for (double& value : lead) value -= mix;
    return lead;
  }

  const Standing& standing_;
  const Scheme& scheme_;
  TailorLimits limits_;
  std::vector<MixBlock> blocks_;
  OutcomeWorth worth_;  // to the average quarterback
  CallGradient usual_;  // his derivatives
};

// Net points a game that solves do not tell from none.
constexpr double told_from = 1e-4;

// His change of net points a game, draw by draw, less the average quarterback's.
Column own_gain(Memory& memory, const Standing& before, const Standing& after) {
  const double usual = drive_points(*after.matchup, memory.average()).net_points -
                       drive_points(*before.matchup, memory.average()).net_points;
  memory.count_solves(2);
  Column gain = after.worth->net_points;
  for (std::size_t d = 0; d < gain.size(); ++d) {
    gain[d] = (gain[d] - before.worth->net_points[d] - usual) * before.drives_per_game();
    if (std::abs(gain[d]) < told_from) gain[d] = 0;
  }
  return gain;
}

}  // namespace

TailorAnswer answer(Memory& memory, const TailorRequest& request, const Progress& progress) {
  require_limits(request.limits);
  constexpr std::size_t steps = 2;
  Standing& before = memory.standing(request.stand);
  const Tailor tailor(before, memory.average(), request.limits);
  const Scheme bent = tailor.bent();
  if (progress) progress(1, steps);
  TailorAnswer answer;
  answer.about = about_of(memory, before);
  answer.limits = request.limits;
  constexpr Stale calls{true, true, false, false, false};
  Question question = before.question;
  question.scheme = tailor.surprising(bent);
  Standing after = memory.turned(before, std::move(question), calls);
  answer.effect = effect_of(memory, before, after);
  const Column own = own_gain(memory, before, after);
  answer.own_net_points_per_game = number_of(own);
  answer.own = verdict_of(own);
  answer.advised = answer.own.yes() && answer.own.lean() != Lean::open;
  Question called = before.question;
  if (answer.advised) called.scheme = bent;
  answer.effect.moved = moved_knobs(memory.knobs(before), before.question, called, {});
  if (progress) progress(steps, steps);
  return answer;
}

}  // namespace callfit::ask
