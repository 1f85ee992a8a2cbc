#include <ask/question.hpp>

namespace callfit::ask {

Question make_question(std::shared_ptr<const Matchup> ground,
                       std::shared_ptr<const Profile> profile, std::shared_ptr<const Tape> tape,
                       std::shared_ptr<const Player> mean) {
  Question question;
  question.tape = std::move(tape);
  question.weighting = profile->weighting;
  question.profile = std::move(profile);
  question.mean = std::move(mean);
  question.player = no_shift(ground->setting);
  question.setting = ground->setting;
  question.scheme = ground->scheme();
  question.options = ground->options;
  question.ground = std::move(ground);
  return question;
}

Matchup matchup_of(const Question& question) {
  return with_scheme(*question.ground, question.setting, question.scheme, question.options);
}

DrivePlan plan_of(const Question& question) {
  const Matchup& ground = *question.ground;
  return {question.scheme, bind_scheme(question.scheme, ground.setting).setting_family,
          question.setting, ground.net, question.options};
}

}  // namespace callfit::ask
