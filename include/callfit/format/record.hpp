// How often odds between real quarterbacks came true, kept beside the settings.
#pragma once

#include <callfit/ask/case.hpp>

#include <string>
#include <string_view>

namespace callfit {

/// A "callfit-record/1" text. Throws InputError, naming `source`, with every fault.
Record parse_record(std::string_view text, const std::string& source);

/// The same as JSON; read back, it is the same record.
std::string record_to_json(const Record& record);

}  // namespace callfit
