#include <callfit/drive/drive.hpp>
#include <drive/table.hpp>

#include <algorithm>
#include <array>
#include <stdexcept>
#include <utility>

namespace callfit {
namespace {

std::shared_ptr<const drive::Plan> make_plan(const Scheme& scheme,
                                             const std::vector<std::size_t>& scheme_family,
                                             const Setting& setting, const NetValues& net,
                                             const DriveOptions& options) {
  auto plan = std::make_shared<drive::Plan>();
  plan->setting = setting;
  plan->scheme = scheme;
  plan->scheme_family = scheme_family;
  plan->options = options;
  if (options.end_of_half) plan->half_hazard = net.half_hazard;
  drive::find_contexts(*plan);
  drive::find_plays(*plan);
  drive::weigh_calls(*plan);
  drive::find_penalties(*plan);
  plan->endings = drive::make_endings(setting);
  plan->points = drive::points_column(setting.rules);
  plan->net = drive::net_column(setting.rules, net);
  plan->point_rewards = drive::make_rewards(*plan, std::array{plan->points, plan->net});
  return plan;
}

}  // namespace

DrivePlan::DrivePlan(const Scheme& scheme, const std::vector<std::size_t>& scheme_family,
                     const Setting& setting, const NetValues& net, const DriveOptions& options)
    : plan_(make_plan(scheme, scheme_family, setting, net, options)) {}

DrivePlan DrivePlan::with_calls(const Scheme& scheme) const {
  const std::vector<CallSituation>& known = plan_->scheme.situations;
  const bool alike =
      scheme.families.size() == plan_->scheme.families.size() &&
      std::equal(scheme.situations.begin(), scheme.situations.end(), known.begin(), known.end(),
                 [](const auto& a, const auto& b) { return a.when == b.when; });
  if (!alike)
    throw std::invalid_argument("with_calls: the scheme has other families or situations");
  auto plan = std::make_shared<drive::Plan>(*plan_);
  plan->scheme = scheme;
  drive::weigh_calls(*plan);
  return DrivePlan(std::move(plan));
}

DrivePlan DrivePlan::with_shells(const std::vector<ShellRule>& shells) const {
  const std::vector<ShellRule>& known = plan_->setting.shells;
  const bool alike = std::equal(shells.begin(), shells.end(), known.begin(), known.end(),
                                [](const auto& a, const auto& b) { return a.when == b.when; });
  if (!alike) throw std::invalid_argument("with_shells: the rules are for other situations");
  auto plan = std::make_shared<drive::Plan>(*plan_);
  plan->setting.shells = shells;
  drive::weigh_calls(*plan);
  return DrivePlan(std::move(plan));
}

DriveModel DrivePlan::compile(const Player& player) const {
  return DriveModel(std::make_shared<const drive::Table>(drive::compile(plan_, player)));
}

DriveModel compile_drives(const Player& player, const Scheme& scheme,
                          const std::vector<std::size_t>& scheme_family, const Setting& setting,
                          const NetValues& net, const DriveOptions& options) {
  return DrivePlan(scheme, scheme_family, setting, net, options).compile(player);
}

}  // namespace callfit
