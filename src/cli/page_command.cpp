// A page that readers can play with, as one file.
#include "cli/case_words.hpp"
#include "cli/inputs.hpp"

#include <callfit/page/page.hpp>

#include <commit.hpp>

#include <fmt/format.h>

#include <iostream>

namespace callfit::cli {
namespace {

Options page_options() {
  Options options({"page CASE -o PAGE.html [--anonymous] [--with-rows]",
                   "One HTML file for readers: the picture, the paragraph, the numbers, and what "
                   "the case lets them turn "
                   "(its part \"page\"; else what costs most), worked out in their browser by the "
                   "same program. It loads "
                   "nothing and holds counts alone: no row, unless asked with --with-rows, and "
                   "never a clip or note. docs/publishing.md says "
                   "what it is for.",
                   "  callfit page profiles/demo/case.json -o page.html\n"
                   "  callfit page case.json -o page.html --anonymous"});
  add_case_options(options);
  add_stand_options(options);
  options.with_force().add()("output,o", po::value<Words>()->value_name("FILE"),
                             "where the page goes, a file that ends in .html")(
      "anonymous", "call him New starter, and number everybody and everything else by name")(
      "with-rows", "put his charted snaps into it too, row by row; the page says so")(
      "engine", po::value<std::string>()->value_name("FOLDER"),
      "what scripts/page-engine has built; its own if not given");
  return options;
}

std::string page_file(const po::variables_map& values) {
  const Words files = texts_of(values, "output");
  if (files.size() != 1 || !files.front().ends_with(".html"))
    throw po::error("--output takes one file that ends in .html");
  return files.front();
}

}  // namespace

int page_command(const Words& words) {
  Files disk;
  const auto values = page_options().parse(words, disk);
  if (!values) return exit_ok;
  const std::string file = page_file(*values);
  const std::string folder =
      values->contains("engine") ? text_of(*values, "engine") : engine_folder();
  const page::Engine engine = page::read_engine(disk, folder, CALLFIT_VERSION);
  const OpenedCase opened = open_case(disk, *values);
  const page::Source source{
      opened.about,
      whole_case(opened.about, opened.document, opened.source, texts_on(disk), disk.beside()),
      opened.document,
      opened.source,
      stand_of(*values, opened.about),
      values->contains("anonymous"),
      values->contains("with-rows"),
      CALLFIT_VERSION,
      CALLFIT_COMMIT};
  const page::Page page = page::make_page(source, engine, threads_of(*values));
  disk.write(file, page.html);
  std::cout << fmt::format("{}: {} kB", file, page.html.size() / 1000);
  for (const auto& [part, size] : page.parts)
    std::cout << fmt::format(", {} {}", part, size / 1000);
  std::cout << '\n' << page.holds << '\n';
  return exit_ok;
}

}  // namespace callfit::cli
