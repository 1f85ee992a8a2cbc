#include <callfit/charting/charting.hpp>
#include <callfit/files/files.hpp>
#include <callfit/files/left_parts.hpp>
#include <desk/chart_file.hpp>

#include <filesystem>
#include <utility>

namespace callfit::desk {
namespace {

namespace fs = std::filesystem;

void put_chart(const std::string& path, const std::string& bytes) {
  Files disk;
  disk.replace_all();  // the analyst's own file, which he asked to be written
  disk.write(path, bytes);
}

void put_beside(const std::string& path, const std::string& text) {
  if (!text.empty()) return put_chart(path, text);
  std::error_code failed;
  fs::remove(path, failed);
}

}  // namespace

ChartFile::ChartFile(std::string path) : path_(std::move(path)) {
  try {
    lock_.emplace(path_);
  } catch (const InputError& error) {
    only_looked_at_ = error.findings().front().what + "; here it can only be looked at";
  }
  if (only_looked_at_.empty()) remove_left_parts(fs::absolute(path_).parent_path().string());
  if (!fs::exists(path_) && only_looked_at_.empty())
    put_chart(path_, charting::ChartRows::fresh_text());
  text_ = Files{}.read(path_);
}

std::string ChartFile::beside(const std::string& path) const {
  return fs::exists(path) ? Files{}.read(path) : std::string();
}

std::optional<std::string> ChartFile::blind() const {
  return fs::exists(blind_path()) ? std::optional(Files{}.read(blind_path())) : std::nullopt;
}

void ChartFile::seal() {
  may_be_written();
  if (!blind()) put_chart(blind_path(), text_);
}

bool ChartFile::look_again() {
  std::string now = Files{}.read(path_);
  if (now == text_) return false;
  text_ = std::move(now);
  return true;
}

void ChartFile::may_be_written() const {
  if (!only_looked_at_.empty())
    throw InputError(Finding{{path_, 0, ""}, only_looked_at_, "end the other desk first"});
}

void ChartFile::write(const Texts& texts) {
  may_be_written();
  // Whatever ends the desk between the two, a time is in one of them: a mark that becomes a row
  // stays until the row is there, one that comes back is there before its row is gone.
  const std::string before = marks();
  const bool marks_first = texts.marks.size() > before.size();
  if (marks_first) put_beside(marks_path(), texts.marks);
  if (texts.chart != text_) write_chart(texts.chart);
  if (!marks_first && texts.marks != before) put_beside(marks_path(), texts.marks);
  if (texts.upheld != upheld()) put_beside(upheld_path(), texts.upheld);
}

void ChartFile::write_chart(const std::string& text) {
  if (Files{}.read(path_) != text_)
    throw InputError(Finding{{path_, 0, ""},
                             "was changed by somebody else while the desk was open",
                             "end the desk and open it again; the open row is lost then"});
  put_chart(path_, text);
  text_ = text;
}

}  // namespace callfit::desk
