// What all pictures have in common: frame, style, wording, footer, logo. A picture is a panel; a
// panel fills a frame alone or together with others.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/base/names.hpp>
#include <callfit/draw/canvas.hpp>
#include <callfit/draw/figure.hpp>
#include <callfit/draw/style.hpp>
#include <callfit/telling/telling.hpp>
#include <callfit/telling/wording.hpp>

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

enum class Frame { wide, tall, story };

template <>
inline constexpr auto enum_words<Frame> = std::to_array<std::string_view>({"wide", "tall",
                                                                           "story"});

struct FrameSize {
  int width = 0;  ///< pixels
  int height = 0;
};
FrameSize size_of(Frame frame);  ///< 1920 x 1080, 1080 x 1350, 1080 x 1920

struct Logo {
  std::string media_type;  ///< "image/svg+xml" or "image/png"
  std::string bytes;
};

struct Dress {
  Frame frame = Frame::wide;
  Style style = house_style(Theme::light);
  Wording wording;
  std::string tape_source;  ///< the user's words: where the tape comes from
  std::vector<About> tape;  ///< whose tape stands behind the numbers
  std::optional<Logo> logo;
};

struct Panel {
  Telling telling;
  std::function<void(Canvas&, const Box&)> paint;
};

/// One panel fills the frame under its own headline. A ruler kept by the caller spares looking
/// up the fonts for every picture.
Figure figure(const Panel& panel, const Dress& dress, const TextRuler& ruler);
Figure figure(const Panel& panel, const Dress& dress);

/// How many panels a sheet takes: 4 in a wide frame, 2 in a tall one, 3 in a story.
std::size_t most_panels(Frame frame);

/// Several panels under one headline, each with its own headline as a heading: beside each other in
/// a wide frame, below each other otherwise. The footer explains the marks of each panel, not
/// `telling`'s. Throws std::invalid_argument when there are more than
/// most_panels(), or none.
Figure sheet(const Telling& telling, const std::vector<Panel>& panels, const Dress& dress,
             const TextRuler& ruler);
Figure sheet(const Telling& telling, const std::vector<Panel>& panels, const Dress& dress);

}  // namespace callfit
