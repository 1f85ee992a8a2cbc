#include "cli/terminal.hpp"

#include <callfit/base/visible.hpp>

#include <string>

namespace callfit::cli {

Visible::Visible(std::ostream& stream)
    : std::stringbuf(std::ios::out), stream_(stream), behind_(stream.rdbuf(this)) {}

Visible::~Visible() {
  Visible::sync();
  stream_.rdbuf(behind_);
}

int Visible::sync() {
  const std::string text = visible(str(), "\n\t");
  str("");
  const auto length = static_cast<std::streamsize>(text.size());
  return behind_->sputn(text.data(), length) == length && behind_->pubsync() == 0 ? 0 : -1;
}

}  // namespace callfit::cli
