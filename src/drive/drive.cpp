#include <callfit/drive/drive.hpp>
#include <drive/table.hpp>

#include <array>

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
  drive::lay_out_slices(*plan);
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

DriveModel DrivePlan::compile(const Player& player) const {
  return DriveModel(std::make_shared<const drive::Table>(drive::compile(plan_, player)));
}

DriveModel compile_drives(const Player& player, const Scheme& scheme,
                          const std::vector<std::size_t>& scheme_family, const Setting& setting,
                          const NetValues& net, const DriveOptions& options) {
  return DrivePlan(scheme, scheme_family, setting, net, options).compile(player);
}

}  // namespace callfit
