// Draws every sample into a folder given as the only argument.
#include "samples.hpp"

#include <callfit/draw/raster.hpp>
#include <callfit/draw/svg.hpp>

#include <fstream>
#include <iostream>
#include <string>

namespace {

void save(const std::string& folder, const std::string& name, const callfit::Figure& figure) {
  const std::string svg = callfit::to_svg(figure);
  std::ofstream(folder + "/" + name + ".svg", std::ios::binary) << svg;
  std::ofstream(folder + "/" + name + ".png", std::ios::binary)
      << callfit::to_png(svg, figure.width, figure.height);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "usage: gallery FOLDER\n";
    return 2;
  }
  using namespace callfit;
  for (const Frame frame : {Frame::wide, Frame::tall, Frame::story})
    for (const Theme theme : {Theme::light, Theme::dark}) {
      const Dress dress = samples::dress(frame, theme);
      const std::string tail = "-" + std::string(word(frame)) + "-" + std::string(word(theme));
      for (const auto& [name, panel] : samples::all_panels(dress.wording))
        save(argv[1], name + tail, figure(panel, dress));
    }
  return 0;
}
