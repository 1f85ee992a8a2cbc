#pragma once

#include <callfit/format/beside.hpp>

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <string_view>

namespace callfit {

/// The document laid over those that it is based on. Throws InputError.
nlohmann::json merged_setting(std::string_view text, const std::string& source,
                              const Beside& beside);

}  // namespace callfit
