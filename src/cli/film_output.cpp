#include "cli/film_output.hpp"

#include "cli/console.hpp"

#include <callfit/base/nearest.hpp>
#include <callfit/files/film.hpp>
#include <callfit/report/cautions.hpp>
#include <callfit/report/film_lists.hpp>
#include <callfit/report/table.hpp>

#include <algorithm>
#include <filesystem>

namespace callfit::cli {
namespace {

constexpr double longest_film_reel = 24 * 60.0;  // minutes
constexpr auto film_ending = ".mp4";
const Words cut_endings{".edl", ".ffconcat", ".vtt", ".csv", ".sh", film_ending};

namespace fs = std::filesystem;

std::string cut_ending(const std::string& file) { return fs::path(file).extension().string(); }

// Where a film is to be cut and nothing is there to cut it, the script that does so elsewhere.
std::string written_for(const std::string& file) {
  static const bool can_cut = has_ffmpeg();
  return cut_ending(file) == film_ending && !can_cut ? file + ".sh" : file;
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

// Film lies beside its chart; names are those that a program started here finds.
std::vector<Cut> found_cuts(const SnapsAnswer& answer, const FilmOf& film) {
  std::vector<Cut> cuts = cuts_of(answer, film);
  Findings nameless;
  for (std::size_t i = 0; i < cuts.size(); ++i) {
    const SnapRow& row = answer.rows[film.rows[i]];
    if (row.snap.clip.empty())
      nameless.push_back({{row.chart, row.line, "clip"}, "names no film to cut", "name its file"});
    cuts[i].clip = (fs::path(row.chart).parent_path() / cuts[i].clip).string();
  }
  if (!nameless.empty()) throw InputError(nameless);
  return cuts;
}

// ffmpeg looks for film beside the list.
std::vector<Cut> beside_list(std::vector<Cut> cuts, const std::string& list) {
  for (Cut& cut : cuts)
    cut.clip = fs::path(cut.clip).is_absolute()
                   ? cut.clip
                   : fs::proximate(cut.clip, fs::absolute(list).parent_path()).string();
  return cuts;
}

// What a film that leaves the desk says of itself.
std::string said_of(const FilmOf& film) {
  return film.sentence + ' ' + std::string(data_about_minors);
}

std::string list_of(const std::string& file, const SnapsAnswer& answer, const FilmOf& film,
                    const FrameRate& rate) {
  const std::string ending = cut_ending(file);
  if (ending == ".sh") return cutting_script(found_cuts(answer, film));
  if (ending == ".ffconcat") return concat_script(beside_list(found_cuts(answer, film), file));
  const std::vector<Cut> cuts = cuts_of(answer, film);
  if (ending == ".vtt")
    return caption_sheet({film.sentence + ' ' + std::string(brackets_meaning), cautions_text()},
                         cuts);
  if (ending == ".csv") return cut_table(cuts);
  if (cuts.size() > most_edits)
    throw InputError(
        Finding{{file, 0, ""},
                std::to_string(cuts.size()) + " snaps are more than the list can count",
                "take a reel of fewer minutes (--reel)"});
  return edit_decision_list(answer.number.label, cuts, rate);
}

void put_cut(Files& disk, const std::string& file, const SnapsAnswer& answer, const FilmOf& film,
             const FrameRate& rate) {
  if (cut_ending(file) == film_ending)
    cut_film(disk, file, found_cuts(answer, film), progress_line("cutting"));
  else
    disk.write(file, list_of(file, answer, film, rate));
}

}  // namespace

void add_film_options(Options& options) {
  options.add()("cut", po::value<Words>()->value_name("FILE"),
                "with --snaps: their film cut into one .mp4 by ffmpeg, or as a list: .edl, "
                ".ffconcat, .vtt (captions), .csv, or .sh, which has ffmpeg cut it")(
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
    if (const std::string ending = cut_ending(file);
        std::find(cut_endings.begin(), cut_endings.end(), ending) == cut_endings.end())
      throw po::error("--cut " + file + ": " + suggest(ending, cut_endings));
    disk.will_write(written_for(file));
  }
}

std::string write_film(Files& disk, const po::variables_map& values,
                       const std::vector<Answer>& answers, const CaseOptions& options) {
  const Words files = texts_of(values, "cut");
  if (files.empty()) return "";
  const auto& answer = std::get<SnapsAnswer>(answers.front());
  const FilmOf film = film_of(answer, minutes_of(values), options.seed);
  std::string listing = '\n' + wrapped(said_of(film) + " Written to:");
  for (const std::string& file : files) {
    const std::string written = written_for(file);
    put_cut(disk, written, answer, film, rate_of(values));
    listing += "  " + written + '\n';
    if (written != file)
      print_notices({{{file, 0, ""},
                      "is not cut, since ffmpeg is not installed",
                      "install it (apt install ffmpeg) and run: sh " + shell_word(written) + ' ' +
                          shell_word(file),
                      Severity::notice}});
  }
  return listing;
}

}  // namespace callfit::cli
