#include "report/knobs_json.hpp"

#include <nlohmann/json.hpp>

namespace callfit {

Json knobs_json(const std::vector<KnobValue>& knobs) {
  Json list = Json::array();
  for (const KnobValue& knob : knobs) {
    Json json{{"path", knob.path}, {"label", knob.label}, {"unit", unit_word(knob.unit)}};
    if (knob.unit == KnobUnit::word)
      json.update(
          Json{{"now", knob.words.at(static_cast<std::size_t>(knob.now))}, {"words", knob.words}});
    else
      json.update(Json{{"now", knob.now}, {"low", knob.low}, {"high", knob.high}});
    list.push_back(std::move(json));
  }
  return list;
}

Json snap_numbers_json(const std::vector<SnapNumber>& numbers) {
  Json list = Json::array();
  for (const SnapNumber& one : numbers)
    list.push_back({{"number", one.address}, {"label", one.label}, {"unit", word(one.unit)}});
  return list;
}

}  // namespace callfit
