// The chart on the disk while it is typed, and what lies beside it: the times that are marked and
// not charted yet; of a chart that is held against another one, what was charted blind, and which
// values stand.
#pragma once

#include <desk/case_file.hpp>

#include <optional>
#include <string>

namespace callfit::desk {

/// Each change writes the whole file under a temporary name, has the system put it on the disk
/// (fsync), and renames: whatever ends the desk, the chart has every row that was shown as done and
/// no half of another, and there is no journal to mend it from. At ten thousand rows that is a
/// megabyte.
class ChartFile {
 public:
  /// Makes a chart without rows where there is none. Throws InputError where it cannot be read. One
  /// that another desk has open can only be looked at.
  explicit ChartFile(std::string path);

  const std::string& path() const { return path_; }
  const std::string& text() const { return text_; }
  std::string marks() const { return beside(marks_path()); }
  std::string marks_path() const { return path_ + ".marks"; }
  std::string upheld() const { return beside(upheld_path()); }
  std::string upheld_path() const { return path_ + ".upheld"; }

  /// The chart as it was charted blind, once it was sealed.
  std::optional<std::string> blind() const;
  std::string blind_path() const { return path_ + ".blind"; }
  /// Keeps the chart as it is now beside it, once and for all. Throws InputError where it cannot.
  void seal();

  /// Empty where it can be written; else why it can only be looked at.
  const std::string& only_looked_at() const { return only_looked_at_; }
  /// Reads again what the other desk may have written meanwhile; whether it has.
  bool look_again();

  /// Throws InputError where somebody else has changed the chart meanwhile, or it cannot be
  /// written.
  struct Texts {
    std::string chart, marks, upheld;  ///< those beside the chart are taken away where blank
  };
  void write(const Texts& texts);

 private:
  std::string beside(const std::string& path) const;
  void may_be_written() const;
  void write_chart(const std::string& text);

  std::string path_, text_;
  std::string only_looked_at_;
  std::optional<CaseLock> lock_;
};

}  // namespace callfit::desk
