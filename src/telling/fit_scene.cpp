#include <callfit/telling/fit_scene.hpp>

namespace callfit {

FitScene fit_scene(Study& study, const Stand& stand) {
  FitScene scene;
  scene.fit = std::get<FitAnswer>(study.answer(FitRequest{stand, false}));
  scene.tape = {scene.fit.about};
  const auto other = held_against(stand, study.about());
  if (!other) return scene;
  const auto say = std::get<SayAnswer>(study.answer(SayRequest{stand, other}));
  scene.against = say.difference;
  scene.tape.push_back(std::get<FitAnswer>(study.answer(FitRequest{*other, false})).about);
  return scene;
}

}  // namespace callfit
