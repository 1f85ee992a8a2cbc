#include <base/vector_loops.hpp>
#include <callfit/profile/draws.hpp>
#include <callfit/stats/logit.hpp>
#include <callfit/stats/normal.hpp>
#include <population/skewed.hpp>
#include <profile/draw_source.hpp>
#include <profile/gain_parts.hpp>
#include <stats/gamma_draw.hpp>
#include <stats/scrambled_net.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace callfit {
namespace {

using Numbers = std::vector<double>;

// Two shapes below this can both underflow to 0; then the logarithms are drawn.
constexpr double safe_shape = 0.06;

enum class Kind : std::uint64_t { rate = 1, cell, bin, normal };

// Tells columns of one quarterback apart.
std::uint64_t part_of(Kind kind, std::size_t family, std::size_t which, std::size_t second) {
  return static_cast<std::uint64_t>(kind) << 56 | std::uint64_t{family} << 32 |
         std::uint64_t{which} << 16 | std::uint64_t{second};
}

Numbers draw_column(const Beta& beta, std::size_t count, Stream stream) {
  Numbers column(count);
  if (std::max(beta.a, beta.b) < safe_shape) {
    for (double& value : column) value = draw(beta, stream);
    return column;
  }
  const GammaDraw a(beta.a);
  const GammaDraw b(beta.b);
  for (double& value : column) {
    const double made = a(stream);
    value = made / (made + b(stream));
  }
  return column;
}

double draw_one(const Beta& beta, Stream& stream) {
  if (std::max(beta.a, beta.b) < safe_shape) return draw(beta, stream);
  const double made = GammaDraw(beta.a)(stream);
  return made / (made + GammaDraw(beta.b)(stream));
}

Numbers draw_cells(const CellSource& cell, DrawColumn family, Stream stream) {
  const CellGivenFamily given(cell.shift, cell.departure);
  Numbers column(family.size());
  for (std::size_t i = 0; i < column.size(); ++i)
    column[i] = draw_one(given.posterior(family[i], cell.kappa, cell.of), stream);
  return column;
}

// The standard normals that a joint posterior's scores are made of, a dimension of the net each:
// first those that all quantities share, then each trait's own.
class NormalPlaces {
 public:
  explicit NormalPlaces(const JointSource* joint) {
    if (joint == nullptr) return;
    own_.resize(joint->traits);
    for (std::size_t q = 0; q < joint->quantities.size(); ++q) {
      std::size_t& own = own_[joint->quantities[q].trait];
      own = std::max(own, joint->posterior.scores[q].own.size());
    }
    count_ = joint->posterior.shared;
    for (std::size_t& own : own_) own = std::exchange(count_, count_ + own);
  }

  std::size_t count() const { return count_; }
  std::size_t shared(std::size_t which) const { return which; }
  std::size_t own(std::size_t trait, std::size_t which) const { return own_[trait] + which; }

 private:
  std::vector<std::size_t> own_;  // first dimension, by trait
  std::size_t count_ = 0;
};

void add_times(Numbers& sum, double weight, const Numbers& more) {
  for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += weight * more[i];
}

// Dirichlet: gammas over their sum, a stream a bin.
template <class StreamOf>
std::vector<Numbers> draw_bins(const Numbers& alpha, std::size_t count, const StreamOf& stream) {
  std::vector<Numbers> bins;
  Numbers total(count, 0.0);
  for (std::size_t b = 0; b < alpha.size(); ++b) {
    const GammaDraw gamma(alpha[b]);
    Stream own = stream(b);
    Numbers& column = bins.emplace_back(count);
    for (std::size_t i = 0; i < count; ++i) total[i] += column[i] = gamma(own);
  }
  for (Numbers& column : bins)
    for (std::size_t i = 0; i < count; ++i) column[i] /= total[i];
  return bins;
}

// Where all parameters are so small that every gamma of a draw could underflow.
std::vector<Numbers> draw_sparse_bins(const Numbers& alpha, std::size_t count, Stream stream) {
  std::vector<Numbers> bins(alpha.size(), Numbers(count));
  for (std::size_t i = 0; i < count; ++i) {
    const Numbers shares = draw_dirichlet(alpha, stream);
    for (std::size_t b = 0; b < bins.size(); ++b) bins[b][i] = shares[b];
  }
  return bins;
}

// A gain's columns and how they are read.
struct BinColumns {
  bool drawn = false;
  std::vector<Numbers> numbers;
  std::vector<DrawColumn> columns;
};

struct FamilyColumns {
  std::array<Numbers, rate_count> rate;
  std::array<std::array<Numbers, rate_count>, cell_count> cell;
  std::array<BinColumns, gain_part_count> bins;
};

std::vector<double> at(const std::vector<DrawColumn>& bins, std::size_t i) {
  std::vector<double> shares;
  shares.reserve(bins.size());
  for (const DrawColumn& bin : bins) shares.push_back(bin[i]);
  return shares;
}

}  // namespace

