#include "program.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace callfit::test {

namespace fs = std::filesystem;

std::string slurp(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) throw std::runtime_error("cannot read " + file.string());
  std::ostringstream bytes;
  bytes << in.rdbuf();
  return bytes.str();
}

Outcome run(const std::string& words, const fs::path& folder, const std::string& redirection) {
  const Scratch scratch;
  const fs::path out = scratch.path() / "out";
  const fs::path err = scratch.path() / "err";
  const std::string command = "cd '" + fs::absolute(folder).string() +
                              "' && '" CALLFIT_PROGRAM "' " + words + " >'" + out.string() +
                              "' 2>'" + err.string() + "' </dev/null " + redirection;
  const int status = std::system(command.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, slurp(out), slurp(err)};
}

Scratch::Scratch() {
  std::string pattern = (fs::temp_directory_path() / "callfit-test-XXXXXX").string();
  if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no temporary folder");
  path_ = pattern;
}

Scratch::~Scratch() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

fs::path Scratch::write(const std::string& name, const std::string& text) const {
  const fs::path file = path_ / name;
  std::ofstream(file, std::ios::binary) << text;
  return file;
}

std::string Scratch::read(const std::string& name) const { return slurp(path_ / name); }

std::string source_file(const std::string& name) {
  return (fs::path(CALLFIT_SOURCE_DIR) / name).string();
}

std::string demo_folder() { return source_file("profiles/demo"); }

}  // namespace callfit::test
