// Numbers that rest on snaps: what each is called, and which snaps it counts.
#pragma once

#include <ask/standing.hpp>
#include <callfit/ask/answer.hpp>

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace callfit::ask {

/// A result of the whole stand, or a demand's part of D^2.
struct ResultNumber {
  enum class Kind { place, distance, points, net_points, demand } kind = Kind::place;
};
/// A measure of one family, or in a cell.
struct MeasureNumber {
  std::size_t family = 0;  ///< index into Setting::families
  Rate rate = Rate::completion;
  std::optional<Cell> cell;
};
/// A mean gain; scrambles and sacks of all families.
struct GainNumber {
  std::size_t family = 0;
  GainPart part = GainPart::depth;
};
/// How many snaps were charted of a family.
struct FamilyNumber {
  std::size_t family = 0;
};

struct NumberPlace {
  SnapNumber number;
  std::variant<ResultNumber, MeasureNumber, GainNumber, FamilyNumber> what;
};

/// Results first, then the demands of the scheme, then what he does, family by family.
std::vector<NumberPlace> snap_numbers(const Standing& standing);

/// By its address, or by words of it. Throws InputError that names the nearest.
NumberPlace find_number(const std::vector<NumberPlace>& numbers, const std::string& words);

/// Whether a snap of a family (an index into Setting::families) is one that the number is about;
/// the others are not listed.
bool is_about(const NumberPlace& number, std::size_t family, const Snap& snap);

/// Whether the snap counts in the number, and if not, why; `made` of a rate.
struct Counting {
  bool counts = true;
  std::string why_not;
  std::optional<bool> made;
};
Counting counting_of(const NumberPlace& number, const Snap& snap, double weight,
                     const SuccessRule& rule);

}  // namespace callfit::ask
