#include <ask/attribution.hpp>

#include <callfit/stats/logit.hpp>
#include <profile/cells.hpp>
#include <profile/gain_parts.hpp>
#include <profile/joint.hpp>
#include <profile/rate_posterior.hpp>

#include <Eigen/Cholesky>
#include <Eigen/Core>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>
#include <tuple>
#include <utility>

namespace callfit::ask {
namespace {

// Where draws have a quantity of the population.
struct QuantityPlace {
  std::size_t family = no_family;  ///< no_family: a gain that all families share
  std::optional<Rate> rate;
  GainPart part = GainPart::depth;
};

std::vector<QuantityPlace> places_of(const Setting& setting) {
  std::vector<QuantityPlace> out(setting.population->quantities.size());
  const JointPlaces places = joint_places(setting);
  for (std::size_t f = 0; f < setting.families.size(); ++f) {
    for (std::size_t r = 0; r < rate_count; ++r)
      if (places.rates[f][r]) out[*places.rates[f][r]] = {f, static_cast<Rate>(r), {}};
    for (std::size_t p = 0; p < gain_part_count; ++p) {
      const auto part = static_cast<GainPart>(p);
      if (places.gains[f][p])
        out[*places.gains[f][p]] = {is_shared(part) ? no_family : f, {}, part};
    }
  }
  return out;
}

// The quantity's log-odds in every draw, up to a constant.
Column log_odds_of(const PlayerDraws& draws, const QuantityPlace& place) {
  const std::size_t family = place.family == no_family ? 0 : place.family;
  const DrawColumn column =
      place.rate ? draws.rate(family, *place.rate) : draws.bins(place.part, family).front();
  Column out(column.begin(), column.end());
  for (double& value : out) value = place.rate ? logit(value) : -logit(value);
  return out;
}

/// Mean derivatives of a number by quantities, first and second.
struct MeanSlopes {
  struct Pair {
    std::size_t a = 0, b = 0;  ///< quantities, a == b for a square
    double slope = 0;          ///< of a pair; half of it of a square
  };
  std::vector<std::pair<std::size_t, double>> single;
  std::vector<Pair> pairs;
};

// By least squares on Hermite polynomials of the draws' scores (Stein 1981: of normal scores the
// coefficients are mean derivatives).
class SlopeFinder {
 public:
  SlopeFinder(const TapeStage& stage, const Tracked& tracked,
              const std::vector<QuantityPlace>& places)
      : rows_(static_cast<Eigen::Index>(stage.draws->size())) {
    for (const std::size_t q : tracked.quantities) add_score(stage, q, places[q]);
    for (std::size_t a = 0; a < quantities_.size(); ++a)
      for (std::size_t b = a; b < quantities_.size(); ++b)
        if (a == b || (tracked.in_pairs && group_[a] == group_[b] && group_[a] != no_family))
          pairs_.emplace_back(a, b);
    design_.resize(rows_, static_cast<Eigen::Index>(quantities_.size() + pairs_.size()));
    for (std::size_t a = 0; a < quantities_.size(); ++a) column(a) = scores_[a];
    for (std::size_t p = 0; p < pairs_.size(); ++p) {
      const auto [a, b] = pairs_[p];
      Eigen::VectorXd product = scores_[a].cwiseProduct(scores_[b]);
      column(quantities_.size() + p) = product.array() - product.mean();
    }
    normal_.compute(design_.transpose() * design_);
  }

  MeanSlopes of(const Column& values) const {
    MeanSlopes out;
    if (quantities_.empty()) return out;
    const Eigen::VectorXd weights = normal_.solve(
        design_.transpose() * Eigen::Map<const Eigen::VectorXd>(values.data(), rows_));
    const auto weight = [&](std::size_t i) { return weights(static_cast<Eigen::Index>(i)); };
    for (std::size_t a = 0; a < quantities_.size(); ++a)
      out.single.emplace_back(quantities_[a], weight(a) / sd_[a]);
    for (std::size_t p = 0; p < pairs_.size(); ++p) {
      const auto [a, b] = pairs_[p];
      out.pairs.push_back(
          {quantities_[a], quantities_[b], weight(quantities_.size() + p) / (sd_[a] * sd_[b])});
    }
    return out;
  }

