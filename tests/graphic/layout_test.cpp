#include "drawn.hpp"
#include "random_values.hpp"

#include "../support/repeats.hpp"

#include <callfit/draw/svg.hpp>

#include <catch2/catch.hpp>

#include <set>

using namespace callfit;

namespace {

constexpr std::uint64_t seed = 20260801;

void check_layout(const Figure& figure, const TextRuler& ruler) {
  const Drawn drawn = read_svg(to_svg(figure), ruler);
  const auto wrong = misplaced_texts(drawn);
  CAPTURE(wrong);
  CHECK(wrong.empty());
}

Panel panel_of(std::uint64_t index, const Dress& dress) {
  return fit_panel(random_fit(seed, index), random_difference(seed, index), dress.wording);
}

Figure two_texts(double x) {
  Figure figure{200, 100, {255, 255, 255}, "t", "d", {}};
  const Font font{house_style(Theme::light).text_family, 20, false, false};
  figure.content.nodes.push_back({TextShape{{10, 50}, "one", font, {0, 0, 0}, Anchor::start}});
  figure.content.nodes.push_back({TextShape{{x, 50}, "two", font, {0, 0, 0}, Anchor::start}});
  return figure;
}

}  // namespace

TEST_CASE("the check of texts finds overlaps and texts outside") {
  const TextRuler ruler;
  CHECK(misplaced_texts(read_svg(to_svg(two_texts(80)), ruler)).empty());
  CHECK(misplaced_texts(read_svg(to_svg(two_texts(30)), ruler)).size() == 1);
  CHECK(misplaced_texts(read_svg(to_svg(two_texts(190)), ruler)).size() == 1);
}

TEST_CASE("random profiles fit every frame: no text outside, none on another") {
  const TextRuler ruler;
  for (std::uint64_t index = 0; index < testing::repeats(200); ++index)
    for (const Frame frame : every_frame) {
      const Dress dress = random_dress(seed, index, frame);
      INFO("profile " << index << ", frame " << word(frame));
      check_layout(figure(panel_of(index, dress), dress, ruler), ruler);
    }
}

TEST_CASE("the other pictures fit every frame as well") {
  const TextRuler ruler;
  for (std::uint64_t index = 0; index < testing::repeats(25); ++index)
    for (const Frame frame : every_frame) {
      const Dress dress = random_dress(seed, index, frame);
      const auto panels = random_panels(seed, index, dress.wording);
      for (std::size_t p = 0; p < panels.size(); ++p) {
        INFO("values " << index << ", picture " << p << ", frame " << word(frame));
        check_layout(figure(panels[p], dress, ruler), ruler);
      }
    }
}

TEST_CASE("sheets of several panels fit") {
  const TextRuler ruler;
  for (std::uint64_t index = 0; index < testing::repeats(20); ++index)
    for (const Frame frame : every_frame) {
      const Dress dress = random_dress(seed, index, frame);
      auto panels = random_panels(seed, index, dress.wording);
      panels.insert(panels.begin(), panel_of(index, dress));
      const std::size_t count = 1 + index % most_panels(frame), first = index % 5;
      const std::vector<Panel> some(panels.begin() + static_cast<long>(first),
                                    panels.begin() + static_cast<long>(first + count));
      INFO("values " << index << ", frame " << word(frame));
      check_layout(sheet(some.front().telling, some, dress, ruler), ruler);
    }
}

TEST_CASE("a fit picture shows every family with its calls and its snaps") {
  const TextRuler ruler;
  for (const Frame frame : every_frame) {
    FitAnswer fit = samples::fit();
    while (fit.families.size() < 15) {
      DemandAnswer demand = fit.demands[2];
      demand.family = fit.families.size();
      fit.families.push_back(fit.families[2]);
      fit.families.back().label = "family " + std::to_string(demand.family);
      fit.demands.push_back(demand);
    }
    const Dress dress = samples::dress(frame, Theme::light);
    const Drawn drawn = read_svg(
        to_svg(figure(fit_panel(fit, samples::difference(), dress.wording), dress, ruler)), ruler);
    std::set<std::string> missing;
    for (const DemandAnswer& demand : fit.demands) {
      const std::string& label = fit.families[demand.family].label;
      if (!drawn.says(label.substr(0, 9))) missing.insert(label);
    }
    CAPTURE(word(frame), missing);
    CHECK(missing.empty());
    CHECK(drawn.says("of calls"));
    CHECK(drawn.says("no snaps"));
    CHECK_FALSE(drawn.says("not drawn"));
  }
}
