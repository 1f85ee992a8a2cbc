#include <callfit/format/observed.hpp>
#include <format/part.hpp>
#include <format/rule_json.hpp>

namespace callfit {
namespace {

constexpr Numbers cases_rule{0, any_number.high, "a count of cases above 0", true};
constexpr Numbers none_or_more{0};
constexpr Numbers observed_yards_rule{1, 99, "yards"};
constexpr Texts setting_rule{1, unlimited, "the id of the setting that it belongs to"};
constexpr Texts observed_source_rule{1, unlimited, "where the numbers come from"};
constexpr Sizes rows_rule{0, 100};
constexpr Sizes published_rule{0, 200};
constexpr std::string_view results_want = "shares of drive results";
constexpr std::string_view any_object = "an object {...}";

Band band_at(Fields& fields, std::string_view key, int least = 1) {
  return fields.needed(key, range_want,
                       [least](const Part& part) { return band_from(part, least, 99); });
}

std::array<double, drive_result_count> results_from(Fields& fields) {
  std::array<double, drive_result_count> share{};
  for (std::size_t r = 0; r < drive_result_count; ++r)
    share[r] = fields.number_or(word(static_cast<DriveResult>(r)), share_rule, 0.0);
  return share;
}

ObservedDrives drives_from(Fields& fields) {
  ObservedDrives drives;
  drives.start = fields.text("start");
  drives.yards_to_goal = band_at(fields, "yards_to_goal");
  drives.n = fields.number("n", cases_rule);
  drives.points = fields.number("points");
  drives.points_se = fields.number("points_se", none_or_more);
  drives.plays = fields.number("plays", none_or_more);
  drives.share = fields.object("results", results_want, results_from);
  return drives;
}

/// The rows of a table with a line on what was counted; `key` holds it, none where it is not there.
template <class Read>
auto rows_of(Fields& document, std::string_view key, Read read) {
  const auto table = document.maybe(key, [&](const Part& part) {
    return part.object(any_object, [&](Fields& fields) {
      fields.text("counts");
      return fields.objects("rows", rows_rule, any_object, read);
    });
  });
  return table.value_or(typename decltype(table)::value_type{});
}

std::vector<ObservedShare> shares_of(Fields& document, std::string_view key, std::string_view band,
                                     int least = 1) {
  return rows_of(document, key, [band, least](Fields& row) -> ObservedShare {
    return {band_at(row, band, least), row.number("n", cases_rule),
            row.number("share", share_rule)};
  });
}

std::vector<ObservedPoints> points_of(Fields& document, std::string_view key) {
  return rows_of(document, key, [](Fields& row) -> ObservedPoints {
    return {band_at(row, "yards_to_goal"), row.number("n", cases_rule), row.number("points"),
            row.number("se", none_or_more)};
  });
}

ObservedShare red_zone_from(Fields& fields) {
  fields.text("counts");
  return {{}, fields.number("n", cases_rule), fields.number("touchdown", share_rule)};
}

DriveState state_from(Fields& row) {
  const DriveState state{row.integer("down", {1, 4, "1 to 4"}),
                         row.integer("to_go", observed_yards_rule),
                         row.integer("yards_to_goal", observed_yards_rule)};
  if (row.sound("to_go") && row.sound("yards_to_goal") && state.to_go > state.yards_to_goal)
    row.at("to_go").fault("lies beyond the goal line", "give at most the yards to the goal");
  return state;
}

/// The rows of a published table; its citation goes to `source`.
template <class Read>
auto published_table(Fields& published, std::string_view key, std::string& source, Read read) {
  return published.maybe(key, [&](const Part& part) {
    return part.object(any_object, [&](Fields& table) {
      source = table.text("source");
      table.text("counts");
      return table.objects("rows", published_rule, any_object, read);
    });
  });
}

bool read_published(Fields& published, Observed& observed) {
  auto own_drive = published_table(
      published, "goldner_2012", observed.own_drive_source, [](Fields& row) -> PublishedDrive {
        return {state_from(row), row.number("points"), row.number("plays"),
                row.object("results", results_want, results_from)};
      });
  if (own_drive) observed.own_drive = std::move(*own_drive);
  auto next_score = published_table(published, "carter_machol_1971", observed.next_score_source,
                                    [](Fields& row) -> ObservedPoints {
                                      const int spot =
                                          row.integer("yards_to_goal", observed_yards_rule);
                                      return {{spot, spot}, 0, row.number("points"), 0};
                                    });
  if (next_score) observed.next_score = std::move(*next_score);
  return true;
}

/// Counts by yards to the goal; the first one, for 0 yards, is 0.
std::vector<double> observed_starts_from(Fields& fields) {
  fields.integer("yards_to_goal_from", {1, 1, "1"});
  std::vector<double> counts = fields.list(
      "n", {99, 99, "99 counts"}, [](const Part& part) { return part.number(none_or_more); });
  double total = 0;
  for (const double count : counts) total += count;
  if (fields.sound("n") && !(total > 0))
    fields.at("n").fault("no drive starts anywhere", "give counts above 0");
  counts.insert(counts.begin(), 0.0);
  return counts;
}

// Every drive row is averaged over the starts in its band, so there must be some.
void check_starts(const Observed& observed, const Fields& document) {
  if (!document.sound("starts") || !document.sound("drives")) return;
  const Part drives = document.at("drives");
  for (std::size_t row = 0; row < observed.drives.size(); ++row) {
    const Band& band = observed.drives[row].yards_to_goal;
    double n = 0;
    for (int y = band.low; y <= band.high; ++y) n += observed.starts[static_cast<std::size_t>(y)];
    if (!(n > 0))
      drives.faults().add(child(drives.pointer(), row), "no start lies in its yards_to_goal",
                          "count some in /starts/n");
  }
}

void check_first(const Observed& observed, const Fields& document) {
  if (!document.sound("drives") || observed.drives.empty()) return;
  const Band& band = observed.drives.front().yards_to_goal;
  if (band.low == 1 && band.high == 99) return;
  const Part drives = document.at("drives");
  drives.faults().add(child(drives.pointer(), 0), "is not all drives",
                      "begin the list with those from 1 to 99 yards to the goal");
}

Observed observed_from(Fields& document) {
  Observed observed;
  observed.id = document.text("id", {1, 60, "a name"});
  observed.setting = document.text("setting", setting_rule);
  observed.about = document.text("about");
  observed.source = document.text("source", observed_source_rule);
  observed.starts = document.object("starts", "drives by the yards to the goal of their start",
                                    observed_starts_from);
  observed.drives =
      document.objects("drives", {1, 100, "a list of drives by start"}, any_object, drives_from);
  observed.lengths = shares_of(document, "drive_lengths", "plays", 0);
  observed.series = shares_of(document, "series_conversion", "yards_to_goal");
  observed.third_down = shares_of(document, "third_down", "to_go");
  const auto red_zone = document.maybe(
      "red_zone", [](const Part& part) { return part.object(any_object, red_zone_from); });
  observed.red_zone = red_zone.value_or(ObservedShare{});
  observed.points = points_of(document, "expected_points_by_5_yards");
  observed.points_by_yard = points_of(document, "expected_points_by_yard");
  document.maybe("published", [&](const Part& part) {
    return part.object(any_object,
                       [&](Fields& published) { return read_published(published, observed); });
  });
  check_first(observed, document);
  check_starts(observed, document);
  return observed;
}

}  // namespace

Observed parse_observed(std::string_view text, const std::string& source) {
  return read_document(parse_json(text, source), "callfit-observed", source, observed_from);
}

}  // namespace callfit
