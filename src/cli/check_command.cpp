#include "cli/console.hpp"
#include "cli/inputs.hpp"

#include "cli/case_words.hpp"
#include "report/agreement_json.hpp"

#include <callfit/ask/study.hpp>
#include <callfit/chart/agreement.hpp>
#include <callfit/chart/odd_rows.hpp>
#include <callfit/format/chart.hpp>
#include <callfit/format/json.hpp>
#include <callfit/format/mend.hpp>
#include <callfit/format/profile.hpp>
#include <callfit/format/scheme.hpp>
#include <callfit/format/setting.hpp>
#include <callfit/report/agreement_text.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <filesystem>
#include <iostream>
#include <limits>

namespace callfit::cli {
namespace {

Options check_options() {
  Options options(
      {"check FILE... [--setting NAME|FILE], or check A.csv B.csv --same-snaps",
       "Reads charts, schemes, settings, profiles, styles and cases and names everything that is "
       "impossible (exit code 1) or possible but odd (warnings): duplicate snaps, downs that do "
       "not "
       "follow, drives that jump. With --same-snaps: how far two people charted the same snaps "
       "alike, per column the share of equal entries and Cohen's kappa with its 90% interval, the "
       "rows that disagree, and what the difference does to the rates. Rows are paired by snap_id "
       "where every row has one, else by game and order. With --mend: charts as spreadsheets have "
       "them (decimal commas, INT, own 25, titles, totals; docs/chart.md) are written beside the "
       "chart in the words that callfit reads, and what was done is listed line by line.",
       "  callfit check new-starter.csv coordinator.json case.json\n"
       "  callfit check from-the-sheet.csv --mend --words our-words.csv\n"
       "  callfit check mine.csv yours.csv --same-snaps --rows 50"});
  options.with_json().add()("file", po::value<Words>()->value_name("FILE"), "what to check")(
      "setting", po::value<std::string>()->default_value("college")->value_name("NAME|FILE"),
      "level of play whose families and levels a chart may use");
  options.add()("same-snaps", "measure the agreement of two charts of the same snaps")(
      "rows", whole(0, 1e6)->default_value(20, "20"),
      "how many of the rows that disagree to list, 0 for all")(
      "mend", "write NAME.mended.csv beside each chart that has something to mend")(
      "words", po::value<std::string>()->value_name("FILE"),
      "what your own words mean: a table column,from,to");
  options.positional("file");
  return options;
}

struct Checked {
  std::string file;
  std::string summary;
  Findings findings;
  std::vector<Mend> mends = {};  // done
  std::string mended = {};       // the file that has them
};

/// What charts are held against, and whether to mend them.
struct ChartCheck {
  const Setting& setting;
  ChartWords words;
  bool mends;
};

void append(Findings& to, const Findings& from) { to.insert(to.end(), from.begin(), from.end()); }

std::string check_text(std::string_view text, const std::string& file, const ChartWords& words,
                       Findings& findings) {
  const Chart chart = parse_chart(text, file, findings, words);
  append(findings, odd_rows(chart));
  return std::to_string(chart.snaps.size()) + " snaps";
}

// Nobody's work on an earlier copy is lost.
void write_once(Files& disk, const std::string& file, const std::string& text) {
  namespace fs = std::filesystem;
  if (!fs::exists(file)) {
    disk.write(file, text);
  } else if (disk.read(file) != text) {
    throw InputError(Finding{{file, 0, {}},
                             "is already there and says something else",
                             "rename or remove it, or go on with it"});
  }
}

void mend_chart_file(Files& disk, const MendedChart& mended, const ChartCheck& check,
                     Checked& checked) {
  checked.mended = std::filesystem::path(checked.file).replace_extension(".mended.csv").string();
  write_once(disk, checked.mended, mended.text);
  checked.mends = mended.mends;
  append(checked.findings, mended.doubts);
  checked.summary = check_text(mended.text, checked.mended, check.words, checked.findings);
}

void check_chart(Files& disk, const ChartCheck& check, Checked& checked) {
  const std::string text = disk.chart_text(checked.file, checked.findings);
  const MendedChart mended = mend_chart(text, checked.file, check.words);
  if (check.mends && !mended.mends.empty()) {
    mend_chart_file(disk, mended, check, checked);
    return;
  }
  checked.summary = check_text(text, checked.file, check.words, checked.findings);
  append(checked.findings, mend_findings(mended, checked.file, Severity::notice));
}

void check_change(Study& study, const Change& change, const Place& place, Findings& findings) {
  try {
    study.require(Stand{0, 0, {change}});
  } catch (const InputError& error) {
    for (const Finding& finding : error.findings())
      findings.push_back({place, finding.place.field + ": " + finding.what, finding.mend});
  }
}

std::string check_case(Files& disk, const std::string& file, Findings& findings) {
  const Case about = parse_case(disk.read(file), file, texts_on(disk), disk.beside(), findings);
  if (!about.tries.empty()) {
    Study study(about);
    for (std::size_t t = 0; t < about.tries.size(); ++t)
      for (std::size_t c = 0; c < about.tries[t].changes.size(); ++c)
        check_change(study, about.tries[t].changes[c],
                     {file, 0, fmt::format("/tries/{}/changes/{}", t, c)}, findings);
  }
  return "case with " + std::to_string(about.quarterbacks.size()) + " quarterbacks, " +
         std::to_string(about.schemes.size()) + " schemes";
}

std::string check_json(Files& disk, const std::string& file, const Setting& setting,
                       Findings& findings) {
  const std::string format = disk.format(file);
  if (format.starts_with("callfit-scheme/")) {
    const Scheme scheme = disk.scheme(file);
    return "scheme with " + std::to_string(scheme.families.size()) + " families, " +
           std::to_string(scheme.situations.size()) + " situations";
  }
  if (format.starts_with("callfit-case/")) return check_case(disk, file, findings);
  if (format.starts_with("callfit-scenario/"))
    return "scenario with " + std::to_string(disk.scenario(file).changes.size()) + " changes";
  if (format.starts_with("callfit-kept/")) return "said on " + disk.kept(file).date;
  if (format.starts_with("callfit-observed/")) return "observations " + disk.observed(file).id;
  if (format.starts_with("callfit-families/"))
    return std::to_string(disk.families(file).size()) + " families";
  if (format.starts_with("callfit-style/")) {
    disk.with_style({}, file);
    return "style";
  }
  if (format.starts_with("callfit-setting/")) return "setting " + disk.setting(file).id;
  if (format.starts_with("callfit-profile/"))
    return "profile of " + disk.profile(file, setting).name;
  throw InputError(
      Finding{{file, 0, "/format"},
              format.empty() ? "missing" : "unknown format " + format,
              "use callfit-scheme/1, callfit-setting/1, callfit-profile/1, "
              "callfit-families/1, callfit-style/1, callfit-scenario/1, callfit-kept/1 or "
              "callfit-case/1"});
}

// Content tells, not the ending; what is named .json means to be it, broken as it may be.
bool is_json(Files& disk, const std::string& file) {
  return std::filesystem::path(file).extension() == ".json" || is_json_text(disk.read(file));
}

Checked check_file(Files& disk, const std::string& file, const ChartCheck& check) {
  Checked checked{file, "", {}};
  try {
    if (is_json(disk, file))
      checked.summary = check_json(disk, file, check.setting, checked.findings);
    else
      check_chart(disk, check, checked);
  } catch (const InputError& error) {
    checked.findings.insert(checked.findings.end(), error.findings().begin(),
                            error.findings().end());
  }
  return checked;
}

std::string count(const Findings& findings, Severity severity, const std::string& what) {
  const auto found = std::count_if(findings.begin(), findings.end(),
                                   [severity](const Finding& f) { return f.severity == severity; });
  return std::to_string(found) + ' ' + what + (found == 1 ? "" : "s");
}

void print_text(const Checked& checked) {
  for (const Mend& mend : checked.mends) std::cout << mend_text(mend, checked.file) << '\n';
  print_notices(checked.findings);
  std::cout << (checked.mended.empty() ? checked.file : checked.mended) << ": "
            << (checked.summary.empty() ? "not usable" : checked.summary) << ", "
            << count(checked.findings, Severity::error, "error") << ", "
            << count(checked.findings, Severity::warning, "warning") << '\n';
}

nlohmann::ordered_json findings_json(const Checked& checked) {
  constexpr std::array severity_words{"error", "warning", "notice"};
  auto list = nlohmann::ordered_json::array();
  for (const Finding& f : checked.findings)
    list.push_back({{"severity", severity_words[static_cast<std::size_t>(f.severity)]},
                    {"line", f.place.line},
                    {"field", f.place.field},
                    {"what", f.what},
                    {"mend", f.mend}});
  nlohmann::ordered_json json{
      {"file", checked.file}, {"summary", checked.summary}, {"findings", list}};
  if (checked.mended.empty()) return json;
  json["mended"] = checked.mended;
  for (const Mend& mend : checked.mends)
    json["mends"].push_back({{"line", mend.line},
                             {"column", mend.column},
                             {"cause", word(mend.cause)},
                             {"from", mend.from},
                             {"to", mend.to}});
  return json;
}

int compare_charts(Files& disk, const po::variables_map& values, const Setting& setting) {
  const Words files = texts_of(values, "file");
  if (files.size() != 2) throw po::error("--same-snaps takes two charts");
  const std::vector<Chart> charts = load_charts(disk, files, setting, {});
  const Agreement result = agreement(charts[0], charts[1], setting.success);
  std::size_t rows = whole_of(values, "rows");
  if (rows == 0) rows = std::numeric_limits<std::size_t>::max();
  if (wants_json(values))
    print_json("check", {{"charts", files}, {"setting", setting.id}},
               agreement_json(result, charts[0], charts[1]));
  else
    std::cout << agreement_text(result, charts[0], charts[1], rows);
  return exit_ok;
}

}  // namespace

int check_command(const Words& words) {
  Files disk;
  const auto values = check_options().parse(words, disk);
  if (!values) return exit_ok;
  const Words files = texts_of(*values, "file");
  if (files.empty()) throw po::required_option("FILE");
  const Setting setting = load_setting(disk, text_of(*values, "setting"));
  if (values->contains("same-snaps")) return compare_charts(disk, *values, setting);

  ChartCheck check{setting, words_of(setting, {}), values->contains("mend")};
  if (const std::string own = text_of(*values, "words"); !own.empty())
    check.words.own = parse_dictionary(disk.read(own), own);
  bool bad = false;
  auto list = nlohmann::ordered_json::array();
  for (const std::string& file : files) {
    const Checked checked = check_file(disk, file, check);
    bad = bad || has_errors(checked.findings);
    if (wants_json(*values))
      list.push_back(findings_json(checked));
    else
      print_text(checked);
  }
  if (wants_json(*values)) print_json("check", {{"files", files}}, list);
  return bad ? exit_input : exit_ok;
}

}  // namespace callfit::cli
