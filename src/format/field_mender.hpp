// Fields of a chart in the words that a chart reads.
#pragma once

#include <callfit/format/chart.hpp>
#include <callfit/format/dictionary.hpp>
#include <callfit/format/mend.hpp>
#include <format/chart_header.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// Spaces that do not break as plain ones, those without width left out.
std::string with_plain_spaces(std::string_view text);

/// What the shipped dictionaries and the user's own say, the user's first.
class Meanings {
 public:
  explicit Meanings(const ChartWords& words);

  std::optional<std::string> of(std::string_view where, std::string_view from) const;
  /// In this column, also by what all of its kind may hold. Words that a chart reads mean nothing
  /// else unless the user says so.
  std::optional<std::string> in_column(std::string_view column, std::string_view from) const;
  bool can_read(std::string_view column, std::string_view field) const;
  /// The kind of a family; nothing where it is not known.
  std::optional<FamilyKind> family(std::string_view id) const;

 private:
  const ChartWords& words_;
  Dictionary accepted_, mended_;
};

/// A value that takes the place of a field.
struct Mended {
  std::string value;
  MendCause cause;
};

/// Whether it is digits behind a sign or none.
bool is_whole_number(std::string_view field);

/// Times of a film. A sheet takes 12:34 for hours and minutes and shows 12:34:00.
class Clock {
 public:
  /// To be called with every time of the chart before the first is mended.
  void see(std::string_view field);
  /// With a decimal point, and without seconds where these are 0 in all of several times of three
  /// parts.
  std::optional<std::string> mended(std::string_view field) const;

 private:
  std::size_t of_three_parts_ = 0;
  bool ends_in_seconds_ = false;  // one of those
};

/// Of each field of a row what takes its place. `columns` are the names of the columns, empty where
/// a field is left alone; `fields` are as many, trimmed, with plain spaces.
std::vector<std::optional<Mended>> mended_row(const std::vector<std::string>& columns,
                                              const std::vector<std::string>& fields,
                                              const Meanings& meanings, const Clock& clock);

}  // namespace callfit