 private:
  Eigen::Ref<Eigen::VectorXd> column(std::size_t i) {
    return design_.col(static_cast<Eigen::Index>(i));
  }

  void add_score(const TapeStage& stage, std::size_t quantity, const QuantityPlace& place) {
    constexpr double nothing = 1e-9;
    const Column values = log_odds_of(*stage.draws, place);
    Eigen::VectorXd score = Eigen::Map<const Eigen::VectorXd>(values.data(), rows_);
    score.array() -= score.mean();
    const double sd = std::sqrt(score.squaredNorm() / static_cast<double>(rows_));
    if (!(sd > nothing)) return;
    quantities_.push_back(quantity);
    group_.push_back(place.family);
    sd_.push_back(sd);
    scores_.push_back(score / sd);
  }

  Eigen::Index rows_;
  std::vector<std::size_t> quantities_, group_;
  std::vector<double> sd_;
  std::vector<Eigen::VectorXd> scores_;
  std::vector<std::pair<std::size_t, std::size_t>> pairs_;
  Eigen::MatrixXd design_;
  Eigen::LDLT<Eigen::MatrixXd> normal_;
};

// What a count of each category moves.
std::vector<double> by_category(const MeanSlopes& slopes, const TallyResponse& tally) {
  if (tally.covariance.empty()) return {};
  double first = 0, second = 0;
  for (const auto& [q, slope] : slopes.single) first += slope * tally.covariance[q];
  for (const MeanSlopes::Pair& pair : slopes.pairs)
    second += pair.slope * tally.covariance[pair.a] * tally.covariance[pair.b];
  std::vector<double> out;
  for (std::size_t c = 0; c < tally.slope.size(); ++c)
    out.push_back(first * tally.slope[c] + second * tally.bend[c]);
  return out;
}

// Counts of one rate at one level, all of them and those in a cell.
struct CellTally {
  double made = 0, of = 0, all_made = 0, all_of = 0;

  void add(bool is_in, bool is_made, double weight) {
    all_of += weight;
    if (is_made) all_made += weight;
    if (is_in) of += weight;
    if (is_in && is_made) made += weight;
  }
};

/// What cells take from counts: how they depart from their family, and for how many snaps.
struct CellKnown {
  double departure = 0, of = 0;
};

CellKnown known_from(const std::vector<CellTally>& levels, Cell cell) {
  std::vector<CellCounts> counts;
  RateCounts inside, all;
  for (const CellTally& level : levels) {
    inside.effective_of += level.of;
    all.effective_of += level.all_of;
    if (level.of > 0) counts.push_back({level.made, level.of, level.all_made / level.all_of});
  }
  const bool is_shell = static_cast<std::size_t>(cell) < shell_count;
  return {departure_of(counts), is_shell ? inside.effective_of : departure_snaps(inside, all)};
}

// Whether the snap is a trial of the cell's rate, and in which way it counts.
struct CellTrial {
  std::size_t level = 0;
  bool is_in = false, is_made = false;

