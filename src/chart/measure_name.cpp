#include <callfit/chart/measure_name.hpp>

namespace callfit {

std::string measure_name(Measure measure, const std::optional<Cell>& cell) {
  const std::string name = plain(word(measure));
  return cell ? name + ", " + plain(word(*cell)) : name;
}

}  // namespace callfit
