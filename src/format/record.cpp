#include <callfit/format/record.hpp>

#include <format/part.hpp>

#include <nlohmann/json.hpp>

namespace callfit {
namespace {

constexpr Sizes bands_rule{1, 20, "a list of odds and how often they came true"};
constexpr Texts of_rule{1, 300, "of whom, and of which seasons"};
constexpr Texts record_source_rule{1, 300, "where the numbers come from"};
constexpr Numbers record_odds_rule{0, 1, "odds of the one ahead, from 0 to 1"};
constexpr Numbers record_share_rule{0, 1, "a share from 0 to 1"};
constexpr Numbers pairs_rule{1, 1e9, "a count of pairs"};

RecordBand band_from(Fields& fields) {
  RecordBand band;
  band.low = fields.number("low", record_odds_rule);
  band.high = fields.number("high", record_odds_rule);
  band.pairs = fields.number("pairs", pairs_rule);
  band.mean_odds = fields.number("mean_odds", record_odds_rule);
  band.came_true = fields.number("came_true", record_share_rule);
  band.standard_error = fields.number("standard_error", record_share_rule);
  return band;
}

Record record_from(Fields& fields) {
  Record record;
  record.of = fields.text("of", of_rule);
  record.source = fields.text("source", record_source_rule);
  record.verdicts =
      fields.objects("verdicts", bands_rule, "odds and how often they came true", band_from);
  return record;
}

}  // namespace

Record parse_record(std::string_view text, const std::string& source) {
  return read_document(parse_json(text, source), "callfit-record", source, record_from);
}

std::string record_to_json(const Record& record) {
  nlohmann::ordered_json document{
      {"format", "callfit-record/1"}, {"of", record.of}, {"source", record.source}};
  for (const RecordBand& band : record.verdicts)
    document["verdicts"].push_back({{"low", band.low},
                                    {"high", band.high},
                                    {"pairs", band.pairs},
                                    {"mean_odds", band.mean_odds},
                                    {"came_true", band.came_true},
                                    {"standard_error", band.standard_error}});
  return document.dump();
}

}  // namespace callfit
