#include <callfit/io/net_values_file.hpp>
#include <io/json_text.hpp>
#include <io/schema.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <vector>

namespace callfit {
namespace {

std::string key_text(std::uint64_t key) { return fmt::format("{:016x}", key); }

}  // namespace

std::optional<NetValues> parse_net_values(std::string_view text, const std::string& source,
                                          std::uint64_t expected_key) {
  const nlohmann::json root = parse_json(text, source);
  validate(root, "callfit-net-values", source);
  if (root.at("follows_from") != key_text(expected_key)) return std::nullopt;
  NetValues values;
  values.first_and_ten = root.at("first_and_ten").get<std::vector<double>>();
  values.first_and_ten.insert(values.first_and_ten.begin(), 0.0);
  values.after_kickoff = root.at("after_kickoff").get<double>();
  values.after_safety_kick = root.at("after_safety_kick").get<double>();
  values.half_hazard = root.at("half_hazard").get<double>();
  return values;
}

std::string net_values_to_json(const NetValues& values, std::uint64_t key) {
  nlohmann::ordered_json root;
  root["format"] = "callfit-net-values/1";
  root["follows_from"] = key_text(key);
  root["first_and_ten"] =
      std::vector<double>(values.first_and_ten.begin() + 1, values.first_and_ten.end());
  root["after_kickoff"] = values.after_kickoff;
  root["after_safety_kick"] = values.after_safety_kick;
  root["half_hazard"] = values.half_hazard;
  return root.dump(2) + "\n";
}

}  // namespace callfit
