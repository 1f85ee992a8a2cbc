// The chart that the desk types, with its file: what was changed is on the disk, or did not happen.
#pragma once

#include <callfit/charting/charting.hpp>
#include <callfit/desk/desk.hpp>
#include <desk/chart_file.hpp>

#include <cstddef>
#include <functional>
#include <string>

namespace callfit::desk {

class TypedChart {
 public:
  /// Throws InputError where the chart, what lies beside it or the keys cannot be read.
  explicit TypedChart(const Taping& taping);

  const charting::Charting& charting() const { return charting_; }
  const charting::ChartRows& rows() const { return charting_.rows(); }
  const ChartFile& file() const { return file_; }

  /// Does something to the chart and writes what came of it. Where that cannot be, it is taken back
  /// and fault() says why.
  void change(const std::function<void(charting::Charting&)>& act);
  /// Keeps the chart as it is, and what was done before cannot be taken back.
  void seal();
  /// Empty where the last change is on the disk.
  const std::string& fault() const { return fault_; }

  /// One that can only be looked at is read again where another desk has written it.
  void look_again();
  /// How often the chart on the disk was changed here.
  std::size_t version() const { return version_; }

 private:
  void write();

  const Taping& taping_;
  ChartFile file_;
  charting::Charting charting_;
  std::string fault_;
  std::size_t version_ = 0;
};

}  // namespace callfit::desk
