#include <callfit/base/finding.hpp>
#include <callfit/base/gathered.hpp>
#include <callfit/base/visible.hpp>

#include <algorithm>

namespace callfit {
namespace {

std::string joined(const Findings& all) {
  const Findings findings = gathered(all);
  std::string text;
  const std::size_t shown = std::min(findings.size(), InputError::shown_at_most);
  for (std::size_t i = 0; i < shown; ++i) {
    if (i > 0) text += '\n';
    text += to_text(findings[i]);
  }
  if (findings.size() > shown)
    text += "\n... and " + std::to_string(findings.size() - shown) + " more";
  return text;
}

}  // namespace

std::string to_text(const Finding& finding) {
  std::string text = finding.place.file;
  if (finding.place.line > 0) text += ":" + std::to_string(finding.place.line);
  if (!text.empty()) text += ": ";
  if (finding.severity == Severity::warning) text += "warning: ";
  if (finding.severity == Severity::notice) text += "notice: ";
  if (!finding.place.field.empty()) text += finding.place.field + ": ";
  text += finding.what;
  if (!finding.mend.empty()) text += "; " + finding.mend;
  return visible(text);
}

bool has_errors(const Findings& findings) {
  return std::any_of(findings.begin(), findings.end(),
                     [](const Finding& f) { return f.severity == Severity::error; });
}

InputError::InputError(Findings findings)
    : std::runtime_error(joined(findings)), findings_(std::move(findings)) {}

InputError::InputError(Finding finding) : InputError(Findings{std::move(finding)}) {}

void refuse_at(const std::string& pointer, const std::string& what, const std::string& mend) {
  throw InputError(Finding{{"", 0, pointer}, what, mend});
}

}  // namespace callfit
