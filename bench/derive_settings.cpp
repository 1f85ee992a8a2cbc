// Works out settings/derived/*.json anew: the net values of every shipped setting.
#include <callfit/drive/drive.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/net_values.hpp>

#include <cstdio>
#include <exception>
#include <filesystem>

using namespace callfit;

int main() {
  namespace fs = std::filesystem;
  const fs::path root = CALLFIT_SOURCE_DIR;
  try {
    Files disk;
    disk.replace_all();  // what was made before
    fs::create_directories(root / "settings" / "derived");
    for (const auto& file : fs::directory_iterator(root / "settings")) {
      if (file.path().extension() != ".json") continue;
      const Setting setting = Files().setting(file.path().string());
      const Scheme scheme = Files().scheme((root / "schemes" / setting.average_scheme).string());
      disk.write((root / "settings" / "derived" / file.path().filename()).string(),
                 net_values_to_json(average_net_values(setting, scheme, true),
                                    net_values_key(setting, scheme)));
      std::printf("%s\n", file.path().filename().c_str());
    }
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
  return 0;
}
