#pragma once

#include <string>
#include <string_view>

namespace callfit {

/// The text with control characters (C0, C1 and DEL) written out as "\u001b": a terminal obeys
/// them. Those in `kept` stay.
std::string visible(std::string_view text, std::string_view kept = {});

/// At most some 40 bytes of the text, whole characters of UTF-8; "..." tells that more follow.
std::string shortened(std::string_view text);

}  // namespace callfit
