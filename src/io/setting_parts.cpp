#include <callfit/base/nearest.hpp>
#include <io/rule_json.hpp>
#include <io/setting_parts.hpp>

#include <algorithm>
#include <cmath>
#include <string>

namespace callfit {
namespace {

// Files carry six digits or so; a sum over a hundred of them misses 1 by less than this.
constexpr double rounding = 1e-3;

std::string plain(double value) {
  std::string text = std::to_string(value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text;
}

bool sound_bins(const GainPopulation& gain, const Part& part) {
  const std::vector<int>& bins = gain.bin_start;
  const Part at = part.at("bins");
  if (bins.front() != gain.shape.first) {
    at.fault("the first bin begins at " + std::to_string(bins.front()) + ", the probabilities at " +
                 std::to_string(gain.shape.first),
             "let the first bin begin there too");
    return false;
  }
  if (std::adjacent_find(bins.begin(), bins.end(), std::greater_equal<>()) != bins.end()) {
    at.fault("the bins do not ascend", "list the lowest yard of each bin in order");
    return false;
  }
  return true;
}

void check_bins(const GainPopulation& gain, const Part& part) {
  if (!sound_bins(gain, part)) return;
  const std::vector<double> shares = gain.bin_shares();
  for (std::size_t bin = 0; bin < shares.size(); ++bin)
    if (!(shares[bin] > 0))
      part.at("bins").item(bin).fault("no gain falls into the bin", "join it with a neighbour");
}

}  // namespace

void settle_shares(const std::vector<double*>& shares, const Part& part) {
  double total = 0;
  for (const double* share : shares) total += *share;
  if (!(std::abs(total - 1) <= rounding)) {
    part.fault("the shares add up to " + plain(total), "let them add up to 1");
    return;
  }
  for (double* share : shares) *share /= total;
}

YardPmf pmf_from(const Part& part) {
  YardPmf pmf{part.integer("from"), part.get<std::vector<double>>("p")};
  std::vector<double*> shares;
  shares.reserve(pmf.p.size());
  for (double& p : pmf.p) shares.push_back(&p);
  settle_shares(shares, part.at("p"));
  return pmf;
}

YardPmf own_yards_from(const Part& part) {
  YardPmf pmf = pmf_from(part);
  if (pmf.first < 1 || pmf.last() > 99)
    part.fault("yards " + std::to_string(pmf.first) + " to " + std::to_string(pmf.last()) +
                   " leave the field",
               "give own yard lines within 1 to 99");
  return pmf;
}

GainPopulation gain_from(const Part& part) {
  GainPopulation gain{pmf_from(part), part.get<std::vector<int>>("bins"), part.number("kappa")};
  check_bins(gain, part);
  return gain;
}

Shifts shifts_from(const Part& part) {
  Shifts shifts;
  if (part.has("rates"))
    for (std::size_t r = 0; r < rate_count; ++r)
      shifts.rate[r] = part.at("rates").get<double>(word(static_cast<Rate>(r)), 0.0);
  if (part.has("gains"))
    for (std::size_t g = 0; g < gain_part_count; ++g)
      shifts.gain[g] = part.at("gains").get<double>(word(static_cast<GainPart>(g)), 0.0);
  return shifts;
}

FamilyFilter filter_from(const Part& part, const std::vector<FamilyPopulation>& families) {
  FamilyFilter filter;
  if (part.has("kinds"))
    each_item(part.at("kinds"), [&](const Part& kind) {
      filter.kinds.push_back(from_word<FamilyKind>(kind.value.get<std::string>()).value());
    });
  if (!part.has("families")) return filter;
  std::vector<std::string> known;
  known.reserve(families.size());
  for (const FamilyPopulation& family : families) known.push_back(family.id);
  each_item(part.at("families"), [&](const Part& entry) {
    const auto id = entry.value.get<std::string>();
    if (std::find(known.begin(), known.end(), id) == known.end())
      entry.fault("unknown family \"" + id + "\"", suggest(id, known));
    filter.families.push_back(id);
  });
  return filter;
}

SituationRule rule_at(const Part& part, std::string_view key) {
  if (!part.has(key)) return {};
  const Part when = part.at(key);
  return rule_from_json(when.value, when.pointer, when.faults);
}

}  // namespace callfit
