#include <callfit/draw/svg.hpp>
#include <callfit/graphic/pictures.hpp>
#include <callfit/report/answer_text.hpp>
#include <callfit/report/turning_text.hpp>
#include <callfit/style/style.hpp>
#include <desk/view.hpp>
#include <format/changes.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <utility>

namespace callfit::desk {
namespace {

using Json = nlohmann::ordered_json;

KnobValue knob_at(Study& study, const Stand& stand, const std::string& path) {
  if (auto found = study.path(stand, path)) return *std::move(found);
  throw InputError(
      Finding{{"", 0, "/turn/path"}, "no path is called " + path, "take one of the view's"});
}

Stand start_of(Stand stand) {
  stand.changes.clear();
  return stand;
}

FitAnswer fit_of(Study& study, const Stand& stand) {
  return std::get<FitAnswer>(study.answer(FitRequest{stand, false}));
}

TryResult tried(Study& study, const Stand& stand) {
  const TryRequest request{start_of(stand), {Try{"", stand.changes}}};
  return std::get<TryAnswer>(study.answer(request)).tries.front();
}

// One thing that can be turned: its value now and where it began, in words and as a number.
class Handles {
 public:
  Handles(Study& study, Stand stand)
      : study_(study), stand_(std::move(stand)), start_(start_of(stand_)) {}

  /// `snaps`: the number whose snaps it rests on.
  Json of(const std::string& path, const std::string& snaps = "") const {
    const auto now = study_.path(stand_, path);
    if (!now) return nullptr;
    const KnobValue began = study_.path(start_, path).value();
    Json handle{{"path", path},
                {"name", now->label},
                {"now", now->now},
                {"low", now->low},
                {"high", now->high},
                {"text", knob_value_text(*now)},
                {"began", knob_value_text(began)},
                {"is_turned", now->now != began.now}};
    if (!snaps.empty()) handle["snaps"] = snaps;
    return handle;
  }

 private:
  Study& study_;
  Stand stand_, start_;
};

Json families_json(const FitAnswer& fit, const Handles& handles) {
  Json families = Json::array();
  for (std::size_t f = 0; f < fit.families.size(); ++f) {
    Json demands = Json::array();
    for (const DemandAnswer& demand : fit.demands)
      if (demand.family == f)
        demands.push_back({{"label", demand.label},
                           {"verdict", reach_odds_words(demand.reaches)},
                           {"does", handles.of(demand.own_path, demand.own_path)},
                           {"asked", handles.of(demand.asked_path, demand.part_path)}});
    families.push_back({{"label", fit.families[f].label},
                        {"calls", handles.of(fit.families[f].call_path)},
                        {"demands", std::move(demands)}});
  }
  return families;
}

Json turned_json(const TryResult& result) {
  Json list = Json::array();
  for (const Moved& moved : result.moved)
    if (moved.asked) list.push_back({{"path", moved.path}, {"words", moved_words(moved)}});
  return list;
}

// The stand as the door reads it, by places: names may be alike.
Json stand_json(const Stand& stand) {
  return {{"quarterback", stand.quarterback + 1},
          {"scheme", stand.scheme + 1},
          {"changes", changes_json(stand.changes)}};
}

Panel panel_of(Study& study, const Stand& stand, Dress& dress) {
  FitScene scene = fit_scene(study, stand);
  dress.tape = scene.tape;
  std::optional<FitAnswer> start;
  if (!stand.changes.empty()) start = fit_of(study, start_of(stand));
  return fit_panel(scene.fit, scene.against, dress.wording, start);
}

}  // namespace

Stand turned_stand(Study& study, const Look& look) {
  if (!look.turn) return look.stand;
  const Turn& turn = *look.turn;
  const KnobValue knob = knob_at(study, look.stand, turn.path);
  const Change change = change_of(turn, knob, fit_of(study, look.stand));
  const double start = knob_at(study, start_of(look.stand), turn.path).now;
  Stand stand = look.stand;
  // A hand that is back where it began, as far as that shows, has turned nothing.
  const bool is_typed = std::holds_alternative<std::string>(turn.move);
  const double near = is_typed ? 1e-9 : 0.51 * step_of(knob);
  stand.changes = with_change(std::move(stand.changes), change, start, near);
  study.require(stand);
  return stand;
}

Dress dress_of(const Case& about, Frame frame, Theme theme) {
  Dress dress;
  dress.frame = frame;
  dress.style = house_style(theme);
  if (!about.style.empty()) dress = with_style(std::move(dress), about.style, "style");
  dress.tape_source = about.tape_source;
  return dress;
}

Figure fit_figure(Study& study, const Stand& stand, const Dress& dress, const TextRuler& ruler) {
  Dress noted = dress;
  const Panel panel = panel_of(study, stand, noted);
  return figure(panel, noted, ruler);
}

std::string verdict_of(Study& study, const Stand& stand) {
  Dress dress = dress_of(study.about(), Frame::wide, Theme::light);
  return panel_of(study, stand, dress).telling.headline;
}

SayAnswer said_of(Study& study, const Stand& stand) {
  return std::get<SayAnswer>(study.answer(SayRequest{stand, held_against(stand, study.about())}));
}

Json view_of(Study& study, const Look& look, const TextRuler& ruler) {
  const Stand stand = turned_stand(study, look);
  Dress dress = dress_of(study.about(), look.frame, look.theme);
  const Panel panel = panel_of(study, stand, dress);
  Json view{{"format", "callfit-view/1"},
            {"stand", stand_json(stand)},
            {"kicker", panel.telling.kicker},
            {"verdict", panel.telling.headline},
            {"svg", to_svg(figure(panel, dress, ruler))},
            {"paragraph", paragraph(said_of(study, stand))},
            {"families", families_json(fit_of(study, stand), Handles(study, stand))},
            {"turned", Json::array()}};
  if (stand.changes.empty()) return view;
  const TryResult result = tried(study, stand);
  view["turned"] = turned_json(result);
  view["effect"] = try_words(result);
  view["place"] = place_words(result);
  return view;
}

}  // namespace callfit::desk
