#include <callfit/report/number_text.hpp>
#include <callfit/report/table.hpp>
#include <callfit/report/validation_report.hpp>

#include <cmath>

namespace callfit {
namespace {

constexpr std::size_t width = 100;

std::string shown(ValueUnit unit, double value) {
  return unit == ValueUnit::share ? fixed(100 * value, 1) + "%" : fixed(value, 2);
}

std::string shown_difference(ValueUnit unit, double value) {
  return unit == ValueUnit::share ? signed_fixed(100 * value, 1) : signed_fixed(value, 2);
}

std::string count(double n) { return n > 0 ? fixed(n, 0) : ""; }

std::string worst_of(const Target& target) {
  if (target.relative) return signed_fixed(100 * target.worst, 1) + "%";
  return shown_difference(target.unit, target.worst);
}

std::string allowed_by(const Target& target) {
  if (target.relative) return fixed(100 * target.allowed, 1) + "%";
  return target.unit == ValueUnit::share ? fixed(100 * target.allowed, 1)
                                         : fixed(target.allowed, 2);
}

std::string verdict_of(const Target& target) {
  if (!target.has_data()) return "no data";
  if (target.by_chance)
    return std::to_string(target.missed) + " of " + std::to_string(target.rows) + ", " +
           fixed(*target.by_chance, 1) + " by chance";
  if (target.met()) return "met";
  return "missed by " + std::to_string(target.missed) + " of " + std::to_string(target.rows);
}

/// The rows of a target that are worth a name.
std::string rows_text(const Target& target) {
  if (!target.by_chance)
    return target.rows > 1 ? "  " + target.what + ": worst is " + target.where + "\n" : "";
  std::string list;
  for (const std::string& row : target.beyond) list += (list.empty() ? "" : ", ") + row;
  return list.empty() ? "" : wrapped(target.what + ": " + list, width, "  ");
}

std::string targets_text(const ValidationReport& report) {
  Table table({{"target", Align::left, 62}, {"within"}, {"worst"}, {"", Align::left, 24}});
  for (const Target& target : report.targets) {
    table.add({target.what, allowed_by(target), target.has_data() ? worst_of(target) : "",
               verdict_of(target)});
  }
  std::string text = "Targets (shares in percentage points)\n\n" + table.text();
  for (const Target& target : report.targets) text += rows_text(target);
  return text;
}

std::string drives_text(const ValidationReport& report) {
  Table table({{"start", Align::left, 12},
               {"drives"},
               {"points"},
               {"data"},
               {"plays"},
               {"data"},
               {"td"},
               {"fg"},
               {"miss"},
               {"punt"},
               {"int"},
               {"fum"},
               {"downs"},
               {"saf"}});
  for (const DrivesCompared& row : report.drives) {
    std::vector<std::string> cells{row.observed.start == "ALL" ? "all" : row.observed.start,
                                   count(row.observed.n),
                                   fixed(row.model.points, 2),
                                   fixed(row.observed.points, 2),
                                   fixed(row.model.plays, 2),
                                   fixed(row.observed.plays, 2)};
    for (std::size_t r = 0; r < static_cast<std::size_t>(DriveResult::end_of_half); ++r)
      cells.push_back(signed_fixed(100 * (row.model.share[r] - row.observed.share[r]), 1));
    table.add(std::move(cells));
  }
  return "Drives by start: model, data; results as model less data in percentage points\n\n" +
         table.text();
}

std::string results_text(const ValidationReport& report) {
  Table table({{"result of all drives", Align::left},
               {"model"},
               {"data"},
               {"difference"},
               {"standard error"}});
  const DrivesCompared& all = report.drives.front();
  for (std::size_t r = 0; r < static_cast<std::size_t>(DriveResult::end_of_half); ++r)
    table.add({std::string(word(static_cast<DriveResult>(r))),
               shown(ValueUnit::share, all.model.share[r]),
               shown(ValueUnit::share, all.observed.share[r]),
               signed_fixed(100 * (all.model.share[r] - all.observed.share[r]), 1),
               shown(ValueUnit::share, all.observed.share_error(r))});
  return table.text();
}

/// What was not counted, and how sure the mean points are.
std::string counted_text(const ValidationReport& report) {
  const ObservedDrives& all = report.drives.front().observed;
  std::string text = "Counted: " + count(all.n) + " drives, " + fixed(all.points, 3) +
                     " points each (standard error " + fixed(all.points_se, 3) + "); the model " +
                     fixed(report.drives.front().model.points, 3) + ".";
  if (report.starts_unknown > 0)
    text += " Of " + count(report.starts_unknown) +
            " of them nobody wrote down the start: they count with all drives only.";
  for (std::size_t i = 0; i < report.left_out.size(); ++i)
    text += (i == 0 ? " Left out: " : ", ") + count(report.left_out[i].n) + " " +
            report.left_out[i].reason;
  if (!report.left_out.empty()) text += ".";
  return wrapped(text, width);
}

std::string values_text(const ValuesCompared& values) {
  Table table(
      {{"", Align::left, 30}, {"n"}, {"model"}, {"data"}, {"difference"}, {"standard error"}});
  for (const ValueCompared& row : values.rows)
    table.add({row.label, count(row.n), shown(values.unit, row.model),
               shown(values.unit, row.observed), shown_difference(values.unit, row.difference()),
               row.standard_error > 0 ? shown(values.unit, row.standard_error) : ""});
  return values.title + "\n" + wrapped("Counts " + values.counts + ".", width, "  ") + "\n" +
         table.text();
}

}  // namespace

std::string validation_text(const ValidationReport& report) {
  std::string text = wrapped("The average offence of \"" + report.setting +
                                 "\" in its average scheme, against: " + report.about,
                             width) +
                     wrapped("Source: " + report.source, width);
  if (!report.drives.empty()) text += counted_text(report);
  text += "\n";
  text += targets_text(report) + "\n" + drives_text(report) + "\n";
  if (!report.drives.empty()) text += results_text(report);
  for (const ValuesCompared& values : report.values) text += "\n" + values_text(values);
  return text;
}

}  // namespace callfit
