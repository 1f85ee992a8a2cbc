// What all benchmarks work on: the average professional quarterback in the average scheme.
#pragma once

#include <callfit/drive/drive.hpp>
#include <callfit/files/files.hpp>
#include <callfit/fit/fit.hpp>

#include <string>
#include <vector>

inline std::string shipped(const std::string& file) {
  return std::string(CALLFIT_SOURCE_DIR) + "/" + file;
}

struct Workload {
  callfit::Setting setting = callfit::Files().setting(shipped("settings/pro.json"));
  callfit::Scheme scheme = callfit::Files().scheme(shipped("schemes/league-average.json"));
  std::vector<std::size_t> families = callfit::bind_scheme(scheme, setting).setting_family;
  callfit::NetValues net = callfit::average_net_values(setting, scheme);
  callfit::DrivePlan plan{scheme, families, setting, net};
  callfit::Player player = callfit::average_player(setting);
  callfit::DriveModel model = plan.compile(player);
  std::vector<double> starts = callfit::start_shares(setting);
};
