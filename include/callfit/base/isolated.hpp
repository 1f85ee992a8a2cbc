// Names inside sentences.
#pragma once

#include <string>

namespace callfit {

/// Marks (FSI ... PDI) around a name so that its direction does not disturb the sentence.
// The marks are the point. NOLINTNEXTLINE(misc-misleading-bidirectional)
inline std::string isolated(const std::string& name) { return "\u2068" + name + "\u2069"; }

}  // namespace callfit
