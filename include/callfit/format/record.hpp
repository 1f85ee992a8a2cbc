// How often odds between real quarterbacks came true, kept beside the settings.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// Pairs of men for which odds were given before a season, from the ahead one's side.
struct RecordBand {
  double low = 0, high = 0;  ///< of the odds
  double pairs = 0;
  double mean_odds = 0;       ///< of the pairs
  double came_true = 0;       ///< share in which he had more points per drive
  double standard_error = 0;  ///< of that
};

struct Record {
  std::string of;  ///< of whom: "professional quarterbacks, 2010-2018"
  std::vector<RecordBand> verdicts;
};

/// A "callfit-record/1" text. Throws InputError, naming `source`, with every fault.
Record parse_record(std::string_view text, const std::string& source);

}  // namespace callfit
