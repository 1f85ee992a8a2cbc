// One libFuzzer program for every loader; the variable CALLFIT_LOADER says which. With
// CALLFIT_SEEDS=FOLDER it writes that loader's seeds and ends.
#include "loaders.hpp"
#include "shake.hpp"

#include <callfit/base/finding.hpp>

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <stdexcept>
#include <string>

using callfit::fuzz::Loader;

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

/// A seed that is refused reaches nothing behind the refusal: it is a fault of the seed.
void write_seeds(const std::string& folder) {
  int number = 0;
  for (const std::string& seed : loader().seeds()) {
    const std::string name = "seed-" + std::to_string(++number);
    std::ofstream(folder + "/" + name, std::ios::binary) << seed;
    try {
      loader().read(seed);
    } catch (const callfit::InputError& error) {
      throw std::runtime_error(loader().name + ": " + name + " is refused: " + error.what());
    }
  }
}

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
  const std::string text =
      callfit::fuzz::shaken_json({reinterpret_cast<const char*>(data), size}, seed);
  if (text.empty() || text.size() > most) return LLVMFuzzerMutate(data, size, most);
  std::copy(text.begin(), text.end(), data);
  return text.size();
}
