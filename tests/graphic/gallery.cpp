// Draws every sample: gallery FOLDER [WIDTH]. With a width, only PNG files of that width, one of
// each picture in a frame and theme that take turns: the golden images and docs/images.
#include "samples.hpp"

#include <callfit/draw/raster.hpp>
#include <callfit/draw/svg.hpp>

#include <fstream>
#include <iostream>
#include <string>

namespace {

using namespace callfit;

void save(const std::string& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary) << bytes;
}

void draw_everything(const std::string& folder) {
  const TextRuler ruler;
  for (const Frame frame : {Frame::wide, Frame::tall, Frame::story})
    for (const Theme theme : {Theme::light, Theme::dark}) {
      const Dress dress = samples::dress(frame, theme);
      for (const auto& [name, made] : samples::all_figures(dress, ruler)) {
        const std::string path =
            folder + "/" + name + "-" + std::string(word(frame)) + "-" + std::string(word(theme));
        const std::string svg = to_svg(made);
        save(path + ".svg", svg);
        save(path + ".png", to_png(svg, made.width, made.height));
      }
    }
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2 && argc != 3) {
    std::cerr << "usage: gallery FOLDER [WIDTH]\n";
    return 2;
  }
  const std::string folder = argv[1];
  if (argc == 2) {
    draw_everything(folder);
    return 0;
  }
  for (const auto& [name, made] : samples::golden_figures())
    save(folder + "/" + name + ".png", samples::png_of_width(made, std::stoi(argv[2])));
  return 0;
}
