// What the page shows of one stand: the picture, its words, and all that can be turned on it.
#pragma once

#include <callfit/ask/study.hpp>
#include <callfit/graphic/dress.hpp>
#include <desk/turn.hpp>

#include <nlohmann/json_fwd.hpp>

#include <optional>

namespace callfit::desk {

struct Look {
  Stand stand;
  std::optional<Turn> turn;
  Frame frame = Frame::wide;
  Theme theme = Theme::light;
};

/// The look's stand with its turn made. Throws InputError for what cannot be turned so far.
Stand turned_stand(Study& study, const Look& look);

/// The case's dress in a frame and a theme.
Dress dress_of(const Case& about, Frame frame, Theme theme);

/// The fit picture of a stand; with changes it shows where balls began.
Figure fit_figure(Study& study, const Stand& stand, const Dress& dress, const TextRuler& ruler);

/// The picture's verdict of a stand, in a sentence.
std::string verdict_of(Study& study, const Stand& stand);

/// The paragraph to say of a stand.
SayAnswer said_of(Study& study, const Stand& stand);

/// The document callfit-view/1. Throws InputError.
nlohmann::ordered_json view_of(Study& study, const Look& look, const TextRuler& ruler);

}  // namespace callfit::desk
