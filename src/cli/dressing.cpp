#include "cli/dressing.hpp"

#include <callfit/base/nearest.hpp>
#include <callfit/draw/image.hpp>
#include <callfit/draw/raster.hpp>
#include <callfit/draw/svg.hpp>

#include <callfit/style/style.hpp>

#include <filesystem>
#include <stdexcept>

namespace callfit::cli {
namespace {

std::string ending_of(const std::string& file) {
  return std::filesystem::path(file).extension().string();
}

template <class Enum>
Enum choice(const po::variables_map& values, const char* name) {
  const std::string text = text_of(values, name);
  const auto known = from_word<Enum>(text);
  if (known) return *known;
  const Words words = all_words<Enum>();
  throw po::error(std::string("--") + name + " " + text + ": " + suggest(text, words));
}

Logo load_logo(Files& disk, const std::string& file) {
  std::string bytes = disk.read(file);
  try {
    return {image_type(bytes), std::move(bytes)};
  } catch (const std::invalid_argument& wrong) {
    throw InputError(Finding{{file, 0, ""},
                             std::string("the logo ") + wrong.what(),
                             "give an SVG or a PNG of modest size"});
  }
}

}  // namespace

void add_dress_options(Options& options) {
  options.add_common()("frame", po::value<std::string>()->default_value("wide")->value_name("NAME"),
                       "wide 1920x1080, tall 1080x1350 or story 1080x1920")(
      "theme", po::value<std::string>()->default_value("light")->value_name("NAME"),
      "light or dark")("style", po::value<std::string>()->value_name("FILE"),
                       "style file (JSON): colours, fonts, wording")(
      "logo", po::value<std::string>()->value_name("FILE"), "your own SVG or PNG")(
      "source", po::value<std::string>()->value_name("TEXT"),
      "where the tape comes from, for the footer");
}

Dress dress_from(Files& disk, const po::variables_map& values, const Case& about) {
  Dress dress;
  dress.frame = choice<Frame>(values, "frame");
  dress.style = house_style(choice<Theme>(values, "theme"));
  if (!about.style.empty()) dress = with_style(std::move(dress), about.style, "style");
  const std::string style = text_of(values, "style");
  if (!style.empty()) dress = disk.with_style(std::move(dress), style);
  const std::string logo = text_of(values, "logo");
  if (!logo.empty()) dress.logo = load_logo(disk, logo);
  dress.tape_source = values.contains("source") ? text_of(values, "source") : about.tape_source;
  return dress;
}

void require_picture_ending(const std::string& file) {
  const std::string ending = ending_of(file);
  if (ending != ".svg" && ending != ".png" && ending != ".pdf")
    throw po::error("--output " + file + ": the name must end in .svg, .png or .pdf");
}

std::string picture_bytes(const Figure& drawing, Frame frame, const std::string& ending) {
  const FrameSize size = size_of(frame);
  std::string svg = to_svg(drawing);
  if (ending == ".png") return to_png(svg, size.width, size.height);
  return ending == ".pdf" ? to_pdf(svg, size.width, size.height) : svg;
}

void write_pictures(Files& disk, const Figure& drawing, Frame frame, const Words& files) {
  for (const std::string& file : files)
    disk.write(file, picture_bytes(drawing, frame, ending_of(file)));
}

}  // namespace callfit::cli
