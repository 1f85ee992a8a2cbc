// Which single change is worth most.
#pragma once

#include <callfit/graphic/dress.hpp>

#include <string>
#include <vector>

namespace callfit {

struct Lever {
  std::string label;   ///< "deep outside: completion"
  std::string change;  ///< "31% to 36%"
  Reading gain;        ///< in the answer's unit
};

struct LeverPicture {
  std::string player;
  std::string scheme;
  std::string answer;         ///< "points per game"
  std::string step;           ///< how far each is moved: "one spread between quarterbacks"
  std::vector<Lever> levers;  ///< in any order; drawn by size
};

Panel lever_panel(const LeverPicture& values, const Wording& wording);

}  // namespace callfit
