// What to chart next. Points are a sum over families of linear scores, D^2 a sum of families'
// parts, and families are drawn apart: a family's first-order share of the variance (Sobol 1993) is
// the variance of its own summand over that of the whole. Further snaps remove n / (strength + n)
// of the variance of a rate or mean gain that they try n times (exact for conjugate posteriors).
#include <ask/answers.hpp>
#include <ask/terms.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace callfit::ask {
namespace {

double variance_of(const Column& column) {
  const double mean = mean_of(column);
  double sum = 0;
  for (const double value : column) sum += (value - mean) * (value - mean);
  return sum / static_cast<double>(column.size());
}

double mean_rate(const FamilyProfile& family, Rate rate) {
  const auto& estimate = family.rates[static_cast<std::size_t>(rate)];
  return estimate ? estimate->mean : 0;
}

// What an average snap of the family brings of each kind of trial.
struct Trials {
  double throws = 1, catches = 0, touches = 1;

  Trials(const FamilyProfile& family, FamilyKind kind) {
    if (kind != FamilyKind::pass) return;
    const double scrambles = mean_rate(family, Rate::scramble);
    throws = 1 - mean_rate(family, Rate::sack) - scrambles;
    catches = throws * mean_rate(family, Rate::completion);
    touches = catches + scrambles;
  }

  double of(Rate rate) const {
    switch (rate) {
      case Rate::completion:
      case Rate::interception:
      case Rate::on_time:
      case Rate::catchable:
        return throws;
      case Rate::evaded:
        return touches;
      default:
        return 1;
    }
  }
};

// One thing that tape of a family teaches: how much of the answer's variance goes with it, how much
// is known of it, and how often a snap tries it.
struct Lesson {
  double variance = 0, strength = 0, trials = 0;

  double removed(double snaps) const { return trials * snaps / (strength + trials * snaps); }
};

double removed_share(const std::vector<Lesson>& lessons, double snaps) {
  double all = 0;
  double removed = 0;
  for (const Lesson& lesson : lessons) {
    all += lesson.variance;
    removed += lesson.variance * lesson.removed(snaps);
  }
  return all > 0 ? removed / all : 0;
}

double strength_of(const std::optional<GainEstimate>& gain) {
  return gain ? std::accumulate(gain->alpha.begin(), gain->alpha.end(), 0.0) : 0;
}

class NextTeller {
 public:
  NextTeller(Memory& memory, Standing& standing, double snaps)
      : memory_(memory), standing_(standing), bound_(standing.matchup->bound), snaps_(snaps) {}

  NextAnswer tell() {
    const Worth& worth = memory_.worth(standing_);
    const double games = standing_.drives_per_game();
    NextAnswer answer;
    answer.about = about_of(standing_);
    answer.more_snaps = snaps_;
    answer.net_points_per_game = scaled(number_of(worth.net_points), games);
    answer.place = number_of(memory_.place(standing_));
    net_variance_ = variance_of(worth.net_points);
    fit_variance_ = variance_of(memory_.fit(standing_).distance);
    const auto half = [](const Number& n) { return (n.high - n.low) / 2; };
    for (const std::size_t family : called_families())
      answer.families.push_back(
          family_of(family, half(answer.net_points_per_game), half(answer.place)));
    std::stable_sort(
        answer.families.begin(), answer.families.end(),
        [](const NextFamily& a, const NextFamily& b) { return a.points_after < b.points_after; });
    return answer;
  }

 private:
  std::vector<std::size_t> called_families() const {
    std::vector<std::size_t> families = bound_.setting_family;
    std::sort(families.begin(), families.end());
    families.erase(std::unique(families.begin(), families.end()), families.end());
    return families;
  }

  NextFamily family_of(std::size_t family, double points_now, double place_now) const {
    const FamilyProfile& tape = standing_.question.profile->families[family];
    NextFamily next;
    next.id = tape.id;
    next.label = standing_.question.ground->setting.families[family].label;
    next.snaps = tape.snaps;
    for (std::size_t f = 0; f < bound_.setting_family.size(); ++f)
      if (bound_.setting_family[f] == family) next.call_share += bound_.call_share[f];
    next.share_of_points = share(variance_of(score_of(family)), net_variance_);
    next.share_of_fit = share(variance_of(part_of(family)), fit_variance_);
    const auto after = [&](double now, double part, const std::vector<Lesson>& lessons) {
      return now * std::sqrt(1 - part * removed_share(lessons, snaps_));
    };
    next.points_after = after(points_now, next.share_of_points, point_lessons(family));
    next.place_after = after(place_now, next.share_of_fit, demand_lessons(family));
    return next;
  }

