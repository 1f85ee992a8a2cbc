// The chart on the disk while it is typed, and beside it the times that are marked and not charted
// yet.
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
  std::string marks() const;
  std::string marks_path() const { return path_ + ".marks"; }

  /// Empty where it can be written; else why it can only be looked at.
  const std::string& only_looked_at() const { return only_looked_at_; }
  /// Reads again what the other desk may have written meanwhile; whether it has.
  bool look_again();

  /// Throws InputError where somebody else has changed the chart meanwhile, or it cannot be
  /// written.
  void write(const std::string& text, const std::string& marks);

 private:
  void write_chart(const std::string& text);
  void write_marks(const std::string& marks);

  std::string path_, text_;
  std::string only_looked_at_;
  std::optional<CaseLock> lock_;
};

}  // namespace callfit::desk
