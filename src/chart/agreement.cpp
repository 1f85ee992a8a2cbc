#include <callfit/chart/agreement.hpp>

#include <algorithm>
#include <cstdlib>
#include <map>

namespace callfit {
namespace {

/// What one person charted in one column: the text for lists, the class for kappa, the number for
/// differences. Blank when `text` is empty.
struct Charted {
  std::string text;
  std::string category;
  std::optional<int> number;
};

Charted of_word(std::string_view text) { return {std::string(text), std::string(text), {}}; }

Charted of_flag(const std::optional<bool>& flag) {
  return flag ? of_word(*flag ? "yes" : "no") : Charted{};
}

template <class Enum>
Charted of_enum(const std::optional<Enum>& value) {
  return value ? of_word(word(*value)) : Charted{};
}

Charted of_number(const std::optional<int>& number) {
  if (!number) return {};
  return {std::to_string(*number), std::to_string(*number), number};
}

Charted of_depth(const Snap& snap) {
  Charted depth = of_number(snap.air_yards);
  for (const Cell cell : {Cell::short_throw, Cell::intermediate_throw, Cell::deep_throw})
    if (in_cell(snap, cell)) depth.category = word(cell);
  return depth;
}

Charted of_evaded(const Snap& snap) {
  Charted evaded = of_number(snap.evaded);
  if (snap.evaded) evaded.category = *snap.evaded > 0 ? "some" : "none";
  return evaded;
}

Charted charted(const Snap& snap, ChartColumn column) {
  switch (column) {
    case ChartColumn::level:
      return of_word(snap.level);
    case ChartColumn::down:
      return of_number(snap.down);
    case ChartColumn::to_go:
      return of_number(snap.to_go);
    case ChartColumn::yards_to_goal:
      return of_number(snap.yards_to_goal);
    case ChartColumn::family:
      return of_word(snap.family);
    case ChartColumn::result:
      return of_word(word(snap.result));
    case ChartColumn::yards:
      return of_number(snap.yards);
    case ChartColumn::quarter:
      return of_number(snap.quarter);
    case ChartColumn::shell:
      return of_enum(snap.shell);
    case ChartColumn::platform:
      return of_enum(snap.platform);
    case ChartColumn::pressure:
      return of_flag(snap.pressure);
    case ChartColumn::air_yards:
      return of_depth(snap);
    case ChartColumn::lane:
      return of_enum(snap.lane);
    case ChartColumn::on_time:
      return of_flag(snap.on_time);
    case ChartColumn::catchable:
      return of_flag(snap.catchable);
    case ChartColumn::yac:
      return of_number(snap.yac);
    case ChartColumn::evaded:
      return of_evaded(snap);
    case ChartColumn::fumble_lost:
      return of_flag(snap.fumble_lost);
    default:
      return {};
  }
}

/// Counts pairs of categories, which get their index as they come.
class CategoryTable {
 public:
  void add(const std::string& first, const std::string& second) {
    cells_.emplace_back(index_of(first), index_of(second));
  }

  std::vector<std::vector<double>> table() const {
    std::vector<std::vector<double>> counts(index_.size(), std::vector<double>(index_.size(), 0.0));
    for (const auto& [i, j] : cells_) counts[i][j] += 1;
    return counts;
  }

 private:
  std::size_t index_of(const std::string& category) {
    return index_.try_emplace(category, index_.size()).first->second;
  }

  std::map<std::string, std::size_t> index_;
  std::vector<std::pair<std::size_t, std::size_t>> cells_;
};

ColumnAgreement compare_column(ChartColumn column, const Chart& first, const Chart& second,
                               const std::vector<SnapPair>& pairs,
                               std::vector<Disagreement>& disagreements) {
  ColumnAgreement result;
  result.column = column;
  CategoryTable categories;
  double difference = 0;
  for (const SnapPair& pair : pairs) {
    const Charted a = charted(first.snaps[pair.first], column);
    const Charted b = charted(second.snaps[pair.second], column);
    if (a.text.empty() || b.text.empty()) {
      if (!a.text.empty()) ++result.only_first;
      if (!b.text.empty()) ++result.only_second;
      continue;
    }
    ++result.both;
    categories.add(a.category, b.category);
    if (a.number && b.number) {
      result.is_number = true;
      difference += std::abs(*a.number - *b.number);
    }
    if (a.text == b.text)
      ++result.same;
    else
      disagreements.push_back({pair, column, a.text, b.text});
  }
  result.kappa = cohen_kappa(categories.table());
  if (result.both > 0) result.mean_difference = difference / static_cast<double>(result.both);
  return result;
}

void count(const Snap& snap, Rate rate, const SuccessRule& rule, double& made, double& of) {
  const std::optional<bool> outcome = trial(snap, rate, rule);
  if (!outcome) return;
  of += 1;
  made += *outcome ? 1 : 0;
}

std::vector<RateEffect> effects_of(const Chart& first, const Chart& second,
                                   const std::vector<SnapPair>& pairs, const SuccessRule& rule) {
  std::vector<RateEffect> effects;
  for (std::size_t r = 0; r < rate_count; ++r) {
    RateEffect effect;
    effect.rate = static_cast<Rate>(r);
    for (const SnapPair& pair : pairs) {
      count(first.snaps[pair.first], effect.rate, rule, effect.first_made, effect.first_of);
      count(second.snaps[pair.second], effect.rate, rule, effect.second_made, effect.second_of);
    }
    if (effect.first_of > 0 && effect.second_of > 0) effects.push_back(effect);
  }
  return effects;
}

}  // namespace

bool is_compared(ChartColumn column) {
  switch (column) {
    case ChartColumn::game:
    case ChartColumn::opponent:
    case ChartColumn::note:
    case ChartColumn::snap_id:
    case ChartColumn::season:
    case ChartColumn::team:
    case ChartColumn::clip:
    case ChartColumn::start:
    case ChartColumn::end:
      return false;
    default:
      return true;
  }
}

Agreement agreement(const Chart& first, const Chart& second, const SuccessRule& rule) {
  Agreement result;
  result.pairing = pair_snaps(first, second);
  for (std::size_t c = 0; c < column_count; ++c) {
    if (!is_compared(static_cast<ChartColumn>(c))) continue;
    const ColumnAgreement column = compare_column(static_cast<ChartColumn>(c), first, second,
                                                  result.pairing.pairs, result.disagreements);
    if (column.both + column.only_first + column.only_second > 0) result.columns.push_back(column);
  }
  std::stable_sort(
      result.disagreements.begin(), result.disagreements.end(),
      [](const Disagreement& a, const Disagreement& b) { return a.pair.first < b.pair.first; });
  result.effects = effects_of(first, second, result.pairing.pairs, rule);
  return result;
}

}  // namespace callfit
