#include <callfit/report/number_text.hpp>
#include <callfit/report/reports.hpp>
#include <callfit/report/table.hpp>

namespace callfit {

std::string knobs_text(const std::vector<KnobValue>& knobs) {
  Table table({{"path", Align::left, 60}, {"now"}, {"what it is", Align::left, 60}});
  for (const KnobValue& knob : knobs)
    table.add({knob.path,
               knob.unit == KnobUnit::word ? knob.words.at(static_cast<std::size_t>(knob.now))
                                           : knob_text(knob.unit, knob.now),
               knob.label});
  return table.text();
}

}  // namespace callfit
