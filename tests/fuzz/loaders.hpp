// Everything that reads what others wrote, by name: text in, nothing out. Bad text is an
// InputError, which is as it should be; anything else that is thrown, and every crash, is a fault.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit::fuzz {

struct Loader {
  std::string name;
  bool is_json = false;  ///< mutations keep to JSON half of the time
  std::function<void(std::string_view)> read;
  std::function<std::vector<std::string>()> seeds;  ///< from shipped and test data
};

const std::vector<Loader>& loaders();

/// For what takes long: whether a text is among one in `count`. Chosen by the text, so that it is
/// chosen again.
bool is_one_in(std::size_t count, std::string_view text);

/// Throws std::runtime_error that lists the names.
const Loader& loader_named(const std::string& name);

}  // namespace callfit::fuzz
