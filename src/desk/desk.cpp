#include <callfit/ask/study.hpp>
#include <callfit/desk/desk.hpp>
#include <callfit/graphic/pictures.hpp>
#include <callfit/report/cautions.hpp>
#include <callfit/report/door.hpp>
#include <callfit/report/number_text.hpp>
#include <callfit/report/turning_text.hpp>
#include <desk/case_file.hpp>
#include <desk/kept_list.hpp>
#include <desk/page_files.hpp>
#include <desk/publishing.hpp>
#include <desk/reading.hpp>

#include <format/changes.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>

namespace callfit::desk {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t levers_offered = 3;
constexpr int bad_input = 422;
constexpr int fault = 500;

const PageFile* page_file(const std::string& target) {
  const auto files = page_files();
  const auto found = std::find_if(files.begin(), files.end(),
                                  [&target](const PageFile& file) { return file.path == target; });
  return found == files.end() ? nullptr : &*found;
}

// Bytes that are no UTF-8 (a name in a chart) are shown as such, not fallen over.
std::string sent(const Json& answer) {
  return answer.dump(-1, ' ', false, Json::error_handler_t::replace);
}

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

Json kept_json(const KeptFile& kept) {
  Json verdicts = Json::array();
  for (const KeptVerdict& said : kept.said.verdicts) {
    Verdict verdict;
    verdict.odds = said.odds;
    verdicts.push_back(said.family_label + ", " + said.label + ": " +
                       number_text(Unit::share, said.estimate) + ", asked " +
                       value_text(Unit::share, said.asked) + ", " + reach_words(verdict));
  }
  return {{"file", kept.name},
          {"date", kept.said.date},
          {"about", kept.said.quarterback + " in " + kept.said.scheme + ", " +
                        fixed(kept.said.snaps, 0) + " charted snaps"},
          {"verdicts", std::move(verdicts)}};
}

}  // namespace

class Desk::Inside {
 public:
  Inside(Opened opened, unsigned threads)
      : case_file_(opened.file, opened.document, opened.about.tries),
        folder_(std::move(opened.folder)),
        glossary_(std::move(opened.glossary)),
        settled_(opened.about, threads),
        following_(following_case(std::move(opened.about)), threads, Pace::following) {}

  Reply answer(const Call& call) {
    if (const PageFile* file = page_file(call.target))
      return {200, std::string(type_of(file->path)), std::string(file->bytes)};
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
  static const std::array<Route, 9> routes;

  const Case& about() const { return settled_.about(); }

  std::string ask(const std::string& body) { return answer_json(settled_, body); }

  std::string the_case(const std::string&) {
    Json quarterbacks = Json::array();
    for (const Quarterback& one : about().quarterbacks) quarterbacks.push_back(one.profile.name);
    Json schemes = Json::array();
    for (const Scheme& scheme : about().schemes) schemes.push_back(scheme.name);
    Json words = Json::array();
    for (const GlossaryEntry& entry : glossary_)
      words.push_back({{"words", entry.words}, {"meaning", entry.meaning}});
    return sent({{"format", "callfit-desk-case/1"},
                 {"name", about().name},
                 {"quarterbacks", std::move(quarterbacks)},
                 {"schemes", std::move(schemes)},
                 {"keeps_tries", case_file_.is_on_disk()},
                 {"cautions", cautions_text()},
                 {"words", std::move(words)}});
  }

  std::string view(const std::string& body) {
    const Sight sight = sight_in(body, about());
    Json view = view_of(sight.following ? following_ : settled_, sight.look, ruler_);
    // Of call shares a moving hand is told the middle of the change, not how sure it is: no
    // verdict.
    if (sight.following) view.erase("effect");
    return sent(view);
  }

  std::string levers(const std::string& body) {
    const auto all =
        std::get<LeversAnswer>(settled_.answer(LeversRequest{stand_in(body, about())}));
    Json list = Json::array();
    for (const LeverAnswer& lever : worth_trying(all, levers_offered))
      list.push_back(lever_json(lever));
    return sent({{"levers", std::move(list)}});
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
        const auto cells = try_rows(std::get<TryAnswer>(settled_.answer(TryRequest{stand, {one}})));
        heads = cells[0];
        row["cells"] = cells[1];
      } catch (const InputError& error) {
        row["fault"] = to_text(error.findings().front());
      }
      rows.push_back(std::move(row));
    }
    return sent({{"heads", std::move(heads)}, {"tries", std::move(rows)}});
  }

  std::string keep(const std::string& body) {
    const Named named = named_in(body, about());
    settled_.require(named.stand);
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
        fit_figure(settled_, named.stand, dress_of(about(), named.frame, Theme::light), ruler_);
    const auto names =
        publish(folder_, named.name, drawing,
                text_beside(drawing, said_of(settled_, named.stand), settled_.about()));
    return sent({{"files", names}});
  }

  std::string kept(const std::string&) {
    Json list = Json::array();
    for (const KeptFile& one : kept_in(folder_)) list.push_back(kept_json(one));
    return sent({{"kept", std::move(list)}});
  }

  CaseFile case_file_;
  std::string folder_;
  std::vector<GlossaryEntry> glossary_;
  Study settled_, following_;
  TextRuler ruler_;
};

const std::array<Desk::Inside::Route, 9> Desk::Inside::routes{
    {{"/ask", &Inside::ask},
     {"/case", &Inside::the_case},
     {"/view", &Inside::view},
     {"/levers", &Inside::levers},
     {"/tries", &Inside::tries},
     {"/tries/keep", &Inside::keep},
     {"/tries/drop", &Inside::drop},
     {"/publish", &Inside::publish_picture},
     {"/kept", &Inside::kept}}};

Desk::Desk(Opened opened, unsigned threads)
    : inside_(std::make_unique<Inside>(std::move(opened), threads)) {}
Desk::~Desk() = default;
Desk::Desk(Desk&&) noexcept = default;
Desk& Desk::operator=(Desk&&) noexcept = default;

bool Desk::is_page_file(const std::string& target) { return page_file(target) != nullptr; }

Reply Desk::answer(const Call& call) { return inside_->answer(call); }

}  // namespace callfit::desk
