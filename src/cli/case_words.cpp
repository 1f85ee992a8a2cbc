#include "cli/case_words.hpp"

#include "cli/console.hpp"
#include "cli/inputs.hpp"
#include "format/json_text.hpp"

#include <callfit/ask/namesakes.hpp>
#include <callfit/base/nearest.hpp>
#include <callfit/format/json.hpp>

#include <fmt/format.h>
#include <boost/algorithm/string/classification.hpp>
#include <boost/algorithm/string/split.hpp>
#include <boost/algorithm/string/trim.hpp>
#include <nlohmann/json.hpp>

#include <filesystem>
#include <utility>

namespace callfit::cli {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

constexpr const char* case_format = "callfit-case/1";

std::string beside(const std::string& source, const std::string& name) {
  const fs::path folder = fs::path(source).parent_path();
  return fs::path(name).is_absolute() || folder.empty() ? name : (folder / name).string();
}

// A quarterback's file is a chart or a profile; its content tells.
Json quarterback_entry(const std::string& text, const std::string& file, const std::string& name) {
  if (!is_json_text(text)) {
    const std::string own = name.empty() ? fs::path(file).stem().string() : name;
    return {{"name", own}, {"charts", Json::array({file})}};
  }
  Json entry = Json::object();
  if (!name.empty()) entry["name"] = name;
  entry["profile"] = file;
  return entry;
}

Json scheme_entry(const std::string& scheme, const po::variables_map& values) {
  const Words calls = texts_of(values, "calls");
  if (calls.empty()) return scheme;
  Json entry{{"scheme", scheme}, {"calls", calls}};
  const std::string name = text_of(values, "calls-name");
  entry["name"] = name.empty() ? "The coordinator's calls" : name;
  return entry;
}

Json options_entry(const po::variables_map& values) {
  Json options{{"seed", seed_of(values)}, {"draws", draws_of(values)}};
  const std::string policy = text_of(values, "policy");
  if (!from_word<FourthDownPolicy>(policy))
    throw po::error("--policy takes table or best, not " + policy);
  options["policy"] = policy;
  options["end_of_half"] = values.contains("end-of-half");
  options["assumed"] = values["assumed"].as<double>();
  return options;
}

// "season 2024, team North": keys and values, each once; a word alone is the value of `lone`.
Json entry_from(const std::string& words, const std::string& option, const std::string& lone) {
  Json entry = Json::object();
  std::vector<std::string> items;
  boost::split(items, words, boost::is_any_of(","));
  for (std::string& item : items) {
    boost::trim(item);
    const auto blank = item.find(' ');
    const std::string key = blank == std::string::npos ? lone : item.substr(0, blank);
    if (key.empty() || entry.contains(key))
      throw po::error(
          fmt::format("{} {}: give keys and values, each once, parted by commas", option, words));
    entry[key] = blank == std::string::npos ? item : boost::trim_copy(item.substr(blank));
  }
  return entry;
}

Json move_entry(const std::string& words) {
  const auto equals = words.rfind('=');
  if (equals == std::string::npos || equals == 0)
    throw po::error("--changed " + words +
                    ": give what was charted elsewhere and what changed since, for example "
                    "\"season 2024=new_caller\" or old.csv=new_team");
  Json move = entry_from(words.substr(0, equals), "--changed", "chart");
  move["change"] = boost::trim_copy(words.substr(equals + 1));
  return move;
}

Json season_entry(const std::string& words) {
  Json season = entry_from(words, "--totals", "");
  for (auto& [key, value] : season.items()) {
    if (key == "season" || key == "team" || key == "level") continue;
    const Json number = Json::parse(value.get<std::string>(), nullptr, false);
    if (number.is_number()) value = number;
  }
  return season;
}

// Words of one season each, or a file of them.
Json totals_entry(const Words& totals) {
  const auto is_file = [](const std::string& words) { return words.find(',') == words.npos; };
  if (totals.size() == 1 && is_file(totals.front())) return totals.front();
  Json list = Json::array();
  for (const std::string& words : totals) {
    if (is_file(words))
      throw po::error("--totals " + words +
                      ": give one file of all seasons, or each season in words such as "
                      "\"season 2025, level college, attempts 310, completions 190\"");
    list.push_back(season_entry(words));
  }
  return list;
}

// Whose chart a move names, else the first quarterback.
Json& moved_man(Json& quarterbacks, const Json& move) {
  if (move.contains("chart"))
    for (Json& quarterback : quarterbacks)
      for (const Json& chart : quarterback.value("charts", Json::array()))
        if (chart == move["chart"]) return quarterback;
  return quarterbacks.front();
}

void require_charts(const Json& quarterback, const std::string& option) {
  if (!quarterback.contains("charts"))
    throw po::error(option + ": a profile holds its own; read it anew from its charts");
}

// What is known around the tape, as a case has it.
void put_around(Json& document, const po::variables_map& values) {
  Json& quarterbacks = document["quarterbacks"];
  for (const std::string& words : texts_of(values, "changed")) {
    const Json move = move_entry(words);
    Json& quarterback = moved_man(quarterbacks, move);
    require_charts(quarterback, "--changed " + words);
    quarterback["moves"].push_back(move);
  }
  if (const Words totals = texts_of(values, "totals"); !totals.empty()) {
    require_charts(quarterbacks.front(), "--totals");
    quarterbacks.front()["season_totals"] = totals_entry(totals);
  }
  if (values.contains("opponents")) document["opponents"] = text_of(values, "opponents");
  if (values.contains("coming")) document["coming_opponents"] = text_of(values, "coming");
}

Json quarterback_of_all(const Words& charts, const std::string& name) {
  return {{"name", name.empty() ? fs::path(charts.front()).stem().string() : name},
          {"charts", charts}};
}

Json document_from_words(Files& disk, const po::variables_map& values, const Words& files,
                         Charts charts) {
  Json document{{"format", case_format}, {"setting", text_of(values, "setting")}};
  const Words schemes = texts_of(values, "scheme");
  if (schemes.empty()) throw po::required_option("--scheme");
  for (const std::string& scheme : schemes)
    document["schemes"].push_back(scheme_entry(scheme, values));
  Words names = texts_of(values, "name");
  if (names.size() > files.size()) throw po::error("--name: more names than quarterbacks");
  names.resize(files.size());
  if (charts == Charts::of_one)
    document["quarterbacks"].push_back(quarterback_of_all(files, names.front()));
  else
    for (std::size_t i = 0; i < files.size(); ++i)
      document["quarterbacks"].push_back(
          quarterback_entry(disk.read(files[i]), files[i], names[i]));
  document["options"] = options_entry(values);
  put_around(document, values);
  if (charts == Charts::of_each) document["tape_source"] = text_of(values, "source");
  return document;
}

OpenedCase opened_case(Files& disk, const Json& document, const std::string& source) {
  Findings notices;
  OpenedCase opened{document.dump(2) + '\n', source, {}};
  opened.about = parse_case(opened.document, source, texts_on(disk), disk.beside(), notices);
  print_notices(notices);
  return opened;
}

// What words may still say about a saved case: seed, draws, policy.
void override_options(Json& document, const po::variables_map& values) {
  for (const char* name : {"scheme", "calls", "calls-name", "name", "setting", "changed", "totals"})
    if (values.contains(name) && !values[name].defaulted())
      throw po::error(std::string("--") + name + ": the case file says it; change it there");
  const Json given = options_entry(values);
  Json& options = document["options"];
  if (!options.is_object()) options = Json::object();
  for (const char* name : {"seed", "draws", "policy", "assumed"})
    if (!values[name].defaulted()) options[name] = given[name];
  if (values.contains("end-of-half")) options["end_of_half"] = true;
  for (const auto& [option, key] :
       {std::pair("opponents", "opponents"), std::pair("coming", "coming_opponents")})
    if (values.contains(option)) document[key] = fs::absolute(text_of(values, option)).string();
}

// Names of files as seen from another folder; shipped names stay.
class NewPlace {
 public:
  NewPlace(std::string source, const std::string& path)
      : source_(std::move(source)),
        folder_(fs::absolute(path).parent_path().lexically_normal()),
        stays_((source_.empty() ? fs::current_path() / "" : fs::absolute(source_))
                   .parent_path()
                   .lexically_normal() == folder_) {}