  auto operator<=>(const CellTrial&) const =
      default;  // NOLINT(modernize-use-nullptr): clang 14 errs
};

std::optional<CellTrial> trial_of(const EvidenceSnap& snap, const CellPlace& place,
                                  const SuccessRule& rule) {
  if (snap.weighted.family != place.family || !(snap.weighted.weight > 0)) return std::nullopt;
  const auto made = trial(*snap.weighted.snap, place.rate, rule);
  if (!made) return std::nullopt;
  return CellTrial{snap.weighted.level, in_cell(*snap.weighted.snap, place.cell), *made};
}

/// What a snap of each kind does to what is known of the cell, by weight.
using CellSlopes = std::map<CellTrial, CellKnown>;

CellSlopes cell_slopes(const SnapEvidence& evidence, const CellPlace& place,
                       const Question& question) {
  constexpr double step = 1e-4;  // of a snap
  const SuccessRule& rule = question.ground->setting.success;
  std::vector<CellTally> levels(question.weighting.levels.size());
  CellSlopes slopes;
  for (const EvidenceSnap& snap : evidence.snaps)
    if (const auto kind = trial_of(snap, place, rule)) {
      levels[kind->level].add(kind->is_in, kind->is_made, snap.weighted.weight);
      slopes[*kind];
    }
  const CellKnown now = known_from(levels, place.cell);
  for (auto& [kind, slope] : slopes) {
    std::vector<CellTally> more = levels;
    more[kind.level].add(kind.is_in, kind.is_made, step);
    const CellKnown then = known_from(more, place.cell);
    slope = {(then.departure - now.departure) / step, (then.of - now.of) / step};
  }
  return slopes;
}

/// The log-odds of a family's cells of one rate at its mean, shells balanced.
class CellsAtMean {
 public:
  CellsAtMean(const TapeStage& stage, std::size_t family, Rate rate, const ShellMix& mix)
      : tape_(stage.profile.families[family]), rate_(rate), mix_(mix) {}

  /// Of `cells`, with one cell's departure and snaps moved.
  std::vector<double> log_odds(const std::vector<Cell>& cells, Cell moved, CellKnown by) const {
    PlayerFamily at;
    const auto r = static_cast<std::size_t>(rate_);
    at.rate[r] = tape_.rates[r]->mean;
    at.cell.fill(at.rate);
    bool by_shell = false;
    for (const CellEstimate& cell : tape_.cells) {
      if (cell.rate != rate_) continue;
      const auto c = static_cast<std::size_t>(cell.cell);
      by_shell = by_shell || c < shell_count;
      CellKnown known{cell.departure, c < shell_count
                                          ? cell.counts.effective_of
                                          : departure_snaps(cell.counts, tape_.rates[r]->counts)};
      if (cell.cell == moved) known = {known.departure + by.departure, known.of + by.of};
      at.cell[c][r] = CellGivenFamily(cell.shift, known.departure)
                          .posterior(at.rate[r], cell.kappa, known.of)
                          .mean();
    }
    if (by_shell) balance_shells(at, r, mix_);
    std::vector<double> out;
    out.reserve(cells.size());
    for (const Cell cell : cells) out.push_back(logit(at.cell[static_cast<std::size_t>(cell)][r]));
    return out;
  }

 private:
  const FamilyProfile& tape_;
  Rate rate_;
  const ShellMix& mix_;
};

class Attributing {
 public:
  Attributing(const TapeStages& stages, const Tracked& tracked, const Question& question)
      : stages_(stages),
        tracked_(tracked),
        question_(question),
        setting_(question.ground_setting()),
        places_(places_of(*setting_)),
        mix_(shell_mix(*setting_)) {}

  Attribution run() {
    Attribution out{tracked_.centre(stages_.none), tracked_.centre(stages_.all),
                    std::vector<double>(stages_.evidence.snaps.size(), 0.0), 0};
    for (const TapeStage& stage : stages_.inside) pass(stage, out);
    for (const SnapCounts& brought : stages_.evidence.counts)
      for (std::size_t c = 0; c < brought.counts.size(); ++c)
        if (!by_tally_[brought.tally].empty())
          out.moved[brought.snap] += brought.counts[c] * by_tally_[brought.tally][c];
    for (const auto& [place, by] : by_cell_) share_out(place, by, out);
    return out;
  }

 private:
  void pass(const TapeStage& stage, Attribution& out) {
    const Sample sample(stage.draws, setting_, question_.player);
    const MeanSlopes slopes =
        SlopeFinder(stage, tracked_, places_).of(tracked_.draws(stage, sample));
    by_tally_.resize(stage.response.tallies.size());
    for (std::size_t j = 0; j < by_tally_.size(); ++j)
      add(by_tally_[j], stage.width, by_category(slopes, stage.response.tallies[j]));
    for (std::size_t m = 0; m < stage.response.mixtures.size(); ++m) {
      const MixtureCounts& mixture = question_.profile->evidence.mixtures[m];
      const auto by = by_category(slopes, stage.response.mixtures[m]);
      out.season_totals +=
          stage.width * (by[0] * (mixture.of - mixture.made) + by[1] * mixture.made);
    }
    for (const CellPlace& place : tracked_.cells) add_cell(stage, sample, place);
  }

