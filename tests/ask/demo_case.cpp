#include "demo_case.hpp"

#include <filesystem>

namespace callfit::testing {
namespace {

namespace fs = std::filesystem;

// Shipped data by name, else a file beside the case.
std::string place_of(CasePart part, const std::string& name, const std::string& source) {
  const fs::path root(CALLFIT_SOURCE_DIR);
  const char* folder = part == CasePart::setting      ? "settings"
                       : part == CasePart::scheme     ? "schemes"
                       : part == CasePart::net_values ? "settings/derived"
                       : part == CasePart::record     ? "settings/record"
                                                      : nullptr;
  if (folder != nullptr && fs::is_regular_file(root / folder / (name + ".json")))
    return (root / folder / (name + ".json")).string();
  if (folder != nullptr && fs::is_regular_file(root / folder / name))
    return (root / folder / name).string();
  return (fs::path(source).parent_path() / name).string();
}

}  // namespace

CaseTexts shipped_texts(Files& disk) {
  return [&disk](CasePart part, const std::string& name,
                 const std::string& source) -> std::optional<SourceText> {
    const std::string place = place_of(part, name, source);
    if ((part == CasePart::net_values || part == CasePart::record) && !fs::is_regular_file(place))
      return std::nullopt;
    return SourceText{disk.read(place), place};
  };
}

Case demo_case(std::size_t draws) {
  Files disk;
  Findings notices;
  const std::string file = std::string(CALLFIT_SOURCE_DIR) + "/profiles/demo/case.json";
  Case about = parse_case(disk.read(file), file, shipped_texts(disk), disk.beside(), notices);
  about.options.draws = draws;
  return about;
}

}  // namespace callfit::testing
