#include <callfit/charting/charting.hpp>
#include <callfit/files/files.hpp>
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

}  // namespace

ChartFile::ChartFile(std::string path) : path_(std::move(path)) {
  try {
    lock_.emplace(path_);
  } catch (const InputError& error) {
    only_looked_at_ = error.findings().front().what + "; here it can only be looked at";
  }
  if (!fs::exists(path_) && only_looked_at_.empty())
    put_chart(path_, charting::ChartRows::fresh_text());
  text_ = Files{}.read(path_);
}

std::string ChartFile::marks() const {
  return fs::exists(marks_path()) ? Files{}.read(marks_path()) : std::string();
}

bool ChartFile::look_again() {
  std::string now = Files{}.read(path_);
  if (now == text_) return false;
  text_ = std::move(now);
  return true;
}

void ChartFile::write(const std::string& text, const std::string& marks) {
  if (!only_looked_at_.empty())
    throw InputError(Finding{{path_, 0, ""}, only_looked_at_, "end the other desk first"});
  // Whatever ends the desk between the two, a time is in one of them: a mark that becomes a row
  // stays until the row is there, one that comes back is there before its row is gone.
  const std::string before = this->marks();
  const bool marks_first = marks.size() > before.size();
  if (marks_first) write_marks(marks);
  if (text != text_) write_chart(text);
  if (!marks_first && marks != before) write_marks(marks);
}

void ChartFile::write_chart(const std::string& text) {
  if (Files{}.read(path_) != text_)
    throw InputError(Finding{{path_, 0, ""},
                             "was changed by somebody else while the desk was open",
                             "end the desk and open it again; the open row is lost then"});
  put_chart(path_, text);
  text_ = text;
}

void ChartFile::write_marks(const std::string& marks) {
  if (marks.empty()) {
    std::error_code failed;
    fs::remove(marks_path(), failed);
    return;
  }
  put_chart(marks_path(), marks);
}

}  // namespace callfit::desk
