#include <callfit/base/nearest.hpp>
#include <callfit/io/read_file.hpp>
#include <callfit/io/scheme_file.hpp>
#include <io/correlation.hpp>
#include <io/json_text.hpp>
#include <io/rule_json.hpp>
#include <io/schema.hpp>
#include <io/schema_words.hpp>

#include <nlohmann/json.hpp>

#include <cmath>
#include <filesystem>
#include <numeric>
#include <set>

namespace callfit {
namespace {

using nlohmann::json;

std::vector<std::string> ids_of(const std::vector<Family>& families) {
  std::vector<std::string> ids;
  ids.reserve(families.size());
  for (const Family& family : families) ids.push_back(family.id);
  return ids;
}

std::vector<Family> families_from(const json& list, const std::string& pointer, Faults& faults) {
  std::vector<Family> families;
  std::set<std::string> seen;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const json& entry = list[i];
    Family family;
    family.id = entry.at("id").get<std::string>();
    family.label = entry.at("label").get<std::string>();
    family.kind = from_word<FamilyKind>(entry.at("kind").get<std::string>()).value();
    family.about = entry.at("about").get<std::string>();
    family.like = entry.value("like", std::string());
    if (!seen.insert(family.id).second)
      faults.add(child(child(pointer, i), "id"), "the id " + family.id + " is taken",
                 "give each family its own");
    families.push_back(std::move(family));
  }
  return families;
}

/// Reads a scheme's parts; families first, since the rest refers to them.
class SchemeReader {
 public:
  SchemeReader(const json& document, Faults& faults) : document_(document), faults_(faults) {}

  Scheme read(const std::string& folder) {
    scheme_.id = document_.at("id").get<std::string>();
    scheme_.name = document_.at("name").get<std::string>();
    scheme_.about = document_.at("about").get<std::string>();
    scheme_.source = document_.at("source").get<std::string>();
    read_families_key(folder);
    read_situations();
    read_demands();
    read_correlations();
    return std::move(scheme_);
  }

 private:
  void read_families_key(const std::string& folder) {
    const json& families = document_.at("families");
    if (families.is_array())
      scheme_.families = families_from(families, "/families", faults_);
    else
      scheme_.families =
          read_families((std::filesystem::path(folder) / families.get<std::string>()).string());
  }

  /// Index of the family; adds a fault when the scheme does not know it.
  std::size_t family_at(const std::string& id, const std::string& pointer) {
    const std::size_t family = scheme_.find_family(id);
    if (family == scheme_.families.size())
      faults_.add(pointer, "unknown family \"" + id + "\"", suggest(id, ids_of(scheme_.families)));
    return family;
  }

  std::vector<double> shares(const json& calls, const std::string& pointer) {
    std::vector<double> share(scheme_.families.size(), 0.0);
    for (const auto& [id, weight] : calls.items()) {
      const std::size_t family = family_at(id, child(pointer, id));
      if (family < share.size()) share[family] = weight.get<double>();
    }
    const double total = std::accumulate(share.begin(), share.end(), 0.0);
    if (!(total > 0)) {
      faults_.add(pointer, "nothing is called here", "give at least one family a weight above 0");
      return share;
    }
    // Shares that were written as such stay as they are, to the last bit.
    if (std::abs(total - 1) > 1e-12)
      for (double& value : share) value /= total;
    return share;
  }

  void read_situations() {
    const json& list = document_.at("situations");
    std::set<std::string> seen;
    for (std::size_t i = 0; i < list.size(); ++i) {
      const std::string pointer = child("/situations", i);
      read_situation(list[i], pointer);
      if (!seen.insert(scheme_.situations.back().id).second)
        faults_.add(child(pointer, "id"), "the id " + scheme_.situations.back().id + " is taken",
                    "give each situation its own");
    }
    if (!matches_everything(scheme_.situations.back().when))
      faults_.add(child(child("/situations", list.size() - 1), "when"),
                  "the last situation does not match everything",
                  "end the list with a situation whose when is {}");
  }

