#include "cli/questions.hpp"

#include "cli/inputs.hpp"

#include <nlohmann/json.hpp>

#include <filesystem>

namespace callfit::cli {

void add_question_options(Options& options, std::size_t draws) {
  options.with_json().with_draws(draws);
  add_matchup_options(options);
  options.add()("profile", po::value<std::string>()->value_name("PROFILE"),
                "profile (JSON) or chart (CSV)");
  options.positional("profile", 1);
}

Question load_question(Files& disk, const std::string& file,
                       std::shared_ptr<const Matchup> ground) {
  const Setting& setting = ground->setting;
  auto tape = std::make_shared<Tape>();
  tape->like = aliases_of(ground->scheme());
  Profile profile;
  if (std::filesystem::path(file).extension() == ".csv") {
    tape->charts = load_charts(disk, {file}, setting, tape->like);
    profile = build_profile(std::filesystem::path(file).stem().string(), tape->charts, setting,
                            weighting_of(setting), tape->like);
  } else {
    profile = load_profile(disk, file, setting, tape->like);
  }
  return make_question(std::move(ground), std::move(profile), std::move(tape));
}

Question load_question(Files& disk, const po::variables_map& values) {
  const std::string file = required_text(values, "profile");
  return load_question(disk, file, std::make_shared<const Matchup>(load_matchup(disk, values)));
}

DrawOptions draw_options_of(const po::variables_map& values) {
  return {seed_of(values), draws_of(values), threads_of(values)};
}

nlohmann::ordered_json request_of(const po::variables_map& values, const Question& question) {
  return {{"profile", text_of(values, "profile")},
          {"scheme", question.ground->scheme().id},
          {"setting", question.ground->setting.id},
          {"policy", word(question.ground->options.policy)},
          {"end_of_half", question.ground->options.end_of_half},
          {"seed", seed_of(values)},
          {"draws", draws_of(values)}};
}

}  // namespace callfit::cli
