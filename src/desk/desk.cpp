#include <callfit/ask/kept.hpp>
#include <callfit/ask/study.hpp>
#include <callfit/desk/desk.hpp>
#include <callfit/desk/gate.hpp>
#include <callfit/graphic/pictures.hpp>
#include <callfit/report/cautions.hpp>
#include <callfit/report/door.hpp>
#include <callfit/report/number_text.hpp>
#include <callfit/report/snaps_text.hpp>
#include <callfit/report/turning_text.hpp>
#include <desk/case_file.hpp>
#include <desk/charting_room.hpp>
#include <desk/kept_list.hpp>
#include <desk/page_files.hpp>
#include <desk/publishing.hpp>
#include <desk/reading.hpp>
#include <format/json_print.hpp>

#include <format/changes.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>

namespace callfit::desk {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t levers_offered = 3;
constexpr std::size_t most_rows = 500;  // of snaps on the page
constexpr int bad_input = 422;
constexpr int fault = 500;

Case following_case(Case about) {
  about.options.draws = fewest_draws;
  return about;
}

Json try_json(const Try& one) {
  return {{"name", one.name}, {"changes", changes_json(one.changes)}};
}

Json lever_json(const LeverAnswer& lever) {
  return {{"words", lever_words(lever)},
          {"gain", lever_gain(lever)},
          {"changes", changes_json({lever_change(lever)})}};
}

// What was said, and, where something was charted since, what came of it.
Json kept_json(const KeptFile& kept, const std::optional<KeptScore>& score) {
  Json verdicts = Json::array();
  for (const KeptVerdict& said : kept.said.verdicts) {
    Json verdict{{"said", kept_words(said)}};
    if (score)
      for (const KeptOutcome& outcome : score->outcomes)
        if (outcome.said.family == said.family && outcome.said.label == said.label)
          verdict["came"] = came_words(outcome);
    verdicts.push_back(std::move(verdict));
  }
  return {{"file", kept.name},
          {"date", kept.said.date},
          {"about", kept.said.quarterback + " in " + kept.said.scheme + ", " +
                        fixed(kept.said.snaps, 0) + " charted snaps"},
          {"since", kept_since_words(score)},
          {"verdicts", std::move(verdicts)}};
}

Json snaps_json(const SnapsAnswer& answer) {
  const auto cells = [&answer](const std::vector<std::size_t>& places) {
    Json list = Json::array();
    for (const std::size_t place : places)
      list.push_back(snap_cells(answer, answer.rows.at(place)));
    return list;
  };
  Json rows = Json::array();
  for (std::size_t i = 0; i < std::min(most_rows, answer.rows.size()); ++i)
    rows.push_back(snap_cells(answer, answer.rows[i]));
  return {{"number", answer.number.address},
          {"head", snaps_head(answer)},
          {"way", snaps_way(answer)},
          {"left_out", snaps_left_out(answer)},
          {"more", snaps_more(answer, most_rows)},
          {"rows_head", snaps_rows_head(answer)},
          {"heads", snap_heads(answer)},
          {"rows", std::move(rows)},
          {"up", cells(answer.most_up)},
          {"down", cells(answer.most_down)}};
}

}  // namespace

class Desk::Inside {
 public:
  Inside(Opened opened, unsigned threads)
      : case_file_(opened.file, opened.document,
                   opened.about ? opened.about->tries : std::move(opened.tries)),
        folder_(std::move(opened.folder)),
        glossary_(std::move(opened.glossary)),
        taping_(std::move(opened.taping)),
        threads_(threads) {
    if (opened.about) studies_ = std::make_unique<Studies>(std::move(*opened.about), threads_);
    if (taping_ && taping_->is_first_room) room();
  }

  Reply answer(const Call& call) {
    if (const EmbeddedFile* file = find_file(page_files(), call.target))
      return {200, std::string(type_of(file->path)), std::string(file->bytes)};
    if (call.target.starts_with(film_target)) return film(call);
    const auto route = std::find_if(routes.begin(), routes.end(), [&call](const Route& one) {
      return one.target == call.target;
    });
    if (route == routes.end())
      return {404, "application/json",
              error_document(InputError(Finding{{"", 0, ""}, "there is no such place", ""}))};
    try {
      return {200, "application/json", (this->*route->answer)(call.body)};
    } catch (const InputError& error) {
      return {bad_input, "application/json", error_document(error)};
    } catch (const std::exception& error) {  // the desk stays open whatever a question does to it
      return {fault, "application/json",
              error_document(InputError(Finding{
                  {"", 0, ""}, std::string("a fault of the program: ") + error.what(), ""}))};
    }
  }

 private:
  using Answer = std::string (Inside::*)(const std::string& body);
  struct Route {
    std::string_view target;
    Answer answer;
  };
  static const std::array<Route, 19> routes;

