#include <callfit/ask/question.hpp>

namespace callfit {

Question make_question(std::shared_ptr<const Matchup> ground, Profile profile,
                       std::shared_ptr<const Tape> tape) {
  Question question;
  question.tape = std::move(tape);
  question.mean = mean_player(profile, ground->setting);
  question.player = no_shift(ground->setting);
  question.setting = ground->setting;
  question.scheme = ground->scheme();
  question.options = ground->options;
  question.profile = std::move(profile);
  question.ground = std::move(ground);
  return question;
}

Matchup matchup_of(const Question& question) {
  return with_scheme(*question.ground, question.setting, question.scheme, question.options);
}

Player question_draw(const Question& question, std::uint64_t seed, std::uint64_t index) {
  const Setting& population = question.ground->setting;
  return moved(draw_player(question.profile, population, seed, index), question.player, population);
}

Standing stand(const Question& question, const DrawOptions& options, const Progress& progress) {
  const Matchup matchup = matchup_of(question);
  const Setting& population = question.ground->setting;
  Standing standing;
  standing.draws.resize(options.draws);
  standing.fit_draws.resize(options.draws);
  for_each_unit(
      options.draws, options.threads,
      [&](std::size_t index) {
        const Player player = question_draw(question, options.seed, index);
        standing.draws[index] = drive_points(matchup, player);
        standing.fit_draws[index] = fit_of(player, matchup.bound, population).fit;
      },
      progress);
  const Player centre = question.mean_player();
  standing.fit = fit_of(centre, matchup.bound, population);
  standing.drive = solve(compile_drives(matchup, centre)).over(matchup.starts);
  standing.drives_per_game = question.setting.drives_per_game;
  return standing;
}

}  // namespace callfit
