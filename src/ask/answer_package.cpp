#include <ask/answers.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/drive/adjoint.hpp>
#include <callfit/drive/course.hpp>

#include <cmath>

namespace callfit::ask {
namespace {

void require(const Package& package) {
  if (!(package.share >= 0 && package.share <= 1))
    refuse_at("/package/share", "is no share", "take 0 to 1, or 0% to 100%");
  if (!(package.fade >= 0) || !std::isfinite(package.fade))
    refuse_at("/package/fade", "cannot be below 0", "take 0 or more");
  if (package.inside && (*package.inside < 1 || *package.inside > 99))
    refuse_at("/package/inside_yards", "is no yard line", "take 1 to 99 yards from the goal");
}

GameCounts counts_of(const Standing& standing, const Scheme& called, const std::string& family) {
  Question asked = standing.question;
  asked.scheme = called;
  const DriveCounts counts =
      counts_over(plan_of(asked).compile(*standing.mean), standing.matchup->starts);
  const double drives = standing.drives_per_game();
  GameCounts game;
  for (std::size_t f = 0; f < called.families.size(); ++f) {
    if (called.families[f].id == family) game.package_calls += counts.calls[f] * drives;
    if (called.families[f].kind == FamilyKind::qb_run)
      game.quarterback_runs += counts.calls[f] * drives;
  }
  for (std::size_t spot = 1; spot <= red_zone_from; ++spot)
    game.red_zone_touchdowns += counts.touchdowns[spot] * drives;
  return game;
}

}  // namespace

// Points and touchdowns come from the share that surprises, calls and contact from all of it.
PackageAnswer answer(Memory& memory, const PackageRequest& request, const Progress&) {
  const Package& package = request.package;
  require(package);
  Standing& before = memory.standing(request.stand);
  const Scheme& scheme = before.question.scheme;
  PackageAnswer answer;
  answer.package = package;
  answer.about = about_of(memory, before);
  answer.surprising = surprising_share(package.share, package.fade);
  Question question = before.question;
  question.scheme = with_package(scheme, package, answer.surprising);
  answer.family = scheme.families[scheme.find_family(package.family)].label;
  Standing after = memory.turned(before, std::move(question), {true, false, true, false, false});
  answer.effect = effect_of(memory, before, after);
  answer.before = counts_of(before, scheme, package.family);
  answer.after = counts_of(before, with_package(scheme, package, package.share), package.family);
  answer.after.red_zone_touchdowns =
      counts_of(before, after.question.scheme, package.family).red_zone_touchdowns;
  return answer;
}

}  // namespace callfit::ask
