#include <callfit/files/film.hpp>
#include <files/program.hpp>
#include <files/stream.hpp>

#include <fmt/format.h>

#include <filesystem>
#include <fstream>

namespace callfit {
namespace {

namespace fs = std::filesystem;

constexpr auto cutter = "ffmpeg";

void call_cutter(std::vector<std::string> words, const std::string& written,
                 const std::string& path, const std::string& what) {
  words.insert(words.begin(), cutter);
  words.push_back("file:" + written);
  const auto ended = run_program(words);
  if (!ended) refuse_file(path, what + ": ffmpeg is not installed", "apt install ffmpeg");
  if (!ended->well)
    refuse_file(path,
                what + ": ffmpeg says " + (ended->last_line.empty() ? "nothing" : ended->last_line),
                "");
}

}  // namespace

bool has_ffmpeg() {
  const auto ended = run_program({cutter, "-version"});
  return ended && ended->well;
}

void cut_film(Files& disk, const std::string& path, std::span<const Cut> cuts,
              const Progress& progress) {
  for (const Cut& cut : cuts) require_file(cut.clip);
  disk.write_by(path, [&](const std::string& folder) {
    const auto place_of = [&folder](const std::string& name) {
      return (fs::path(folder) / name).string();
    };
    for (std::size_t i = 0; i < cuts.size(); ++i) {
      if (progress) progress(i, cuts.size());
      const Cut& cut = cuts[i];
      call_cutter(piece_words(cut), place_of(piece_name(i)), cut.clip,
                  fmt::format("cannot be cut from {:.3f} to {:.3f} seconds", cut.start, cut.end));
    }
    std::ofstream(place_of("list")) << pieces_list(cuts.size());
    call_cutter(joining_words(place_of("list")), place_of("film"), path, "cannot be put together");
    if (progress) progress(cuts.size(), cuts.size());
    return place_of("film");
  });
}

}  // namespace callfit
