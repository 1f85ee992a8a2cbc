// Many draws of one quarterback, number by number: a column holds one number of every draw.
#pragma once

#include <callfit/base/random.hpp>
#include <callfit/profile/player.hpp>
#include <callfit/profile/profile.hpp>
#include <callfit/setting/setting.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

namespace callfit {

/// A number of every draw, in the order of the draws.
using DrawColumn = std::span<const double>;

/// What the streams of a quarterback's draws hang on: the seed and his place in the case at hand.
/// Two quarterbacks of one case are drawn apart, one quarterback under changed counts shares his
/// randomness as far as it goes.
struct DrawKey {
  std::uint64_t seed = default_seed;
  std::uint64_t place = 0;
};

/// Which of a quarterback's numbers are asked for.
enum class PlayerParts {
  played,  ///< what drives play with: played_rates, alone and against each shell, and all bins
  all
};

/// Joint draws from a profile's posterior, or members of a setting's population. docs/model.md,
/// "Draws", says what is drawn.
///
/// A column is filled when first asked for, from a stream of its own: what is asked first changes
/// nothing, and fewer draws are the beginning of more. Filling is not safe between threads; after
/// fill() the columns are there, and any number of threads may read them. Columns stay valid as
/// long as the object lives. Family indices are those of Setting::families.
class PlayerDraws {
 public:
  static constexpr std::size_t usual_count = 4096;

  static PlayerDraws of_profile(const Profile& profile, const Setting& setting, const DrawKey& key,
                                std::size_t count = usual_count);
  static PlayerDraws of_population(const Setting& setting, const DrawKey& key,
                                   std::size_t count = usual_count);
  ~PlayerDraws();
  PlayerDraws(PlayerDraws&&) noexcept;
  PlayerDraws& operator=(PlayerDraws&&) noexcept;

  std::size_t size() const;

  /// The family's rate, in [0, 1]; 0 throughout where the family has no such rate.
  DrawColumn rate(std::size_t family, Rate rate) const;
  /// The rate in a cell; that of the family where the setting has no such cell. The three shells
  /// come together, balanced.
  DrawColumn cell(std::size_t family, Cell cell, Rate rate) const;
  /// Probabilities of the bins of depth, yac or run, a column a bin; empty where the family has no
  /// such gain. Of scrambles and sacks, which all families share, `family` does not matter.
  const std::vector<DrawColumn>& bins(GainPart part, std::size_t family = 0) const;

  /// Fills every column of the parts.
  void fill(PlayerParts parts) const;

  /// Draw i; rates and cells that are not among the parts are 0.
  Player player_at(std::size_t i, PlayerParts parts = PlayerParts::all) const;

 private:
  class Columns;
  explicit PlayerDraws(std::unique_ptr<Columns> columns);

  std::unique_ptr<Columns> columns_;
};

}  // namespace callfit
