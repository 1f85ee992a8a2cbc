#include <callfit/graphic/dress.hpp>

#include <callfit/base/isolated.hpp>
#include "report/phrases.hpp"

#include <callfit/report/cautions.hpp>
#include <callfit/report/number_text.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace callfit {
namespace {

struct FrameLook {
  FrameSize size;
  double margin;
  TextScale text;
  std::size_t headline_lines;
  std::size_t deck_lines;
  std::size_t panels;
};

FrameLook look_of(Frame frame) {
  switch (frame) {
    case Frame::wide:
      return {{1920, 1080}, 64, {19, 22, 26, 34, 88, 58}, 2, 2, 3};
    case Frame::tall:
      return {{1080, 1350}, 52, {19, 25, 29, 38, 72, 54}, 3, 2, 2};
    case Frame::story:
      return {{1080, 1920}, 52, {21, 28, 33, 42, 104, 66}, 3, 3, 3};
  }
  return {};
}

constexpr double smallest_headline = 0.7;  // of its size

// The sideline of a field: a short mark every yard, a long one every five.
void sideline(Canvas& canvas, const Box& band, double margin) {
  const double yard = 12;
  const auto marks = static_cast<int>(std::floor((band.width - 2 * margin) / yard));
  for (int i = 0; i <= marks; ++i) {
    const double x = band.x + margin + i * yard;
    const double length = i % 5 == 0 ? 16 : 7;
    canvas.line({x, band.bottom() - length}, {x, band.bottom()}, Ink::masthead_quiet, 2);
  }
}

// The narrowest column that needs no more lines: lines of about equal length read better.
double balanced_width(const Canvas& canvas, const Words& words, double width, std::size_t lines) {
  const Font font = canvas.font_of(words);
  const auto wanted = canvas.ruler().wrap(words.text, font, width, lines);
  double narrow = width / 2, wide = width;
  while (wide - narrow > 4) {
    const double tried = (narrow + wide) / 2;
    const auto got = canvas.ruler().wrap(words.text, font, tried, wanted.size() + 1);
    (got.size() <= wanted.size() ? wide : narrow) = tried;
  }
  return wide;
}

std::string joined(const std::vector<std::string>& sentences) {
  std::string text;
  for (const std::string& sentence : sentences) text += (text.empty() ? "" : " ") + sentence;
  return text;
}

// Whole sentences, the first ones: none is told in place of one that says more.
Words deck_words(const Canvas& canvas, const std::vector<std::string>& sentences, double width,
                 std::size_t lines) {
  Words words{"", canvas.sizes().body, Ink::masthead_quiet};
  const Font font = canvas.font_of(words);
  for (const std::string& sentence : sentences) {
    const std::string longer = words.text.empty() ? sentence : words.text + " " + sentence;
    if (canvas.ruler().wrap(longer, font, width, lines + 1).size() > lines) break;
    words.text = longer;
  }
  return words;
}

void masthead(Canvas& canvas, Box& page, const Telling& telling, const FrameLook& look) {
  const TextScale& sizes = look.text;
  const double width = page.width - 2 * look.margin;
  const Words kicker{telling.kicker, sizes.small, Ink::masthead_quiet, true};
  const Words headline = canvas.fitted(
      {telling.headline, sizes.headline, Ink::masthead_ink, true, Anchor::start, true}, width,
      look.headline_lines, smallest_headline);
  const Words deck = deck_words(canvas, telling.deck, width, look.deck_lines);
  const double kicker_height = telling.kicker.empty() ? 0 : canvas.line_height(kicker.size);
  const double headline_height = canvas.block_height(headline, width, look.headline_lines);
  const double deck_height = canvas.block_height(deck, width, look.deck_lines);
  const double above = 0.55 * look.margin, below = 36;
  Box band = page.take_top(above + kicker_height + headline_height + 8 + deck_height + below);
  canvas.fill(band, canvas.colour(Ink::masthead));
  sideline(canvas, band, look.margin);
  Box text = band.inset(look.margin, 0);
  text.take_top(above);
  canvas.write_block(kicker, text.take_top(kicker_height), 1);
  Box place = text.take_top(headline_height);
  place.width = balanced_width(canvas, headline, place.width, look.headline_lines);
  canvas.write_block(headline, place, look.headline_lines);
  text.take_top(8);
  canvas.write_block(deck, text, look.deck_lines);
}

std::string tape_text(const Dress& dress) {
  const Wording& wording = dress.wording;
  std::string text = dress.tape_source.empty()
                         ? wording("tape_unknown")
                         : wording("tape", {{"source", isolated(dress.tape_source)}});
  for (const About& about : dress.tape) {
    const std::string player = isolated(about.quarterback);
    std::string levels;
    for (const LevelCount& level : about.tape) {
      if (level.snaps <= 0) continue;
      if (!levels.empty()) levels += ", ";
      levels +=
          wording("level_snaps", {{"snaps", fixed(level.snaps, 0)}, {"level", plain(level.level)}});
    }
    text +=
        " " + (levels.empty() ? wording("tape_player_none", {{"player", player}})
                              : wording("tape_player", {{"player", player}, {"levels", levels}}));
    if (const std::string note = assumed_note(about); !note.empty()) text += ' ' + note + '.';
  }
  return text;
}

// Tape, what the marks mean, and the cautions, which no style can change.
void footer(Canvas& canvas, Box& page, const std::vector<std::string>& legends, const Dress& dress,
            const FrameLook& look) {
  const double size = look.text.foot;
  Box area{page.x + look.margin, page.y, page.width - 2 * look.margin, page.height};
  const double slot = 6.5 * size;
  const double text_width = area.width - (dress.logo ? slot + 24 : 0);
  std::vector<std::string> notes{tape_text(dress)};
  notes.insert(notes.end(), legends.begin(), legends.end());
  notes.push_back(cautions_text());
  const std::size_t lines = 4;
  double height = 0;
  for (const std::string& note : notes)
    height += canvas.block_height({note, size, Ink::quiet}, text_width, lines);
  const double below = 0.4 * look.margin, above = 14;
  Box band = page.take_bottom(height + below + above, 0);
  canvas.line({area.x, band.y}, {area.right(), band.y}, Ink::rule, 2);
  Box text{area.x, band.y + above, text_width, height};
  if (dress.logo) {
    const double side = std::min(slot, height);
    canvas.add({ImageShape{
        {area.right() - side, text.y, side, side}, dress.logo->media_type, dress.logo->bytes}});
  }
  for (const std::string& note : notes)
    text.take_top(canvas.write_block({note, size, Ink::quiet}, text, lines));
}

std::vector<Box> cells(const Box& body, std::size_t count, Frame frame, double gap) {
  return frame == Frame::wide ? columns(body, count, gap) : rows(body, count, gap);
}

Figure framed(const Telling& telling, const std::vector<std::string>& legends, const Dress& dress,
              const TextRuler& ruler, const std::function<void(Canvas&, const Box&)>& body) {
  const FrameLook look = look_of(dress.frame);
  Figure figure{
      look.size.width,
      look.size.height,
      dress.style[Ink::paper],
      telling.kicker.empty() ? telling.headline : telling.kicker + ": " + telling.headline,
      joined(telling.deck) + "\n" + telling.description,
      {}};
  Canvas canvas(figure.content, dress.style, ruler, look.text);
  Box page{0, 0, static_cast<double>(look.size.width), static_cast<double>(look.size.height)};
  masthead(canvas, page, telling, look);
  footer(canvas, page, legends, dress, look);
  const Box inside{look.margin, page.y + 24, page.width - 2 * look.margin, page.height - 40};
  body(canvas, inside);
  return figure;
}

struct Legend {
  std::vector<std::size_t> panels;  // that it explains
  std::string text;
};

std::vector<std::size_t> panels_with(const std::string& sentence,
                                     const std::vector<Panel>& panels) {
  std::vector<std::size_t> with;
  for (std::size_t i = 0; i < panels.size(); ++i) {
    const auto& said = panels[i].telling.how_to_read;
    if (std::find(said.begin(), said.end(), sentence) != said.end()) with.push_back(i);
  }
  return with;
}

// Each sentence once; what does not hold for all panels stands under the names of those it is of.
std::vector<std::string> legends_of(const std::vector<Panel>& panels) {
  std::vector<Legend> legends;
  for (const Panel& panel : panels)
    for (const std::string& sentence : panel.telling.how_to_read) {
      const auto of = panels_with(sentence, panels);
      auto same = std::find_if(legends.begin(), legends.end(),
                               [&](const Legend& legend) { return legend.panels == of; });
      if (same == legends.end()) same = legends.insert(legends.end(), {of, ""});
      if (same->text.find(sentence) == std::string::npos)
        same->text += (same->text.empty() ? "" : " ") + sentence;
    }
  std::vector<std::string> texts;
  for (const Legend& legend : legends) {
    std::string names;
    for (const std::size_t i : legend.panels)
      names += (names.empty() ? "" : ", ") + panels[i].telling.kicker;
    texts.push_back(legend.panels.size() < panels.size() ? names + ": " + legend.text
                                                         : legend.text);
  }
  return texts;
}

// What a panel of several is headed by: its headline, or what it is where that has been said.
std::string heading_of(const std::vector<Panel>& panels, std::size_t which, const Telling& whole) {
  const Telling& own = panels[which].telling;
  bool said = own.headline == whole.headline;
  for (std::size_t i = 0; i < which; ++i) said = said || panels[i].telling.headline == own.headline;
  return said && !own.kicker.empty() ? own.kicker : own.headline;
}

}  // namespace

