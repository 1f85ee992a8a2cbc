// What to chart next. What further snaps of a family would tell is a normal update, to first order:
// rates on the log-odds scale and mean gains as they are, S the net points (or D^2), both over the
// draws. With V the covariance of what a snap shows, N the noise of n snaps and c the covariance
// with S, the snaps take c'(V + N)^-1 c of the variance of S away (linear Bayes; Gelman and others,
// Bayesian Data Analysis, section 14.8); no noise: what knowing the family would take away.
#include <ask/answers.hpp>
#include <callfit/chart/film.hpp>
#include <callfit/stats/logit.hpp>
#include <profile/weights.hpp>

#include <Eigen/Cholesky>
#include <Eigen/Core>

#include <algorithm>
#include <cmath>

namespace callfit::ask {
namespace {

double covariance(const Column& a, const Column& b) {
  const double mean_a = mean_of(a);
  const double mean_b = mean_of(b);
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += (a[i] - mean_a) * (b[i] - mean_b);
  return sum / static_cast<double>(a.size());
}

// What an average snap of the family brings of each kind of trial.
struct Trials {
  double throws = 1, catches = 0, touches = 1;

  Trials(const PlayerFamily& family, FamilyKind kind) {
    if (kind != FamilyKind::pass) return;
    throws = 1 - family.at(Rate::sack) - family.at(Rate::scramble);
    catches = throws * family.at(Rate::completion);
    touches = catches + family.at(Rate::scramble);
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

// One thing that a snap shows: its value in every draw, and the variance of the noise of one snap.
struct Shown {
  Column values;
  double noise = 0;
};

// What snaps that show these things tell of an answer.
class Update {
 public:
  explicit Update(const std::vector<Shown>& shown) : shown_(shown) {
    const auto count = static_cast<Eigen::Index>(shown.size());
    spread_.resize(count, count);
    noise_.resize(count);
    for (Eigen::Index i = 0; i < count; ++i) {
      noise_(i) = at(i).noise;
      for (Eigen::Index j = 0; j <= i; ++j)
        spread_(i, j) = spread_(j, i) = covariance(at(i).values, at(j).values);
    }
  }

  /// Shares of the variance of `of` that are taken away: by knowing all of it, and by `snaps`.
  struct Removed {
    double by_all = 0, by_snaps = 0;
  };
  Removed removed(const Column& of, double snaps) const {
    const double all = covariance(of, of);
    if (all <= 0 || shown_.empty()) return {};
    Eigen::VectorXd with(noise_.size());
    for (Eigen::Index i = 0; i < with.size(); ++i) with(i) = covariance(at(i).values, of);
    const auto share = [&](double per_snap) {
      Eigen::MatrixXd known = spread_;
      known.diagonal() += per_snap * noise_;
      return std::clamp(with.dot(known.ldlt().solve(with)) / all, 0.0, 1.0);
    };
    return {share(0), share(1 / snaps)};
  }

 private:
  const Shown& at(Eigen::Index i) const { return shown_[static_cast<std::size_t>(i)]; }

  const std::vector<Shown>& shown_;
  Eigen::MatrixXd spread_;
  Eigen::VectorXd noise_;
};

// Successes and long gains of passes are told by completions and yards already.
bool told_by_others(Rate rate, FamilyKind kind) {
  return kind == FamilyKind::pass && (rate == Rate::success || rate == Rate::explosive);
}

class NextTeller {
 public:
  NextTeller(Memory& memory, Standing& standing, double snaps)
      : memory_(memory), standing_(standing), bound_(standing.matchup->bound), snaps_(snaps) {}

  NextAnswer tell() {
    const Worth& worth = memory_.worth(standing_);
    NextAnswer answer;
    answer.about = about_of(memory_, standing_);
    answer.more_snaps = snaps_;
    answer.net_points_per_game = scaled(number_of(worth.net_points), standing_.drives_per_game());
    answer.place = number_of(memory_.place(standing_));
    const Film film = tape() ? film_of(tape()->charts) : Film{};
    const std::vector<std::size_t> timed = snaps_on(film);
    const Column& distance = memory_.fit(standing_).distance;
    const auto half = [](const Number& n) { return (n.high - n.low) / 2; };
    for (const std::size_t family : called_families()) {
      const std::vector<Shown> shown = shown_by(family);
      const Update update(shown);
      const auto points = update.removed(worth.net_points, snaps_);
      const auto fit = update.removed(distance, snaps_);
      NextFamily next = named(family);
      next.share_of_points = points.by_all;
      next.share_of_fit = fit.by_all;
      next.points_after = half(answer.net_points_per_game) * std::sqrt(1 - points.by_snaps);
      next.place_after = half(answer.place) * std::sqrt(1 - fit.by_snaps);
      if (timed[family] > 0) next.film_minutes = film.seconds_for(snaps_, timed[family]) / 60;
      answer.families.push_back(std::move(next));
    }
    std::stable_sort(
        answer.families.begin(), answer.families.end(),
        [](const NextFamily& a, const NextFamily& b) { return a.points_after < b.points_after; });
    return answer;
  }

 private:
  const Tape* tape() const { return standing_.question.tape.get(); }

  // By family of the setting.
  std::vector<std::size_t> snaps_on(const Film& film) const {
    const Setting& setting = standing_.question.ground->setting;
    std::vector<std::size_t> snaps(setting.families.size(), 0);
    if (tape() == nullptr) return snaps;
    const FamilyPlaces families(setting, tape()->like);
    for (const auto& [id, count] : film.snaps)
      if (const auto family = families.at(id)) snaps[*family] += count;
    return snaps;
  }

  std::vector<std::size_t> called_families() const {
    std::vector<std::size_t> families = bound_.setting_family;
    std::sort(families.begin(), families.end());
    families.erase(std::unique(families.begin(), families.end()), families.end());
    return families;
  }

  NextFamily named(std::size_t family) const {
    const FamilyProfile& tape = standing_.question.profile->families[family];
    NextFamily next;
    next.id = tape.id;
    next.label = standing_.question.ground->setting.families[family].label;
    next.snaps = tape.snaps;
    for (std::size_t f = 0; f < bound_.setting_family.size(); ++f)
      if (bound_.setting_family[f] == family) next.call_share += bound_.call_share[f];
    return next;
  }

  std::vector<Shown> shown_by(std::size_t family) const {
    const FamilyPopulation& population = standing_.question.ground->setting.families[family];
    const PlayerFamily& mean = standing_.mean->families[family];
    const Trials trials(mean, population.kind);
    std::vector<Shown> shown;
    for (std::size_t r = 0; r < rate_count; ++r) {
      const auto rate = static_cast<Rate>(r);
      const double tried = trials.of(rate) * mean.rate[r] * (1 - mean.rate[r]);
      if (population.rates[r] && tried > 0 && !told_by_others(rate, population.kind))
        shown.push_back({log_odds(standing_.sample->rate(family, rate)), 1 / tried});
    }
    add_gain(population.depth, mean.depth_bins, GainPart::depth, family, trials.catches, shown);
    add_gain(population.yac, mean.yac_bins, GainPart::yac, family, trials.catches, shown);
    add_gain(population.run, mean.run_bins, GainPart::run, family, 1, shown);
    return shown;
  }

  static Column log_odds(DrawColumn column) {
    Column out(column.begin(), column.end());
    for (double& value : out) value = logit(value);
    return out;
  }

  void add_gain(const std::optional<GainPopulation>& population, const std::vector<double>& mean,
                GainPart part, std::size_t family, double trials, std::vector<Shown>& shown) const {
    if (!population || trials <= 0) return;
    shown.push_back(
        {standing_.sample->gain(part, family), variance(gain_pmf(*population, mean)) / trials});
  }

  Memory& memory_;
  Standing& standing_;
  const BoundScheme& bound_;
  double snaps_;
};

}  // namespace

NextAnswer answer(Memory& memory, const NextRequest& request, const Progress&) {
  return NextTeller(memory, memory.standing(request.stand), request.snaps).tell();
}

}  // namespace callfit::ask
