#include <callfit/format/net_values.hpp>
#include <format/json_print.hpp>
#include <format/part.hpp>

#include <fmt/format.h>

#include <vector>

namespace callfit {
namespace {

constexpr Sizes spots_rule{99, 99, "net points at 1 to 99 yards to the goal"};
constexpr Texts key_rule{16, 16, "16 hexadecimal digits"};

std::string key_text(std::uint64_t key) { return fmt::format("{:016x}", key); }

}  // namespace

std::optional<NetValues> parse_net_values(std::string_view text, const std::string& source,
                                          std::uint64_t expected_key) {
  std::string key;
  NetValues values =
      read_document(parse_json(text, source), "callfit-net-values", source, [&key](Fields& fields) {
        NetValues read;
        key = fields.text("follows_from", key_rule);
        read.first_and_ten = fields.list("first_and_ten", spots_rule,
                                         [](const Part& part) { return part.number(); });
        read.after_kickoff = fields.number("after_kickoff");
        read.after_safety_kick = fields.number("after_safety_kick");
        read.half_hazard = fields.number("half_hazard", share_rule);
        return read;
      });
  if (key != key_text(expected_key)) return std::nullopt;
  values.first_and_ten.insert(values.first_and_ten.begin(), 0.0);
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
