#include <callfit/format/scheme.hpp>
#include <format/families.hpp>

#include <set>

namespace callfit {
namespace {

constexpr std::string_view family_want =
    R"(a family such as {"id": "boot", "label": "Boot", "kind": "pass", "about": "..."})";
constexpr Texts family_label_rule{1, 60, "a short name for tables and pictures"};
constexpr Texts family_about_rule{0, unlimited, "one line of what it is"};
constexpr Texts like_rule{1, 60, "the id of the setting's family whose population it shares",
                          is_id};

Family family_from(Fields& fields) {
  Family family;
  family.id = fields.text("id", id_rule);
  family.label = fields.text("label", family_label_rule);
  family.kind = fields.word<FamilyKind>("kind");
  family.about = fields.text("about", family_about_rule);
  family.like = fields.text_or("like", like_rule, "");
  return family;
}

}  // namespace

std::vector<Family> families_from(const Part& list, const Sizes& rule) {
  std::set<std::string> seen;
  return list.list(rule, [&](const Part& item) {
    Family family = item.object(family_want, family_from);
    if (!family.id.empty() && !seen.insert(family.id).second)
      list.faults().add(child(item.pointer(), "id"), "the id " + family.id + " is taken",
                        "give each family its own");
    return family;
  });
}

std::vector<std::string> ids_of(const std::vector<Family>& families) {
  std::vector<std::string> ids;
  ids.reserve(families.size());
  for (const Family& family : families) ids.push_back(family.id);
  return ids;
}

std::vector<Family> parse_families(std::string_view text, const std::string& source) {
  return read_document(parse_json(text, source), "callfit-families", source, [](Fields& fields) {
    fields.text_or("about", any_text, "");
    return fields.needed("families", families_rule.want,
                         [](const Part& part) { return families_from(part); });
  });
}

}  // namespace callfit
