// Halves of files that a kill left behind.
#pragma once

#include <cstddef>
#include <string>

namespace callfit {

/// Removes from a folder the files of Files::write() that never got their name, and says how many
/// there were. One that is being written is locked by whoever writes it, until it has its name; the
/// system lets go of the lock when the process ends, however it does. What is younger than a minute
/// stays too: it may have been made and not locked yet. Where the lock cannot be had, as in folders
/// that know none, nothing is removed.
std::size_t remove_left_parts(const std::string& folder);

}  // namespace callfit