  void move(Json& document) const {
    if (stays_) return;
    for (const char* key : {"setting", "average_scheme", "style", "opponents", "coming_opponents"})
      move_key(document, key);
    for (Json& scheme : document["schemes"]) move_document(scheme);
    for (Json& quarterback : document["quarterbacks"])
      for (const char* key : {"profile", "charts", "season_totals"}) move_key(quarterback, key);
  }

 private:
  void move_key(Json& object, const char* key) const {
    if (object.contains(key)) move_document(object[key]);
  }

  // A name, a list of them, or a document that names others in turn.
  void move_document(Json& value) const {
    if (value.is_string()) {
      const fs::path file = beside(source_, value.get<std::string>());
      std::error_code failed;
      if (fs::is_regular_file(file, failed) && !fs::path(value.get<std::string>()).is_absolute())
        value = fs::absolute(file).lexically_normal().lexically_relative(folder_).generic_string();
    } else if (value.is_array()) {
      for (Json& entry : value) move_document(entry);
    } else if (value.is_object()) {
      for (const char* key : {"scheme", "calls", "families", "based_on", "population"})
        if (value.contains(key) && !value[key].is_object() && key_names_files(value[key]))
          move_document(value[key]);
    }
  }

  static bool key_names_files(const Json& value) {
    return value.is_string() || (value.is_array() && !value.empty() && value.front().is_string());
  }

