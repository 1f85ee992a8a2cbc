#include <callfit/format/record.hpp>

#include <format/part.hpp>

namespace callfit {
namespace {

constexpr Sizes bands_rule{1, 20, "a list of odds and how often they came true"};
constexpr Texts record_words_rule{1, 300, "some words"};
constexpr Numbers share_numbers{0, 1, "a share from 0 to 1"};
constexpr Numbers pairs_rule{1, 1e9, "a count of pairs"};

RecordBand band_from(Fields& fields) {
  RecordBand band;
  band.low = fields.number("low", share_numbers);
  band.high = fields.number("high", share_numbers);
  band.pairs = fields.number("pairs", pairs_rule);
  band.mean_odds = fields.number("mean_odds", share_numbers);
  band.came_true = fields.number("came_true", share_numbers);
  band.standard_error = fields.number("standard_error", share_numbers);
  return band;
}

Record record_from(Fields& fields) {
  Record record;
  record.of = fields.text("of", record_words_rule);
  fields.text("source", record_words_rule);
  record.verdicts =
      fields.objects("verdicts", bands_rule, "odds and how often they came true", band_from);
  return record;
}

}  // namespace

Record parse_record(std::string_view text, const std::string& source) {
  return read_document(parse_json(text, source), "callfit-record", source, record_from);
}

}  // namespace callfit