  static double share(double part, double whole) {
    return whole > 0 ? std::clamp(part / whole, 0.0, 1.0) : 0;
  }

  Column score_of(std::size_t family) const {
    Column score(standing_.sample->size(), 0.0);
    for (const Term& term : standing_.worth->terms)
      if (term.family == family) add(term, score);
    return score;
  }

  void add(const Term& term, Column& score) const {
    const DrawColumn column = term.of(*standing_.sample);
    for (std::size_t i = 0; i < score.size(); ++i) score[i] += term.by_net * column[i];
  }

  Column part_of(std::size_t family) const {
    Column part(standing_.sample->size(), 0.0);
    for (std::size_t f = 0; f < bound_.setting_family.size(); ++f)
      if (bound_.setting_family[f] == family)
        for (std::size_t i = 0; i < part.size(); ++i) part[i] += standing_.fit->family_part[f][i];
    return part;
  }

  Lesson lesson_of(std::size_t family, const Measure measure, double variance) const {
    const FamilyProfile& tape = standing_.question.profile->families[family];
    const Trials trials(tape, standing_.question.ground->setting.families[family].kind);
    if (const auto rate = as_rate(measure)) {
      const auto& estimate = tape.rates[static_cast<std::size_t>(*rate)];
      return {variance, estimate ? estimate->strength : 0, trials.of(*rate)};
    }
    const bool yac = measure == Measure::yards_after_catch;
    return {variance, strength_of(yac ? tape.yac : tape.run), yac ? trials.catches : 1};
  }

  // Each rate with its cells, each gain with its bins.
  std::vector<Lesson> point_lessons(std::size_t family) const {
    std::map<std::pair<bool, std::size_t>, Column> groups;
    for (const Term& term : standing_.worth->terms) {
      if (term.family != family) continue;
      const bool gain = term.kind == Term::Kind::bin;
      const std::size_t which =
          gain ? static_cast<std::size_t>(term.part) : static_cast<std::size_t>(term.rate);
      Column& score = groups[{gain, which}];
      score.resize(standing_.sample->size());
      add(term, score);
    }
    const FamilyProfile& tape = standing_.question.profile->families[family];
    const Trials trials(tape, standing_.question.ground->setting.families[family].kind);
    std::vector<Lesson> lessons;
    for (const auto& [group, score] : groups) {
      const double variance = variance_of(score);
      if (!group.first)
        lessons.push_back(lesson_of(family, static_cast<Measure>(group.second), variance));
      else if (static_cast<GainPart>(group.second) == GainPart::depth)
        lessons.push_back({variance, strength_of(tape.depth), trials.catches});
      else
        lessons.push_back(lesson_of(family,
                                    static_cast<GainPart>(group.second) == GainPart::yac
                                        ? Measure::yards_after_catch
                                        : Measure::run_gain,
                                    variance));
    }
    return lessons;
  }

  // Each demand by the variance of its measure in spreads, weighed as D^2 weighs it.
  std::vector<Lesson> demand_lessons(std::size_t family) const {
    std::vector<Lesson> lessons;
    for (std::size_t d = 0; d < bound_.scheme.demands.size(); ++d) {
      const Demand& demand = bound_.scheme.demands[d];
      if (bound_.setting_family[demand.family] != family) continue;
      lessons.push_back(lesson_of(family, demand.measure, standing_.fit->mean_part[d]));
    }
    return lessons;
  }

  Memory& memory_;
  Standing& standing_;
  const BoundScheme& bound_;
  double snaps_;
  double net_variance_ = 0, fit_variance_ = 0;
};

}  // namespace

NextAnswer answer(Memory& memory, const NextRequest& request, const Progress&) {
  return NextTeller(memory, memory.standing(request.stand), request.snaps).tell();
}

}  // namespace callfit::ask
