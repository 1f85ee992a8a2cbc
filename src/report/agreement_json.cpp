#include "report/agreement_json.hpp"

#include <nlohmann/json.hpp>

namespace callfit {
namespace {

using Json = nlohmann::ordered_json;

Json column_json(const ColumnAgreement& column) {
  Json json{{"column", word(column.column)},
            {"both", column.both},
            {"only_first", column.only_first},
            {"only_second", column.only_second},
            {"same", column.same}};
  if (column.kappa)
    json["kappa"] = {{"value", column.kappa->value},
                     {"standard_error", column.kappa->standard_error},
                     {"interval90", {column.kappa->low, column.kappa->high}}};
  if (column.is_number) json["mean_difference"] = column.mean_difference;
  return json;
}

Json lines_of(const Chart& chart, const std::vector<std::size_t>& indices) {
  Json lines = Json::array();
  for (const std::size_t index : indices) lines.push_back(chart.snaps[index].line);
  return lines;
}

}  // namespace

Json agreement_json(const Agreement& result, const Chart& first, const Chart& second) {
  Json json{{"paired", result.pairing.pairs.size()},
            {"only_first_lines", lines_of(first, result.pairing.only_first)},
            {"only_second_lines", lines_of(second, result.pairing.only_second)},
            {"columns", Json::array()},
            {"rates", Json::array()},
            {"disagreements", Json::array()}};
  for (const ColumnAgreement& column : result.columns)
    json["columns"].push_back(column_json(column));
  for (const RateEffect& effect : result.effects)
    json["rates"].push_back({{"rate", word(effect.rate)},
                             {"first", {{"made", effect.first_made}, {"of", effect.first_of}}},
                             {"second", {{"made", effect.second_made}, {"of", effect.second_of}}}});
  for (const Disagreement& one : result.disagreements)
    json["disagreements"].push_back({{"first_line", first.snaps[one.pair.first].line},
                                     {"second_line", second.snaps[one.pair.second].line},
                                     {"column", word(one.column)},
                                     {"first", one.first},
                                     {"second", one.second}});
  return json;
}

}  // namespace callfit
