// The whole job in one call: quarterbacks and schemes in; fit, points, comparison, half a page and
// pictures out.
#include "cli/asking.hpp"
#include "cli/case_words.hpp"
#include "cli/console.hpp"
#include "cli/dressing.hpp"
#include "cli/film_output.hpp"
#include "cli/pictures.hpp"

#include "report/knobs_json.hpp"

#include <callfit/ask/kept.hpp>
#include <callfit/ask/paths.hpp>
#include <callfit/ask/study.hpp>
#include <callfit/base/nearest.hpp>
#include <callfit/base/slug.hpp>
#include <callfit/format/kept.hpp>
#include <callfit/format/profile.hpp>
#include <callfit/format/scheme.hpp>
#include <callfit/graphic/pictures.hpp>
#include <callfit/report/answer_text.hpp>
#include <callfit/report/record_text.hpp>
#include <callfit/report/snaps_text.hpp>
#include <callfit/report/table.hpp>

#include <fmt/chrono.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <iostream>
#include <set>

namespace callfit::cli {
namespace {

namespace fs = std::filesystem;

constexpr double most_sampled = 1e9;
const Words parts{"say", "fit", "drives", "compare", "brief"};

Options answer_options() {
  Options options(
      {"answer CASE | QUARTERBACK... --scheme NAME|FILE... [--calls CSV...] [-o FOLDER|FILE...]",
       "The whole job: does his game fit what the coordinator calls, how many points is it worth, "
       "who is ahead, and why. Takes a saved case, or charts (CSV) and profiles (JSON), one "
       "quarterback each, and one scheme or several. The first quarterback is the one asked about, "
       "the second the one he is held against. -o with a folder writes the answers, profiles, "
       "schemes, the case and the pictures there; with .svg, .png or .pdf it draws, and writes the "
       "paragraph to say into a .txt beside the picture.",
       "  callfit answer profiles/demo/case.json -o results\n"
       "  callfit answer new.csv last.csv --scheme balanced --part compare --json"});
  options.with_json().with_force();
  add_case_options(options);
  add_stand_options(options);
  add_dress_options(options);
  options.add()("part", po::value<Words>()->value_name("NAME"),
                "say, fit, drives, compare or brief; may be repeated")(
      "weights", po::value<std::string>()->default_value("scheme")->value_name("scheme|points"),
      "what a demand weighs in the fit: as the scheme says, or what it scores")(
      "from", po::value<std::string>()->value_name("DOWN,TO_GO,YARDS_TO_GOAL"),
      "drives from one state; a single number: first and ten there")(
      "sample", whole(0, most_sampled)->default_value(0, "0"), "also draw so many drives")(
      "picture", po::value<Words>()->value_name("NAME"),
      "fit, throws, results, points or map; several make a sheet")(
      "snaps", po::value<std::string>()->value_name("NUMBER"),
      "the snaps behind a number, and how much each moved it: place, net_points, \"deep outside "
      "completion\"")("numbers", po::value<std::string>()->implicit_value("")->value_name("WORDS"),
                      "list the numbers that rest on snaps; those with the words in them")(
      "keep", po::value<std::string>()->value_name("FILE"),
      "keep what was said with its date, for trend to score")(
      "date", po::value<std::string>()->value_name("YYYY-MM-DD"), "the date to keep; today")(
      "save", po::value<std::string>()->value_name("FILE"), "save the case")(
      "output,o", po::value<Words>()->value_name("FOLDER|FILE"), "where results go");
  add_film_options(options);
  return options;
}

DriveState state_of(const std::string& words) {
  std::vector<int> numbers;
  std::string rest = words;
  while (!rest.empty()) {
    std::size_t used = 0;
    try {
      numbers.push_back(std::stoi(rest, &used));
    } catch (const std::logic_error&) {
      used = 0;
    }
    if (used == 0 || (used < rest.size() && (rest[used] != ',' || used + 1 == rest.size())))
      throw po::error("--from " + words + ": give 75, or 3,8,40 for third and 8 at the 40");
    rest = used < rest.size() ? rest.substr(used + 1) : "";
  }
  if (numbers.size() == 1 && numbers[0] >= 1 && numbers[0] <= 99) return first_down_at(numbers[0]);
  if (numbers.size() == 3) return {numbers[0], numbers[1], numbers[2]};
  throw po::error("--from " + words + ": give 75, or 3,8,40 for third and 8 at the 40");
}

// The one he is held against, in his own scheme or in the same one.
Stand other_stand(const Stand& stand, const Case& about, bool own_scheme) {
  Stand second = stand;
  second.quarterback = stand.quarterback == 1 ? 0 : 1;
  if (own_scheme) second.scheme = about.quarterbacks[second.quarterback].scheme;
  return second;
}

Request part_request(const std::string& part, const po::variables_map& values, const Case& about) {
  const Stand stand = stand_of(values, about);
  if (part == "fit") {
    const std::string weights = text_of(values, "weights");
    if (weights != "scheme" && weights != "points")
      throw po::error("--weights takes scheme or points, not " + weights);
    return FitRequest{stand, weights == "points"};
  }
  if (part == "drives") {
    DrivesRequest request{stand, std::nullopt, whole_of(values, "sample")};
    if (values.contains("from")) request.from = state_of(text_of(values, "from"));
    return request;
  }
  if (part == "compare") return CompareRequest{};
  if (part == "say") {
    if (about.quarterbacks.size() < 2) return SayRequest{stand, std::nullopt};
    return SayRequest{stand, other_stand(stand, about, false)};
  }
  if (part != "brief") throw po::error("--part " + part + ": " + suggest(part, parts));
  if (about.quarterbacks.size() < 2) throw po::error("--part brief needs a second quarterback");
  return BriefRequest{stand, other_stand(stand, about, true)};
}

void require_one_question(const po::variables_map& values) {
  int asked = 0;
  for (const char* name : {"part", "snaps", "numbers"}) asked += values.contains(name) ? 1 : 0;
  if (asked > 1) throw po::error("--part, --snaps and --numbers are asked one at a time");
}

Words usual_parts(const Case& about) {
  if (about.quarterbacks.size() > 1) return {"say", "fit", "compare", "brief"};
  if (about.schemes.size() > 1) return {"say", "fit", "compare"};
  return {"say", "fit", "drives"};
}

std::vector<Request> requests_of(const po::variables_map& values, const Case& about) {
  if (values.contains("snaps"))
    return {SnapsRequest{stand_of(values, about), text_of(values, "snaps")}};
  Words asked = texts_of(values, "part");
  if (asked.empty()) asked = usual_parts(about);
  std::vector<Request> requests;
  if (std::find(asked.begin(), asked.end(), "drives") == asked.end())
    for (const char* name : {"from", "sample"})
      if (values.contains(name) && !values[name].defaulted())
        throw po::error(std::string("--") + name + " is asked of drives: add --part drives");
  for (const std::string& part : asked) requests.push_back(part_request(part, values, about));
  return requests;
}

// A folder's name has no ending.
bool is_picture(const std::string& file) {
  std::error_code failed;
  if (fs::is_directory(file, failed) || fs::path(file).extension().empty()) return false;
  require_picture_ending(file);
  return true;
}

// What one folder will hold, made in full before anything is written.
class Folder {
 public:
  explicit Folder(std::string path) : path_(std::move(path)) {}