  /// One case, for answers that are sure and for those that follow a hand.
  struct Studies {
    Studies(const Case& about, unsigned threads)
        : settled(about, threads), following(following_case(about), threads, Pace::following) {}
    Study settled, following;
  };

  Studies& studies() const {
    if (!studies_)
      throw InputError(Finding{
          {"", 0, ""}, "the chart has no snaps yet", "chart some; the picture comes of them"});
    return *studies_;
  }
  Study& settled() const { return studies().settled; }
  const Case& about() const { return settled().about(); }

  std::string ask(const std::string& body) { return answer_json(settled(), body); }

  std::string rooms(const std::string&) {
    return one_line({{"format", "callfit-desk-rooms/1"},
                     {"charting", taping_.has_value()},
                     {"begins_with_charting", taping_ && (taping_->is_first_room || !studies_)}});
  }

  ChartingRoom& room() {
    if (!taping_)
      throw InputError(Finding{{"", 0, ""},
                               "no chart is charted here",
                               "name one: callfit desk --chart FILE --tape FILE"});
    if (!room_) room_ = std::make_unique<ChartingRoom>(*taping_);
    return *room_;
  }
  std::string charting(const std::string&) { return room().state(); }
  std::string charting_keys(const std::string& body) { return room().keys(body); }
  std::string charting_columns(const std::string&) { return room().add_columns(); }
  std::string charting_map(const std::string&) { return room().key_map(); }
  std::string so_far(const std::string&) { return room().so_far(); }
  std::string settling(const std::string&) { return room().settling().state(); }
  std::string settling_begin(const std::string&) { return room().settling().begin(); }
  std::string settling_keys(const std::string& body) { return room().settling().keys(body); }
  Reply film(const Call& call) {
    try {
      return room().films().part(call);
    } catch (const InputError& error) {
      return {404, "application/json", error_document(error)};
    }
  }

  // The picture is of the chart as it is now.
  void freshen() {
    if (!room_ || room_->version() == shown_version_) return;
    studies_ = std::make_unique<Studies>(taping_->read_case(), threads_);
    shown_version_ = room_->version();
  }

  std::string the_case(const std::string&) {
    freshen();
    Json quarterbacks = Json::array();
    for (const Quarterback& one : about().quarterbacks) quarterbacks.push_back(one.profile.name);
    Json schemes = Json::array();
    for (const Scheme& scheme : about().schemes) schemes.push_back(scheme.name);
    Json words = Json::array();
    for (const GlossaryEntry& entry : glossary_)
      words.push_back({{"words", entry.words}, {"meaning", entry.meaning}});
    return one_line({{"format", "callfit-desk-case/1"},
                     {"name", about().name},
                     {"quarterbacks", std::move(quarterbacks)},
                     {"schemes", std::move(schemes)},
                     {"keeps_tries", case_file_.is_on_disk()},
                     {"cautions", cautions_text()},
                     {"words", std::move(words)}});
  }

  std::string view(const std::string& body) {
    const Sight sight = sight_in(body, about());
    Json view = view_of(sight.following ? studies().following : settled(), sight.look, ruler_);
    // Of call shares a moving hand is told the middle of the change, not how sure it is: no
    // verdict.
    if (sight.following) view.erase("effect");
    return one_line(view);
  }

  std::string levers(const std::string& body) {
    const auto all =
        std::get<LeversAnswer>(settled().answer(LeversRequest{stand_in(body, about())}));
    Json list = Json::array();
    for (const LeverAnswer& lever : worth_trying(all, levers_offered))
      list.push_back(lever_json(lever));
    return one_line({{"levers", std::move(list)}});
  }

  // The case's tries side by side; one that does not fit the stand says why.
  std::string tries(const std::string& body) {
    Stand stand = stand_in(body, about());
    stand.changes.clear();
    Json rows = Json::array();
    Json heads;
    for (const Try& one : case_file_.tries()) {
      Json row = try_json(one);
      try {
        const auto cells =
            try_rows(std::get<TryAnswer>(settled().answer(TryRequest{stand, {one}})));
        heads = cells[0];
        row["cells"] = cells[1];
      } catch (const InputError& error) {
        row["fault"] = to_text(error.findings().front());
      }
      rows.push_back(std::move(row));
    }
    return one_line({{"heads", std::move(heads)}, {"tries", std::move(rows)}});
  }

  std::string keep(const std::string& body) {
    const Named named = named_in(body, about());
    settled().require(named.stand);
    case_file_.keep({named.name, named.stand.changes});
    return tries(
        Json{{"stand",
              {{"quarterback", named.stand.quarterback + 1}, {"scheme", named.stand.scheme + 1}}}}
            .dump());
  }

