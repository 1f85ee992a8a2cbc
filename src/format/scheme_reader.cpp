#include <callfit/format/scheme.hpp>
#include <format/correlation.hpp>
#include <format/documents.hpp>
#include <format/families.hpp>
#include <format/part.hpp>
#include <format/rule_json.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

namespace callfit {
namespace {

using nlohmann::json;

enum class Better { more, less };

}  // namespace

template <>
inline constexpr auto enum_words<Better> = std::to_array<std::string_view>({"more", "less"});

namespace {

constexpr double most_weight = 1e6;
constexpr Texts scheme_about_rule{0, unlimited, "what the scheme is, in a line or two"};
constexpr Texts scheme_source_rule{1, unlimited,
                                   "where the numbers come from; \"assumed\" if nowhere"};
constexpr Texts scheme_label_rule{1, 80, "a short name for tables and pictures"};
constexpr std::string_view families_want =
    "a list of play families, or the name of a families file beside this one";
constexpr Sizes situations_rule{
    1, 200, "a list of situations; the first that matches counts, the last must match everything"};
constexpr Numbers charted_calls_rule{0, most_weight, "how many charted calls stand behind it"};
constexpr Sizes calls_rule{1, unlimited,
                           R"(weights of families such as {"boot": 12, "handoff": 30})"};
constexpr Numbers call_rule{0, most_weight, "a weight of 0 or more"};
constexpr std::string_view by_shell_want =
    R"(call weights against one shell, such as {"two_high": {"qb_draw": 5, "handoff": 30}})";
constexpr Sizes demands_rule{0, 500, "a list of demands"};
constexpr std::string_view demand_want =
    R"(a demand such as {"family": "boot", "measure": "completion", "level": 0.62, "weight": 2})";
constexpr Numbers level_rule{-20, 60,
                             "a share from 0 to 1, or yards for yards_after_catch and run_gain"};
constexpr Numbers weight_rule{0, most_weight, "a weight of 0 or more"};
constexpr Sizes correlations_rule{0, 100, "a list of correlation matrices, at most one a family"};
constexpr Sizes matrix_rule{1, unlimited,
                            "rows of correlations, in the order of the family's demands"};
constexpr Numbers demand_correlation_rule{-1, 1, "a correlation from -1 to 1"};

/// Reads a scheme's parts; families first, since the rest refers to them.
class SchemeReader {
 public:
  SchemeReader(Fields& fields, const Beside& beside) : fields_(fields), beside_(beside) {}

  Scheme read() {
    scheme_.id = fields_.text("id", name_id_rule);
    scheme_.name = fields_.text("name", scheme_name_rule);
    scheme_.about = fields_.text("about", scheme_about_rule);
    scheme_.source = fields_.text("source", scheme_source_rule);
    scheme_.families =
        fields_.needed("families", families_want, [&](const Part& part) { return families(part); });
    families_known_ = !scheme_.families.empty() && fields_.sound("families");
    read_situations();
    scheme_.demands =
        fields_.objects("demands", demands_rule, demand_want, [&](Fields& f) { return demand(f); });
    read_correlations();
    return std::move(scheme_);
  }

 private:
  std::vector<Family> families(const Part& part) {
    if (part.value().is_array())
      return families_from(part, {families_rule.fewest, families_rule.most, families_want});
    if (!part.value().is_string() || part.value().get_ref<const std::string&>().empty()) {
      part.misfit(families_want);
      return {};
    }
    try {
      const SourceText file = beside_(part.text(), part.faults().source());
      return parse_families(file.text, file.source);
    } catch (const InputError& error) {
      part.faults().add(error.findings());
      return {};
    }
  }

  /// Index of the family; a fault when the scheme does not know it.
  std::size_t family_at(const std::string& id, const std::string& pointer) {
    const std::size_t family = scheme_.find_family(id);
    if (family == scheme_.families.size() && families_known_)
      fields_.part().faults().add(pointer, "unknown family \"" + id + "\"",
                                  suggest(id, ids_of(scheme_.families)));
    return family;
  }

  std::size_t family_of(Fields& fields) {
    const std::string id = fields.text("family");
    if (!fields.sound("family")) return scheme_.families.size();
    return family_at(id, child(fields.part().pointer(), "family"));
  }

  std::vector<double> shares(const Part& calls) {
    std::vector<double> share(scheme_.families.size(), 0.0);
    calls.entries(calls_rule, [&](const Part& call, const std::string& id) {
      const double weight = call.number(call_rule);
      const std::size_t family = family_at(id, call.pointer());
      if (family < share.size()) share[family] = weight;
      return family;
    });
    const double total = std::accumulate(share.begin(), share.end(), 0.0);
    if (!families_known_) return share;
    if (!(total > 0)) {
      if (calls.sound())
        calls.fault("nothing is called here", "give at least one family a weight above 0");
      return share;
    }
    // Shares that were written as such stay as they are, to the last bit.
    if (std::abs(total - 1) > 1e-12)
      for (double& value : share) value /= total;
    return share;
  }