class PlayerDraws::Columns {
 public:
  Columns(DrawSource source, Purpose purpose, const DrawKey& key, std::size_t count)
      : source_(std::move(source)),
        purpose_(purpose),
        key_(key),
        count_(count),
        places_(source_.joint.get()),
        net_(places_.count()),
        normals_(places_.count()),
        families_(std::max<std::size_t>(source_.families.size(), 1)) {}

  std::size_t size() const { return count_; }
  std::size_t families() const { return source_.families.size(); }
  const std::string& name() const { return source_.name; }

  template <class RateVisit, class CellVisit>
  void visit(std::size_t f, PlayerParts parts, const RateVisit& visit_rate,
             const CellVisit& visit_cell);

  DrawColumn rate(std::size_t f, std::size_t r) {
    Numbers& column = families_[f].rate[r];
    if (!column.empty()) return column;
    const auto& beta = source_.families[f].rates[r];
    if (const auto quantity = joint_rate(f, r))
      column = joint_column(*quantity);
    else
      column = beta ? draw_column(*beta, count_, stream(part_of(Kind::rate, f, r, 0)))
                    : Numbers(count_, 0.0);
    return column;
  }

  DrawColumn cell(std::size_t f, std::size_t c, std::size_t r) {
    const FamilySource& source = source_.families[f];
    const bool balanced = c < shell_count && source.differs_by_shell(r);
    if (!balanced && !source.cells[c][r]) return rate(f, r);
    if (families_[f].cell[c][r].empty()) {
      if (balanced)
        fill_shells(f, r);
      else
        fill_cell(f, c, r);
    }
    return families_[f].cell[c][r];
  }

  const std::vector<DrawColumn>& bins(std::size_t f, GainPart part) {
    if (is_shared(part)) f = 0;
    BinColumns& bins = families_[f].bins[static_cast<std::size_t>(part)];
    if (!bins.drawn) fill_bins(bins, f, part);
    return bins.columns;
  }

 private:
  Stream stream(std::uint64_t part) const { return {key_.seed, purpose_, key_.place, part}; }

  std::optional<std::size_t> joint_rate(std::size_t f, std::size_t r) const {
    return source_.joint ? source_.joint->places.rates[f][r] : std::nullopt;
  }

  const Numbers& normals(std::size_t dimension) {
    Numbers& column = normals_[dimension];
    if (!column.empty()) return column;
    column.resize(count_);
    net_.fill(column, dimension, stream(part_of(Kind::normal, 0, dimension, 0)));
    for (double& value : column) value = normal_quantile(value);
    return column;
  }

  /// Draws of slope u + own of a quantity.
  Numbers joint_shifts(std::size_t quantity) {
    const Score& score = source_.joint->posterior.scores[quantity];
    const std::size_t trait = source_.joint->quantities[quantity].trait;
    Numbers column(count_, 0.0);
    for (std::size_t k = 0; k < score.shared.size(); ++k)
      if (score.shared[k] != 0) add_times(column, score.shared[k], normals(places_.shared(k)));
    for (std::size_t i = 0; i < score.own.size(); ++i)
      if (score.own[i] != 0) add_times(column, score.own[i], normals(places_.own(trait, i)));
    const Skewed value(source_.joint->posterior.marginals[quantity]);
    for (double& shift : column) shift = value.at(shift);
    return column;
  }

  Numbers joint_column(std::size_t quantity) {
    const double threshold = source_.joint->quantities[quantity].thresholds.front();
    Numbers column = joint_shifts(quantity);
    for (double& rate : column) rate = logistic(threshold + rate);
    return column;
  }

  std::vector<Numbers> joint_bins(std::size_t quantity) {
    const Quantity& what = source_.joint->quantities[quantity];
    const Numbers shifts = joint_shifts(quantity);
    std::vector<Numbers> bins(what.thresholds.size() + 1, Numbers(count_, 1.0));
    for (std::size_t t = 0; t < what.thresholds.size(); ++t)
      for (std::size_t i = 0; i < count_; ++i) {
        const double above = logistic(what.thresholds[t] + shifts[i]);
        bins[t][i] -= above;
        bins[t + 1][i] = above;
      }
    return bins;
  }

  void fill_cell(std::size_t f, std::size_t c, std::size_t r) {
    const auto& cell = source_.families[f].cells[c][r];
    const DrawColumn family = rate(f, r);
    families_[f].cell[c][r] = cell ? draw_cells(*cell, family, stream(part_of(Kind::cell, f, c, r)))
                                   : Numbers(family.begin(), family.end());
  }

  void fill_shells(std::size_t f, std::size_t r) {
    std::array<double*, shell_count> shells{};
    for (std::size_t s = 0; s < shell_count; ++s) {
      fill_cell(f, s, r);
      shells[s] = families_[f].cell[s][r].data();
    }
    balance_shells(rate(f, r).data(), shells, count_, source_.mix);
  }

