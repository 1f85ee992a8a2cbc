// The desk: a page on the loopback for one case, until it is interrupted.
#include "cli/case_words.hpp"
#include "cli/inputs.hpp"

#include <callfit/charting/chart_rows.hpp>
#include <callfit/desk/desk.hpp>
#include <callfit/desk/gate.hpp>
#include <callfit/desk/server.hpp>
#include <callfit/format/json.hpp>

#include <nlohmann/json.hpp>

#include <spawn.h>
#include <sys/random.h>
#include <unistd.h>

#include <array>
#include <filesystem>
#include <iostream>

namespace callfit::cli {
namespace {

namespace fs = std::filesystem;

Options desk_options() {
  Options options(
      {"desk [CASE|FOLDER] [--chart FILE] [--tape FILE] [--no-open] [--port N]",
       "Opens a page on this machine alone, where the picture is the control: drag what is asked, "
       "how often a family is called, what the man does, and see what becomes of it. Tries are "
       "kept "
       "in the case. A folder stands for the case in it; without a word it is this folder. The "
       "page's other room is for charting by keys beside a tape: of the file that --chart names, "
       "made where there is none, else of the case's own chart. With --chart and --scheme it needs "
       "no case. With --against the chart is typed blind to another one of the same snaps; then "
       "the page shows how far the two agree and plays where they do not, a key settles each. "
       "Ctrl-C ends it.",
       "  callfit desk profiles/demo\n"
       "  callfit desk case.json --chart game-5.csv --tape game-5.mp4\n"
       "  callfit desk --chart game-1.csv --tape game-1.mp4 --scheme balanced\n"
       "  callfit desk --chart mine.csv --against theirs.csv --tape game-1.mp4 --scheme balanced"});
  add_case_options(options);
  options.add()("chart", po::value<std::string>()->value_name("FILE"),
                "the chart to type beside the tape (CSV)")(
      "tape", po::value<Words>()->value_name("FILE"),
      "film of the chart (.mp4, .webm); may be repeated")(
      "against", po::value<std::string>()->value_name("FILE"),
      "with --chart: a chart of the same snaps by somebody else, not shown until yours is done")(
      "keys", po::value<std::string>()->value_name("FILE"),
      "the key map (callfit-keys/1); keys.json beside the chart if not given")(
      "no-open", "print the address, open nothing")(
      "port", po::value<std::uint16_t>()->default_value(0, "a free one")->value_name("N"),
      "where to listen on 127.0.0.1");
  return options;
}

bool is_case(Files& disk, const fs::path& file) {
  if (file.extension() != ".json" || !fs::is_regular_file(file)) return false;
  try {
    return format_of(disk.read(file.string()), file.string()) == "callfit-case/1";
  } catch (const InputError&) {
    return false;
  }
}

// The case that a folder holds: case.json, or the only one.
std::string case_in(Files& disk, const fs::path& folder) {
  if (is_case(disk, folder / "case.json")) return (folder / "case.json").string();
  std::vector<std::string> found;
  for (const fs::directory_entry& entry : fs::directory_iterator(folder))
    if (is_case(disk, entry.path())) found.push_back(entry.path().string());
  if (found.size() == 1) return found.front();
  throw InputError(Finding{
      {folder.string(), 0, ""},
      found.empty() ? "holds no case (callfit-case/1)" : "holds several cases",
      found.empty() ? "`callfit answer ... --save case.json` makes one" : "name one of them"});
}

// A folder among the words becomes the case in it.
po::variables_map with_case_found(Files& disk, po::variables_map values) {
  Words files = texts_of(values, "who-file");
  if (files.empty()) files = {"."};
  if (files.size() == 1 && fs::is_directory(files.front()))
    files.front() = case_in(disk, files.front());
  values.erase("who-file");
  values.emplace("who-file", po::variable_value(boost::any(files), false));
  return values;
}

std::string folder_of(const std::string& file) {
  const std::string folder = fs::path(file).parent_path().string();
  return folder.empty() ? "." : folder;
}

std::vector<FamilyAlias> aliases_of_all(const std::vector<Scheme>& schemes) {
  std::vector<FamilyAlias> all;
  for (const Scheme& scheme : schemes)
    for (FamilyAlias& alias : aliases_of(scheme)) all.push_back(std::move(alias));
  return all;
}

// The chart that is named, else the last one of the case's first quarterback.
std::string chart_to_type(const po::variables_map& values, const std::optional<Case>& about) {
  if (values.contains("chart")) return text_of(values, "chart");
  if (!about || !about->quarterbacks.front().tape) return {};
  const auto& charts = about->quarterbacks.front().tape->charts;
  return charts.empty() || !fs::is_regular_file(charts.back().source) ? "" : charts.back().source;
}

bool is_same_file(const fs::path& a, const std::string& b) {
  return !b.empty() && fs::weakly_canonical(a) == fs::weakly_canonical(b);
}

// The case's document with the chart as one more of its first quarterback's, if it is nobody's yet.
// The one that it is charted against is out: its snaps are the same, and not to be seen. Whose that
// one was, his is the chart.
std::string with_chart(const OpenedCase& opened, const std::string& chart,
                       const std::string& against) {
  auto document = nlohmann::ordered_json::parse(opened.document);
  const fs::path folder = fs::path(opened.source).parent_path();
  nlohmann::ordered_json* owner = nullptr;
  bool is_changed = false, is_there = false;
  for (auto& quarterback : document["quarterbacks"]) {
    if (!quarterback.contains("charts")) continue;
    auto& charts = quarterback["charts"];
    for (std::size_t i = charts.size(); i-- > 0;) {
      if (!charts[i].is_string()) continue;
      const fs::path file = folder / charts[i].get<std::string>();
      is_there = is_there || is_same_file(file, chart);
      if (!is_same_file(file, against)) continue;
      charts.erase(i);
      owner = &charts;
      is_changed = true;
    }
  }
  auto& first = document["quarterbacks"].front();
  if (owner == nullptr && first.contains("charts")) owner = &first["charts"];
  if (!is_there && owner != nullptr) owner->push_back(fs::weakly_canonical(chart).string());
  return is_there && !is_changed ? opened.document : document.dump();
}

std::string keys_beside(const std::string& chart) {
  return (fs::path(chart).parent_path() / "keys.json").string();
}

std::optional<desk::Taping> taping_from(const po::variables_map& values, const std::string& chart,
                                        const Setting& setting, const std::vector<Scheme>& schemes,
                                        const OpenedCase& opened) {
  if (chart.empty()) return std::nullopt;
  desk::Taping taping;
  taping.chart = chart;
  taping.films = texts_of(values, "tape");
  taping.keys = values.contains("keys") ? text_of(values, "keys") : keys_beside(chart);
  taping.against = text_of(values, "against");
  taping.success = setting.success;
  taping.words = words_of(setting, aliases_of_all(schemes));
  taping.is_first_room = values.contains("chart") || values.contains("tape");
  taping.read_case = [document = with_chart(opened, chart, taping.against),
                      source = opened.source] {
    Files disk;
    return read_again(disk, {document, source, {}});
  };
  return taping;
}

bool has_rows(Files& disk, const desk::Taping& taping) {
  return fs::exists(taping.chart) &&
         charting::ChartRows(disk.read(taping.chart), taping.chart, taping.words).size() > 0;
}

// From an empty folder: the case is the chart that is going to be typed.
desk::Opened opened_from_chart(Files& disk, const po::variables_map& values) {
  const std::string chart = text_of(values, "chart");
  const OpenedCase opened = unread_case(disk, values, {chart});
  std::vector<Scheme> schemes;
  for (const std::string& name : texts_of(values, "scheme"))
    schemes.push_back(load_scheme(disk, name));
  const Setting setting = load_setting(disk, text_of(values, "setting"));
  desk::Opened all{std::nullopt, opened.document, "", folder_of(chart), load_glossary(disk)};
  all.taping = taping_from(values, chart, setting, schemes, opened);
  if (has_rows(disk, *all.taping)) all.about = all.taping->read_case();
  return all;
}

desk::Opened opened_from(Files& disk, const po::variables_map& values) {
  if (values.contains("chart") && !values.contains("who-file"))
    return opened_from_chart(disk, values);
  const po::variables_map found = with_case_found(disk, values);
  OpenedCase opened = open_case(disk, found);
  const std::string file = opened.source;
  desk::Opened all{std::move(opened.about), file.empty() ? opened.document : disk.read(file), file,
                   file.empty() ? "." : folder_of(file), load_glossary(disk)};
  const std::string chart = chart_to_type(values, all.about);
  all.taping = taping_from(values, chart, all.about->setting, all.about->schemes, opened);
  if (!values.contains("against")) return all;
  all.tries = all.about->tries;  // the case as it is without the other chart
  all.about.reset();
  if (has_rows(disk, *all.taping)) all.about = all.taping->read_case();
  return all;
}

std::string new_token() {
  std::array<unsigned char, 32> bytes{};
  if (getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size()))
    throw std::runtime_error("the system gives no random bytes");
  std::string token;
  constexpr std::string_view digits = "0123456789abcdef";
  for (const unsigned char byte : bytes) {
    token += digits[byte >> 4U];
    token += digits[byte & 15U];
  }
  return token;
}

// Whoever shows pages here; where nothing does, the printed address is enough.
void open_page(const std::string& address) {
  std::string program = "xdg-open", word = address;
  std::array<char*, 3> words{program.data(), word.data(), nullptr};
  pid_t child = 0;
  posix_spawnp(&child, program.c_str(), nullptr, nullptr, words.data(), environ);
}

}  // namespace

int desk_command(const Words& words) {
  Files disk;
  const auto given = desk_options().parse(words, disk);
  if (!given) return exit_ok;
  const po::variables_map& values = *given;
  if (values.contains("against") && !values.contains("chart"))
    throw po::error("--against is asked with --chart");
  desk::Desk desk(opened_from(disk, values), threads_of(values));
  desk::Server server(values["port"].as<std::uint16_t>());
  const std::string token = new_token();
  const desk::Gate gate(token, server.port());
  const std::string address = "http://127.0.0.1:" + std::to_string(server.port()) + "/#" + token;
  std::cout << "The desk is at " << address << "\nOn this machine alone; Ctrl-C ends it.\n"
            << std::flush;
  if (!values.contains("no-open")) open_page(address);
  server.run([&](const desk::Call& call) {
    const auto refusal = gate.refusal(call, desk::Desk::is_page_file(call.target));
    return refusal ? *refusal : desk.answer(call);
  });
  return exit_ok;
}

}  // namespace callfit::cli
