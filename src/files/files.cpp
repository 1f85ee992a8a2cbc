// Which files a command reads and writes, and what is read from them.
#include <callfit/files/files.hpp>
#include <callfit/format/json.hpp>
#include <callfit/format/observed.hpp>
#include <callfit/format/profile.hpp>
#include <callfit/format/scheme.hpp>
#include <callfit/format/setting.hpp>
#include <callfit/style/style.hpp>
#include <files/mark.hpp>
#include <files/stream.hpp>

#include <algorithm>
#include <filesystem>

namespace callfit {
namespace {

namespace fs = std::filesystem;

bool is_same_file(const std::string& a, const std::string& b) {
  std::error_code failed;
  return fs::is_regular_file(a, failed) && fs::equivalent(a, b, failed) && !failed;
}

/// Of outputs that need not be there yet. A device takes any number of them.
bool is_same_place(const std::string& a, const std::string& b) {
  std::error_code failed;
  if (fs::exists(a, failed) && !fs::is_regular_file(a, failed) && !fs::is_directory(a, failed))
    return false;
  const auto place = [&](const std::string& path) {
    return fs::weakly_canonical(fs::absolute(path, failed), failed);
  };
  return is_same_file(a, b) || (!place(a).empty() && place(a) == place(b));
}

void refuse_both(const std::string& path, const std::vector<std::string>& others,
                 const std::string& output) {
  if (std::any_of(others.begin(), others.end(),
                  [&](const std::string& other) { return is_same_file(path, other); }))
    refuse_file(output, "is also an input of this command and would be lost",
                "write to another file");
}

}  // namespace

void Files::will_read(const std::string& path) {
  for (const std::string& output : written_) refuse_both(path, {output}, output);
  read_.push_back(path);
}

void Files::will_write(const std::string& path) {
  refuse_both(path, read_, path);
  for (const std::string& other : written_)
    if (is_same_place(path, other))
      refuse_file(path, "is named twice as an output", "give each result a file of its own");
  written_.push_back(path);
  unchecked_.push_back(path);
}

void Files::check_own(const std::string& path) const {
  std::error_code failed;
  if (replaces_all_ || !fs::is_regular_file(path, failed) || fs::file_size(path, failed) == 0)
    return;
  if (fs::file_size(path, failed) > longest_file || !is_marked(bytes_of(path), path))
    refuse_file(path, "is there already, and is not as callfit wrote it",
                "write to another file, or add --force to replace it");
}

std::string Files::format(const std::string& path) { return format_of(read(path), path); }

std::vector<Family> Files::families(const std::string& path) {
  return parse_families(read(path), path);
}

Scheme Files::scheme(const std::string& path) { return parse_scheme(read(path), path, beside()); }

Setting Files::setting(const std::string& path) {
  return parse_setting(read(path), path, beside());
}

Profile Files::profile(const std::string& path, const Setting& setting) {
  return parse_profile(read(path), path, setting);
}

KeptAnswer Files::kept(const std::string& path) { return parse_kept(read(path), path); }

Scenario Files::scenario(const std::string& path) { return parse_scenario(read(path), path); }

Observed Files::observed(const std::string& path) { return parse_observed(read(path), path); }

Dress Files::with_style(Dress dress, const std::string& path) {
  return callfit::with_style(std::move(dress), read(path), path);
}

Beside Files::beside() {
  return [this](const std::string& name, const std::string& source) {
    const std::string path = (fs::path(source).parent_path() / name).string();
    return SourceText{read(path), path};
  };
}

}  // namespace callfit
