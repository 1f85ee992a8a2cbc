#include <callfit/report/number_text.hpp>
#include <callfit/report/reports.hpp>
#include <callfit/report/table.hpp>

#include <algorithm>

namespace callfit {
namespace {

std::string band(const Band& b, int lowest, int highest) {
  const int low = std::max(b.low, lowest);
  const int high = std::min(b.high, highest);
  if (low == lowest && high == highest) return "any";
  return low == high ? std::to_string(low) : std::to_string(low) + "-" + std::to_string(high);
}

}  // namespace

std::string scheme_text(const Scheme& scheme) {
  std::vector<Column> columns{{"call shares", Align::left, 24}};
  for (std::size_t s = 0; s < scheme.situations.size(); ++s)
    columns.push_back({"(" + std::to_string(s + 1) + ")"});
  Table shares(std::move(columns));
  for (std::size_t f = 0; f < scheme.families.size(); ++f) {
    std::vector<std::string> cells{scheme.families[f].label};
    for (const CallSituation& situation : scheme.situations)
      cells.push_back(percent(situation.share[f]));
    shares.add(std::move(cells));
  }
  Table rules(
      {{"", Align::left}, {"situation", Align::left}, {"down"}, {"to go"}, {"to goal"}, {"snaps"}});
  for (std::size_t s = 0; s < scheme.situations.size(); ++s) {
    const CallSituation& situation = scheme.situations[s];
    rules.add({"(" + std::to_string(s + 1) + ")", situation.label, band(situation.when.down, 1, 4),
               band(situation.when.to_go, 1, 99), band(situation.when.yards_to_goal, 1, 99),
               situation.snaps > 0 ? fixed(situation.snaps, 0) : ""});
  }
  return scheme.name + "\n" + wrapped(scheme.about, 100) + "\n" + rules.text() + "\n" +
         shares.text();
}

}  // namespace callfit
