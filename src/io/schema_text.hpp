// The shipped JSON Schemas, built into the library.
#pragma once

#include <string_view>

namespace callfit {

/// Text of docs/formats/<name>.schema.json; empty for an unknown name.
std::string_view schema_text(std::string_view name);

}  // namespace callfit
