#include <callfit/report/question_reports.hpp>
#include <callfit/report/table.hpp>

namespace callfit {
namespace {

std::string place_text(const Package& package, const Scheme& scheme) {
  std::string text;
  for (const CallSituation& situation : scheme.situations)
    if (situation.id == package.situation) text = ", " + situation.label;
  if (package.inside) text += ", inside the " + std::to_string(*package.inside);
  if (package.against) text += ", against " + plain(word(*package.against));
  return text;
}

std::string family_label(const Package& package, const Scheme& scheme) {
  const std::size_t family = scheme.find_family(package.family);
  return family < scheme.families.size() ? scheme.families[family].label : package.family;
}

std::string counts_table(const PackageResult& result, const std::string& label) {
  Table table({{"per game", Align::left, 50}, {"before"}, {"after"}, {"change"}});
  const auto add = [&](const std::string& name, double before, double after, int decimals) {
    table.add({name, fixed(before, decimals), fixed(after, decimals),
               signed_fixed(after - before, decimals)});
  };
  add("calls of " + label, result.before.package_calls, result.after.package_calls, 2);
  add("planned quarterback runs", result.before.quarterback_runs, result.after.quarterback_runs, 2);
  add("touchdowns from the 20 and nearer", result.before.red_zone_touchdowns,
      result.after.red_zone_touchdowns, 3);
  return table.text();
}

}  // namespace

std::string package_text(const PackageResult& result, const Package& package,
                         const std::string& player, const Scheme& scheme) {
  const std::string label = family_label(package, scheme);
  std::string text =
      wrapped(player + " in " + scheme.name + ", " + label + " on " + percent(package.share) +
                  " more of the calls" + place_text(package, scheme) + ": " +
                  change_claim(result.effect.net_per_game.change, "net points a game") + ".",
              100);
  if (package.fade > 0)
    text += wrapped("Surprise: of a share q the part " + fixed(package.fade, 2) +
                        " x q is expected and worth no more than the rest of the mix, so " +
                        percent(result.surprising) + " of " + percent(package.share) + " counts.",
                    100);
  text += '\n' + counts_table(result, label);
  const Effect& drive = result.effect.points_per_drive;
  text += "\npoints per drive " + fixed(drive.before.value, 3) + " to " +
          fixed(drive.after.value, 3) + ", change " + signed_fixed(drive.change.value, 3) +
          " (90% interval " + range(drive.change.interval90, 3, true) + ")\n";
  if (result.after.quarterback_runs > result.before.quarterback_runs)
    text +=
        "Designed quarterback runs raise contact exposure; return to play is for licensed "
        "medical staff.\n";
  return text;
}

}  // namespace callfit
