// One change, a sweep, a package, the best change, the best mix, the even point.
#include "cli/asking.hpp"
#include "cli/case_words.hpp"
#include "cli/console.hpp"
#include "cli/dressing.hpp"
#include "cli/pictures.hpp"

#include "report/knobs_json.hpp"

#include <callfit/ask/paths.hpp>
#include <callfit/format/scenario.hpp>
#include <callfit/report/answer_text.hpp>
#include <callfit/report/cautions.hpp>
#include <callfit/report/reports.hpp>

#include <boost/algorithm/string/join.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <iostream>

namespace callfit::cli {
namespace {

Options try_options() {
  Options options(
      {"try CASE | QUARTERBACK... --scheme NAME|FILE [what to try] [-o FILE...]",
       "What changes if something is turned: a rate, a mean gain, how often something is called, "
       "what is demanded, shells, fourth downs. Several --set make one try; several --try stand "
       "side by side. A path is found by parts of it: --set \"deep outside completion=50%\". "
       "Without anything to try: what is worth most.",
       "  callfit try case.json --set \"deep outside completion=50%\"\n"
       "  callfit try case.json --add qb_draw=15% --inside 10 --shell two_high"});
  options.with_json().with_force();
  add_case_options(options);
  add_stand_options(options);
  add_dress_options(options);
  options.add()("set", po::value<Words>()->value_name("PATH=VALUE"),
                "0.4, 40%, x1.2 (scaled) or a word; all --set together are one try")(
      "try", po::value<Words>()->value_name("NAME:PATH=VALUE,..."), "a named try")(
      "scenario", po::value<Words>()->value_name("FILE"), "a try kept in a file (JSON)")(
      "saved", "the tries that the case holds")(
      "sweep", po::value<Words>()->value_name("PATH=FROM:TO:N"), "one path or two, in equal steps")(
      "levers",
      whole(1, 10'000)->implicit_value(static_cast<double>(levers_shown),
                                       std::to_string(levers_shown)),
      "which single change is worth most: the N largest")(
      "add", po::value<std::string>()->value_name("FAMILY=SHARE"), "a package of calls")(
      "situation", po::value<std::string>()->value_name("ID"), "only in this situation")(
      "inside", whole(1, 99)->value_name("YARDS"), "only so near the goal")(
      "shell", po::value<std::string>()->value_name("NAME"), "only against this shell")(
      "bend", "the calls that are worth more from him than from others")(
      "uncharted", "with --bend: also families of which nothing was charted")(
      "move", real(0, 1)->default_value(0.05, "0.05")->value_name("SHARE"),
      "how far --bend may move a share")(
      "run-pass", real(0, 1)->default_value(0.05, "0.05")->value_name("SHARE"),
      "how far it may move a situation's share of passes")(
      "fade", real(0, 1000)->default_value(0, "0")->value_name("F"),
      "of q more calls, F x q are expected by the defence")(
      "even", po::value<std::string>()->value_name("PATH"), "where two are worth the same")(
      "against", po::value<std::string>()->value_name("NAME"), "the other one of --even")(
      "both", "turn the path for both")(
      "paths", po::value<std::string>()->implicit_value("")->value_name("WORDS"),
      "list what can be turned; those with the words in them")(
      "output,o", po::value<Words>()->value_name("FILE"), "draw: .svg, .png or .pdf");
  return options;
}

Try named_try(const std::string& words) {
  const std::size_t colon = words.find(':');
  if (colon == std::string::npos || colon == 0 || colon + 1 == words.size())
    throw po::error("--try " + words + ": give NAME:PATH=VALUE,PATH=VALUE");
  Try one{words.substr(0, colon), {}};
  for (std::size_t start = colon + 1; start < words.size();) {
    const std::size_t comma = std::min(words.find(',', start), words.size());
    one.changes.push_back(parse_change(words.substr(start, comma - start)));
    start = comma + 1;
  }
  return one;
}

std::vector<Try> tries_of(Files& disk, const po::variables_map& values, const Case& about) {
  std::vector<Try> tries;
  const Words sets = texts_of(values, "set");
  if (!sets.empty()) {
    Try one;
    for (const std::string& words : sets) {
      one.changes.push_back(parse_change(words));
      one.name += (one.name.empty() ? "" : ", ") + words;
    }
    tries.push_back(std::move(one));
  }
  for (const std::string& words : texts_of(values, "try")) tries.push_back(named_try(words));
  for (const std::string& file : texts_of(values, "scenario")) {
    Scenario scenario = disk.scenario(file);
    tries.push_back({scenario.name.empty() ? file : scenario.name, std::move(scenario.changes)});
  }
  if (values.contains("saved")) tries.insert(tries.end(), about.tries.begin(), about.tries.end());
  if (values.contains("saved") && about.tries.empty())
    throw po::error("--saved: the case holds no tries");
  return tries;
}

Package package_of(const po::variables_map& values) {
  const Change added = parse_change(text_of(values, "add"));
  if (added.way != Change::Way::set)
    throw po::error("--add " + text_of(values, "add") +
                    ": give FAMILY=SHARE, for example "
                    "qb_draw=15%");
  Package package;
  package.family = added.path;
  package.share = added.amount;
  package.situation = text_of(values, "situation");
  if (values.contains("inside")) package.inside = static_cast<int>(whole_of(values, "inside"));
  package.fade = number_of(values, "fade");
  const std::string shell = text_of(values, "shell");
  if (shell.empty()) return package;
  package.against = from_word<Shell>(shell);
  if (!package.against)
    throw po::error("--shell takes one_high, two_high or none_high, not " + shell);
  return package;
}

Request even_request(const po::variables_map& values, const Case& about, const Stand& stand) {
  BreakEvenRequest request{stand, stand, text_of(values, "even"), values.contains("both")};
  if (values.contains("against")) {
    request.second.quarterback = quarterback_named(about, text_of(values, "against"));
  } else if (about.quarterbacks.size() > 1) {
    request.second.quarterback = stand.quarterback == 1 ? 0 : 1;
  } else if (about.schemes.size() > 1) {
    request.second.scheme = stand.scheme == 1 ? 0 : 1;
  } else {
    throw po::error("--even needs a second quarterback or a second scheme");
  }
  return request;
}

// Options that say more of another one, which is not there.
void require_companions(const po::variables_map& values) {
  struct Companion {
    const char* option;
    Words of;
  };
  const std::vector<Companion> companions{
      {"situation", {"add"}},    {"inside", {"add"}},   {"shell", {"add"}},
      {"fade", {"add", "bend"}}, {"move", {"bend"}},    {"run-pass", {"bend"}},
      {"uncharted", {"bend"}},   {"against", {"even"}}, {"both", {"even"}}};
  for (const auto& [option, of] : companions) {
    const bool is_said = values.contains(option) && !values[option].defaulted();
    const bool is_wanted = std::any_of(
        of.begin(), of.end(), [&values](const std::string& one) { return values.contains(one); });
    if (is_said && !is_wanted)
      throw po::error(std::string("--") + option + " goes with --" + boost::join(of, " or --"));
  }
}

Request request_of(Files& disk, const po::variables_map& values, const Case& about) {
  require_companions(values);
  const Stand stand = stand_of(values, about);
  const Words kinds_words = {"sweep", "add", "bend", "even", "levers"};
  const std::vector<Try> tries = tries_of(disk, values, about);
  std::size_t kinds = tries.empty() ? 0 : 1;
  for (const std::string& kind : kinds_words)
    if (values.contains(kind)) ++kinds;
  if (kinds > 1)
    throw po::error(
        "one kind of try at a time: --set, --sweep, --add, --bend, "
        "--even or --levers");
  if (!tries.empty()) return TryRequest{stand, tries};
  if (values.contains("sweep")) {
    SweepRequest request{stand, {}};
    for (const std::string& words : texts_of(values, "sweep"))
      request.ranges.push_back(parse_sweep(words));
    return request;
  }
  if (values.contains("add")) return PackageRequest{stand, package_of(values)};
  if (values.contains("bend"))
    return TailorRequest{stand,
                         {number_of(values, "move"), number_of(values, "run-pass"),
                          number_of(values, "fade"), values.contains("uncharted")}};
  if (values.contains("even")) return even_request(values, about, stand);
  return LeversRequest{stand};
}

// Paths that hold every word.
std::vector<KnobValue> with_words(const std::vector<KnobValue>& paths, const std::string& words) {
  std::vector<KnobValue> out;
  for (const KnobValue& path : paths)
    if (path_has_words(path.path, path.label, words)) out.push_back(path);
  return out;
}

// Of levers as many as were asked for.
std::string text_shown(const Asked& asked, const po::variables_map& values) {
  const auto* levers = std::get_if<LeversAnswer>(&asked.answers.front());
  if (levers == nullptr || !values.contains("levers")) return asked.text;
  return with_cautions(levers_text(*levers, whole_of(values, "levers")));
}

}  // namespace

int try_command(const Words& words) {
  Files disk;
  const auto values = try_options().parse(words, disk);
  if (!values) return exit_ok;
  const Words outputs = texts_of(*values, "output");
  for (const std::string& output : outputs) require_picture_ending(output);
  const OpenedCase opened = open_case(disk, *values);
  Study study(opened.about, threads_of(*values));
  if (values->contains("paths")) {
    const auto paths =
        with_words(study.paths(stand_of(*values, opened.about)), text_of(*values, "paths"));
    if (paths.empty())
      throw InputError(Finding{
          {"", 0, text_of(*values, "paths")}, "no path has these words", "leave some of them out"});
    if (wants_json(*values))
      print_json("try", {{"paths", text_of(*values, "paths")}}, knobs_json(paths));
    else
      std::cout << knobs_text(paths);
    return exit_ok;
  }
  const Request request = request_of(disk, *values, opened.about);
  const Asked asked = ask_all(study, {request}, progress_line("trying"));
  if (!outputs.empty()) {
    const Dress dress = dress_from(disk, *values, opened.about);
    write_pictures(disk, answer_figure(asked.answers.front(), dress), dress.frame, outputs);
  }
  std::cout << (wants_json(*values) ? asked.json : text_shown(asked, *values));
  return exit_ok;
}

}  // namespace callfit::cli