  void read_situations() {
    std::set<std::string> seen;
    scheme_.situations = fields_.list("situations", situations_rule, [&](const Part& item) {
      CallSituation situation = item.object("a situation with id, when and calls",
                                            [&](Fields& f) { return situation_from(f); });
      if (!situation.id.empty() && !seen.insert(situation.id).second)
        item.faults().add(child(item.pointer(), "id"), "the id " + situation.id + " is taken",
                          "give each situation its own");
      return situation;
    });
    if (!fields_.sound("situations") || scheme_.situations.empty()) return;
    if (!matches_everything(scheme_.situations.back().when))
      fields_.part().faults().add(
          child(child("/situations", scheme_.situations.size() - 1), "when"),
          "the last situation does not match everything",
          "end the list with a situation whose when is {}");
  }

  CallSituation situation_from(Fields& fields) {
    CallSituation situation;
    situation.id = fields.text("id", id_rule);
    situation.label = fields.text("label", scheme_label_rule);
    situation.when = fields.needed("when", when_want, rule_from);
    const auto calls = [&](const Part& part) { return shares(part); };
    situation.share = fields.needed("calls", calls_rule.want, calls);
    situation.snaps = fields.number_or("snaps", charted_calls_rule, 0.0);
    fields.maybe("calls_by_shell", [&](const Part& tables) {
      return tables.object(by_shell_want, [&](Fields& by_shell) {
        for (std::size_t s = 0; s < shell_count; ++s)
          situation.share_by_shell[s] = by_shell.maybe(word(static_cast<Shell>(s)), calls);
        return true;
      });
    });
    return situation;
  }

  Demand demand(Fields& fields) {
    Demand demand;
    demand.family = family_of(fields);
    demand.measure = fields.word<Measure>("measure");
    demand.cell = fields.maybe("cell", [](const Part& part) { return part.word<Cell>(); });
    demand.level = fields.number("level", level_rule);
    demand.weight = fields.number_or("weight", weight_rule, 1.0);
    const auto better =
        fields.maybe("better", [](const Part& part) { return part.word<Better>(); });
    fields.text_or("source", any_text, "");
    demand.more_is_better = better ? *better == Better::more : usually_better_high(demand.measure);
    if (fields.sound("measure")) check_measure(demand, fields);
    return demand;
  }

  void check_measure(const Demand& demand, Fields& fields) {
    if (fields.sound("level") && as_rate(demand.measure) && !share_rule.hold(demand.level))
      fields.at("level").fault(fields.at("level").value().dump() + " is not a share",
                               "give a share from 0 to 1");
    if (demand.family == scheme_.families.size()) return;
    const Family& family = scheme_.families[demand.family];
    if (measure_applies(demand.measure, family.kind)) return;
    fields.at("measure").fault(std::string(word(demand.measure)) + " does not apply to " +
                                   family.id + ", which is a " + std::string(word(family.kind)),
                               family.kind == FamilyKind::pass
                                   ? "demand another measure"
                                   : "demand success, explosive, fumble, evaded or run_gain");
  }

  void read_correlations() {
    std::set<std::size_t> seen;
    const auto correlations = fields_.maybe("correlations", [&](const Part& list) {
      return list.list(correlations_rule, [&](const Part& item) {
        return item.object("a correlation matrix of one family's demands",
                           [&](Fields& f) { return correlation(f, seen); });
      });
    });
    scheme_.correlations = correlations.value_or(std::vector<DemandCorrelation>());
  }

  DemandCorrelation correlation(Fields& fields, std::set<std::size_t>& seen) {
    DemandCorrelation correlation;
    correlation.family = family_of(fields);
    correlation.matrix = fields.list("matrix", matrix_rule, [](const Part& row) {
      return row.list(Sizes{},
                      [](const Part& entry) { return entry.number(demand_correlation_rule); });
    });
    if (!fields.sound() || !families_known_) return correlation;
    if (!seen.insert(correlation.family).second)
      fields.at("family").fault("the family has a matrix already", "keep one");
    if (fields_.sound("demands")) check_correlation(correlation, fields.at("matrix"));
    return correlation;
  }

  void check_correlation(const DemandCorrelation& correlation, const Part& matrix) {
    const auto demands = static_cast<std::size_t>(
        std::count_if(scheme_.demands.begin(), scheme_.demands.end(),
                      [&](const Demand& demand) { return demand.family == correlation.family; }));
    const std::string wrong = correlation_fault(correlation.matrix, demands);
    if (!wrong.empty())
      matrix.fault(wrong, "give a symmetric, positive definite matrix with ones on its diagonal");
  }

  Fields& fields_;
  const Beside& beside_;
  Scheme scheme_;
  bool families_known_ = false;
};

}  // namespace

Scheme scheme_of(const nlohmann::json& document, const std::string& source, const Beside& beside) {
  return read_document(document, "callfit-scheme", source,
                       [&](Fields& fields) { return SchemeReader(fields, beside).read(); });
}

Scheme parse_scheme(std::string_view text, const std::string& source, const Beside& beside) {
  return scheme_of(parse_json(text, source), source, beside);
}

}  // namespace callfit
