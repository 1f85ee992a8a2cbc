#include <callfit/io/observed_file.hpp>
#include <callfit/io/read_file.hpp>
#include <io/json_part.hpp>
#include <io/rule_json.hpp>
#include <io/schema.hpp>

#include <nlohmann/json.hpp>

namespace callfit {
namespace {

Band band_at(const Part& part, std::string_view key) {
  const Part range = part.at(key);
  return band_from_json(range.value, range.pointer, range.faults);
}

std::array<double, drive_result_count> results_from(const Part& results) {
  std::array<double, drive_result_count> share{};
  each_entry(results, [&](const Part& entry, const std::string& key) {
    share[static_cast<std::size_t>(from_word<DriveResult>(key).value())] =
        entry.value.get<double>();
  });
  return share;
}

std::vector<ObservedDrives> drives_from(const Part& list) {
  std::vector<ObservedDrives> drives;
  each_item(list, [&](const Part& part) {
    drives.push_back({part.text("start"), band_at(part, "yards_to_goal"), part.number("n"),
                      part.number("points"), part.number("points_se"), part.number("plays"),
                      results_from(part.at("results"))});
  });
  return drives;
}

std::vector<ObservedShare> shares_from(const Part& table, std::string_view band) {
  std::vector<ObservedShare> shares;
  each_item(table.at("rows"), [&](const Part& part) {
    shares.push_back({band_at(part, band), part.number("n"), part.number("share")});
  });
  return shares;
}

std::vector<ObservedPoints> points_from(const Part& table) {
  std::vector<ObservedPoints> points;
  each_item(table.at("rows"), [&](const Part& part) {
    points.push_back({band_at(part, "yards_to_goal"), part.number("n"), part.number("points"),
                      part.number("se")});
  });
  return points;
}

DriveState state_from(const Part& part) {
  const DriveState state{part.integer("down"), part.integer("to_go"),
                         part.integer("yards_to_goal")};
  if (state.to_go > state.yards_to_goal)
    part.at("to_go").fault("lies beyond the goal line", "give at most the yards to the goal");
  return state;
}

void read_published(const Part& published, Observed& observed) {
  if (published.has("goldner_2012")) {
    const Part table = published.at("goldner_2012");
    observed.own_drive_source = table.text("source");
    each_item(table.at("rows"), [&](const Part& part) {
      observed.own_drive.push_back({state_from(part), part.number("points"), part.number("plays"),
                                    results_from(part.at("results"))});
    });
  }
  if (published.has("carter_machol_1971")) {
    const Part table = published.at("carter_machol_1971");
    observed.next_score_source = table.text("source");
    each_item(table.at("rows"), [&](const Part& part) {
      const int spot = part.integer("yards_to_goal");
      observed.next_score.push_back({{spot, spot}, 0, part.number("points"), 0});
    });
  }
}

std::vector<double> starts_from(const Part& starts) {
  std::vector<double> counts{0.0};
  double total = 0;
  for (const nlohmann::json& n : starts.value.at("n")) {
    counts.push_back(n.get<double>());
    total += counts.back();
  }
  if (!(total > 0)) starts.at("n").fault("no drive starts anywhere", "give counts above 0");
  return counts;
}

// Every drive row is averaged over the starts in its band, so there must be some.
void check_starts(const Observed& observed, const Part& drives) {
  std::size_t row = 0;
  for (const ObservedDrives& entry : observed.drives) {
    double n = 0;
    for (int y = entry.yards_to_goal.low; y <= entry.yards_to_goal.high; ++y)
      n += observed.starts[static_cast<std::size_t>(y)];
    if (!(n > 0))
      drives.item(row).fault("no start lies in its yards_to_goal", "count some in /starts/n");
    ++row;
  }
}

}  // namespace

Observed read_observed(const std::string& path) {
  const nlohmann::json document = parse_json(read_file(path), path);
  validate(document, "callfit-observed", path);
  Faults faults(path);
  const Part part{document, "", faults};
  Observed observed;
  observed.id = part.text("id");
  observed.setting = part.text("setting");
  observed.about = part.text("about");
  observed.source = part.text("source");
  observed.starts = starts_from(part.at("starts"));
  observed.drives = drives_from(part.at("drives"));
  observed.series = shares_from(part.at("series_conversion"), "yards_to_goal");
  observed.third_down = shares_from(part.at("third_down"), "to_go");
  observed.red_zone = {
      {}, part.at("red_zone").number("n"), part.at("red_zone").number("touchdown")};
  observed.points = points_from(part.at("expected_points_by_5_yards"));
  observed.points_by_yard = points_from(part.at("expected_points_by_yard"));
  read_published(part.at("published"), observed);
  faults.settle();
  check_starts(observed, part.at("drives"));
  faults.settle();
  return observed;
}

}  // namespace callfit
