#include <ask/answers.hpp>
#include <ask/estimates.hpp>
#include <ask/slopes.hpp>
#include <callfit/chart/measure_name.hpp>
#include <callfit/stats/beta.hpp>
#include <callfit/stats/rank.hpp>

#include <algorithm>
#include <array>

namespace callfit::ask {
namespace {

/// Strengths worth telling: this many spreads above the population, in families that take less
/// than this share of the scheme's calls.
constexpr double strength_from = 0.5;
constexpr double unused_below = 0.05;

constexpr std::array strengths{
    Measure::completion,        Measure::interception, Measure::sack,    Measure::pressured,
    Measure::on_time,           Measure::catchable,    Measure::success, Measure::explosive,
    Measure::yards_after_catch, Measure::run_gain,     Measure::evaded};

class FitTeller {
 public:
  FitTeller(Memory& memory, Standing& standing)
      : memory_(memory), standing_(standing), bound_(standing.matchup->bound) {}

  FitAnswer tell() {
    FitAnswer answer;
    answer.about = about_of(memory_, standing_, Tells::place);
    const FitDraws& fit = memory_.fit(standing_);
    answer.place = number_of(memory_.place(standing_));
    answer.distance = number_of(fit.distance);
    answer.mean_distance = mean_of(fit.distance);
    for (std::size_t f = 0; f < bound_.scheme.families.size(); ++f)
      answer.families.push_back(family(f));
    for (std::size_t d = 0; d < bound_.scheme.demands.size(); ++d) {
      answer.demands.push_back(demand(d));
      const DemandAnswer& told = answer.demands.back();
      answer.families[told.family].part += told.part;
      if (told.costs) answer.families[told.family].costs += told.costs->centre;
    }
    answer.unused = unused();
    return answer;
  }

 private:
  FamilyAnswer family(std::size_t f) const {
    const FamilyProfile& tape = standing_.question.profile->families[bound_.setting_family[f]];
    return {bound_.scheme.families[f].id,
            bound_.scheme.families[f].label,
            "call.all." + bound_.scheme.families[f].id,
            bound_.call_share[f],
            tape.snaps,
            0,
            0,
            tape.unseen()};
  }

  DemandAnswer demand(std::size_t d) const {
    const Demand& asked = bound_.scheme.demands[d];
    const std::size_t family = bound_.setting_family[asked.family];
    const Column& column = memory_.measures(standing_)[d];
    const Profile& profile = *standing_.question.profile;
    DemandAnswer answer;
    answer.family = asked.family;
    answer.measure = asked.measure;
    answer.cell = asked.cell;
    answer.label = measure_name(asked.measure, asked.cell);
    answer.part_path = demand_path(bound_.scheme, d);
    answer.asked_path = answer.part_path + ".level";
    answer.own_path = measure_path(standing_.question.ground->setting.families[family],
                                   asked.measure, asked.cell);
    answer.in_yards = !as_rate(asked.measure);
    answer.more_is_better = asked.more_is_better;
    answer.asked = asked.level;
    answer.spread = bound_.spread[d];
    const RateCounts counts = counts_behind(profile, family, asked.measure, asked.cell);
    answer.made = counts.made;
    answer.of = counts.of;
    answer.usual = measure_of(memory_.average(), standing_.question.ground->setting, family,
                              asked.measure, asked.cell);
    answer.estimate = memory_.estimates(standing_)[d];
    answer.short_by = short_by(answer);
    answer.weight = weight_of(d);
    answer.part = standing_.fit->mean_part[d];
    answer.costs = costs(answer, asked, family);
    answer.reaches = odds_above(standing_, family, asked.measure, asked.cell, column, asked.level);
    answer.reaches.level_odds = level_odds(family, asked);
    if (!asked.more_is_better) {
      answer.reaches.odds = 1 - answer.reaches.odds;
      answer.reaches.level_odds = 1 - *answer.reaches.level_odds;
    }
    return answer;
  }

  std::optional<Number> costs(const DemandAnswer& told, const Demand& asked,
                              std::size_t family) const {
    const double slope =
        measure_slope(memory_.tangent(standing_).gradient.net_points, *standing_.mean,
                      standing_.question.ground->setting, family, asked);
    if (slope == 0) return std::nullopt;
    return scaled(moved(told.estimate, -told.asked), -slope * standing_.drives_per_game());
  }