  /// Of two like names the second gets a number.
  void add(const std::string& stem, const std::string& ending, std::string bytes) {
    std::string name = stem + ending;
    for (int i = 2; has(name); ++i) name = fmt::format("{}-{}{}", stem, i, ending);
    files_.emplace_back(std::move(name), std::move(bytes));
  }

  void announce(Files& disk) const {
    for (const auto& [name, bytes] : files_) disk.will_write(place_of(name));
  }

  std::string write(Files& disk) const {
    std::error_code failed;
    fs::create_directories(path_, failed);
    if (failed)
      throw InputError(Finding{{path_, 0, ""}, "cannot be made a folder", failed.message()});
    std::string listing = "\nWritten to " + path_ + ":";
    for (const auto& [name, bytes] : files_) {
      disk.write(place_of(name), bytes);
      listing += ' ' + name;
    }
    return listing + '\n';
  }

 private:
  std::string place_of(const std::string& name) const { return (fs::path(path_) / name).string(); }
  bool has(const std::string& name) const {
    return std::any_of(files_.begin(), files_.end(),
                       [&name](const auto& file) { return file.first == name; });
  }

  std::string path_;
  std::vector<std::pair<std::string, std::string>> files_;
};

// What stands beside a picture: the paragraph to say, and the picture in words.
std::string beside_picture(const Figure& drawing, Study& study, const Stand& stand) {
  const Case& about = study.about();
  SayRequest request{stand, std::nullopt};
  if (about.quarterbacks.size() > 1) request.against = other_stand(stand, about, false);
  const auto say = std::get<SayAnswer>(study.answer(request));
  return text_beside(drawing, say, about);
}

void add_picture(Folder& folder, const std::string& picture, Study& study, const Stand& stand,
                 const Dress& dress) {
  const Figure drawing = picture_figure({picture}, study, stand, dress);
  for (const char* ending : {".svg", ".png"})
    folder.add(picture, ending, picture_bytes(drawing, dress.frame, ending));
  folder.add(picture, ".txt", beside_picture(drawing, study, stand));
}

std::string side_file(const std::string& picture) {
  return fs::path(picture).replace_extension(".txt").string();
}

Folder folder_of(Files& disk, const std::string& path, const OpenedCase& opened, const Asked& asked,
                 Study& study, const Stand& stand, const Dress& dress) {
  Folder folder(path);
  folder.add("answer", ".txt", asked.text);
  folder.add("answers", ".json", asked.json);
  const std::string whole =
      whole_case(opened.about, opened.document, opened.source, texts_on(disk), disk.beside());
  Findings notices;  // told of the charts before
  parse_case(whole, path + "/case.json", texts_on(disk), disk.beside(), notices);
  folder.add("case", ".json", whole);
  for (const Quarterback& quarterback : opened.about.quarterbacks)
    folder.add(slug(quarterback.profile.name), ".profile.json",
               profile_to_json(quarterback.profile, opened.about.setting));
  for (const Scheme& scheme : opened.about.schemes)
    folder.add(slug(scheme.name), ".scheme.json", scheme_to_json(scheme));
  add_picture(folder, "fit", study, stand, dress);
  if (opened.about.quarterbacks.size() > 1) {
    add_picture(folder, "results", study, stand, dress);
    add_picture(folder, "points", study, stand, dress);
  }
  return folder;
}

// Outputs that are pictures, and those that are folders.
struct Outputs {
  Words pictures, folders;

