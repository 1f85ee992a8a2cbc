#include "cli/commands.hpp"

#include <array>

namespace callfit::cli {
namespace {

constexpr std::array table{
    Command{"answer", "two charts and a scheme in; fit, points and a picture out", answer_command},
    Command{"check", "look for mistakes in charts, schemes, settings and profiles", check_command},
    Command{"agree", "measure how alike two people charted the same snaps", agree_command},
    Command{"profile", "turn charted snaps into rates with intervals", profile_command},
    Command{"scheme", "turn a coordinator's charted calls into a scheme", scheme_command},
    Command{"setting", "estimate a setting's population from several charts", setting_command},
    Command{"fit", "hold a profile against what a scheme demands", fit_command},
    Command{"drives", "play out drives: points, results, plays", drives_command},
    Command{"compare", "profiles against schemes: fit, points and who is ahead", compare_command},
    Command{"next", "which family to chart next", next_command},
    Command{"trend", "follow a season game by game", trend_command},
    Command{"brief", "half a page of talking points", brief_command},
    Command{"whatif", "change or sweep a rate, a share, a demand, a policy", whatif_command},
    Command{"levers", "which single change is worth most", levers_command},
    Command{"breakeven", "the rate at which two quarterbacks are worth the same",
            breakeven_command},
    Command{"package", "add a few calls in one situation: points and contact", package_command},
    Command{"tailor", "bend the scheme's call shares to the quarterback", tailor_command},
    Command{"graphic", "draw the picture", graphic_command},
    Command{"bench", "a signature that changes only when results change", bench_command},
};

}  // namespace

std::span<const Command> commands() { return table; }

}  // namespace callfit::cli
