#include <format/page_part.hpp>

namespace callfit {
namespace {

constexpr std::string_view page_want = R"({"handles": [...]})";
constexpr std::string_view handle_want =
    R"({"path": "call.all.boot", "words": "...", "from": 0.05, "to": 0.25, "count": 21})";
constexpr Sizes handles_rule{1, most_handles, "a list of 1 to 8 handles"};
constexpr Texts handle_path_rule{1, 200, "a path such as call.all.boot"};
constexpr Texts handle_words_rule{1, 120, "what is turned in 1 to 120 characters"};
constexpr Numbers count_rule{static_cast<double>(fewest_steps), static_cast<double>(most_steps),
                             "how many values, 2 to 101"};
constexpr int usual_count = 21;

PageHandle handle_from(Fields& fields) {
  PageHandle handle;
  handle.range.path = fields.text("path", handle_path_rule);
  handle.words = fields.text("words", handle_words_rule);
  handle.range.from = fields.number("from");
  handle.range.to = fields.number("to");
  handle.range.count = static_cast<std::size_t>(
      fields.has("count") ? fields.integer("count", count_rule) : usual_count);
  if (fields.sound() && !(handle.range.from < handle.range.to))
    fields.part().fault("from is not below to", "give the smaller value first");
  return handle;
}

}  // namespace

std::vector<PageHandle> handles_from(const Part& part) {
  auto handles = part.list(handles_rule,
                           [](const Part& item) { return item.object(handle_want, handle_from); });
  for (std::size_t i = 0; i < handles.size(); ++i)
    for (std::size_t j = 0; j < i; ++j)
      if (!handles[i].range.path.empty() && handles[i].range.path == handles[j].range.path)
        part.faults().add(child(part.pointer(), i) + "/path",
                          handles[i].range.path + " has a handle before", "give each path one");
  return handles;
}

std::vector<PageHandle> page_part(const Part& part) {
  return part.object(page_want, [](Fields& fields) {
    return fields.needed("handles", handles_rule.want, handles_from);
  });
}

nlohmann::ordered_json handles_json(const std::vector<PageHandle>& handles) {
  nlohmann::ordered_json list = nlohmann::ordered_json::array();
  for (const PageHandle& handle : handles)
    list.push_back({{"path", handle.range.path},
                    {"words", handle.words},
                    {"from", handle.range.from},
                    {"to", handle.range.to},
                    {"count", handle.range.count}});
  return list;
}

std::vector<PageHandle> parse_page_handles(std::string_view text, const std::string& source) {
  const nlohmann::json document = parse_json(text, source);
  if (!document.is_object() || !document.contains("page")) return {};
  Faults faults(source);
  auto handles = page_part(Part(document.at("page"), "/page", faults));
  faults.settle();
  return handles;
}

}  // namespace callfit
