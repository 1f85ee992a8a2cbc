#include <telling/family_rows.hpp>

#include <callfit/base/isolated.hpp>
#include <report/phrases.hpp>

#include <algorithm>

namespace callfit {
namespace {

// What a demand costs in points, then in distance.
bool cheaper(const DemandAnswer& a, const DemandAnswer& b) {
  const double one = a.costs ? a.costs->centre : 0;
  const double other = b.costs ? b.costs->centre : 0;
  return one != other ? one < other : a.part < b.part;
}

}  // namespace

const DemandAnswer& FamilyRow::costliest() const {
  return *std::max_element(demands.begin(), demands.end(), cheaper);
}

std::string FamilyRow::name() const {
  return isolated(capital(family.label)) + ", " + costliest().label;
}

std::vector<FamilyRow> rows_by_cost(const FitAnswer& fit) {
  std::vector<FamilyRow> rows;
  for (const FamilyAnswer& family : fit.families) rows.push_back({family, {}});
  for (const DemandAnswer& demand : fit.demands) rows.at(demand.family).demands.push_back(demand);
  std::erase_if(rows, [](const FamilyRow& row) { return row.demands.empty(); });
  std::stable_sort(rows.begin(), rows.end(), [](const FamilyRow& a, const FamilyRow& b) {
    return a.family.costs != b.family.costs ? a.family.costs > b.family.costs
                                            : a.family.part > b.family.part;
  });
  return rows;
}

}  // namespace callfit
