// One libFuzzer program for every loader; the variable CALLFIT_LOADER says which. With
// CALLFIT_SEEDS=FOLDER it writes that loader's seeds and ends.
#include "loaders.hpp"

#include <callfit/base/finding.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <random>

using callfit::fuzz::Loader;
using nlohmann::json;

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t most);
extern "C" int LLVMFuzzerInitialize(int* count, char*** words);
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);
extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size,
                                               std::size_t most, unsigned seed);

namespace {

std::string variable(const char* name) {
  const char* value = std::getenv(name);  // NOLINT(concurrency-mt-unsafe): before any thread
  return value == nullptr ? "" : value;
}

const Loader& loader() {
  static const Loader& one = callfit::fuzz::loader_named(variable("CALLFIT_LOADER"));
  return one;
}

void write_seeds(const std::string& folder) {
  int number = 0;
  for (const std::string& seed : loader().seeds())
    std::ofstream(folder + "/seed-" + std::to_string(++number), std::ios::binary) << seed;
}

/// Changes of a document that stays JSON, so that what lies behind the parser is reached.
class Shaker {
 public:
  explicit Shaker(unsigned seed) : dice_(seed) {}

  void shake(json& document) {
    json* node = &document;
    while (node->is_structured() && !node->empty() && below(8) != 0) {
      auto entry = node->begin();
      std::advance(entry, static_cast<std::ptrdiff_t>(below(node->size())));
      if (below(16) == 0) {
        change_entry(*node, entry);
        return;
      }
      node = &*entry;
    }
    *node = value(document, *node);
  }

 private:
  std::size_t below(std::size_t n) { return dice_() % n; }

  const json& any_part(const json& document) {
    const json* node = &document;
    while (node->is_structured() && !node->empty() && below(4) != 0) {
      auto entry = node->begin();
      std::advance(entry, static_cast<std::ptrdiff_t>(below(node->size())));
      node = &*entry;
    }
    return *node;
  }

  void change_entry(json& parent, json::iterator entry) {
    const bool object = parent.is_object();
    switch (below(3)) {
      case 0:
        parent.erase(entry);
        break;
      case 1:
        if (object)
          parent[entry.key() + "x"] = *entry;
        else
          parent.push_back(json(*entry));
        break;
      default:
        if (object) parent["x"] = json(*entry);
        *entry = nullptr;
    }
  }

  json value(const json& document, const json& old) {
    static const std::vector<json> values{nullptr,
                                          true,
                                          false,
                                          0,
                                          1,
                                          -1,
                                          2,
                                          99,
                                          100,
                                          1e300,
                                          -1e300,
                                          1e-17,
                                          5e-324,
                                          0.5,
                                          1e6,
                                          1e9,
                                          4294967296LL,
                                          -9223372036854775807LL,
                                          "",
                                          "boot",
                                          "x~/",
                                          json::array(),
                                          json::object()};
    switch (below(5)) {
      case 0:
        return any_part(document);
      case 1:
        if (old.is_number()) return old.get<double>() * (below(2) == 0 ? -1 : 1.5);
        if (old.is_string()) return old.get<std::string>() + std::string(1 + below(300), 'y');
        return json::array({old, old});
      case 2:
        if (old.is_number()) return old.get<double>() + (below(2) == 0 ? 1e-9 : 1);
        return static_cast<double>(below(1000)) / 999;
      default:
        return values[below(values.size())];
    }
  }

  std::minstd_rand dice_;
};

}  // namespace

int LLVMFuzzerInitialize(int* /*count*/, char*** /*words*/) {
  const std::string folder = variable("CALLFIT_SEEDS");
  try {
    if (folder.empty()) {
      loader();
      return 0;
    }
    write_seeds(folder);
  } catch (const std::exception& error) {
    std::cerr << error.what() << '\n';
    std::exit(1);  // NOLINT(concurrency-mt-unsafe)
  }
  std::exit(0);  // NOLINT(concurrency-mt-unsafe)
}

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  try {
    loader().read({reinterpret_cast<const char*>(data), size});
  } catch (const callfit::InputError& error) {
    if (std::string(error.what()).empty()) std::abort();  // a refusal says why
  }
  return 0;
}

std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t most,
                                    unsigned seed) {
  if (!loader().is_json || seed % 4 == 0) return LLVMFuzzerMutate(data, size, most);
  json document = json::parse(data, data + size, nullptr, false);
  if (document.is_discarded()) return LLVMFuzzerMutate(data, size, most);
  Shaker(seed).shake(document);
  const std::string text = document.dump(-1, ' ', false, json::error_handler_t::replace);
  if (text.size() > most) return LLVMFuzzerMutate(data, size, most);
  std::copy(text.begin(), text.end(), data);
  return text.size();
}
