#include <callfit/base/finding.hpp>
#include <callfit/io/read_file.hpp>
#include <callfit/io/scenario_file.hpp>
#include <io/json_text.hpp>
#include <io/schema.hpp>

#include <nlohmann/json.hpp>

#include <charconv>
#include <cmath>
#include <optional>

namespace callfit {
namespace {

using nlohmann::json;

// All of the text as a number, "%" for hundredths.
std::optional<double> number_in(std::string_view text) {
  const bool percent = text.ends_with('%');
  if (percent) text.remove_suffix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value))
    return std::nullopt;
  return percent ? value / 100 : value;
}

[[noreturn]] void refuse(const std::string& text, const std::string& what,
                         const std::string& mend) {
  throw InputError(Finding{{"", 0, text}, what, mend});
}

// Path and value around the first "=".
std::pair<std::string, std::string> split(const std::string& text, const std::string& mend) {
  const std::size_t at = text.find('=');
  if (at == std::string::npos || at == 0 || at + 1 == text.size())
    refuse(text, "is not PATH=VALUE", mend);
  return {text.substr(0, at), text.substr(at + 1)};
}

// The schema cannot say in plain words that one of two keys is wanted.
Change change_from(const json& entry, const std::string& pointer, Faults& faults) {
  Change change;
  change.path = entry["path"].get<std::string>();
  const bool scales = entry.contains("scale");
  if (scales == entry.contains("set")) {
    faults.add(pointer, "needs either set or scale", "for example \"set\": 0.4");
    return change;
  }
  const json& value = entry[scales ? "scale" : "set"];
  change.way = scales              ? Change::Way::scale
               : value.is_number() ? Change::Way::set
                                   : Change::Way::word;
  if (value.is_number())
    change.amount = value.get<double>();
  else
    change.word = value.get<std::string>();
  return change;
}

}  // namespace

Change parse_change(const std::string& text) {
  const auto [path, value] = split(text, "for example rate.deep_outside.completion=40%");
  Change change{path, Change::Way::set, 0, ""};
  if (const auto number = number_in(value)) {
    change.amount = *number;
    return change;
  }
  if (value.front() == 'x') {
    const auto factor = number_in(std::string_view(value).substr(1));
    if (factor && *factor >= 0) return {path, Change::Way::scale, *factor, ""};
  }
  return {path, Change::Way::word, 0, value};
}

SweepRange parse_sweep(const std::string& text) {
  const std::string mend = "for example rate.deep_outside.completion=20%:50%:7";
  const auto [path, range] = split(text, mend);
  const std::size_t first = range.find(':');
  const std::size_t second = first == std::string::npos ? first : range.find(':', first + 1);
  if (second == std::string::npos) refuse(text, "is not PATH=from:to:n", mend);
  const auto from = number_in(range.substr(0, first));
  const auto to = number_in(range.substr(first + 1, second - first - 1));
  const auto count = number_in(range.substr(second + 1));
  if (!from || !to || !count || *count < 2 || *count != std::floor(*count) || *count > 1000)
    refuse(text, "is not PATH=from:to:n", mend);
  return {path, *from, *to, static_cast<std::size_t>(*count)};
}

Scenario parse_scenario(std::string_view text, const std::string& source) {
  const json document = parse_json(text, source);
  validate(document, "callfit-scenario", source);
  Scenario scenario{document.value("name", ""), document.value("about", ""), {}};
  Faults faults(source);
  for (const json& entry : document["changes"])
    scenario.changes.push_back(
        change_from(entry, child("/changes", scenario.changes.size()), faults));
  faults.settle();
  return scenario;
}

Scenario read_scenario(const std::string& path) { return parse_scenario(read_file(path), path); }

}  // namespace callfit
