#include <callfit/population/population.hpp>

#include <algorithm>

namespace callfit {
namespace {

template <class Item>
std::optional<std::size_t> place_of(const std::vector<Item>& items, std::string_view id) {
  const auto found =
      std::find_if(items.begin(), items.end(), [id](const Item& item) { return item.id == id; });
  if (found == items.end()) return std::nullopt;
  return static_cast<std::size_t>(found - items.begin());
}

}  // namespace

std::optional<std::size_t> Population::find_trait(std::string_view id) const {
  return place_of(traits, id);
}

std::optional<std::size_t> Population::find_quantity(std::string_view id) const {
  return place_of(quantities, id);
}

std::optional<std::size_t> Population::find_level(std::string_view id) const {
  return place_of(levels, id);
}

double correlation(const Population& population, std::size_t a, std::size_t b) {
  if (a == b) return 1;
  double sum = 0;
  for (std::size_t k = 0; k < population.factors; ++k)
    sum += population.traits[a].loadings[k] * population.traits[b].loadings[k];
  return sum;
}

Population with_assumed_spreads(Population population, double scale) {
  const double factor = scale * population.assumed_scale;
  for (Trait& trait : population.traits)
    if (trait.assumed)
      for (double* spread : {&trait.spread, &trait.opponent_spread, &trait.game_spread})
        *spread *= factor;
  for (Quantity& quantity : population.quantities)
    if (quantity.assumed) quantity.own_spread *= factor;
  population.assumed_scale = 1;
  return population;
}

}  // namespace callfit
