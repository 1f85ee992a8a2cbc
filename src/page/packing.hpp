// gzip (RFC 1952), which browsers unpack by themselves.
#pragma once

#include <string>
#include <string_view>

namespace callfit::page {

/// The same bytes for the same text: without name and time.
std::string gzipped(std::string_view bytes);

}  // namespace callfit::page
