// Net values kept beside the setting that they follow from, so that they need not be worked out at
// every start.
#pragma once

#include <callfit/drive/drive.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace callfit {

/// The values of a "callfit-net-values/1" text, to the last bit; nullopt where they follow from
/// something else than `expected_key` (net_values_key) names. Throws InputError, naming `source`,
/// where the text is no such file.
std::optional<NetValues> parse_net_values(std::string_view text, const std::string& source,
                                          std::uint64_t expected_key);

std::string net_values_to_json(const NetValues& values, std::uint64_t key);

}  // namespace callfit