  // Of a member of the population: exact for a rate, else from members drawn.
  double level_odds(std::size_t family, const Demand& asked) const {
    const auto rate = as_rate(asked.measure);
    const auto& known = standing_.question.ground->setting.families[family].rates;
    if (rate && !asked.cell) {
      const RatePopulation& own = *known[static_cast<std::size_t>(*rate)];
      return 1 - cdf(Beta::of_mean(own.mean, own.strength()), asked.level);
    }
    Column above = memory_.population().measure(family, asked.measure, asked.cell);
    for (double& value : above) value -= asked.level;
    return verdict_of(above).odds;
  }

  static Number short_by(const DemandAnswer& demand) {
    const double sign = demand.more_is_better ? -1 : 1;
    return scaled(moved(demand.estimate, -demand.asked), sign / demand.spread);
  }

  double weight_of(std::size_t d) const {
    double sum = 0;
    const auto weight = [this](std::size_t i) {
      const Demand& demand = bound_.scheme.demands[i];
      return bound_.call_share[demand.family] * demand.weight;
    };
    for (std::size_t i = 0; i < bound_.scheme.demands.size(); ++i) sum += weight(i);
    return sum > 0 ? weight(d) / sum : 0;
  }

  double calls_of(std::size_t setting_family) const {
    double share = 0;
    for (std::size_t f = 0; f < bound_.setting_family.size(); ++f)
      if (bound_.setting_family[f] == setting_family) share += bound_.call_share[f];
    return share;
  }

  // Of families that were charted, handoffs apart.
  std::vector<UnusedAnswer> unused() const {
    std::vector<UnusedAnswer> all;
    const Setting& setting = standing_.question.ground->setting;
    for (std::size_t f = 0; f < setting.families.size(); ++f) {
      if (standing_.question.profile->families[f].unseen() || calls_of(f) >= unused_below ||
          setting.families[f].kind == FamilyKind::handoff)
        continue;
      for (const Measure measure : strengths)
        if (const double spread = spread_of(setting, f, measure); spread > 0)
          add_strength(f, measure, spread, all);
    }
    std::stable_sort(all.begin(), all.end(), [](const UnusedAnswer& a, const UnusedAnswer& b) {
      return a.surplus > b.surplus;
    });
    return all;
  }

  void add_strength(std::size_t f, Measure measure, double spread,
                    std::vector<UnusedAnswer>& all) const {
    const Setting& setting = standing_.question.ground->setting;
    const double own = measure_of(*standing_.mean, setting, f, measure);
    const double usual = measure_of(memory_.average(), setting, f, measure);
    const double surplus = (usually_better_high(measure) ? own - usual : usual - own) / spread;
    if (surplus < strength_from) return;
    all.push_back({setting.families[f].label, plain(word(measure)), measure, !as_rate(measure),
                   memory_.strength(standing_, f, measure), usual, surplus, calls_of(f)});
  }

  Memory& memory_;
  Standing& standing_;
  const BoundScheme& bound_;
};

// Net points of members of the population by the linear score at their mean.
Column population_scores(const Memory& memory, const Sample& population,
                         const std::vector<Term>& terms) {
  Column score(population.size(), 0.0);
  for (const Term& term : terms) {
    const DrawColumn column = term.of(population);
    const double centre = term.in(memory.average());
    for (std::size_t i = 0; i < score.size(); ++i) score[i] += term.by_net * (column[i] - centre);
  }
  return score;
}

Column negated(Column column) {
  for (double& value : column) value = -value;
  return column;
}

}  // namespace

FitAnswer answer(Memory& memory, const FitRequest& request, const Progress&) {
  Standing& standing = memory.standing(request.stand);
  if (!request.weights_by_points) {
    if (!standing.fit_told)
      standing.fit_told = std::make_shared<const FitAnswer>(FitTeller(memory, standing).tell());
    return *standing.fit_told;
  }
  const PointGradients gradient =
      differentiate(*standing.matchup->plan, memory.average(), standing.matchup->starts);
  memory.count_solves(gradient_cost);
  Question question = standing.question;
  weigh_by_points(question.scheme, *standing.matchup, question.ground->setting, memory.average(),
                  gradient.net_points);
  Standing weighed =
      memory.turned(standing, std::move(question), {true, false, false, false, false});
  FitAnswer answer = FitTeller(memory, weighed).tell();
  const Sample& population = memory.population();
  const auto distances = [&](const Standing& one) {
    return negated(fit_draws(measures_of(population, one.matchup->bound), one.matchup->bound,
                             population.size())
                       .distance);
  };
  const Column own = distances(standing);
  const Column scored = distances(weighed);
  const Column net = population_scores(memory, population, terms_of(gradient));
  answer.weights = WeightAgreement{population.size(), spearman(own, scored), spearman(own, net),
                                   spearman(scored, net)};
  return answer;
}

}  // namespace callfit::ask
