// A zip archive in memory, through libzip.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

struct zip;

namespace callfit {

/// `bytes` must outlive it.
class Archive {
 public:
  /// Throws InputError about `path` where the bytes are no archive.
  Archive(std::string_view bytes, std::string path);

  bool holds(const std::string& name) const;
  /// A file of the archive, unpacked; nothing where there is none. Throws where it is damaged, in
  /// cipher, or where all that was asked for so far is longer than `longest`.
  std::optional<std::string> file(const std::string& name);

  static constexpr std::size_t longest = 32U << 20U;

 private:
  struct Close {
    void operator()(zip* archive) const;
  };
  std::string path_;
  std::size_t unpacked_ = 0;
  std::unique_ptr<zip, Close> archive_;
};

[[noreturn]] void refuse_length(const std::string& path);

}  // namespace callfit
