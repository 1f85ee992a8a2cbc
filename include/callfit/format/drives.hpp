// Tables of real drives, a row each. docs/formats.md describes the columns.
#pragma once

#include <callfit/validate/real_drives.hpp>

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// Reads a table that arrives in blocks.
class DrivesReader {
 public:
  /// `source` names the text in messages.
  explicit DrivesReader(std::string source);
  ~DrivesReader();
  DrivesReader(const DrivesReader&) = delete;
  DrivesReader& operator=(const DrivesReader&) = delete;

  /// Throws InputError as CsvCutter does.
  void feed(std::string_view block);
  /// The drives after the last block. Throws InputError with the columns that are missing, or every
  /// field that is unreadable, of an unknown word or out of its range.
  std::vector<RealDrive> finish();

 private:
  class State;
  std::unique_ptr<State> state_;
};

}  // namespace callfit
