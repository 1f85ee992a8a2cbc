// The parts of the table of knobs, by what they turn.
#pragma once

#include <callfit/ask/knob.hpp>

#include <vector>

namespace callfit::ask {

using Knobs = std::vector<Knob>;

void add_call_knobs(const Question& question, Knobs& knobs);
void add_demand_knobs(const Question& question, Knobs& knobs);
void add_player_knobs(const Question& question, Knobs& knobs);
void add_setting_knobs(const Question& question, Knobs& knobs);

/// Sets one of `shares` (which sum to 1) and rescales the others in proportion. Throws InputError
/// when the others have nothing to rescale.
void set_share(std::vector<double>& shares, std::size_t index, double value,
               const std::string& path);

}  // namespace callfit::ask
