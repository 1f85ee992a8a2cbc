// What the text of an answer must say, made from the numbers of its JSON and formatted here anew.
#pragma once

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace callfit::test {

using Words = std::vector<std::string>;

/// As one line with single spaces, so that a sentence is found however it was wrapped.
std::string one_line(const std::string& text);

/// Pieces of the text of an answer of that kind (of levers: of the eight largest); `a` is the key
/// "answer" of its document.
Words fit_lines(const nlohmann::json& a);
Words drives_lines(const nlohmann::json& a);
Words compare_lines(const nlohmann::json& a);
Words brief_lines(const nlohmann::json& a);
Words try_lines(const nlohmann::json& a);
Words sweep_lines(const nlohmann::json& a);
Words levers_lines(const nlohmann::json& a);
Words even_lines(const nlohmann::json& a);
Words package_lines(const nlohmann::json& a);
Words tailor_lines(const nlohmann::json& a);
Words next_lines(const nlohmann::json& a);
Words trend_lines(const nlohmann::json& a);
Words say_lines(const nlohmann::json& a);
/// Of net points a game.
Words snaps_lines(const nlohmann::json& a);

}  // namespace callfit::test
