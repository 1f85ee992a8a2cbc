// JSON text to values and back, with places for what is wrong.
#pragma once

#include <callfit/base/finding.hpp>

#include <nlohmann/json_fwd.hpp>
#include <set>
#include <string>
#include <string_view>

namespace callfit {

/// Parses RFC 8259 text within the limits of callfit/format/json.hpp. Throws InputError with line
/// and column for a syntax error, and with the JSON pointer for each key that stands twice in its
/// object.
nlohmann::json parse_json(std::string_view text, const std::string& source);

/// pointer + "/" + key, escaped as RFC 6901 says.
std::string child(const std::string& pointer, std::string_view key);
std::string child(const std::string& pointer, std::size_t index);

/// Collects what is wrong with one document while it is read.
class Faults {
 public:
  explicit Faults(std::string source) : source_(std::move(source)) {}

  void add(const std::string& pointer, const std::string& what, const std::string& mend) {
    findings_.push_back({{source_, 0, pointer}, what, mend});
    pointers_.insert(pointer);
  }
  /// What is wrong with another document that this one needs.
  void add(const Findings& findings) {
    findings_.insert(findings_.end(), findings.begin(), findings.end());
  }
  /// Whether nothing was added for the value at `pointer` or inside it.
  bool none_at(const std::string& pointer) const;
  /// Throws InputError when anything was added.
  void settle() const {
    if (!findings_.empty()) throw InputError(findings_);
  }
  const std::string& source() const { return source_; }

 private:
  std::string source_;
  Findings findings_;
  std::set<std::string> pointers_;  // of the findings in this document
};

}  // namespace callfit
