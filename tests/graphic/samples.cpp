#include "samples.hpp"

namespace callfit::samples {

Dress dress(Frame frame, Theme theme) {
  Dress made;
  made.frame = frame;
  made.style = house_style(theme);
  made.tape_source = "invented league, made up for this demonstration";
  made.tape = {{"Avery Lund", {{"high school", 182}, {"college", 141}}},
               {"Marcus Oyelaran", {{"college", 423}}}};
  return made;
}

FitPicture fit_picture() {
  FitPicture picture;
  picture.player = "Avery Lund";
  picture.scheme = "Wide zone and boot";
  picture.fit = {72, 58, 84};
  picture.worse_share = 0.63;
  picture.population = "college quarterbacks";
  picture.families = {
      {"Handoffs", 0.34, 61, {}},
      {"Boot and rollout", 0.16, 44,
       {{"completion", Unit::share, {0.66, 0.58, 0.73}, 0.62, 0.05, true, 2},
        {"on time", Unit::share, {0.71, 0.63, 0.79}, 0.72, 0.06, true, 1}}},
      {"Quick middle", 0.14, 71,
       {{"completion", Unit::share, {0.74, 0.68, 0.80}, 0.66, 0.05, true, 2},
        {"yards after catch", Unit::yards, {5.9, 5.1, 6.8}, 4.8, 0.7, true, 1}}},
      {"Intermediate from the pocket", 0.12, 39,
       {{"completion", Unit::share, {0.49, 0.41, 0.57}, 0.56, 0.05, true, 2}}},
      {"Deep outside", 0.09, 27,
       {{"completion", Unit::share, {0.29, 0.21, 0.36}, 0.38, 0.05, true, 2},
        {"interception", Unit::share, {0.052, 0.025, 0.089}, 0.04, 0.012, false, 1}}},
      {"Quick outside", 0.08, 33,
       {{"completion", Unit::share, {0.70, 0.61, 0.78}, 0.68, 0.05, true, 1}}},
      {"Zone read keep", 0.07, 0,
       {{"success", Unit::share, {0.44, 0.33, 0.55}, 0.46, 0.07, true, 1}}}};
  picture.against = PointsAgainst{"Marcus Oyelaran", {0.14, -0.12, 0.41}, {1.5, -1.3, 4.5}};
  return picture;
}

}  // namespace callfit::samples
