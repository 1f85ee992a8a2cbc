#include <callfit/format/setting.hpp>
#include <format/documents.hpp>
#include <format/families.hpp>
#include <format/setting_parts.hpp>
#include <profile/joint.hpp>

#include <string>
#include <vector>

namespace callfit {
namespace {

using nlohmann::json;

constexpr std::size_t longest_chain = 8;

// The mark is that of one file, not of what is made of several.
json unmarked(json document) {
  const std::string key(written_by_key);
  if (document.is_object() && document.contains(key) && document[key].is_string())
    document.erase(key);
  return document;
}

// A population may stand in a file of its own, named beside the setting.
void bring_in_population(json& document, const std::string& source, const Beside& beside) {
  if (!document.is_object() || !document.contains("population") ||
      !document.at("population").is_string())
    return;
  const SourceText text = beside(document.at("population").get<std::string>(), source);
  document["population"] = unmarked(parse_json(text.text, text.source));
}

/// The document laid over those it is based on; `depth` documents were read on the way here.
json merged(json given, const std::string& source, const Beside& beside, std::size_t depth) {
  json document = unmarked(std::move(given));
  bring_in_population(document, source, beside);
  if (!document.is_object() || !document.contains("based_on") ||
      !document.at("based_on").is_string())
    return document;
  if (depth == longest_chain)
    throw InputError(Finding{{source, 0, "/based_on"},
                             "settings are based on each other without end",
                             "let one of them stand alone"});
  const SourceText below = beside(document.at("based_on").get<std::string>(), source);
  json base = merged(parse_json(below.text, below.source), below.source, beside, depth + 1);
  base.merge_patch(document);
  base.erase("based_on");
  return base;
}

std::vector<Adjustment> adjustments_from(Fields& document,
                                         const std::vector<FamilyPopulation>& families) {
  return document.objects("adjustments", {0, 1000, "shifts by situation; all that match add up"},
                          "shifts in a situation", [&](Fields& fields) {
                            Adjustment adjustment{when_from(fields), filter_from(fields, families),
                                                  shifts_from(fields)};
                            read_notes(fields, Source::needed);
                            return adjustment;
                          });
}

void check_level(const Setting& setting, const Fields& document) {
  if (!document.sound("level") || !document.sound("levels") || setting.find_level(setting.level))
    return;
  std::vector<std::string> known;
  for (const Level& level : setting.levels) known.push_back(level.id);
  document.at("level").fault("\"" + setting.level + "\" is none of levels",
                             suggest(setting.level, known));
}

bool read_shared_gains(Fields& fields, Setting& setting) {
  setting.scramble_gain = fields.needed("scramble", gain_want, gain_from);
  setting.sack_gain = fields.needed("sack", gain_want, gain_from);
  read_notes(fields);
  if (fields.sound("sack") && setting.sack_gain.shape.last() > 0)
    fields.at("sack").fault("a sack cannot gain", "give gains of 0 and below");
  return true;
}

void read_names(Fields& document, Setting& setting) {
  constexpr Texts setting_label_rule{1, 100, "a name for tables"};
  constexpr Texts level_rule{1, unlimited, "the level its numbers describe, one of levels"};
  constexpr Texts scheme_rule{1, unlimited, "the name of a scheme file"};
  setting.id = document.text("id", name_id_rule);
  setting.label = document.text("label", setting_label_rule);
  setting.level = document.text("level", level_rule);
  setting.average_scheme = document.text("average_scheme", scheme_rule);
  document.entries("sources", Sizes{0, unlimited, "citations by key"},
                   [](const Part& part, const std::string&) { return part.text(some_text); });
}

Setting setting_from(Fields& document) {
  Setting setting;
  read_names(document, setting);
  setting.families = families_from(document);
  document.object("shared_gains", "gains of scrambles and sacks",
                  [&](Fields& fields) { return read_shared_gains(fields, setting); });
  setting.population = document.maybe("population", [&](const Part& part) {
    // It speaks of families and their gains: what is wrong with those is told once, there.
    const bool sound = document.sound("families") && document.sound("shared_gains");
    if (!sound && part.value().is_object()) return Population{};
    return population_from(part, setting.families, setting.scramble_gain, setting.sack_gain);
  });
  setting.cells = cells_from(document, setting.families);
  setting.adjustments = adjustments_from(document, setting.families);
  read_game(document, setting);
  read_notes(document);
  // Laid over its base before it came here; what is left is no text.
  document.maybe("based_on", [](const Part& part) {
    return part.text({1, unlimited, "the name of a setting file beside this one"});
  });
  check_level(setting, document);
  return setting;
}

bool is_wide_enough(const RatePopulation& rate) {
  return rate.spread >= least_spread && rate.strength() >= least_strength;
}

// What a population makes of spreads has to lie where those that are given do.
void require_spreads(const Setting& setting, const std::string& source) {
  if (!setting.population) return;
  Findings findings;
  for (const FamilyPopulation& family : setting.families)
    for (std::size_t r = 0; r < rate_count; ++r)
      if (family.rates[r] && !is_wide_enough(*family.rates[r]))
        findings.push_back(
            {{source, 0,
              "/population/rates/" + family.id + "/" + std::string(word(static_cast<Rate>(r)))},
             "quarterbacks would all be alike, or each nearly 0 or 1",
             "give another spread of its trait or own_spread"});
  if (!findings.empty()) throw InputError(findings);
}

}  // namespace

json merged_setting(json document, const std::string& source, const Beside& beside) {
  return merged(std::move(document), source, beside, 0);
}

Setting setting_of(json document, const std::string& source, const Beside& beside) {
  Setting setting = read_document(merged_setting(std::move(document), source, beside),
                                  "callfit-setting", source, setting_from);
  settle_spreads(setting);
  require_spreads(setting, source);
  return setting;
}

Setting parse_setting(std::string_view text, const std::string& source, const Beside& beside) {
  return setting_of(parse_json(text, source), source, beside);
}

}  // namespace callfit