  const Numbers& parameters(std::size_t f, GainPart part) const {
    switch (part) {
      case GainPart::depth:
        return source_.families[f].depth;
      case GainPart::yac:
        return source_.families[f].yac;
      case GainPart::run:
        return source_.families[f].run;
      case GainPart::scramble:
        return source_.scramble;
      default:
        return source_.sack;
    }
  }

  void fill_bins(BinColumns& bins, std::size_t f, GainPart part) {
    const Numbers& alpha = parameters(f, part);
    const auto stream_of = [&](std::size_t bin) {
      return stream(part_of(Kind::bin, f, static_cast<std::size_t>(part), bin));
    };
    bins.drawn = true;
    if (alpha.empty()) return;
    if (const auto quantity = source_.joint
                                  ? source_.joint->places.gains[f][static_cast<std::size_t>(part)]
                                  : std::nullopt) {
      bins.numbers = joint_bins(*quantity);
      bins.columns.assign(bins.numbers.begin(), bins.numbers.end());
      return;
    }
    const bool sparse = *std::max_element(alpha.begin(), alpha.end()) < safe_shape;
    bins.numbers = sparse ? draw_sparse_bins(alpha, count_, stream_of(0))
                          : draw_bins(alpha, count_, stream_of);
    bins.columns.assign(bins.numbers.begin(), bins.numbers.end());
  }

  DrawSource source_;
  Purpose purpose_;
  DrawKey key_;
  std::size_t count_;
  NormalPlaces places_;
  ScrambledNet net_;
  std::vector<Numbers> normals_;         // by dimension
  std::vector<FamilyColumns> families_;  // the first one also holds what all families share
};

PlayerDraws::PlayerDraws(std::unique_ptr<Columns> columns) : columns_(std::move(columns)) {}
PlayerDraws::~PlayerDraws() = default;
PlayerDraws::PlayerDraws(PlayerDraws&&) noexcept = default;
PlayerDraws& PlayerDraws::operator=(PlayerDraws&&) noexcept = default;

PlayerDraws PlayerDraws::of_profile(const Profile& profile, const Setting& setting,
                                    const DrawKey& key, std::size_t count) {
  return PlayerDraws(
      std::make_unique<Columns>(source_of(profile, setting), Purpose::player_draw, key, count));
}

PlayerDraws PlayerDraws::of_population(const Setting& setting, const DrawKey& key,
                                       std::size_t count) {
  return PlayerDraws(
      std::make_unique<Columns>(source_of(setting), Purpose::population_draw, key, count));
}

std::size_t PlayerDraws::size() const { return columns_->size(); }

DrawColumn PlayerDraws::rate(std::size_t family, Rate rate) const {
  return columns_->rate(family, static_cast<std::size_t>(rate));
}

DrawColumn PlayerDraws::cell(std::size_t family, Cell cell, Rate rate) const {
  return columns_->cell(family, static_cast<std::size_t>(cell), static_cast<std::size_t>(rate));
}

const std::vector<DrawColumn>& PlayerDraws::bins(GainPart part, std::size_t family) const {
  return columns_->bins(family, part);
}

// Visits the rates and cells of a family that are among the parts.
template <class RateVisit, class CellVisit>
void PlayerDraws::Columns::visit(std::size_t f, PlayerParts parts, const RateVisit& visit_rate,
                                 const CellVisit& visit_cell) {
  const bool all = parts == PlayerParts::all;
  for (std::size_t r = 0; r < rate_count; ++r) {
    const bool played = std::find(played_rates.begin(), played_rates.end(), static_cast<Rate>(r)) !=
                        played_rates.end();
    if (!source_.families[f].rates[r] || (!all && !played)) continue;
    visit_rate(r, rate(f, r));
    for (std::size_t c = 0; c < (all ? cell_count : shell_count); ++c)
      visit_cell(c, r, cell(f, c, r));
  }
}

void PlayerDraws::fill(PlayerParts parts) const {
  const auto drawn = [](const auto&...) {};
  for (std::size_t f = 0; f < columns_->families(); ++f) {
    columns_->visit(f, parts, drawn, drawn);
    for (const GainPart part : {GainPart::depth, GainPart::yac, GainPart::run}) bins(part, f);
  }
  bins(GainPart::scramble);
  bins(GainPart::sack);
}

Player PlayerDraws::player_at(std::size_t i, PlayerParts parts) const {
  Player player;
  player.name = columns_->name();
  player.families.resize(columns_->families());
  for (std::size_t f = 0; f < player.families.size(); ++f) {
    PlayerFamily& family = player.families[f];
    columns_->visit(
        f, parts, [&](std::size_t r, DrawColumn column) { family.rate[r] = column[i]; },
        [&](std::size_t c, std::size_t r, DrawColumn column) { family.cell[c][r] = column[i]; });
    family.depth_bins = at(bins(GainPart::depth, f), i);
    family.yac_bins = at(bins(GainPart::yac, f), i);
    family.run_bins = at(bins(GainPart::run, f), i);
  }
  player.scramble_bins = at(bins(GainPart::scramble), i);
  player.sack_bins = at(bins(GainPart::sack), i);
  return player;
}

}  // namespace callfit