  static void add(std::vector<double>& sum, double weight, const std::vector<double>& more) {
    sum.resize(std::max(sum.size(), more.size()), 0.0);
    for (std::size_t c = 0; c < more.size(); ++c) sum[c] += weight * more[c];
  }

  // A count moves a departure the more the less there is: by 1 / weight.
  void add_cell(const TapeStage& stage, const Sample& sample, const CellPlace& place) {
    constexpr double step = 1e-4;
    std::vector<Cell> along;
    for (const CellPlace& other : tracked_.cells)
      if (other.family == place.family && other.rate == place.rate) along.push_back(other.cell);
    const CellsAtMean cells(stage, place.family, place.rate, mix_);
    const auto slope = [&](CellKnown unit) {
      const auto low = cells.log_odds(along, place.cell, {-step * unit.departure, 0});
      const auto high = cells.log_odds(along, place.cell, {step * unit.departure, step * unit.of});
      const double width = step * (2 * unit.departure + unit.of);
      double sum = 0;
      for (std::size_t i = 0; i < along.size(); ++i)
        sum += (high[i] - low[i]) / width *
               by_log_odds(stage, sample, {place.family, place.rate, along[i]});
      return sum;
    };
    CellKnown& by = by_cell_[place];
    by.departure += stage.width / stage.at * slope({1, 0});
    by.of += stage.width * slope({0, 1});
  }

  double by_log_odds(const TapeStage& stage, const Sample& sample, const CellPlace& place) {
    if (tracked_.by_cell) return tracked_.by_cell(stage, sample, place);
    const auto [entry, is_new] = cell_slope_.try_emplace({stage.at, place});
    if (!is_new) return entry->second;
    constexpr double step = 0.01;
    const auto mean_at = [&](double move) {
      PlayerShift shift = question_.player;
      if (shift.families.empty()) shift = no_shift(*setting_);
      shift.families[place.family]
          .cell[static_cast<std::size_t>(place.cell)][static_cast<std::size_t>(place.rate)] += move;
      return mean_of(tracked_.draws(stage, Sample(stage.draws, setting_, shift)));
    };
    entry->second = (mean_at(step) - mean_at(-step)) / (2 * step);
    return entry->second;
  }

  void share_out(const CellPlace& place, const CellKnown& by, Attribution& out) const {
    const CellSlopes slopes = cell_slopes(stages_.evidence, place, question_);
    for (std::size_t i = 0; i < out.moved.size(); ++i) {
      const EvidenceSnap& snap = stages_.evidence.snaps[i];
      const auto kind = trial_of(snap, place, setting_->success);
      if (!kind) continue;
      const CellKnown& slope = slopes.at(*kind);
      out.moved[i] += snap.weighted.weight * (by.departure * slope.departure + by.of * slope.of);
    }
  }

  const TapeStages& stages_;
  const Tracked& tracked_;
  const Question& question_;
  std::shared_ptr<const Setting> setting_;
  std::vector<QuantityPlace> places_;
  ShellMix mix_;
  std::vector<std::vector<double>> by_tally_;  // [tally][category]
  std::map<CellPlace, CellKnown> by_cell_;
  std::map<std::pair<double, CellPlace>, double> cell_slope_;
};

}  // namespace

double Attribution::rest() const {
  return with - without - season_totals - std::accumulate(moved.begin(), moved.end(), 0.0);
}

Attribution attribution_of(const TapeStages& stages, const Tracked& tracked,
                           const Question& question) {
  return Attributing(stages, tracked, question).run();
}

}  // namespace callfit::ask