FrameSize size_of(Frame frame) { return look_of(frame).size; }

std::size_t most_panels(Frame frame) { return look_of(frame).panels; }

Figure figure(const Panel& panel, const Dress& dress, const TextRuler& ruler) {
  return framed(panel.telling, legends_of({panel}), dress, ruler, panel.paint);
}

Figure figure(const Panel& panel, const Dress& dress) { return figure(panel, dress, TextRuler{}); }

Figure sheet(const Telling& telling, const std::vector<Panel>& panels, const Dress& dress) {
  return sheet(telling, panels, dress, TextRuler{});
}

Figure sheet(const Telling& telling, const std::vector<Panel>& panels, const Dress& dress,
             const TextRuler& ruler) {
  if (panels.empty() || panels.size() > most_panels(dress.frame))
    throw std::invalid_argument(fmt::format("a {} sheet takes 1 to {} panels, not {}",
                                            word(dress.frame), most_panels(dress.frame),
                                            panels.size()));
  Telling whole = telling;
  for (const Panel& panel : panels)
    whole.description += "\n" + panel.telling.headline + ". " + panel.telling.description;
  return framed(whole, legends_of(panels), dress, ruler, [&](Canvas& canvas, const Box& body) {
    const double gap = 40;
    const auto boxes = cells(body, panels.size(), dress.frame, gap);
    for (std::size_t i = 0; i < panels.size(); ++i) {
      Box box = boxes[i];
      const Words heading = canvas.fitted(
          {heading_of(panels, i, whole), canvas.sizes().large, Ink::ink, true, Anchor::start, true},
          box.width, 2, smallest_headline);
      Box place = box.take_top(canvas.block_height(heading, box.width, 2), 8);
      place.width = balanced_width(canvas, heading, place.width, 2);
      canvas.write_block(heading, place, 2);
      panels[i].paint(canvas, box);
    }
  });
}

}  // namespace callfit
