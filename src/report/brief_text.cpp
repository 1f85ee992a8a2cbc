#include <callfit/report/question_reports.hpp>
#include <callfit/report/reports.hpp>
#include <callfit/report/table.hpp>

#include <cmath>

namespace callfit {
namespace {

class Page {
 public:
  explicit Page(bool markdown) : markdown_(markdown) {}

  void title(const std::string& text) {
    text_ +=
        markdown_ ? "# " + text + "\n" : text + '\n' + std::string(code_points(text), '=') + '\n';
  }
  void part(const std::string& head, const std::string& body) {
    text_ += '\n';
    add(markdown_ ? "**" + head + ".** " + body : head + ". " + body, "");
  }
  /// Markdown needs a blank line before a list.
  void gap() { text_ += markdown_ ? "\n" : ""; }
  void point(const std::string& body) {
    if (markdown_)
      add("- " + body, "");
    else
      add("* " + body, "  ");
  }
  std::string text() const { return text_; }

 private:
  void add(const std::string& paragraph, std::string_view indent) {
    text_ += wrapped(paragraph, 96, indent);
  }

  bool markdown_;
  std::string text_;
};

std::string reason_text(const Reason& reason, const Brief& brief) {
  const Interval& interval = reason.net_per_game.interval90;
  const std::string number = signed_fixed(reason.net_per_game.value, 1) +
                             " net points a game (90% interval " + range(interval, 1, true) + ")";
  if (interval.low > 0) return reason.family + ": " + brief.first + " is ahead, " + number + ".";
  if (interval.high < 0) return reason.family + ": " + brief.second + " is ahead, " + number + ".";
  return reason.family + ": the tape does not tell them apart, " + number + ".";
}

std::string doubt_text(const Doubt& doubt, const std::string& name) {
  return name + "'s " + doubt.about + ": " + percent(doubt.value) + ", but anywhere in " +
         percent_range(doubt.interval90) + " after " + fixed(doubt.snaps, 0) +
         " charted; between those ends lie " + fixed(doubt.swing, 1) + " net points a game.";
}

std::string wrinkle_text(const std::optional<LeverValue>& wrinkle) {
  if (!wrinkle) return "No call share gains anything that the tape can be sure of.";
  return "More " + wrinkle->about + ", from " + percent(wrinkle->now) + " to " +
         percent(wrinkle->now + wrinkle->step) + ": about " +
         signed_fixed(wrinkle->net_per_game.value, 1) + " net points a game (90% interval " +
         range(wrinkle->net_per_game.interval90, 1, true) + "), as long as defences do not adapt.";
}

std::string fits_text(const Brief& brief) {
  return " Fit to the scheme: " + brief.first + " " + fixed(brief.first_fit, 0) + ", " +
         brief.second + " " + fixed(brief.second_fit, 0) + " of 100.";
}

}  // namespace

std::string brief_text(const Brief& brief, bool markdown) {
  Page page(markdown);
  page.title(brief.first + " or " + brief.second + " in " + brief.scheme);
  page.part("Answer", verdict(brief.first, brief.second, brief.difference) + fits_text(brief));
  page.part("Reasons",
            "What each family is worth to " + brief.first + " against " + brief.second + ":");
  page.gap();
  for (const Reason& reason : brief.reasons) page.point(reason_text(reason, brief));
  if (brief.doubt) page.part("Biggest doubt", doubt_text(*brief.doubt, brief.first));
  page.part("A wrinkle to try", wrinkle_text(brief.wrinkle));
  if (brief.doubt) page.part("Chart next", "More snaps that show " + brief.doubt->about + ".");
  page.part("Caution", fixed(brief.first_snaps, 0) + " and " + fixed(brief.second_snaps, 0) +
                           " snaps are a small sample, and a model is not a game. Not for medical, "
                           "eligibility or betting decisions.");
  return page.text();
}

}  // namespace callfit
