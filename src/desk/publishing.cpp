#include <callfit/base/slug.hpp>
#include <callfit/draw/raster.hpp>
#include <callfit/draw/svg.hpp>
#include <callfit/files/files.hpp>
#include <desk/publishing.hpp>

#include <array>
#include <filesystem>

namespace callfit::desk {
namespace {

namespace fs = std::filesystem;
constexpr std::array endings{".svg", ".png", ".txt"};
constexpr std::size_t longest_stem = 80;

fs::path place_of(const std::string& folder, const std::string& stem, const char* ending) {
  return fs::path(folder) / (stem + ending);
}

bool is_free(const std::string& folder, const std::string& stem) {
  for (const char* ending : endings)
    if (fs::symlink_status(place_of(folder, stem, ending)).type() != fs::file_type::not_found)
      return false;
  return true;
}

// Letters, digits and hyphens alone, so that no name leads out of the folder.
std::string free_stem(const std::string& folder, const std::string& name) {
  const std::string wanted = slug(name).substr(0, longest_stem);
  std::string stem = wanted;
  for (int i = 2; !is_free(folder, stem); ++i) stem = wanted + '-' + std::to_string(i);
  return stem;
}

}  // namespace

std::vector<std::string> publish(const std::string& folder, const std::string& name,
                                 const Figure& drawing, const std::string& beside) {
  const std::string svg = to_svg(drawing);
  const std::array<std::string, endings.size()> bytes{
      svg, to_png(svg, drawing.width, drawing.height), beside};
  const std::string stem = free_stem(folder, name);
  std::vector<std::string> names;
  for (std::size_t i = 0; i < endings.size(); ++i) {
    Files{}.write(place_of(folder, stem, endings[i]).string(), bytes[i]);
    names.push_back(stem + endings[i]);
  }
  return names;
}

}  // namespace callfit::desk
