#include <callfit/report/question_reports.hpp>
#include <callfit/report/table.hpp>

namespace callfit {
namespace {

// Weight of each demand in D^2, call shares counted, summing to 1.
std::vector<double> shares_of(const BoundScheme& bound) {
  std::vector<double> weights;
  double total = 0;
  for (const Demand& demand : bound.scheme.demands) {
    weights.push_back(demand.weight * bound.call_share[demand.family]);
    total += weights.back();
  }
  for (double& weight : weights) weight = total > 0 ? weight / total : 0;
  return weights;
}

}  // namespace

std::string weights_text(const BoundScheme& own, const BoundScheme& by_points,
                         const WeightAgreement& agreement) {
  const std::vector<double> scheme = shares_of(own);
  const std::vector<double> points = shares_of(by_points);
  Table table({{"demand", Align::left, 60}, {"scheme's weight"}, {"by points"}});
  for (std::size_t d = 0; d < scheme.size(); ++d) {
    const Demand& demand = own.scheme.demands[d];
    std::string name =
        plain(word(demand.measure)) + ", " + own.scheme.families[demand.family].label;
    if (demand.cell) name += ", " + plain(word(*demand.cell));
    table.add({name, percent(scheme[d]), percent(points[d])});
  }
  return "\nWeights of the demands, call shares counted\n\n" + table.text() +
         wrapped("Spearman over " + std::to_string(agreement.quarterbacks) +
                     " quarterbacks drawn from the setting: the two fits " +
                     fixed(agreement.between_fits, 2) + "; the scheme's fit and net points " +
                     fixed(agreement.scheme_points, 2) + "; the fit by points and net points " +
                     fixed(agreement.points_points, 2) + ".",
                 100) +
         "Measures that drives do not use weigh nothing by points.\n";
}

}  // namespace callfit
