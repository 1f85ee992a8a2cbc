// Holds a setting's average offence against what real drives did.
#pragma once

#include <callfit/scheme/scheme.hpp>
#include <callfit/setting/setting.hpp>
#include <callfit/validate/observed.hpp>

#include <optional>
#include <string>
#include <vector>

namespace callfit {

/// Drives of one start: what the model says and what happened.
struct DrivesCompared {
  ObservedDrives observed;
  DriveValues model;
};

struct ValueCompared {
  std::string label;
  Band band;
  double n = 0;  ///< cases observed
  double model = 0;
  double observed = 0;
  double standard_error = 0;  ///< of the observation; 0: unknown

  double difference() const { return model - observed; }
};

enum class ValueUnit { share, points, plays };

/// One table of like values.
struct ValuesCompared {
  std::string id;
  std::string title;
  std::string counts;  ///< what is counted, and in whose favour
  ValueUnit unit = ValueUnit::share;
  std::vector<ValueCompared> rows;
};

/// A difference that was agreed to be small enough, and the largest one found.
struct Target {
  std::string what;
  ValueUnit unit = ValueUnit::share;
  bool relative = false;  ///< the difference is a share of the observation
  double allowed = 0;     ///< absolute difference
  double worst = 0;       ///< the largest difference, with its sign
  std::string where{};    ///< of which row
  std::size_t missed = 0, rows = 0;
  /// Of many counted rows: how many a model that is right would miss by chance, if they were
  /// independent. A miss is then also more than two standard errors.
  std::optional<double> by_chance{};
  std::vector<std::string> beyond{};  ///< the rows missed, with their differences; of such alone

  bool has_data() const { return rows > 0; }
  /// Of many rows: no more are missed than chance allows for, give or take two roots of its number.
  bool met() const;
};

struct ValidationReport {
  std::string setting;
  std::string about, source;
  std::vector<LeftOut> left_out;
  double starts_unknown = 0;
  std::vector<DrivesCompared> drives;  ///< the first one: all
  std::vector<ValuesCompared> values;  ///< only what was observed
  std::vector<Target> targets;
};

/// Solves the setting's average offence in its average scheme exactly and compares. Throws
/// InputError as bind_scheme() does.
ValidationReport validate_setting(const Setting& setting, const Scheme& average_scheme,
                                  const Observed& observed);

}  // namespace callfit
