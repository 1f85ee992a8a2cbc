#include <ask/question.hpp>

namespace callfit::ask {

Question make_question(std::shared_ptr<const Matchup> ground, const Quarterback& quarterback,
                       std::shared_ptr<const Player> mean) {
  Question question;
  question.tape = quarterback.tape;
  question.profile = std::make_shared<const Profile>(quarterback.profile);
  question.mean = std::move(mean);
  question.player = no_shift(ground->setting);
  question.weighting = quarterback.profile.weighting;
  question.setting = ground->setting;
  question.scheme = ground->scheme();
  question.options = ground->options;
  question.ground = std::move(ground);
  return question;
}

Matchup matchup_of(const Question& question) {
  return with_scheme(*question.ground, question.setting, question.scheme, question.options);
}

}  // namespace callfit::ask
