#include <callfit/page/page.hpp>

#include <callfit/ask/namesakes.hpp>
#include <callfit/draw/svg.hpp>
#include <callfit/graphic/pictures.hpp>
#include <callfit/reader/reader.hpp>
#include <callfit/style/style.hpp>
#include <page/article.hpp>
#include <page/packing.hpp>
#include <report/phrases.hpp>
#include <report/snap_words.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <array>
#include <map>
#include <utility>

namespace callfit::page {
namespace {

constexpr std::size_t digest_shown = 12;

Dress dress_of_page(const Case& about, Frame frame) {
  Dress dress;
  dress.frame = frame;
  if (!about.style.empty()) dress = with_style(std::move(dress), about.style, "style");
  dress.tape_source = about.tape_source;
  return dress;
}

// Tall for a phone. Its theme is the analyst's, whatever the reader's.
struct View {
  Frame frame;
  const char* media;
};
constexpr std::array views{View{Frame::tall, "screen and (max-width: 45rem)"},
                           View{Frame::wide, ""}};

void draw_views(const Case& about, const FitScene& scene, Article& article) {
  const TextRuler ruler;
  for (const View& view : views) {
    Dress dress = dress_of_page(about, view.frame);
    dress.tape = scene.tape;
    const Panel panel = fit_panel(scene.fit, scene.against, dress.wording);
    const Figure drawing = figure(panel, dress, ruler);
    article.pictures.push_back({view.media, to_svg(drawing)});
    article.alternative = drawing.title + ". " + drawing.description;
  }
}

// Those that the case names, or the usual ones.
std::vector<PageHandle> handles_of(const Source& source, Reader& reader) {
  auto handles = parse_page_handles(source.document, source.name);
  return handles.empty() ? usual_handles(reader.study(), source.stand) : handles;
}

std::string made_by(const Source& source, const Engine& engine) {
  const auto with_commit = [](const std::string& version, const std::string& commit) {
    return commit.empty() ? version : version + " (" + commit + ")";
  };
  return fmt::format(
      "Made by callfit {}; its engine is of {}, {}.", with_commit(source.version, source.commit),
      with_commit(engine.version, engine.commit), engine.digest.substr(0, digest_shown));
}

std::string label_of(const Case& about, const std::string& family) {
  for (const FamilyPopulation& one : about.setting.families)
    if (one.id == family) return one.label;
  return family;
}

// Games are numbered, as in the counts: their names are nobody's business.
std::vector<SnapLine> snaps_of(const Source& source) {
  const Quarterback& man = source.about.quarterbacks[source.stand.quarterback];
  std::vector<SnapLine> lines;
  std::map<std::pair<std::size_t, std::string>, std::size_t> games;
  for (std::size_t c = 0; man.tape && c < man.tape->charts.size(); ++c)
    for (const Snap& snap : man.tape->charts[c].snaps) {
      const auto game = games.try_emplace({c, snap.game.str()}, games.size() + 1).first->second;
      SnapRow row;
      row.snap = snap;
      lines.push_back({game, snap_down_text(row), label_of(source.about, snap.family.str()),
                       snap_result_text(snap)});
    }
  if (lines.empty())
    throw InputError(Finding{{source.name, 0, ""},
                             "has no charted snaps of " + man.profile.name + " to put in rows",
                             "give his charts, or leave out --with-rows"});
  return lines;
}

std::string holds_text(std::size_t rows) {
  if (rows == 0)
    return "This page holds counts of charted snaps; no row, clip or note of a chart is in it.";
  return fmt::format(
      "This page holds his {} charted snaps row by row, as its analyst wanted; no clip or note of "
      "a chart is in it.",
      rows);
}

bool stands_in(const Page& page, const std::string& name) {
  Markup escaped;
  escaped.text(name);
  const std::string quoted = nlohmann::json(name).dump();
  return page.html.find(escaped.bytes()) != std::string::npos ||
         page.page_case.find(quoted.substr(1, quoted.size() - 2)) != std::string::npos;
}

void require_nameless(const Source& source, const Page& page, const PageCase& held) {
  for (std::size_t q = 0; q < source.about.quarterbacks.size(); ++q) {
    const std::string& name = source.about.quarterbacks[q].profile.name;
    if (name == held.about.quarterbacks[q].profile.name || !stands_in(page, name)) continue;
    throw InputError(
        Finding{{source.name, 0, ""},
                "names " + name + " in words of the case, which an anonymous page may not",
                "take the name out of schemes, handles, style and tape_source"});
  }
}

std::size_t size_of_pictures(const Article& article) {
  std::size_t size = 0;
  for (const Picture& picture : article.pictures) size += base64(picture.svg).size();
  return size;
}

}  // namespace

Page make_page(const Source& source, const Engine& engine, unsigned threads) {
  const Dress dress = dress_of_page(source.about, Frame::wide);
  const auto case_with = [&](const std::vector<PageHandle>& handles) {
    return page_case_text(source.whole, source.about, source.stand, handles, dress.wording,
                          source.anonymous);
  };
  // The article says what the engine will: both read the page's own case.
  Reader reader(parse_page_case(case_with({}), "page"), threads);
  reader.let_turn(handles_of(source, reader), source.name);
  Article article;
  article.page_case = case_with(reader.held().handles);
  article.shown = reader.shown({});
  const FitScene scene = fit_scene(reader.study(), source.stand);
  Case drawn = reader.held().about;
  drawn.style = source.about.style;
  drawn.tape_source = source.about.tape_source;
  draw_views(drawn, scene, article);
  article.tape_source = source.about.tape_source;
  article.tape = capital(stand_text(scene.fit.about)) + ": " + tape_line(scene.fit.about);
  if (source.with_rows) article.snaps = snaps_of(source);
  article.holds = holds_text(article.snaps.size());
  article.made_by = made_by(source, engine);

  Page page;
  page.html = document_of(article, engine).bytes();
  page.page_case = article.page_case;
  page.holds = article.holds;
  if (source.anonymous) require_nameless(source, page, reader.held());
  page.parts = {{"engine", base64(engine.module).size() + engine.glue.size()},
                {"pictures", size_of_pictures(article)},
                {"case", base64(gzipped(article.page_case)).size()}};
  return page;
}

}  // namespace callfit::page
