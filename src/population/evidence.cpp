#include <callfit/population/evidence.hpp>

namespace callfit {

TapeSource source_after(const Population& population, PlaceChange change) {
  TapeSource source;
  source.change = change;
  for (const Trait& trait : population.traits)
    source.carries_over.push_back(trait.carries_over[static_cast<std::size_t>(change)]);
  return source;
}

}  // namespace callfit
