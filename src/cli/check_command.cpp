#include "cli/console.hpp"
#include "cli/inputs.hpp"

#include <callfit/chart/odd_rows.hpp>
#include <callfit/format/chart.hpp>
#include <callfit/format/profile.hpp>
#include <callfit/format/scheme.hpp>
#include <callfit/format/setting.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <filesystem>
#include <iostream>

namespace callfit::cli {
namespace {

Options check_options() {
  Options options(
      {"check FILE... [--setting NAME|FILE]",
       "Reads charts (.csv), schemes, settings and profiles (.json) and names everything that is "
       "impossible (exit code 1) or possible but odd (warnings): duplicate snaps, downs that do "
       "not "
       "follow, drives that jump.",
       "  callfit check new-starter.csv coordinator.json"});
  options.with_json().add()("file", po::value<Words>()->value_name("FILE"), "what to check")(
      "setting", po::value<std::string>()->default_value("college")->value_name("NAME|FILE"),
      "level of play whose families and levels a chart may use");
  options.positional("file");
  return options;
}

struct Checked {
  std::string file;
  std::string summary;
  Findings findings;
};

std::string check_chart(Files& disk, const std::string& file, const Setting& setting,
                        Findings& findings) {
  const Chart chart = disk.chart(file, findings, words_of(setting, {}));
  const Findings odd = odd_rows(chart);
  findings.insert(findings.end(), odd.begin(), odd.end());
  return std::to_string(chart.snaps.size()) + " snaps";
}

std::string check_json(Files& disk, const std::string& file, const Setting& setting) {
  const std::string format = disk.format(file);
  if (format.starts_with("callfit-scheme/")) {
    const Scheme scheme = disk.scheme(file);
    return "scheme with " + std::to_string(scheme.families.size()) + " families, " +
           std::to_string(scheme.situations.size()) + " situations";
  }
  if (format.starts_with("callfit-families/"))
    return std::to_string(disk.families(file).size()) + " families";
  if (format.starts_with("callfit-style/")) {
    disk.with_style({}, file);
    return "style";
  }
  if (format.starts_with("callfit-setting/")) return "setting " + disk.setting(file).id;
  if (format.starts_with("callfit-profile/"))
    return "profile of " + disk.profile(file, setting).name;
  throw InputError(Finding{{file, 0, "/format"},
                           format.empty() ? "missing" : "unknown format " + format,
                           "use callfit-scheme/1, callfit-setting/1, callfit-profile/1, "
                           "callfit-families/1 or callfit-style/1"});
}

Checked check_file(Files& disk, const std::string& file, const Setting& setting) {
  Checked checked{file, "", {}};
  try {
    checked.summary = std::filesystem::path(file).extension() == ".csv"
                          ? check_chart(disk, file, setting, checked.findings)
                          : check_json(disk, file, setting);
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
  print_notices(checked.findings);
  std::cout << checked.file << ": " << (checked.summary.empty() ? "not usable" : checked.summary)
            << ", " << count(checked.findings, Severity::error, "error") << ", "
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
  return {{"file", checked.file}, {"summary", checked.summary}, {"findings", list}};
}

}  // namespace

int check_command(const Words& words) {
  Files disk;
  const auto values = check_options().parse(words, disk);
  if (!values) return exit_ok;
  const Words files = texts_of(*values, "file");
  if (files.empty()) throw po::required_option("FILE");
  const Setting setting = load_setting(disk, text_of(*values, "setting"));

  bool bad = false;
  auto list = nlohmann::ordered_json::array();
  for (const std::string& file : files) {
    const Checked checked = check_file(disk, file, setting);
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
