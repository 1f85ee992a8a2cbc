// Film of the snaps behind a number: cuts, an honest reel of them, and what is said beside them.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/film/cuts.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace callfit {

/// Which of the rows that count are on film, and why these.
struct FilmOf {
  std::vector<std::size_t> rows;  ///< places in the answer's rows, in the charts' order
  std::string sentence;           ///< "20 of 61 snaps with times, chosen by chance: ..."
};

/// All rows that count and carry times or, where `minutes` are given, an honest reel of them
/// (honest_reel() by result). Throws InputError where no row that counts carries times, and where
/// not one snap fits.
FilmOf film_of(const SnapsAnswer& answer, std::optional<double> minutes, std::uint64_t seed);

/// A cut a row: what is seen, and the number that it stands behind, with its interval. A row
/// without a clip's name is of the file that its chart is of.
std::vector<Cut> cuts_of(const SnapsAnswer& answer, const FilmOf& film);

}  // namespace callfit
