// What can be said of a quarterback in a few sentences: his place, the demands that are surest and
// cost most, and who is ahead.
#include <ask/answers.hpp>

#include <algorithm>
#include <cmath>

namespace callfit::ask {
namespace {

constexpr std::size_t said_demands = 2;

double stake(const DemandAnswer& demand) {
  return demand.costs ? std::abs(demand.costs->centre) : 0;
}

// What his own tape says before what is true of most of his level, sure before leaning, costly
// before cheap.
bool says_more(const SaidDemand& a, const SaidDemand& b) {
  const Verdict& one = a.demand.reaches;
  const Verdict& other = b.demand.reaches;
  if (one.lean() != other.lean()) return one.lean() < other.lean();
  if (one.is_the_levels() != other.is_the_levels()) return other.is_the_levels();
  return stake(a.demand) > stake(b.demand);
}

}  // namespace

SayAnswer answer(Memory& memory, const SayRequest& request, const Progress& progress) {
  Standing& first = memory.standing(request.stand);
  Standing* const second = request.against ? &memory.standing(*request.against) : nullptr;
  if (second != nullptr) memory.worths({&first, second}, progress);
  FitAnswer fit = answer(memory, FitRequest{request.stand, false}, progress);
  SayAnswer say;
  say.about = std::move(fit.about);
  say.place = fit.place;
  for (DemandAnswer& demand : fit.demands)
    if (!fit.families[demand.family].unseen)
      say.demands.push_back({fit.families[demand.family].label, std::move(demand)});
  std::stable_sort(say.demands.begin(), say.demands.end(), says_more);
  if (say.demands.size() > said_demands) say.demands.resize(said_demands);
  if (second == nullptr) return say;
  const auto name = [](const Standing& one, const Standing& other) {
    return one.quarterback == other.quarterback ? one.question.scheme.name
                                                : one.question.profile->name;
  };
  say.difference = difference_of(first, *second, name(first, *second), name(*second, first));
  return say;
}

}  // namespace callfit::ask