  std::string source_;
  fs::path folder_;
  bool stays_;
};

std::size_t place_named(const std::vector<std::string>& names, const std::string& words,
                        const std::string& option) {
  std::vector<std::size_t> found;
  for (std::size_t i = 0; i < names.size(); ++i)
    if (names[i] == words || std::to_string(i + 1) == words) found.push_back(i);
  if (found.size() == 1) return found.front();
  if (found.size() > 1)
    throw po::error(option + " " + words + ": fits several; give a place from 1 to " +
                    std::to_string(names.size()));
  throw po::error(option + " " + words + ": the case has none of that name; " +
                  suggest(words, names));
}

std::vector<std::string> scheme_names(const Case& about) {
  std::vector<std::string> names;
  for (const Scheme& scheme : about.schemes) names.push_back(scheme.name);
  return names;
}

}  // namespace

void add_case_options(Options& options) {
  options.with_draws(default_draws);
  add_setting_options(options);
  options.add()("scheme", po::value<Words>()->value_name("NAME|FILE"),
                "scheme: a shipped name or a JSON file; may be repeated")(
      "calls", po::value<Words>()->value_name("CSV"),
      "charted calls of the coordinator: his call shares in the scheme");
  options.add_common()("who-file", po::value<Words>()->value_name("FILE"),
                       "a case (JSON), or charts (CSV) and profiles (JSON), one quarterback each")(
      "calls-name", po::value<std::string>()->value_name("NAME"),
      "what to call the scheme made from --calls")(
      "name", po::value<Words>()->value_name("NAME"),
      "what to call the quarterbacks, in their order; may be repeated");
  add_around_options(options);
  options.positional("who-file");
}

void add_around_options(Options& options) {
  options.add_common()("changed", po::value<Words>()->value_name("SNAPS=CHANGE"),
                       "what changed since: same_caller, new_caller, new_team, new_level; SNAPS: a "
                       "chart, \"season 2024, team North\"; may be repeated")(
      "totals", po::value<Words>()->value_name("CSV|WORDS"),
      "season totals, or \"season 2025, level college, attempts 310, completions 190\"")(
      "opponents", po::value<std::string>()->value_name("CSV"),
      "what charted opponents allowed to others, docs/formats.md")(
      "coming", po::value<std::string>()->value_name("CSV"),
      "the same of opponents to come: numbers are against these");
}

