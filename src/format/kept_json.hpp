// A kept answer inside other JSON.
#pragma once

#include <callfit/ask/answer.hpp>
#include <format/part.hpp>

#include <nlohmann/json.hpp>

namespace callfit {

KeptAnswer kept_from(Fields& fields);
nlohmann::ordered_json kept_json(const KeptAnswer& kept);

}  // namespace callfit
