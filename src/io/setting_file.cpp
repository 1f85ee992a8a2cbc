#include <callfit/base/nearest.hpp>
#include <callfit/io/read_file.hpp>
#include <callfit/io/setting_file.hpp>
#include <io/json_part.hpp>
#include <io/schema.hpp>
#include <io/setting_parts.hpp>

#include <filesystem>
#include <string>
#include <vector>

namespace callfit {
namespace {

using nlohmann::json;

constexpr std::size_t longest_chain = 8;

std::string beside(const std::string& path, const std::string& name) {
  return (std::filesystem::path(path).parent_path() / name).string();
}

/// The file laid over those it is based on; `chain` holds the files on the way here.
json merged(const std::string& path, std::vector<std::string> chain) {
  chain.push_back(path);
  json document = parse_json(read_file(path), path);
  if (!document.is_object() || !document.contains("based_on") ||
      !document.at("based_on").is_string())
    return document;
  if (chain.size() > longest_chain)
    throw InputError(Finding{{path, 0, "/based_on"},
                             "settings are based on each other without end",
                             "let one of them stand alone"});
  json base = merged(beside(path, document.at("based_on").get<std::string>()), chain);
  base.merge_patch(document);
  base.erase("based_on");
  return base;
}

std::vector<Adjustment> adjustments_from(const Part& list,
                                         const std::vector<FamilyPopulation>& families) {
  std::vector<Adjustment> adjustments;
  each_item(list, [&](const Part& part) {
    adjustments.push_back({rule_at(part, "when"), filter_from(part, families), shifts_from(part)});
  });
  return adjustments;
}

void check_level(const Setting& setting, const Part& document) {
  if (setting.find_level(setting.level)) return;
  std::vector<std::string> known;
  for (const Level& level : setting.levels) known.push_back(level.id);
  document.at("level").fault("\"" + setting.level + "\" is none of levels",
                             suggest(setting.level, known));
}

void check_sacks(const Setting& setting, const Part& document) {
  if (setting.sack_gain.shape.last() > 0)
    document.at("shared_gains").at("sack").fault("a sack cannot gain", "give gains of 0 and below");
}

Setting setting_from(const Part& document) {
  Setting setting;
  setting.id = document.text("id");
  setting.label = document.text("label");
  setting.level = document.text("level");
  setting.average_scheme = document.text("average_scheme");
  setting.families = families_from(document.at("families"));
  setting.scramble_gain = gain_from(document.at("shared_gains").at("scramble"));
  setting.sack_gain = gain_from(document.at("shared_gains").at("sack"));
  setting.cells = cells_from(document.at("cells"), setting.families);
  setting.adjustments = adjustments_from(document.at("adjustments"), setting.families);
  read_game(document, setting);
  check_level(setting, document);
  check_sacks(setting, document);
  return setting;
}

}  // namespace

Setting read_setting(const std::string& path) {
  const json document = merged(path, {});
  validate(document, "callfit-setting", path);
  Faults faults(path);
  Setting setting = setting_from({document, "", faults});
  faults.settle();
  return setting;
}

}  // namespace callfit
