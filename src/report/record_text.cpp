#include <callfit/ask/verdict.hpp>
#include <callfit/report/number_text.hpp>
#include <callfit/report/record_text.hpp>

namespace callfit {
namespace {

std::string whole_percent(double share) { return fixed(100 * share, 0) + "%"; }

std::string band_text(const RecordBand& band) {
  const std::string odds = band.low > 0.5 ? "from " + odds_words(band.low) : "below";
  const std::string end =
      band.high < 1 ? (band.low > 0.5 ? " to " : " ") + odds_words(band.high) : " on";
  return "odds " + odds + end + ": " + whole_percent(band.came_true) + " of " +
         fixed(band.pairs, 0) + " pairs (standard error " + whole_percent(band.standard_error) +
         ", the odds had said " + whole_percent(band.mean_odds) + ")";
}

bool is_of_two(const Answer& answer) {
  if (const auto* compared = std::get_if<CompareAnswer>(&answer))
    return compared->quarterbacks.size() > 1;
  if (const auto* say = std::get_if<SayAnswer>(&answer)) return say->difference.has_value();
  return std::holds_alternative<BriefAnswer>(answer) ||
         std::holds_alternative<BreakEvenAnswer>(answer);
}

}  // namespace

std::string record_text(const Record& record) {
  std::string text = "Record: of two " + record.of +
                     ", with the season before as tape, the one ahead by the odds, surroundings "
                     "and a season's chance counted, scored more points per drive, at ";
  for (std::size_t i = 0; i < record.verdicts.size(); ++i)
    text += (i > 0 ? "; at " : "") + band_text(record.verdicts[i]);
  return text + ".";
}

std::string record_beside(const Answer& answer, const Case& about) {
  return about.record && is_of_two(answer) ? record_text(*about.record) : "";
}

}  // namespace callfit
