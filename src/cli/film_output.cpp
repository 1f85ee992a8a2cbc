#include "cli/film_output.hpp"

#include <callfit/base/nearest.hpp>
#include <callfit/report/film_lists.hpp>
#include <callfit/report/table.hpp>

#include <algorithm>
#include <filesystem>

namespace callfit::cli {
namespace {

constexpr double longest_film_reel = 24 * 60.0;  // minutes
const Words list_endings{".edl", ".ffconcat", ".vtt", ".csv", ".sh"};

std::string list_ending(const std::string& file) {
  return std::filesystem::path(file).extension().string();
}

FrameRate rate_of(const po::variables_map& values) {
  const std::string word = text_of(values, "frames");
  if (const auto rate = frame_rate(word)) return *rate;
  throw po::error("--frames " + word + ": " + suggest(word, frame_rate_words()));
}

std::optional<double> minutes_of(const po::variables_map& values) {
  if (!values.contains("reel")) return std::nullopt;
  const double minutes = values["reel"].as<double>();
  if (!(minutes > 0 && minutes <= longest_film_reel))
    throw po::error("--reel: give minutes above 0, at most 1440");
  return minutes;
}

std::string list_of(const std::string& file, const SnapsAnswer& answer, const FilmOf& film,
                    const FrameRate& rate) {
  const std::vector<Cut> cuts = cuts_of(answer, film);
  const std::string ending = list_ending(file);
  if (ending == ".ffconcat") return concat_script(cuts);
  if (ending == ".vtt") return caption_sheet(cuts);
  if (ending == ".csv") return cut_table(cuts);
  if (ending == ".sh") return cutting_script(cuts);
  if (cuts.size() > most_edits)
    throw InputError(
        Finding{{file, 0, ""},
                std::to_string(cuts.size()) + " snaps are more than the list can count",
                "take a reel of fewer minutes (--reel)"});
  return edit_decision_list(answer.number.label, cuts, rate);
}

}  // namespace

void add_film_options(Options& options) {
  options.add()("cut", po::value<Words>()->value_name("FILE"),
                "with --snaps: their film as .edl, .ffconcat, .vtt (captions), .csv, or .sh, "
                "which has ffmpeg cut it")(
      "reel", po::value<double>()->value_name("MINUTES"),
      "with --cut: so many minutes, each result as often as charted, chosen by chance")(
      "frames", po::value<std::string>()->default_value("29.97")->value_name("RATE"),
      "with --cut FILE.edl: frames a second");
}

void announce_film(Files& disk, const po::variables_map& values) {
  rate_of(values);
  if (minutes_of(values) && !values.contains("cut")) throw po::error("--reel is asked with --cut");
  for (const std::string& file : texts_of(values, "cut")) {
    if (!values.contains("snaps")) throw po::error("--cut is asked with --snaps NUMBER");
    if (const std::string ending = list_ending(file);
        std::find(list_endings.begin(), list_endings.end(), ending) == list_endings.end())
      throw po::error("--cut " + file + ": " + suggest(ending, list_endings));
    disk.will_write(file);
  }
}

std::string write_film(Files& disk, const po::variables_map& values,
                       const std::vector<Answer>& answers, const CaseOptions& options) {
  const Words files = texts_of(values, "cut");
  if (files.empty()) return "";
  const auto& answer = std::get<SnapsAnswer>(answers.front());
  const FilmOf film = film_of(answer, minutes_of(values), options.seed);
  std::string listing = '\n' + wrapped(film.sentence + " Written to:");
  for (const std::string& file : files) {
    disk.write(file, list_of(file, answer, film, rate_of(values)));
    listing += "  " + file + '\n';
  }
  return listing;
}

}  // namespace callfit::cli
