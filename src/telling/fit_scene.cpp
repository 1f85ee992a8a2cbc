#include <callfit/telling/fit_scene.hpp>

namespace callfit {

FitScene fit_scene(Study& study, const Stand& stand) {
  FitScene scene;
  const auto other = held_against(stand, study.about());
  // First: it works both out at once.
  if (other) scene.against = std::get<SayAnswer>(study.answer(SayRequest{stand, other})).difference;
  scene.fit = std::get<FitAnswer>(study.answer(FitRequest{stand, false}));
  scene.tape = {scene.fit.about};
  if (!other) return scene;
  scene.tape.push_back(std::get<FitAnswer>(study.answer(FitRequest{*other, false})).about);
  return scene;
}

}  // namespace callfit
