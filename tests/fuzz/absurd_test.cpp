// Numbers that no analyst would write but that are numbers: a setting that holds one is refused, or
// everything that follows from it is finite.
#include "small.hpp"

#include <callfit/ask/matchup.hpp>
#include <callfit/ask/study.hpp>
#include <callfit/format/chart.hpp>
#include <callfit/format/scheme.hpp>
#include <callfit/format/setting.hpp>
#include <callfit/profile/player.hpp>
#include <callfit/report/door.hpp>

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include <cmath>
#include <map>
#include <regex>

using namespace callfit;
using namespace callfit::fuzz;
using nlohmann::json;

namespace {

SourceText families_beside(const std::string& name, const std::string& source) {
  return name == "families.json" ? SourceText{small_families_text(), name}
                                 : nothing_beside(name, source);
}

const Scheme& scheme() {
  static const Scheme one =
      parse_scheme(small_scheme_text("balanced.json"), "balanced.json", families_beside);
  return one;
}

/// Fit and drives of a charted quarterback. Throws std::logic_error where a number is none.
void work_out(const Setting& setting, const std::string& chart_text) {
  Findings notices;
  Case about;
  about.setting = setting;
  about.average_scheme = scheme();
  about.schemes = {scheme()};
  about.quarterbacks.push_back({build_profile("A", {parse_chart(chart_text, "chart.csv", notices)},
                                              setting, weighting_of(setting)),
                                nullptr});
  about.options.draws = fewest_draws;
  const Player player = mean_player(about.quarterbacks[0].profile, setting);
  const double net = drive_points(make_matchup(setting, scheme(), scheme()), player).net_points;
  if (!std::isfinite(net)) throw std::logic_error("net points are no number");
  Study study(about, 1);
  answer_json(study, R"({"kind": "fit"})");
}

/// What quarterbacks differ by; shapes of gains, what stands in sources and how many rows stand
/// behind a number are left out.
bool is_tried(const std::string& pointer) {
  static const std::regex parts("/(families|shared_gains|cells|levels|population)/.*");
  static const std::regex other(".*/(p|bins|n|number|within_season|league_drift)(/.*)?");
  return std::regex_match(pointer, parts) && !std::regex_match(pointer, other);
}

/// One pointer of each kind of number: places in lists, families, traits and rates are alike.
std::map<std::string, std::string> numbers_of(const json& setting) {
  static const std::regex names(
      "[0-9]+|(families|rates|traits|shift|shifts|screen|qb_draw|handoff)/[a-z_0-9]+");
  std::map<std::string, std::string> by_kind;
  const json flat = setting.flatten();
  for (const auto& [pointer, value] : flat.items())
    if (value.is_number() && is_tried(pointer))
      by_kind.emplace(std::regex_replace(pointer, names, "$1"), pointer);
  return by_kind;
}

std::string outcome(const std::string& text, const std::string& chart) {
  try {
    work_out(parse_setting(text, "s.json"), chart);
  } catch (const InputError& error) {
    return std::string(error.what()).find("s.json: /") == 0 ? "refused" : error.what();
  } catch (const std::exception& error) {
    return std::string("a fault of the program: ") + error.what();
  }
  return "worked out";
}

void try_all(const std::string& text) {
  const std::string chart = small_chart_text("last-starter.csv", 2);
  const json setting = json::parse(text);
  REQUIRE(outcome(text, chart) == "worked out");
  std::map<std::string, int> outcomes;
  for (const auto& [kind, pointer] : numbers_of(setting))
    for (const double number : {1e-300, 1e-17, 1e17}) {
      json absurd = setting;
      absurd[json::json_pointer(pointer)] = number;
      const std::string what = outcome(absurd.dump(), chart);
      INFO(pointer << " " << number << ": " << what);
      CHECK((what == "refused" || what == "worked out"));
      ++outcomes[what];
    }
  CHECK(outcomes["refused"] > 10);
  CHECK(outcomes["worked out"] > 0);
}

}  // namespace

TEST_CASE("absurd numbers of a setting are refused or give numbers", "[slow-plain]") {
  try_all(plain_setting_text());
}

TEST_CASE("absurd numbers of a population are refused or give numbers", "[slow-plain]") {
  try_all(small_setting_text());
}
