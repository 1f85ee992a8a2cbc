#include <callfit/draw/svg.hpp>
#include <callfit/report/cautions.hpp>
#include <callfit/report/number_text.hpp>
#include <page/article.hpp>
#include <page/digest.hpp>
#include <page/packing.hpp>
#include <page/page_files.hpp>
#include <page/scripts.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <stdexcept>

namespace callfit::page {
namespace {

std::string_view file(std::string_view path) {
  const EmbeddedFile* found = find_file(page_files(), path);
  if (found == nullptr) throw std::logic_error("the page has no file " + std::string(path));
  return found->bytes;
}

// Nothing is loaded from anywhere, nothing runs but the page's own script and the engine.
std::string policy(std::string_view script, std::string_view style) {
  return fmt::format(
      "default-src 'none'; script-src {} 'wasm-unsafe-eval'; worker-src blob:; style-src {}; "
      "img-src data:; base-uri 'none'; form-action 'none'",
      policy_hash(script), policy_hash(style));
}

void put_head(Markup& html, const Shown& shown, std::string_view script, std::string_view style) {
  html << "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
          "<meta http-equiv=\"Content-Security-Policy\" content=\"";
  html.text(policy(script, style))
      << "\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
         "<meta name=\"referrer\" content=\"no-referrer\">\n<link rel=\"icon\" "
         "href=\"data:,\">\n<title>";
  html.text(shown.headline) << "</title>\n<style>";
  html.own_file(style) << "</style>\n</head>\n";
}

std::string data_address(const std::string& svg) {
  return "data:image/svg+xml;base64," + base64(svg);
}

void put_picture(Markup& html, const Article& article) {
  html << "<figure>\n<picture>\n";
  for (const Picture& picture : article.pictures) {
    if (picture.media.empty()) continue;
    html << "<source media=\"";
    html.text(picture.media) << "\" srcset=\"";
    html.text(data_address(picture.svg)) << "\">\n";
  }
  const auto plain = std::find_if(article.pictures.begin(), article.pictures.end(),
                                  [](const Picture& one) { return one.media.empty(); });
  html << "<img alt=\"";
  html.text(article.alternative) << "\" src=\"";
  html.text(data_address(plain->svg))
      << "\">\n</picture>\n<figcaption class=\"yours quiet\">This is the analyst’s picture. What "
         "you "
         "turn is drawn beside it below, in colour.</figcaption>\n</figure>\n";
}

// A number's interval and centre; the second one is for what a reader turns.
void put_marks(Markup& html, const Shown::Strip& strip, Literal kind, Literal height) {
  const auto number = [](double value) { return fmt::format("{:.1f}", value); };
  html << "<line class=\"" << kind << "\" x1=\"";
  html.text(number(strip.low)) << "\" x2=\"";
  html.text(number(strip.high)) << "\" y1=\"" << height << "\" y2=\"" << height
                                << "\"/><circle class=\"" << kind << "\" r=\"2.5\" cx=\"";
  html.text(number(strip.centre)) << "\" cy=\"" << height << "\"/>";
}

void put_strip(Markup& html, const Shown::Row& row) {
  html << "<svg class=\"strip\" viewBox=\"-3 0 106 16\" aria-hidden=\"true\"><line class=\"axis\" "
          "x1=\"0\" x2=\"100\" y1=\"15\" y2=\"15\"/>";
  if (row.line) {
    const std::string at = fmt::format("{:.1f}", *row.line);
    html << "<line class=\"asked\" x1=\"";
    html.text(at) << "\" x2=\"";
    html.text(at) << "\" y1=\"1\" y2=\"15\"/>";
  }
  put_marks(html, row.strip, "his", "5");
  put_marks(html, row.strip, "yours", "11");
  html << "</svg>";
}

void put_handle(Markup& html, const Shown::Handle& handle, std::size_t place) {
  const std::string number = std::to_string(place + 1);
  html << "<div class=\"handle\">\n<label for=\"handle-";
  html.text(number) << "\">";
  html.text(with_dashes(handle.words)) << "</label>\n<output for=\"handle-";
  html.text(number) << "\">";
  html.text(handle.text) << "</output>\n<input type=\"range\" id=\"handle-";
  html.text(number) << "\" min=\"0\" max=\"";
  html.text(std::to_string(handle.last)) << "\" value=\"";
  html.text(std::to_string(handle.at)) << "\" aria-valuetext=\"";
  html.text(handle.text) << "\">\n<small>";
  html.text(handle.low + " to " + handle.high + "; the analyst has ");
  html.text(handle.began) << "</small>\n</div>\n";
}

void put_handles(Markup& html, const Shown& shown) {
  html << "<section id=\"turning\" aria-labelledby=\"turning-head\" hidden>\n"
          "<h2 id=\"turning-head\">What if that is wrong?</h2>\n"
          "<p class=\"quiet\" id=\"turning-hint\">Turn what the coordinator calls, or what you "
          "believe of the man; "
          "what is said below follows.</p>\n<div id=\"handles\">\n";
  for (std::size_t h = 0; h < shown.handles.size(); ++h) put_handle(html, shown.handles[h], h);
  html << "</div>\n<div id=\"answer\" aria-live=\"polite\">\n<p id=\"verdict\">";
  html.text(shown.headline) << "</p>\n<p id=\"effect\"></p>\n<p id=\"place\">";
  put_strip(html, shown.rows.front());
  html << " <small>";
  html.text(shown.rows.front().label)
      << "</small></p>\n</div>\n<p id=\"fault\" role=\"alert\" hidden></p>\n"
         "<p class=\"ways\"><button type=\"button\" id=\"back\" disabled>Back to the "
         "analyst’s view</button>\n<button type=\"button\" id=\"link\" disabled>Copy a link to "
         "this try</button>\n<span id=\"link-status\" role=\"status\"></span></p>\n</section>\n";
}

void put_rows(Markup& html, const Shown& shown) {
  html << "<section aria-labelledby=\"numbers-head\">\n<h2 id=\"numbers-head\">The numbers</h2>\n"
          "<p class=\"quiet\">";
  html.text(brackets_meaning)
      << " Drawn: that interval and its middle; what he gives is right of the line where it is "
         "more "
         "than asked. What you turn is below it, in colour."
      << "</p>\n"
         "<div class=\"table\" tabindex=\"0\" role=\"region\" "
         "aria-labelledby=\"numbers-head\">\n<table>\n"
         "<thead><tr><th scope=\"col\">what</th><th scope=\"col\">drawn</th><th scope=\"col\">the "
         "analyst’s view</th>"
         "<th scope=\"col\" class=\"yours\">your try</th></tr></thead>\n<tbody id=\"rows\">\n";
  for (const Shown::Row& row : shown.rows) {
    html << "<tr><th scope=\"row\">";
    html.text(with_dashes(row.label)) << "</th><td>";
    put_strip(html, row);
    html << "</td><td>";
    html.text(row.value) << "</td><td class=\"yours\"></td></tr>\n";
  }
  html << "</tbody>\n</table>\n</div>\n</section>\n";
}

void put_snaps(Markup& html, const std::vector<SnapLine>& snaps) {
  if (snaps.empty()) return;
  html << "<details>\n<summary>The charted snaps, row by row</summary>\n<div class=\"table\" "
          "tabindex=\"0\" role=\"region\" aria-label=\"The charted snaps\">\n<table>\n<thead><tr>"
          "<th scope=\"col\">game</th><th scope=\"col\">down</th><th scope=\"col\">call</th>"
          "<th scope=\"col\">result</th></tr></thead>\n<tbody id=\"snaps\">\n";
  for (const SnapLine& snap : snaps) {
    html << "<tr><td>";
    html.text(std::to_string(snap.game)) << "</td><td>";
    html.text(snap.down) << "</td><td>";
    html.text(snap.family) << "</td><td>";
    html.text(snap.result) << "</td></tr>\n";
  }
  html << "</tbody>\n</table>\n</div>\n</details>\n";
}

void put_small_print(Markup& html, const Article& article) {
  html << "<section aria-labelledby=\"cautions-head\">\n<h2 "
          "id=\"cautions-head\">Cautions</h2>\n<ul>\n";
  for (const std::string_view caution : cautions) {
    html << "<li>";
    html.text(caution) << "</li>\n";
  }
  html << "</ul>\n</section>\n<section aria-labelledby=\"sources-head\">\n"
          "<h2 id=\"sources-head\">Sources</h2>\n";
  if (!article.tape_source.empty()) {
    html << "<p>Tape: ";
    html.text(article.tape_source) << "</p>\n";
  }
  html << "<p>";
  html.text(article.tape) << "</p>\n<p>";
  html.text(article.holds)
      << " It asks nothing of anybody and keeps nothing but your try, at the end of its "
         "address.</p>\n<p class=\"quiet\">";
  html.text(article.made_by) << "</p>\n</section>\n";
}

void put_engine(Markup& html, const Article& article, const Engine& engine) {
  html << "<script type=\"text/plain\" id=\"page-case\">";
  html.packed(gzipped(article.page_case))
      << "</script>\n<script type=\"application/json\" id=\"worker\">";
  const std::string worker = engine.glue + '\n' + std::string(file("/engine-worker.js"));
  html.json(nlohmann::json(worker).dump())
      << "</script>\n<script type=\"text/plain\" id=\"engine\">";
  html.packed(engine.module) << "</script>\n";
}

}  // namespace

Markup document_of(const Article& article, const Engine& engine) {
  const std::string script = joined({file("/element.js"), file("/engine.js"), file("/reader.js")});
  Markup html;
  const std::string style = std::string(file("/paper.css")) + std::string(file("/reader.css"));
  put_head(html, article.shown, script, style);
  html << "<body>\n<main>\n<article>\n<p class=\"kicker\">";
  html.text(article.shown.kicker) << "</p>\n<h1>";
  html.text(article.shown.headline) << "</h1>\n";
  put_picture(html, article);
  html << "<p>";
  html.text(with_dashes(article.shown.paragraph)) << "</p>\n";
  html << "<noscript><p class=\"quiet\">With scripts off this is the analyst’s view; with them on "
          "you can turn what "
          "it rests on.</p></noscript>\n";
  put_handles(html, article.shown);
  put_rows(html, article.shown);
  put_snaps(html, article.snaps);
  put_small_print(html, article);
  html << "</article>\n</main>\n";
  put_engine(html, article, engine);
  html << "<script type=\"module\">";
  html.own_file(script) << "</script>\n</body>\n</html>\n";
  return html;
}

}  // namespace callfit::page
