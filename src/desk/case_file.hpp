// The case's file while a desk has it open: tries go into it, and nobody else's words are lost.
#pragma once

#include <callfit/ask/case.hpp>
#include <callfit/files/files.hpp>

#include <optional>
#include <string>
#include <vector>

namespace callfit::desk {

/// Held while the desk is open, so that a second one is told. The system lets go of it when the
/// process ends, however it does.
class CaseLock {
 public:
  /// Throws InputError where another desk holds the file's.
  explicit CaseLock(const std::string& file);
  ~CaseLock();
  CaseLock(CaseLock&& other) noexcept;
  CaseLock& operator=(CaseLock&&) = delete;

 private:
  std::string path_;
  int handle_ = -1;
};

class CaseFile {
 public:
  /// `file` may be empty: then tries are kept in memory alone.
  CaseFile(std::string file, std::string document, std::vector<Try> tries);

  bool is_on_disk() const { return !file_.empty(); }
  const std::vector<Try>& tries() const { return tries_; }

  /// Under a name that is there already the try takes the place of the other. Throws InputError
  /// where the file was changed by somebody else since, or cannot be written.
  void keep(const Try& one);
  /// Throws InputError where there is no such try.
  void drop(const std::string& name);

 private:
  void write(std::vector<Try> tries);

  std::string file_, document_;
  std::vector<Try> tries_;
  std::optional<CaseLock> lock_;
};

}  // namespace callfit::desk