  std::string drop(const std::string& body) {
    const Named named = named_in(body, about());
    case_file_.drop(named.name);
    return tries(
        Json{{"stand",
              {{"quarterback", named.stand.quarterback + 1}, {"scheme", named.stand.scheme + 1}}}}
            .dump());
  }

  std::string publish_picture(const std::string& body) {
    const Named named = named_in(body, about());
    const Figure drawing =
        fit_figure(settled(), named.stand, dress_of(about(), named.frame, Theme::light), ruler_);
    const auto names =
        publish(folder_, named.name, drawing,
                text_beside(drawing, said_of(settled(), named.stand), settled().about()));
    return one_line({{"files", names}});
  }

  std::string kept(const std::string&) {
    Json list = Json::array();
    if (taping_ && room().is_blind())  // some may rest on the other chart
      return one_line({{"kept", std::move(list)}});
    for (const KeptFile& one : kept_in(folder_)) list.push_back(kept_json(one, came_of(one.said)));
    return one_line({{"kept", std::move(list)}});
  }

  std::string snaps(const std::string& body) {
    const SnapsRequest request = snaps_in(body, about());
    const auto behind = std::get<SnapsAnswer>(settled().answer(request));
    Json answer = snaps_json(behind);
    answer["play"] = play_json(behind);
    answer["numbers"] = Json::array();
    for (const SnapNumber& one : settled().snap_numbers(request.stand))
      answer["numbers"].push_back({{"number", one.address}, {"label", one.label}});
    return one_line(answer);
  }

  // Where the counted snaps lie on film that is here, in the order of the rows; with the cells to
  // say of each.
  Json play_json(const SnapsAnswer& behind) {
    Json spans = Json::array();
    for (const SnapRow& row : behind.rows) {
      if (!taping_ || !row.counts || !row.snap.start || row.snap.clip.empty()) continue;
      charting::FilmPlace stretch{row.snap.clip.str(), *row.snap.start, std::nullopt};
      if (row.snap.end) stretch.end = *row.snap.end;
      Json span = room().films().json(stretch);
      if (span.is_null()) continue;
      span["words"] = said_cells(behind, row);
      spans.push_back(std::move(span));
    }
    return {{"films", spans.empty() ? Json::array() : room().films().json()},
            {"spans", std::move(spans)}};
  }

  static std::string said_cells(const SnapsAnswer& behind, const SnapRow& row) {
    std::string words;
    for (const std::string& cell : snap_cells(behind, row))
      if (!cell.empty()) words += (words.empty() ? "" : ", ") + cell;
    return words;
  }

  std::optional<KeptScore> came_of(const KeptAnswer& said) const {
    const auto& men = about().quarterbacks;
    const auto man = std::find_if(men.begin(), men.end(), [&said](const Quarterback& one) {
      return one.profile.name == said.quarterback;
    });
    return man == men.end() ? std::nullopt : score_since({said}, *man, about().setting);
  }

  CaseFile case_file_;
  std::string folder_;
  std::vector<GlossaryEntry> glossary_;
  std::optional<Taping> taping_;
  unsigned threads_;
  std::unique_ptr<Studies> studies_;
  std::unique_ptr<ChartingRoom> room_;
  std::size_t shown_version_ = 0;  // of the room's chart
  TextRuler ruler_;
};

const std::array<Desk::Inside::Route, 19> Desk::Inside::routes{
    {{"/rooms", &Inside::rooms},
     {"/charting", &Inside::charting},
     {"/charting/keys", &Inside::charting_keys},
     {"/charting/columns", &Inside::charting_columns},
     {"/charting/map", &Inside::charting_map},
     {"/charting/so-far", &Inside::so_far},
     {"/settling", &Inside::settling},
     {"/settling/begin", &Inside::settling_begin},
     {"/settling/keys", &Inside::settling_keys},
     {"/ask", &Inside::ask},
     {"/case", &Inside::the_case},
     {"/view", &Inside::view},
     {"/levers", &Inside::levers},
     {"/tries", &Inside::tries},
     {"/tries/keep", &Inside::keep},
     {"/tries/drop", &Inside::drop},
     {"/publish", &Inside::publish_picture},
     {"/kept", &Inside::kept},
     {"/snaps", &Inside::snaps}}};

Desk::Desk(Opened opened, unsigned threads)
    : inside_(std::make_unique<Inside>(std::move(opened), threads)) {}
Desk::~Desk() = default;
Desk::Desk(Desk&&) noexcept = default;
Desk& Desk::operator=(Desk&&) noexcept = default;

bool Desk::is_page_file(const std::string& target) {
  return find_file(page_files(), target) != nullptr;
}

Reply Desk::answer(const Call& call) { return inside_->answer(call); }

}  // namespace callfit::desk
