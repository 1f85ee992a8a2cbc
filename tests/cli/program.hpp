// Runs the real program and keeps what it said.
#pragma once

#include <filesystem>
#include <string>

namespace callfit::test {

struct Outcome {
  int code = -1;
  std::string out;
  std::string err;
};

/// Runs `callfit` with these words, as a shell would read them. The working folder is `folder`.
/// Standard output is kept, or goes where `redirection` sends it (">/dev/full", ">&-").
Outcome run(const std::string& words, const std::filesystem::path& folder = ".",
            const std::string& redirection = "");

/// A fresh folder that is removed with the object.
class Scratch {
 public:
  Scratch();
  ~Scratch();
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;

  const std::filesystem::path& path() const { return path_; }
  std::filesystem::path write(const std::string& name, const std::string& text) const;
  std::string read(const std::string& name) const;

 private:
  std::filesystem::path path_;
};

std::string slurp(const std::filesystem::path& file);

/// A file of the source tree, such as "profiles/demo/new-starter.csv".
std::string source_file(const std::string& name);

/// Where the demo's case is.
std::string demo_folder();

}  // namespace callfit::test
