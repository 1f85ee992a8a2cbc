#include <callfit/report/answer_text.hpp>
#include <callfit/report/cautions.hpp>

#include "report/phrases.hpp"

#include <callfit/base/names.hpp>

namespace callfit {
namespace {

std::string place_text(const PackageAnswer& answer) {
  const Package& package = answer.package;
  std::string text;
  if (!package.situation.empty()) text += ", " + plain(package.situation);
  if (package.inside) text += ", inside the " + std::to_string(*package.inside);
  if (package.against) text += ", against " + plain(word(*package.against));
  return text;
}

std::string counts_table(const PackageAnswer& answer) {
  Table table({{"mean per game", Align::left, 50}, {"before"}, {"after"}, {"change"}});
  const auto add = [&](const std::string& name, double before, double after) {
    table.add({name, value_text(Unit::count, before), value_text(Unit::count, after),
               signed_fixed(after - before, 2)});
  };
  add("calls of " + answer.family, answer.before.package_calls, answer.after.package_calls);
  add("planned quarterback runs", answer.before.quarterback_runs, answer.after.quarterback_runs);
  add("touchdowns from the 20 and nearer", answer.before.red_zone_touchdowns,
      answer.after.red_zone_touchdowns);
  return table.text();
}

}  // namespace

std::string package_text(const PackageAnswer& answer) {
  const Package& package = answer.package;
  std::string text = wrapped(stand_text(answer.about) + ", " + answer.family + " on " +
                             percent(package.share) + " more of the calls" + place_text(answer) +
                             ": " + better_sentence(answer.effect) + ".");
  if (package.fade > 0)
    text += wrapped("Surprise: of a share q the part " + value_text(Unit::number, package.fade) +
                    " x q is expected and worth no more than the rest of the mix, so " +
                    percent(answer.surprising) + " of " + percent(package.share) + " counts.");
  text +=
      tape_line(answer.about) + '\n' + counts_table(answer) + '\n' + effects_table(answer.effect);
  if (answer.after.quarterback_runs > answer.before.quarterback_runs)
    text += wrapped(contact_exposure);
  return text;
}

}  // namespace callfit
