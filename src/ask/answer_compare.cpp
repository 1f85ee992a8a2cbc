#include <ask/answers.hpp>

#include <numeric>

namespace callfit::ask {
namespace {

std::vector<std::size_t> all_or(const std::vector<std::size_t>& asked, std::size_t count) {
  if (!asked.empty()) return asked;
  std::vector<std::size_t> all(count);
  std::iota(all.begin(), all.end(), std::size_t{0});
  return all;
}

EntryAnswer entry_of(Memory& memory, Standing& standing) {
  const Worth& worth = memory.worth(standing);
  EntryAnswer entry;
  entry.about = about_of(memory, standing);
  entry.place = number_of(memory.place(standing));
  entry.points = number_of(worth.points);
  entry.net_points = number_of(worth.net_points);
  entry.method = worth.method;
  return entry;
}

}  // namespace

CompareAnswer answer(Memory& memory, const CompareRequest& request, const Progress& progress) {
  const auto men = all_or(request.quarterbacks, memory.about().quarterbacks.size());
  const auto schemes = all_or(request.schemes, memory.about().schemes.size());
  CompareAnswer answer;
  std::vector<Standing*> standings;
  for (const std::size_t man : men)
    for (const std::size_t scheme : schemes)
      standings.push_back(&memory.standing({man, scheme, {}}));
  memory.worths(standings, progress);
  for (Standing* const standing : standings) answer.entries.push_back(entry_of(memory, *standing));
  for (std::size_t m = 0; m < men.size(); ++m)
    answer.quarterbacks.push_back(answer.entries[m * schemes.size()].about.quarterback);
  for (std::size_t s = 0; s < schemes.size(); ++s)
    answer.schemes.push_back(answer.entries[s].about.scheme);
  std::vector<Told> net;
  net.reserve(standings.size());
  for (const Standing* standing : standings) net.push_back(net_points_of(*standing));
  const std::vector<double> odds = odds_of_being_most(net);
  for (std::size_t e = 0; e < odds.size(); ++e) answer.entries[e].odds_best = odds[e];
  for (std::size_t m = 1; m < men.size(); ++m)
    answer.differences.push_back(difference_of(*standings.front(), *standings[m * schemes.size()],
                                               answer.quarterbacks.front(),
                                               answer.quarterbacks[m]));
  for (std::size_t s = 1; men.size() == 1 && s < schemes.size(); ++s)
    answer.differences.push_back(difference_of(*standings.front(), *standings[s],
                                               answer.schemes.front(), answer.schemes[s]));
  answer.drives_per_game = memory.about().setting.drives_per_game;
  return answer;
}

}  // namespace callfit::ask
