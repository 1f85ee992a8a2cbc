#include <callfit/graphic/pictures.hpp>
#include <callfit/report/answer_text.hpp>
#include <callfit/report/cautions.hpp>
#include <callfit/report/record_text.hpp>
#include <callfit/report/table.hpp>

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

std::string text_beside(const Figure& drawing, const SayAnswer& say, const Case& about) {
  const std::string record = record_beside(say, about);
  return with_cautions(say_text(say) + '\n' + drawing.title + '\n' + drawing.description + '\n' +
                       (record.empty() ? "" : '\n' + wrapped(record)));
}

}  // namespace callfit
