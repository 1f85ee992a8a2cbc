#include <callfit/base/finding.hpp>
#include <callfit/format/case.hpp>
#include <desk/case_file.hpp>

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <algorithm>
#include <utility>

namespace callfit::desk {
namespace {

[[noreturn]] void refuse(const std::string& file, const std::string& what,
                         const std::string& mend) {
  throw InputError(Finding{{file, 0, ""}, what, mend});
}

}  // namespace

CaseLock::CaseLock(const std::string& file) : path_(file + ".open-desk") {
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg)
  handle_ = ::open(path_.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
  if (handle_ < 0) return;  // a folder that cannot be written to: tries say so when they are kept
  if (::flock(handle_, LOCK_EX | LOCK_NB) == 0) return;
  ::close(std::exchange(handle_, -1));
  refuse(file, "is open on another desk", "use that one, or end it first");
}

CaseLock::~CaseLock() {
  if (handle_ < 0) return;
  ::unlink(path_.c_str());
  ::close(handle_);
}

CaseLock::CaseLock(CaseLock&& other) noexcept
    : path_(std::move(other.path_)), handle_(std::exchange(other.handle_, -1)) {}

CaseFile::CaseFile(std::string file, std::string document, std::vector<Try> tries)
    : file_(std::move(file)), document_(std::move(document)), tries_(std::move(tries)) {
  if (is_on_disk()) lock_.emplace(file_);
}

void CaseFile::keep(const Try& one) {
  std::vector<Try> tries = tries_;
  const auto same = std::find_if(tries.begin(), tries.end(),
                                 [&one](const Try& other) { return other.name == one.name; });
  if (same != tries.end())
    *same = one;
  else
    tries.push_back(one);
  write(std::move(tries));
}

void CaseFile::drop(const std::string& name) {
  std::vector<Try> tries = tries_;
  if (std::erase_if(tries, [&name](const Try& one) { return one.name == name; }) == 0)
    refuse("", "no try is called " + name, "take one of the case's");
  write(std::move(tries));
}

void CaseFile::write(std::vector<Try> tries) {
  if (is_on_disk()) {
    if (Files{}.read(file_) != document_)
      refuse(file_, "was changed by somebody else while the desk was open",
             "end the desk and open it again; tries that are not kept yet are lost then");
    Files disk;
    disk.replace_all();  // as written by hand: he asked for his tries to be in it
    disk.write(file_, with_tries(document_, file_, tries));
    document_ = Files{}.read(file_);  // with the mark of who wrote it
  }
  tries_ = std::move(tries);
}

}  // namespace callfit::desk