  /// One for pictures of the same name.
  std::set<std::string> side_files() const {
    std::set<std::string> files;
    for (const std::string& picture : pictures) files.insert(side_file(picture));
    return files;
  }
};

Outputs sorted_outputs(const po::variables_map& values) {
  Outputs outputs;
  for (const std::string& output : texts_of(values, "output"))
    (is_picture(output) ? outputs.pictures : outputs.folders).push_back(output);
  return outputs;
}

// What such odds came to, once for all answers.
std::string record_of(const std::vector<Answer>& answers, const Case& about) {
  for (const Answer& answer : answers)
    if (const std::string record = record_beside(answer, about); !record.empty())
      return wrapped(record, text_width);
  return "";
}

// Those with every word in them.
void print_numbers(std::vector<SnapNumber> numbers, const std::string& words, bool as_json) {
  std::erase_if(numbers, [&words](const SnapNumber& one) {
    return !path_has_words(one.address, one.label, words);
  });
  if (numbers.empty())
    throw InputError(
        Finding{{"", 0, words}, "no number has these words", "leave some of them out"});
  if (as_json)
    print_json("answer", {{"numbers", words}}, snap_numbers_json(numbers));
  else
    std::cout << snap_numbers_text(numbers);
}

std::string today() {
  const auto now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  return fmt::format("{:%Y-%m-%d}", fmt::localtime(now));
}

void draw_pictures(Files& disk, const Outputs& outputs, const Words& pictures, Study& study,
                   const Stand& stand, const Dress& dress) {
  if (outputs.pictures.empty()) return;
  const Figure drawing = picture_figure(pictures, study, stand, dress);
  write_pictures(disk, drawing, dress.frame, outputs.pictures);
  for (const std::string& file : outputs.side_files())
    disk.write(file, beside_picture(drawing, study, stand));
}

void keep_answer(Files& disk, const std::string& file, Study& study, const Stand& stand,
                 const std::string& date) {
  if (file.empty()) return;
  const std::string kept =
      kept_to_json(kept_answer(std::get<FitAnswer>(study.answer(FitRequest{stand, false})),
                               study.about().quarterbacks[stand.quarterback].profile, date));
  parse_kept(kept, file);
  disk.write(file, kept);
}

}  // namespace

int answer_command(const Words& words) {
  Files disk;
  const auto values = answer_options().parse(words, disk);
  if (!values) return exit_ok;
  require_one_question(*values);
  const Outputs outputs = sorted_outputs(*values);
  Words pictures = texts_of(*values, "picture");
  require_pictures(pictures);
  if (pictures.empty()) pictures = {"fit"};
  const std::string save = text_of(*values, "save");
  const std::string keep = text_of(*values, "keep");
  for (const std::string& file : {save, keep})
    if (!file.empty()) disk.will_write(file);
  const std::string date = values->contains("date") ? text_of(*values, "date") : today();
  require_date(date);
  for (const std::string& file : outputs.side_files()) disk.will_write(file);
  announce_film(disk, *values);
  const OpenedCase opened = open_case(disk, *values);
  const Stand stand = stand_of(*values, opened.about);
  const Dress dress = dress_from(disk, *values, opened.about);
  Study study(opened.about, threads_of(*values));
  if (values->contains("numbers")) {
    print_numbers(study.snap_numbers(stand), text_of(*values, "numbers"), wants_json(*values));
    return exit_ok;
  }
  Asked asked = ask_all(study, requests_of(*values, opened.about), progress_line("answering"));
  asked.text += record_of(asked.answers, opened.about);
  std::vector<Folder> folders;
  for (const std::string& path : outputs.folders)
    folders.push_back(folder_of(disk, path, opened, asked, study, stand, dress));
  for (const Folder& folder : folders) folder.announce(disk);
  draw_pictures(disk, outputs, pictures, study, stand, dress);
  if (!save.empty()) disk.write(save, document_at(opened, save));
  keep_answer(disk, keep, study, stand, date);
  std::string listing;
  for (const Folder& folder : folders) listing += folder.write(disk);
  listing += write_film(disk, *values, asked.answers, opened.about.options);
  std::cout << (wants_json(*values) ? asked.json : asked.text + listing);
  return exit_ok;
}

}  // namespace callfit::cli
