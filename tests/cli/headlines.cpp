#include "headlines.hpp"

#include <array>
#include <cstdio>
#include <sstream>

namespace callfit::test {

using nlohmann::json;

namespace {

std::string number(double value, int digits) {
  std::array<char, 64> text{};
  std::snprintf(text.data(), text.size(), "%.*f", digits, value);
  return text.data();
}

// "+1.82", "0.00": points as a change or a lead.
std::string lead(double value) {
  const std::string text = number(value, 2);
  if (text == "-0.00" || text == "0.00") return "0.00";
  return value > 0 ? '+' + text : text;
}

// A decimal below ten.
std::string percent(double share) {
  const double value = 100 * share;
  return number(value, value > 0 && value < 9.95 ? 1 : 0) + '%';
}

std::string lead_range(const json& n) { return lead(n["low"]) + " to " + lead(n["high"]); }

std::string lead_with_range(const json& n) {
  return lead(n["centre"]) + " (" + lead_range(n) + ')';
}

std::string place_with_range(const json& n) {
  return number(n["centre"], 0) + " (" + number(n["low"], 0) + " to " + number(n["high"], 0) + ')';
}

std::string sentence(const json& n, const std::string& between) {
  return lead(n["centre"]) + between + ", 90% interval " + lead_range(n);
}

Words effect_lines(const json& effect) {
  return {"net points a game change by " + sentence(effect["net_points_per_game"]["change"], "")};
}

}  // namespace

std::string one_line(const std::string& text) {
  std::istringstream words(text);
  std::string out;
  for (std::string word; words >> word;) out += word + ' ';
  return out;
}

Words fit_lines(const json& a) {
  const json& place = a["place_of_100"];
  const json& squared = a["distance_squared"];
  return {number(place["centre"], 0) + " of 100 quarterbacks of this level fit it worse; " +
              number(place["low"], 0) + " to " + number(place["high"], 0),
          "D² " + number(squared["centre"], 3) + " (" + number(squared["low"], 3) + " to " +
              number(squared["high"], 3) + ')',
          "its mean over the draws, " + number(a["mean_distance_squared"], 3)};
}

Words drives_lines(const json& a) {
  const json& points = a["points_per_drive"];
  return {number(points["centre"], 2) + " (" + number(points["low"], 2) + " to " +
              number(points["high"], 2) + ") points per drive",
          "net " + lead_with_range(a["net_points_per_drive"]),
          "net " + lead_with_range(a["net_points_per_game"]),
          number(a["drives_per_game"], 1) + " drives",
          number(a["sampled"]["standard_error"]["points_per_drive"], 4)};
}

Words compare_lines(const json& a) {
  Words lines{
      sentence(a["differences"][0]["net_points_per_game"],
               " net points a game for " + a["differences"][0]["first"].get<std::string>())};
  for (const json& entry : a["entries"])
    lines.push_back(lead(entry["net_points_per_drive"]["centre"]) + ' ' +
                    lead_range(entry["net_points_per_drive"]) + ' ' +
                    percent(entry["odds_best"].get<double>()));
  return lines;
}

Words brief_lines(const json& a) {
  Words lines{sentence(a["first_minus_second"]["net_points_per_game"],
                       " net points a game for New starter"),
              place_with_range(a["first_place_of_100"]) + " fit worse than New starter"};
  for (const json& reason : a["reasons"])
    lines.push_back(lead_with_range(reason["net_points_per_game"]) + " net points a game, mean " +
                    lead(reason["mean_part_net_points_per_game"]));
  for (const json& part : a["change"]["parts"])
    lines.push_back(lead_with_range(part["net_points_per_game"]) + " net points a game, mean " +
                    lead(part["mean_net_points_per_game"]));
  lines.push_back(lead_with_range(a["change"]["net_points_per_game"]) +
                  " net points a game in all, mean " +
                  lead(a["change"]["mean_net_points_per_game"]));
  return lines;
}

Words try_lines(const json& a) {
  Words lines;
  for (const json& one : a["tries"]) {
    const Words more = effect_lines(one);
    lines.insert(lines.end(), more.begin(), more.end());
  }
  return lines;
}

Words sweep_lines(const json& a) {
  Words lines;
  for (const json& row : a["cells"])
    for (const json& cell : row) {
      lines.push_back(lead_with_range(cell["net_points_per_game_change"]));
      lines.push_back(number(cell["place_of_100"]["centre"], 0) + ' ' +
                      number(cell["points_per_drive"]["centre"], 2) + ' ' +
                      lead(cell["net_points_per_drive"]["centre"]));
    }
  return lines;
}

Words levers_lines(const json& a) {
  constexpr std::size_t listed = 8;
  Words lines;
  for (std::size_t i = 0; i < listed; ++i) {
    const json& worth = a["levers"][i]["net_points_per_game"];
    lines.push_back(lead(worth["centre"]) + ' ' + lead_range(worth));
  }
  return lines;
}

Words even_lines(const json& a) {
  return {"is " + number(100 * a["break_even"].get<double>(), 0) + "%; now it is " +
              number(100 * a["now"].get<double>(), 0) + '%',
          sentence(a["now_first_minus_second"]["net_points_per_game"],
                   " net points a game for Last starter"),
          lead(a["net_points_per_game_at_low"]), lead(a["net_points_per_game_at_high"])};
}

Words package_lines(const json& a) {
  Words lines = effect_lines(a["effect"]);
  lines.push_back(number(a["mean_per_game_before"]["package_calls"], 2) + ' ' +
                  number(a["mean_per_game_after"]["package_calls"], 2));
  return lines;
}

Words tailor_lines(const json& a) {
  return {lead_with_range(a["own_net_points_per_game"]) + " net points a game more for"};
}

Words say_lines(const json& a) {
  return {one_line(a["paragraph"].get<std::string>()),
          " of 100 quarterbacks of this level fit New coordinator's scheme worse than New starter",
          sentence(a["first_minus_second"]["net_points_per_game"],
                   " net points a game for New starter")};
}

Words next_lines(const json& a) {
  Words lines{"net points a game " + lead_with_range(a["net_points_per_game"]),
              "place of 100 " + place_with_range(a["place_of_100"])};
  for (const json& family : a["families"])
    lines.push_back("±" + number(family["half_width_after_net_points_per_game"], 2));
  return lines;
}

Words trend_lines(const json& a) {
  Words lines{a["first_answer_held"].get<bool>() ? "the first answer held"
                                                 : "the first answer did not hold"};
  for (const json& step : a["steps"])
    lines.push_back(place_with_range(step["place_of_100"]) + ' ' +
                    lead_with_range(step["net_points_per_drive"]));
  return lines;
}

Words snaps_lines(const json& a) {
  Words lines{": " + lead_with_range(a["shown"])};
  for (const char* way : {"most_up", "most_down"})
    for (const json& place : a[way]) {
      const json& row = a["rows"][place.get<std::size_t>()];
      const auto chart = row["chart"].get<std::string>();
      const double moved = row["moved"];
      lines.push_back(chart.substr(chart.rfind('/') + 1) + ':' +
                      std::to_string(row["line"].get<int>()) + ' ' + (moved > 0 ? "+" : "") +
                      number(moved, 3));
    }
  return lines;
}

}  // namespace callfit::test
