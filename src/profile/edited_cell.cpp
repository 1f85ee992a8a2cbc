#include <callfit/profile/edited_cell.hpp>
#include <profile/rate_posterior.hpp>

namespace callfit {

void follow_family(const RateEstimate& family, const Setting& setting,
                   const FamilyPopulation& population, CellEstimate& cell) {
  estimate_cell(family, setting.cell_table(population), shell_mix(setting), cell);
}

}  // namespace callfit
