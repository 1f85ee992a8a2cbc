#include <callfit/files/files.hpp>
#include <desk/kept_list.hpp>

#include <algorithm>
#include <filesystem>

namespace callfit::desk {
namespace {

namespace fs = std::filesystem;
constexpr std::uintmax_t largest_kept = std::uintmax_t{1} << 20;  // bytes
constexpr std::size_t most_listed = 200;

bool may_be_kept(const fs::directory_entry& entry) {
  std::error_code failed;
  return !entry.is_symlink(failed) && entry.is_regular_file(failed) &&
         entry.path().extension() == ".json" && entry.file_size(failed) <= largest_kept && !failed;
}

}  // namespace

std::vector<KeptFile> kept_in(const std::string& folder) {
  std::vector<KeptFile> list;
  std::error_code failed;
  for (const fs::directory_entry& entry : fs::directory_iterator(folder, failed)) {
    if (list.size() >= most_listed || !may_be_kept(entry)) continue;
    try {
      list.push_back({entry.path().filename().string(), Files{}.kept(entry.path().string())});
    } catch (const InputError&) {
      continue;  // some other JSON
    }
  }
  std::sort(list.begin(), list.end(), [](const KeptFile& a, const KeptFile& b) {
    return a.said.date != b.said.date ? a.said.date > b.said.date : a.name < b.name;
  });
  return list;
}

}  // namespace callfit::desk
