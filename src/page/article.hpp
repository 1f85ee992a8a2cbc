// The page as HTML: an article that can be read with scripts off and on paper; what moves is laid
// over it.
#pragma once

#include <callfit/page/page.hpp>
#include <callfit/reader/reader.hpp>
#include <page/markup.hpp>

#include <string>
#include <vector>

namespace callfit::page {

/// The picture in one frame and theme, for the window that it is made for.
struct Picture {
  std::string media;  ///< a media query; empty: for all others
  std::string svg;
};

/// A charted snap as a page shows it, where its analyst wants rows in it.
struct SnapLine {
  std::size_t game = 0;  ///< counted from 1
  std::string down, family, result;
};

struct Article {
  Shown shown;  ///< the analyst's view
  std::vector<Picture> pictures;
  std::string alternative;  ///< the picture for who does not see it
  std::string tape_source, tape;
  std::string holds;            ///< what of a chart is in the page
  std::vector<SnapLine> snaps;  ///< none unless asked for
  std::string made_by;
  std::string page_case;  ///< callfit-page/1
};

/// The whole document.
Markup document_of(const Article& article, const Engine& engine);

}  // namespace callfit::page
