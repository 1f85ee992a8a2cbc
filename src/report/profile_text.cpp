#include <callfit/report/number_text.hpp>
#include <callfit/report/reports.hpp>
#include <callfit/report/table.hpp>

#include <cmath>

namespace callfit {
namespace {

std::string counted(double raw, double effective) {
  const bool whole = std::abs(raw - effective) < 0.05;
  return fixed(raw, 0) + (whole ? "" : " (" + fixed(effective, 0) + ")");
}

std::string games_table(const Profile& profile) {
  Table table({{"game", Align::left}, {"level", Align::left}, {"snaps"}, {"count for"}});
  for (const GameContribution& game : profile.games)
    table.add({game.game, plain(game.level), fixed(game.snaps, 0), fixed(game.effective_snaps, 1)});
  return table.text();
}

std::string levels_line(const Profile& profile) {
  std::string text = "Weights: a snap counts for";
  for (const Level& level : profile.weighting.levels)
    text += ' ' + fixed(level.weight, 2) + " in " + plain(level.id) + ',';
  text.back() = '.';
  return text + '\n';
}

void add_rates(Table& table, const FamilyProfile& family, const FamilyPopulation& population) {
  bool first = true;
  for (std::size_t r = 0; r < rate_count; ++r) {
    const auto& estimate = family.rates[r];
    if (!estimate) continue;
    const RateCounts& counts = estimate->counts;
    const std::string made =
        counts.of > 0 ? fixed(counts.made, 0) + " of " + fixed(counts.of, 0) : "not charted";
    table.add(
        {first ? population.label : "",
         first ? (family.unseen() ? "unseen" : counted(family.snaps, family.effective_snaps)) : "",
         plain(word(static_cast<Rate>(r))), made, percent(estimate->mean),
         percent_range(estimate->interval90()), percent(population.rates[r]->mean)});
    first = false;
  }
}

std::string rates_table(const Profile& profile, const Setting& setting) {
  Table table({{"family", Align::left, 28},
               {"snaps"},
               {"rate", Align::left},
               {"charted"},
               {"mean"},
               {"90% interval"},
               {"usual"}});
  for (std::size_t f = 0; f < profile.families.size(); ++f)
    add_rates(table, profile.families[f], setting.families[f]);
  return table.text();
}

/// What families without a snap rest on, where one family tells of another.
std::string unseen_text(const Profile& profile, const Setting& setting) {
  if (!profile.joint || profile.snaps() == 0) return {};
  std::string throws;
  std::string runs;
  for (std::size_t f = 0; f < profile.families.size(); ++f) {
    if (!profile.families[f].unseen()) continue;
    const FamilyPopulation& family = setting.families[f];
    std::string& list = family.kind == FamilyKind::pass ? throws : runs;
    list += (list.empty() ? "" : "; ") + family.label;
  }
  std::string text;
  if (!throws.empty()) text += wrapped("Not charted; from his other throws: " + throws + ".");
  if (!runs.empty()) text += wrapped("Not charted; from his other plays: " + runs + ".");
  return text;
}

std::string cells_table(const Profile& profile, const Setting& setting) {
  Table table({{"family", Align::left, 28},
               {"condition", Align::left},
               {"rate", Align::left},
               {"charted"},
               {"mean"},
               {"90% interval"}});
  for (std::size_t f = 0; f < profile.families.size(); ++f)
    for (const CellEstimate& cell : profile.families[f].cells) {
      if (cell.counts.of == 0) continue;
      table.add({setting.families[f].label, plain(word(cell.cell)), plain(word(cell.rate)),
                 fixed(cell.counts.made, 0) + " of " + fixed(cell.counts.of, 0), percent(cell.mean),
                 percent_range(cell.interval)});
    }
  return table.text();
}

}  // namespace

std::string profile_text(const Profile& profile, const Setting& setting) {
  return profile.name + ", " + fixed(profile.snaps(), 0) +
         " charted snaps, pulled toward: " + setting.label + "\n\n" + games_table(profile) +
         levels_line(profile) + '\n' + rates_table(profile, setting) +
         unseen_text(profile, setting) + "\nBy condition\n" + cells_table(profile, setting);
}

}  // namespace callfit
