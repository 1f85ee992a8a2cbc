// What a player does with the plays of a plan, worked out once for tables and derivatives.
#pragma once

#include <drive/chances.hpp>
#include <drive/components.hpp>
#include <drive/table.hpp>

#include <memory>
#include <vector>

namespace callfit::drive {

struct PlayedParts {
  /// `wanted`: of the plan.
  PlayedParts(const Plan& plan, const Player& player, const Parts& wanted);

  Components components;
  std::vector<Chances> chances;  ///< by Plan::plays; all 0 where not wanted
};

/// The table of one class that mixes other plays than the plan's, in a layout with all the slices
/// that those plays need.
ClassTable compile_mixes(const Plan& plan, const Layout& layout, const PlayedParts& parts,
                         const ContextMixes& mixes);

/// `parts` must hold at least those that the plan calls.
Table compile(std::shared_ptr<const Plan> plan, const PlayedParts& parts);

/// The table of one of the plan's classes alone.
ClassTable compile_class(const Plan& plan, const Player& player, std::size_t quality);

}  // namespace callfit::drive
