#include <callfit/report/answer_text.hpp>
#include <callfit/report/cautions.hpp>

#include "report/phrases.hpp"

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

struct BothNames {
  std::string first, second;
};

std::string reason_text(const ReasonAnswer& reason, const BothNames& names) {
  return reason.family + ": " + ahead_words(reason.ahead, names.first, names.second) + " (" +
         odds_text(reason.ahead, names.first, names.second) + "), " +
         number_text(Unit::signed_points, reason.net_points_per_game) +
         " net points a game, mean " + value_text(Unit::signed_points, reason.part) + ".";
}

std::string doubt_text(const DoubtAnswer& doubt, const std::string& name) {
  const std::string made = counted(doubt.made, doubt.of);
  return name + "'s " + doubt.label + ": " + percent(doubt.estimate.centre) + ", but anywhere in " +
         range_text(Unit::share, doubt.estimate) +
         (made.empty() ? "" : " after " + made + " charted") + "; between those ends lie " +
         value_text(Unit::points, doubt.swing) + " net points a game.";
}

std::string wrinkle_text(const std::optional<LeverAnswer>& wrinkle) {
  if (!wrinkle) return "No call share gains anything that the tape can be sure of.";
  return "More " + wrinkle->label + ", from " + knob_text(wrinkle->unit, wrinkle->now) + " to " +
         knob_text(wrinkle->unit, wrinkle->now + wrinkle->step) + ": about " +
         number_text(Unit::signed_points, wrinkle->net_points_per_game) +
         " net points a game, as long as defences do not adapt.";
}

std::string places_text(const BriefAnswer& answer, const BothNames& names) {
  return " Of 100 quarterbacks of this level " + number_text(Unit::place, answer.first_place) +
         " fit worse than " + names.first + ", " + number_text(Unit::place, answer.second_place) +
         " worse than " + names.second + ".";
}

std::string in_scheme(const std::string& name, const About& about) {
  return name + " in " + about.scheme;
}

bool in_one_scheme(const BriefAnswer& answer) {
  return answer.first.scheme == answer.second.scheme;
}

std::string title_of(const BriefAnswer& answer, const BothNames& names) {
  const std::string first =
      in_one_scheme(answer) ? names.first : in_scheme(names.first, answer.first);
  return first + " or " + in_scheme(names.second, answer.second);
}

std::string answer_text(const BriefAnswer& answer, const BothNames& names) {
  const std::string each = in_one_scheme(answer)
                               ? ""
                               : in_scheme(names.first, answer.first) + " against " +
                                     in_scheme(names.second, answer.second) + ". ";
  return each + difference_sentence(answer.difference) + " " + capital(net_points_meaning) + "." +
         places_text(answer, names);
}

std::string cause_text(const ChangePart& part, const BriefAnswer& answer, const BothNames& names) {
  switch (part.cause) {
    case ChangePart::Cause::man:
      return "The man, " + names.first + " for " + names.second;
    case ChangePart::Cause::scheme:
      return "The scheme, " + answer.first.scheme + " for " + answer.second.scheme;
    default:
      return "The surroundings (line, receivers, opponents), of which nothing is known";
  }
}

std::string part_text(const ChangePart& part, const BriefAnswer& answer, const BothNames& names) {
  std::string text = cause_text(part, answer, names) + ": " +
                     number_text(Unit::signed_points, part.net_points_per_game) +
                     " net points a game, mean " +
                     value_text(Unit::signed_points, part.mean_net_points_per_game);
  if (part.place && part.mean_place)
    text += "; places of 100 " + number_text(Unit::signed_place, *part.place) + ", mean " +
            value_text(Unit::signed_place, *part.mean_place);
  return text + '.';
}

void add_change(Page& page, const BriefAnswer& answer, const BothNames& names) {
  const ChangeAnswer& change = answer.change;
  page.part("What changes", "From " + names.second + " to " + names.first + ", " +
                                number_text(Unit::signed_points, change.net_points_per_game) +
                                " net points a game in all, mean " +
                                value_text(Unit::signed_points, change.mean_net_points_per_game) +
                                "; with the surroundings counted " +
                                ahead_words(change.ahead, names.first, names.second) + " (" +
                                odds_text(change.ahead, names.first, names.second) +
                                "). Its parts, whichever is changed first:");
  page.gap();
  for (const ChangePart& part : change.parts) page.point(part_text(part, answer, names));
}

void add_reasons(Page& page, const BriefAnswer& answer, const BothNames& names) {
  page.part("Reasons", "What each family is worth to " + names.first + " against " + names.second +
                           " in " + answer.first.scheme +
                           " (middle, 90% interval, mean; the means and a rest of " +
                           value_text(Unit::signed_points, answer.rest) +
                           " that no single family explains add up to " +
                           value_text(Unit::signed_points, answer.mean_in_first_scheme) +
                           ", the mean difference there):");
  page.gap();
  for (const ReasonAnswer& reason : answer.reasons) page.point(reason_text(reason, names));
}

}  // namespace

std::string brief_text(const BriefAnswer& answer, bool markdown) {
  const BothNames names{answer.difference.first, answer.difference.second};
  Page page(markdown);
  page.title(title_of(answer, names));
  page.part("Answer", answer_text(answer, names));
  add_change(page, answer, names);
  add_reasons(page, answer, names);
  if (answer.doubt) page.part("Biggest doubt", doubt_text(*answer.doubt, names.first));
  page.part("A wrinkle to try", wrinkle_text(answer.wrinkle));
  if (const std::string rests = rests_text(answer.first); !rests.empty())
    page.part("What it rests on",
              names.first + ": " + rests + ' ' + names.second + ": " + rests_text(answer.second));
  page.part("Caution", fixed(answer.first.snaps, 0) + " and " + fixed(answer.second.snaps, 0) +
                           " snaps are a small sample, and a model is not a game. " +
                           std::string(not_for_decisions));
  return page.text();
}

}  // namespace callfit
