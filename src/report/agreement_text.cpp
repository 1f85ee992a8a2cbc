#include <callfit/report/agreement_text.hpp>
#include <callfit/report/number_text.hpp>
#include <callfit/report/table.hpp>

#include <algorithm>
#include <utility>

namespace callfit {
namespace {

std::string count(std::size_t n) { return n > 0 ? std::to_string(n) : ""; }

std::string of(double made, double trials) { return fixed(made, 0) + "/" + fixed(trials, 0); }

std::string table_text(const TableCells& cells, const std::vector<Align>& aligns) {
  std::vector<Column> columns;
  for (std::size_t c = 0; c < aligns.size(); ++c) columns.push_back({cells.front()[c], aligns[c]});
  Table table(std::move(columns));
  for (std::size_t row = 1; row < cells.size(); ++row) table.add(cells[row]);
  return table.text();
}

std::string columns_text(const Agreement& result) {
  using enum Align;
  return table_text(column_cells(result),
                    {left, right, right, right, right, right, left, left, right});
}

std::string effects_text(const Agreement& result) {
  using enum Align;
  return table_text(effect_cells(result), {left, right, right, right, right, right});
}

std::string rows_text(const Agreement& result, const Chart& first, const Chart& second,
                      std::size_t rows) {
  Table table(
      {{"line A"}, {"line B"}, {"column", Align::left}, {"A", Align::left}, {"B", Align::left}});
  const std::size_t shown = std::min(rows, result.disagreements.size());
  for (std::size_t i = 0; i < shown; ++i) {
    const Disagreement& one = result.disagreements[i];
    table.add({std::to_string(first.snaps[one.pair.first].line),
               std::to_string(second.snaps[one.pair.second].line), std::string(word(one.column)),
               one.first, one.second});
  }
  std::string text = table.text();
  if (shown < result.disagreements.size())
    text += "... and " + std::to_string(result.disagreements.size() - shown) + " more\n";
  return text;
}

}  // namespace

std::string_view kappa_word(double kappa) {
  if (kappa < 0) return "poor";
  if (kappa <= 0.2) return "slight";
  if (kappa <= 0.4) return "fair";
  if (kappa <= 0.6) return "moderate";
  return kappa <= 0.8 ? "substantial" : "almost perfect";
}

std::string pairing_words(const Agreement& result) {
  const Pairing& pairing = result.pairing;
  return std::to_string(pairing.pairs.size()) + " snaps in both, " +
         std::to_string(pairing.only_first.size()) + " only in A, " +
         std::to_string(pairing.only_second.size()) + " only in B.";
}

TableCells column_cells(const Agreement& result) {
  TableCells cells{
      {"column", "both", "only A", "only B", "same", "kappa", "90%", "agreement", "mean |A-B|"}};
  for (const ColumnAgreement& column : result.columns) {
    const double both = static_cast<double>(column.both);
    const bool some = column.both > 0;
    cells.push_back({std::string(word(column.column)), count(column.both), count(column.only_first),
                     count(column.only_second),
                     some ? percent(static_cast<double>(column.same) / both) : "",
                     column.kappa ? fixed(column.kappa->value, 2) : "",
                     column.kappa ? range(Interval{column.kappa->low, column.kappa->high}, 2) : "",
                     column.kappa ? std::string(kappa_word(column.kappa->value)) : "",
                     some && column.is_number ? fixed(column.mean_difference, 2) : ""});
  }
  return cells;
}

TableCells effect_cells(const Agreement& result) {
  TableCells cells{{"rate", "A", "B", "A made/of", "B made/of", "B - A"}};
  for (const RateEffect& effect : result.effects) {
    const double first = effect.first_made / effect.first_of;
    const double second = effect.second_made / effect.second_of;
    cells.push_back({std::string(word(effect.rate)), percent(first), percent(second),
                     of(effect.first_made, effect.first_of),
                     of(effect.second_made, effect.second_of),
                     signed_fixed(100 * (second - first), 1) + " points"});
  }
  return cells;
}

std::string agreement_text(const Agreement& result, const Chart& first, const Chart& second,
                           std::size_t rows) {
  std::string text =
      "A: " + first.source + "\nB: " + second.source + "\n" + pairing_words(result) + "\n";
  if (result.pairing.pairs.empty())
    return text + "Nothing to compare: give both charts the same game names, or snap ids.\n";
  text += "\n" + columns_text(result);
  text += std::string(kappa_meaning) + "\n";
  if (!result.effects.empty())
    text += "\n" + std::string(effects_head) + "\n" + effects_text(result);
  if (result.disagreements.empty()) return text + "\nNo row disagrees.\n";
  return text + "\nRows that disagree\n" + rows_text(result, first, second, rows);
}

}  // namespace callfit
