#include "cli/commands.hpp"

#include <array>

namespace callfit::cli {
namespace {

constexpr std::array table{
    Command{"check", "look for mistakes; how alike two people charted the same snaps",
            check_command},
    Command{"read", "charts into a profile, a scheme or a setting", read_command},
    Command{"answer", "fit, points, who is ahead and why, in text and pictures", answer_command},
    Command{"try", "turn something: a rate, calls, a package, the best change", try_command},
    Command{"desk", "a page where weights are turned on the picture", desk_command},
    Command{"page", "a page that readers can play with, one file", page_command},
    Command{"next", "what to chart next", next_command},
    Command{"trend", "follow a season game by game", trend_command},
    Command{"validate", "hold a setting against what real drives did", validate_command},
};

}  // namespace

std::span<const Command> commands() { return table; }

}  // namespace callfit::cli