  void read_situation(const json& entry, const std::string& pointer) {
    CallSituation situation;
    situation.id = entry.at("id").get<std::string>();
    situation.label = entry.at("label").get<std::string>();
    situation.when = rule_from_json(entry.at("when"), child(pointer, "when"), faults_);
    situation.share = shares(entry.at("calls"), child(pointer, "calls"));
    situation.snaps = entry.value("snaps", 0.0);
    const std::string by_shell = child(pointer, "calls_by_shell");
    const json empty = json::object();
    const json& tables = entry.contains("calls_by_shell") ? entry.at("calls_by_shell") : empty;
    for (const auto& [shell, calls] : tables.items())
      situation.share_by_shell[static_cast<std::size_t>(from_word<Shell>(shell).value())] =
          shares(calls, child(by_shell, shell));
    scheme_.situations.push_back(std::move(situation));
  }

  void read_demands() {
    const json& list = document_.at("demands");
    for (std::size_t i = 0; i < list.size(); ++i) read_demand(list[i], child("/demands", i));
  }

  void read_demand(const json& entry, const std::string& pointer) {
    Demand demand;
    demand.family = family_at(entry.at("family").get<std::string>(), child(pointer, "family"));
    demand.measure = from_word<Measure>(entry.at("measure").get<std::string>()).value();
    if (entry.contains("cell")) demand.cell = from_word<Cell>(entry.at("cell").get<std::string>());
    demand.level = entry.at("level").get<double>();
    demand.weight = entry.value("weight", 1.0);
    demand.more_is_better = entry.contains("better") ? entry.at("better") == "more"
                                                     : usually_better_high(demand.measure);
    if (as_rate(demand.measure) && !(demand.level >= 0 && demand.level <= 1))
      faults_.add(child(pointer, "level"), shown(entry.at("level")) + " is not a share",
                  "give a share from 0 to 1");
    check_kind(demand, pointer);
    scheme_.demands.push_back(demand);
  }

  void check_kind(const Demand& demand, const std::string& pointer) {
    if (demand.family == scheme_.families.size()) return;
    const Family& family = scheme_.families[demand.family];
    if (measure_applies(demand.measure, family.kind)) return;
    faults_.add(child(pointer, "measure"),
                std::string(word(demand.measure)) + " does not apply to " + family.id +
                    ", which is a " + std::string(word(family.kind)),
                family.kind == FamilyKind::pass
                    ? "demand another measure"
                    : "demand success, explosive, fumble, evaded or run_gain");
  }

  void read_correlations() {
    if (!document_.contains("correlations")) return;
    const json& list = document_.at("correlations");
    std::set<std::size_t> seen;
    for (std::size_t i = 0; i < list.size(); ++i) {
      const std::string pointer = child("/correlations", i);
      DemandCorrelation correlation;
      correlation.family =
          family_at(list[i].at("family").get<std::string>(), child(pointer, "family"));
      correlation.matrix = list[i].at("matrix").get<std::vector<std::vector<double>>>();
      if (!seen.insert(correlation.family).second)
        faults_.add(child(pointer, "family"), "the family has a matrix already", "keep one");
      check_correlation(correlation, pointer);
      scheme_.correlations.push_back(std::move(correlation));
    }
  }

  void check_correlation(const DemandCorrelation& correlation, const std::string& pointer) {
    std::size_t demands = 0;
    for (const Demand& demand : scheme_.demands)
      demands += demand.family == correlation.family ? 1 : 0;
    const std::string wrong = correlation_fault(correlation.matrix, demands);
    if (!wrong.empty())
      faults_.add(child(pointer, "matrix"), wrong,
                  "give a symmetric, positive definite matrix with ones on its diagonal");
  }

  const json& document_;
  Faults& faults_;
  Scheme scheme_;
};

}  // namespace

std::vector<Family> read_families(const std::string& path) {
  const json document = parse_json(read_file(path), path);
  validate(document, "callfit-families", path);
  Faults faults(path);
  std::vector<Family> families = families_from(document.at("families"), "/families", faults);
  faults.settle();
  return families;
}

Scheme parse_scheme(std::string_view text, const std::string& source, const std::string& folder) {
  const json document = parse_json(text, source);
  validate(document, "callfit-scheme", source);
  Faults faults(source);
  Scheme scheme = SchemeReader(document, faults).read(folder);
  faults.settle();
  return scheme;
}

Scheme read_scheme(const std::string& path) {
  return parse_scheme(read_file(path), path, std::filesystem::path(path).parent_path().string());
}

}  // namespace callfit