CaseTexts texts_on(Files& disk) {
  return [&disk](CasePart part, const std::string& name,
                 const std::string& source) -> std::optional<SourceText> {
    std::string file = beside(source, name);
    if (part == CasePart::setting) file = find_data("settings", name, file);
    if (part == CasePart::scheme) file = find_data("schemes", name, file);
    if (part == CasePart::net_values || part == CasePart::record) {
      const auto kept =
          shipped_file(part == CasePart::record ? "settings/record" : "settings/derived", name);
      if (!kept) return std::nullopt;
      file = *kept;
    }
    if (part != CasePart::chart) return SourceText{disk.read(file), file};
    Findings notices;
    const std::string text = disk.chart_text(file, notices);
    print_notices(notices);
    return SourceText{text, file};
  };
}

namespace {

void require_case_or_profile(const std::string& format, const std::string& file) {
  if (format == case_format || format.starts_with("callfit-profile/")) return;
  throw InputError(Finding{{file, 0, "/format"},
                           format.empty() ? "is missing" : "is " + format,
                           "give " + std::string(case_format) + ", a profile, or charts as CSV"});
}

}  // namespace

OpenedCase open_case(Files& disk, const po::variables_map& values, Charts charts) {
  const Words files = texts_of(values, "who-file");
  if (files.empty()) throw po::error("name a case file, or charts or profiles of quarterbacks");
  Json document;
  std::string source;
  const std::string text = disk.read(files.front());
  const bool is_json = is_json_text(text) || files.front().ends_with(".json");
  const std::string format = is_json ? format_of(text, files.front()) : "";
  if (is_json) require_case_or_profile(format, files.front());
  if (format == case_format) {
    if (files.size() > 1) throw po::error("a case holds its quarterbacks; name nothing beside it");
    source = files.front();
    parse_json(text, source);  // says what is wrong
    document = Json::parse(text);
    document.erase(std::string(written_by_key));
    override_options(document, values);
  } else {
    document = document_from_words(disk, values, files, charts);
  }
  return opened_case(disk, document, source);
}

Case read_again(Files& disk, const OpenedCase& opened) {
  Findings notices;
  return parse_case(opened.document, opened.source, texts_on(disk), disk.beside(), notices);
}

OpenedCase unread_case(Files& disk, const po::variables_map& values, const Words& charts) {
  return {document_from_words(disk, values, charts, Charts::of_one).dump(2) + '\n', "", {}};
}

Profile open_tape(Files& disk, const po::variables_map& values, const Words& charts,
                  const std::string& scheme, const Json& weights) {
  Json document{
      {"format", case_format},
      {"setting", text_of(values, "setting")},
      {"schemes", Json::array({scheme})},
      {"quarterbacks", Json::array({quarterback_of_all(charts, text_of(values, "name"))})}};
  document["quarterbacks"].front().update(weights);
  put_around(document, values);
  return opened_case(disk, document, "").about.quarterbacks.front().profile;
}

std::string document_at(const OpenedCase& opened, const std::string& path) {
  Json document = Json::parse(opened.document);
  NewPlace(opened.source, path).move(document);
  return document.dump(2) + '\n';
}

void add_stand_options(Options& options) {
  options.add_common()("who", po::value<std::string>()->value_name("NAME"),
                       "quarterback of the case, by name or place; the first one if not given")(
      "as-learned", "a rate that is turned moves what goes with it; else it moves alone")(
      "in", po::value<std::string>()->value_name("NAME"),
      "scheme of the case, by name or place; the first one if not given");
}

std::size_t quarterback_named(const Case& about, const std::string& words) {
  return place_named(shown_names(about), words, "--who");
}

Stand stand_of(const po::variables_map& values, const Case& about) {
  Stand stand;
  if (values.contains("who")) stand.quarterback = quarterback_named(about, text_of(values, "who"));
  stand.as_learned = values.contains("as-learned");
  if (values.contains("in"))
    stand.scheme = place_named(scheme_names(about), text_of(values, "in"), "--in");
  return stand;
}

}  // namespace callfit::cli
