#include <format/changes.hpp>

namespace callfit {
namespace {

constexpr Sizes any_changes{0, 1000, changes_want};
constexpr Texts some_path{1, 200, "a path such as rate.deep_outside.completion"};
constexpr std::string_view change_want =
    R"(a change such as {"path": "rate.deep_outside.completion", "set": 0.4})";

bool read_set(const Part& part, Change& change) {
  const bool is_number = part.value().is_number();
  change.way = is_number ? Change::Way::set : Change::Way::word;
  if (is_number)
    change.amount = part.number();
  else
    change.word = part.text({1, 200, "a number such as 0.4, or a word where the path takes one"});
  return true;
}

bool read_scale(const Part& part, Change& change) {
  change.way = Change::Way::scale;
  change.amount = part.number({0, any_number.high, "a factor such as 1.5"});
  return true;
}

Change change_from(Fields& fields) {
  Change change;
  change.path = fields.text("path", some_path);
  const auto set = fields.maybe("set", [&](const Part& part) { return read_set(part, change); });
  const auto scale =
      fields.maybe("scale", [&](const Part& part) { return read_scale(part, change); });
  if (set.has_value() == scale.has_value() && fields.sound())
    fields.part().fault("needs either set or scale", "for example \"set\": 0.4");
  return change;
}

nlohmann::ordered_json change_json(const Change& change) {
  nlohmann::ordered_json json{{"path", change.path}};
  if (change.way == Change::Way::scale)
    json["scale"] = change.amount;
  else if (change.way == Change::Way::set)
    json["set"] = change.amount;
  else
    json["set"] = change.word;
  return json;
}

}  // namespace

nlohmann::ordered_json changes_json(const std::vector<Change>& changes) {
  nlohmann::ordered_json list = nlohmann::ordered_json::array();
  for (const Change& change : changes) list.push_back(change_json(change));
  return list;
}

std::vector<Change> changes_from(const Part& part) {
  return part.list(any_changes,
                   [](const Part& item) { return item.object(change_want, change_from); });
}

}  // namespace callfit
