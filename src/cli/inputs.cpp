#include "cli/inputs.hpp"

#include "cli/console.hpp"

#include <callfit/base/nearest.hpp>
#include <callfit/format/glossary.hpp>
#include <callfit/report/table.hpp>

#include <boost/algorithm/string/join.hpp>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <filesystem>

namespace callfit::cli {
namespace {

namespace fs = std::filesystem;

// The shipped data lies beside an installed program, or in the source tree it was built from.
std::vector<fs::path> data_places() {
  std::vector<fs::path> places;
  // Nothing in the program changes the environment. NOLINTNEXTLINE(concurrency-mt-unsafe)
  if (const char* own = std::getenv("CALLFIT_DATA")) places.emplace_back(own);
  std::error_code ignored;
  const fs::path program = fs::read_symlink("/proc/self/exe", ignored);
  if (!program.empty()) places.push_back(program.parent_path().parent_path() / "share/callfit");
  places.emplace_back(CALLFIT_DATA_DIR);
  places.emplace_back(CALLFIT_SOURCE_DIR);
  return places;
}

Words shipped_names(const std::string& kind) {
  for (const fs::path& place : data_places()) {
    if (!fs::is_directory(place / kind)) continue;
    Words names;
    for (const auto& entry : fs::directory_iterator(place / kind))
      if (entry.path().extension() == ".json" && entry.path().stem().extension().empty() &&
          entry.path().stem() != "families")
        names.push_back(entry.path().stem().string());
    std::sort(names.begin(), names.end());
    return names;
  }
  return {};
}

}  // namespace

std::optional<std::string> shipped_file(const std::string& kind, const std::string& name) {
  for (const fs::path& place : data_places()) {
    const fs::path file = place / kind / (name + ".json");
    std::error_code failed;  // such as a name that no disk takes
    if (fs::is_regular_file(file, failed)) return file.string();
  }
  return std::nullopt;
}

std::string engine_folder() {
  std::error_code failed;
  for (const fs::path& place : data_places())
    if (fs::is_directory(place / "engine", failed)) return (place / "engine").string();
  return (fs::path(CALLFIT_SOURCE_DIR) / "build/page-engine/engine").string();
}

std::string find_data(const std::string& kind, const std::string& name, const std::string& file) {
  std::error_code failed;
  if (fs::is_regular_file(file, failed)) return file;
  if (const auto shipped = shipped_file(kind, name)) return *shipped;
  const std::string what = "no such file, and none of the shipped " + kind + " has that name";
  throw InputError(Finding{{name, 0, ""}, what, suggest(name, shipped_names(kind))});
}

std::string find_data(const std::string& kind, const std::string& name) {
  return find_data(kind, name, name);
}

std::vector<GlossaryEntry> load_glossary(Files& disk) {
  for (const fs::path& place : data_places()) {
    const fs::path file = place / "docs/glossary.md";
    if (fs::is_regular_file(file)) return parse_glossary(disk.read(file.string()));
  }
  throw InputError(
      Finding{{"docs/glossary.md", 0, ""}, "is not there", "install it with the data"});
}

std::string meaning_of(Files& disk, const std::string& word) {
  const auto entries = load_glossary(disk);
  if (const GlossaryEntry* entry = find_entry(entries, word))
    return wrapped(boost::join(entry->words, ", ") + ": " + entry->meaning, text_width);
  const std::string near = nearest_word(word, words_known(disk));
  throw po::error("--help " + word + ": no such word" +
                  (near.empty() ? "" : "; did you mean " + near + "?"));
}

Words words_known(Files& disk) {
  Words known;
  for (const GlossaryEntry& entry : load_glossary(disk))
    known.insert(known.end(), entry.words.begin(), entry.words.end());
  return known;
}

Setting load_setting(Files& disk, const std::string& name) {
  return disk.setting(find_data("settings", name));
}

Scheme load_scheme(Files& disk, const std::string& name) {
  return disk.scheme(find_data("schemes", name));
}

Scheme load_average_scheme(Files& disk, const Setting& setting) {
  return load_scheme(disk, fs::path(setting.average_scheme).stem().string());
}

std::string find_observed_of(const Setting& setting) {
  const Words names = shipped_names("settings/observed");
  for (const std::string& name : names)
    if (name.starts_with(setting.id + "-")) return find_data("settings/observed", name);
  throw InputError(Finding{
      {setting.id, 0, ""},
      "nothing is shipped of what real drives of this setting did",
      "give a table of drives with --drives, or another level's: --observed " + either_of(names)});
}

std::vector<Chart> load_charts(Files& disk, const std::vector<std::string>& files,
                               const Setting& setting, const std::vector<FamilyAlias>& like) {
  const ChartWords words = words_of(setting, like);
  std::vector<Chart> charts;
  charts.reserve(files.size());
  Findings notices;
  for (const std::string& file : files) charts.push_back(disk.chart(file, notices, words));
  print_notices(notices);
  return charts;
}

void add_setting_options(Options& options) {
  options.add_common()("setting",
                       po::value<std::string>()->default_value("college")->value_name("NAME|FILE"),
                       "level of play: a shipped name or a JSON file")(
      "policy", po::value<std::string>()->default_value("table")->value_name("table|best"),
      "fourth downs: common or best choices")(
      "assumed", po::value<double>()->default_value(1)->value_name("X"),
      "what assumed spreads are multiplied by, 0.1 to 10")(
      "end-of-half", "let the half cut off its share of drives");
}

}  // namespace callfit::cli
