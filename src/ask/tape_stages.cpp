#include <ask/tape_stages.hpp>
#include <callfit/stats/beta.hpp>

#include <utility>

namespace callfit::ask {
namespace {

class StageMaker {
 public:
  StageMaker(const Question& question, const DrawKey& key)
      : profile_(*question.profile),
        setting_(question.ground->setting),
        population_(with_assumed_spreads(*setting_.population)),
        key_(key) {}

  TapeStage at(double weight, double width) const {
    const Evidence evidence = weight > 0 ? weighed(profile_.evidence, weight) : Evidence{};
    TapeStage stage{weight, width, response_of(population_, evidence), {}, {}, nullptr};
    stage.profile = at_tape_weight(profile_, setting_, weight, stage.response.posterior);
    stage.mean = mean_player(stage.profile, setting_);
    stage.draws = std::make_shared<const PlayerDraws>(
        PlayerDraws::of_profile(stage.profile, setting_, key_, stage_draws));
    return stage;
  }

 private:
  const Profile& profile_;
  const Setting& setting_;
  Population population_;
  DrawKey key_;
};

}  // namespace

// What the first snaps move is most, so points lie closer together where little counts.
TapeStages tape_stages(const Question& question, const DrawKey& key, std::size_t stages) {
  const StageMaker maker(question, key);
  TapeStages out{maker.at(0, 0), maker.at(1, 0), {}, {}};
  const Nodes roots = beta_nodes(Beta{1, 1}, stages);
  for (std::size_t i = 0; i < roots.size(); ++i)
    out.inside.push_back(maker.at(roots.at[i] * roots.at[i], 2 * roots.at[i] * roots.weight[i]));
  out.evidence = snap_evidence(question.tape->charts, question.ground->setting, question.weighting,
                               question.tape->like);
  return out;
}

}  // namespace callfit::ask
