// A short run of what scripts/fuzz does for long, without its feedback: every loader reads its
// seeds, the corpus kept beside this file, and changes of both.
#include "loaders.hpp"
#include "shake.hpp"
#include "small.hpp"

#include <callfit/base/finding.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <sstream>

using namespace callfit;
using namespace callfit::fuzz;

namespace {

namespace fs = std::filesystem;

constexpr std::size_t bytes_read = 1U << 21U;  // by each loader
constexpr std::size_t patience = 8;            // times as many where all are refused
constexpr std::size_t most_inputs = 2'000;
constexpr std::size_t longest_input = 40'000;

std::vector<std::string> dictionary() {
  std::vector<std::string> words{",",     "\n",  "\"",   "-1",
                                 "1e308", "nan", "\xff", std::string(1, '\0')};
  std::istringstream lines(file("tests/fuzz/words.dict"));
  for (std::string line; std::getline(lines, line);)
    if (line.starts_with('"')) words.push_back(line.substr(1, line.size() - 2));
  return words;
}

/// The seeds, then what is kept.
std::vector<std::string> corpus(const Loader& loader, std::vector<std::string> texts) {
  std::vector<std::string> paths;
  const std::string folder = std::string("tests/fuzz/corpus/") + loader.name;
  const fs::path here = std::string(CALLFIT_SOURCE_DIR "/") + folder;
  if (fs::exists(here))
    for (const auto& entry : fs::directory_iterator(here))
      paths.push_back(folder + "/" + entry.path().filename().string());
  std::sort(paths.begin(), paths.end());
  for (const std::string& path : paths) texts.push_back(file(path));
  return texts;
}

std::string shaken(const std::string& text, bool is_json, const std::vector<std::string>& words,
                   const std::string& other, Dice& dice) {
  std::string out = text;
  for (auto changes = 1 + dice() % 4; changes > 0; --changes) {
    std::string next = is_json && dice() % 4 != 0 ? shaken_json(out, dice) : "";
    out = next.empty() ? shaken_bytes(out, words, other, dice) : next;
  }
  return out.substr(0, longest_input);
}

/// Why it is refused; empty where it is read.
std::string refusal(const Loader& loader, const std::string& text) {
  try {
    loader.read(text);
  } catch (const InputError& error) {
    return error.what();
  }
  return {};
}

/// Whether it was read; bad input is refused with a reason, and nothing else is thrown.
bool reads(const Loader& loader, const std::string& text) {
  try {
    loader.read(text);
    return true;
  } catch (const InputError& error) {
    CHECK_FALSE(std::string(error.what()).empty());
  }
  return false;
}

struct Counts {
  std::size_t inputs = 0;
  std::size_t read = 0;
};

/// Half of the changes begin with a seed, since most of the kept corpus is refused as it is.
/// `texts` begins with the seeds.
Counts feed_broken(const Loader& loader, const std::vector<std::string>& texts, std::size_t seeds) {
  static const std::vector<std::string> words = dictionary();
  Dice dice(1);
  Counts counts;
  std::size_t bytes = 0;
  const auto goes_on = [&counts, &bytes] {
    return bytes < (counts.read > 0 ? 1 : patience) * bytes_read && counts.inputs < most_inputs;
  };
  for (; goes_on(); ++counts.inputs) {
    const std::string& text = texts[dice() % (dice() % 2 == 0 ? seeds : texts.size())];
    const std::string input =
        shaken(text, loader.is_json, words, texts[dice() % texts.size()], dice);
    INFO("input " << counts.inputs << ": " << input);
    bytes += input.size() + 1;
    if (reads(loader, input)) ++counts.read;
  }
  return counts;
}

void feed(bool json_loaders) {
  std::size_t refused = 0;
  for (const Loader& loader : loaders()) {
    if (loader.is_json != json_loaders) continue;
    INFO(loader.name);
    const std::vector<std::string> seeds = loader.seeds();
    for (const std::string& seed : seeds) CHECK(refusal(loader, seed) == "");
    const std::vector<std::string> texts = corpus(loader, seeds);
    for (const std::string& text : texts) reads(loader, text);
    const Counts counts = feed_broken(loader, texts, seeds.size());
    CHECK(counts.read > 0);  // changes that leave nothing readable find nothing behind a refusal
    refused += counts.inputs - counts.read;
  }
  CHECK(refused > most_inputs);
}

}  // namespace

TEST_CASE("broken tables, words and pictures are read or refused", "[slow]") { feed(false); }
TEST_CASE("broken JSON is read or refused", "[slow]") { feed(true); }
