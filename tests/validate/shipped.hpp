// The shipped professional setting and its average offence.
#pragma once

#include <callfit/drive/drive.hpp>
#include <callfit/files/files.hpp>
#include <callfit/fit/fit.hpp>
#include <callfit/profile/player.hpp>

namespace callfit::shipped {

inline const std::string root = CALLFIT_SOURCE_DIR "/";

inline Setting professional() { return Files().setting(root + "settings/pro.json"); }

inline Scheme league_average() { return Files().scheme(root + "schemes/league-average.json"); }

/// Net values are left at 0: nothing here looks at net points.
inline DriveModel average_drives() {
  const Setting setting = professional();
  const Scheme scheme = league_average();
  NetValues net;
  net.first_and_ten.assign(100, 0.0);
  return compile_drives(average_player(setting), scheme,
                        bind_scheme(scheme, setting).setting_family, setting, net);
}

}  // namespace callfit::shipped
