// What a chart says must not steer the terminal that shows it.
#pragma once

#include <ostream>
#include <sstream>

namespace callfit::cli {

/// While it lives, control characters that are put into the stream are written out, all but line
/// breaks and tabs.
class Visible : private std::stringbuf {
 public:
  explicit Visible(std::ostream& stream);
  ~Visible() override;
  Visible(const Visible&) = delete;
  Visible& operator=(const Visible&) = delete;

 private:
  int sync() override;

  std::ostream& stream_;
  std::streambuf* behind_;
};

}  // namespace callfit::cli
