#include <callfit/base/finding.hpp>
#include <callfit/format/scenario.hpp>
#include <format/changes.hpp>
#include <format/part.hpp>

#include <cmath>
#include <locale>
#include <optional>
#include <sstream>

namespace callfit {
namespace {

// All of the text as a number, "%" for hundredths.
std::optional<double> number_in(std::string_view text) {
  const bool percent = text.ends_with('%');
  if (percent) text.remove_suffix(1);
  if (text.find_first_not_of("0123456789.eE+-") != std::string_view::npos) return std::nullopt;
  std::istringstream in{std::string(text)};
  in.imbue(std::locale::classic());
  double value = 0;
  if (!(in >> value) || in.peek() != std::istringstream::traits_type::eof()) return std::nullopt;
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

constexpr Texts scenario_name_rule{0, unlimited, "a short name"};
constexpr Texts scenario_about_rule{0, unlimited, "what is asked and why"};

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
  return read_document(parse_json(text, source), "callfit-scenario", source, [](Fields& document) {
    return Scenario{document.text_or("name", scenario_name_rule, ""),
                    document.text_or("about", scenario_about_rule, ""),
                    document.needed("changes", changes_want, changes_from)};
  });
}

}  // namespace callfit
