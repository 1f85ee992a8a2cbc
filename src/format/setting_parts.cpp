#include <format/rule_json.hpp>
#include <format/setting_parts.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>

namespace callfit {
namespace {

// Files carry six digits or so; a sum over a hundred of them misses 1 by less than this.
constexpr double rounding = 1e-3;

constexpr Numbers count_rule{0, any_number.high, "how many rows stand behind the numbers"};
constexpr Numbers from_rule{-120, 120, "the yards of the first probability"};
constexpr Sizes p_rule{1, 250, "probabilities of from, from + 1, ... yards"};
constexpr Numbers probability_rule{0, 1, "a probability from 0 to 1"};
constexpr Sizes bins_rule{1, 100,
                          "the lowest yard of each bin, ascending, the first equal to from"};
constexpr Numbers bin_rule{-120, 120};
constexpr Numbers kappa_rule{least_strength, 1e6,
                             "the Dirichlet concentration of the bins, 0.01 to 1000000"};
constexpr Sizes kinds_rule{1, 3, "kinds of families"};
constexpr Sizes filter_rule{1, 100, "ids of families"};

std::string plain(double value) {
  std::string text = std::to_string(value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text;
}

bool read_count(const Part& part) {
  if (!part.value().is_object()) return part.number(count_rule) >= 0;
  part.entries(Sizes{}, [](const Part& n, const std::string&) { return n.number(Numbers{0}); });
  return true;
}

bool sound_bins(const GainPopulation& gain, const Part& at) {
  const std::vector<int>& bins = gain.bin_start;
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

void check_bins(const GainPopulation& gain, const Part& at) {
  if (!sound_bins(gain, at)) return;
  const std::vector<double> shares = gain.bin_shares();
  for (std::size_t bin = 0; bin < shares.size(); ++bin)
    if (!(shares[bin] > 0))
      at.faults().add(child(at.pointer(), bin), "no gain falls into the bin",
                      "join it with a neighbour");
}

// The keys "from" and "p"; an empty pmf when something is wrong with them.
YardPmf pmf_of(Fields& fields) {
  YardPmf pmf{fields.integer("from", from_rule), {}};
  pmf.p = fields.list("p", p_rule, [](const Part& p) { return p.number(probability_rule); });
  if (!fields.sound("from") || !fields.sound("p")) return {};
  std::vector<double*> shares;
  shares.reserve(pmf.p.size());
  for (double& p : pmf.p) shares.push_back(&p);
  settle_shares(shares, fields.at("p"));
  return pmf;
}

}  // namespace

void read_notes(Fields& fields, Source source) {
  if (source == Source::needed)
    fields.text("source", source_rule);
  else
    fields.text_or("source", source_rule, "");
  fields.maybe("n", read_count);
  fields.text_or("about", any_text, "");
}

void settle_shares(const std::vector<double*>& shares, const Part& part) {
  if (!part.sound()) return;
  double total = 0;
  for (const double* share : shares) total += *share;
  if (!(std::abs(total - 1) <= rounding)) {
    part.fault("the shares add up to " + plain(total), "let them add up to 1");
    return;
  }
  for (double* share : shares) *share /= total;
}

YardPmf pmf_from(const Part& part) { return pmf_as(part, pmf_want); }

YardPmf pmf_as(const Part& part, std::string_view want) {
  return part.object(want, [](Fields& fields) {
    YardPmf pmf = pmf_of(fields);
    read_notes(fields);
    return pmf;
  });
}

YardPmf own_yards_from(Fields& fields, std::string_view key, std::string_view want) {
  YardPmf pmf = fields.needed(key, want, [want](const Part& part) { return pmf_as(part, want); });
  if (fields.sound(key) && (pmf.first < 1 || pmf.last() > 99))
    fields.at(key).fault("yards " + std::to_string(pmf.first) + " to " +
                             std::to_string(pmf.last()) + " leave the field",
                         "give own yard lines within 1 to 99");
  return pmf;
}

GainPopulation gain_from(const Part& part) {
  return part.object(gain_want, [](Fields& fields) {
    GainPopulation gain;
    gain.shape = pmf_of(fields);
    gain.bin_start =
        fields.list("bins", bins_rule, [](const Part& bin) { return bin.integer(bin_rule); });
    gain.concentration = fields.number("kappa", kappa_rule);
    read_notes(fields, Source::needed);
    if (fields.sound("from") && fields.sound("p") && fields.sound("bins"))
      check_bins(gain, fields.at("bins"));
    return gain;
  });
}

std::array<double, gain_part_count> gain_shifts_from(Fields& fields) {
  const auto gains = fields.maybe("gains", [](const Part& part) {
    return part.object("log-odds shifts by gain part", [](Fields& shifts) {
      const auto values = shifts_of<GainPart, gain_part_count>(shifts);
      read_notes(shifts);
      return values;
    });
  });
  return gains.value_or(std::array<double, gain_part_count>{});
}

std::array<double, rate_count> rate_shifts_from(const Part& part) {
  return part.object(rate_shifts_want, [](Fields& fields) {
    const auto values = shifts_of<Rate, rate_count>(fields);
    read_notes(fields);
    return values;
  });
}

Shifts shifts_from(Fields& fields) {
  Shifts shifts;
  shifts.rate = fields.maybe("rates", rate_shifts_from).value_or(std::array<double, rate_count>{});
  shifts.gain = gain_shifts_from(fields);
  return shifts;
}

FamilyFilter filter_from(Fields& fields, const std::vector<FamilyPopulation>& families) {
  FamilyFilter filter;
  const auto kinds = fields.maybe("kinds", [](const Part& part) {
    return part.list(kinds_rule, [](const Part& kind) { return kind.word<FamilyKind>(); });
  });
  if (kinds) filter.kinds = *kinds;
  std::vector<std::string> known;
  known.reserve(families.size());
  for (const FamilyPopulation& family : families) known.push_back(family.id);
  const auto ids = fields.maybe("families", [&](const Part& part) {
    return part.list(filter_rule, [&](const Part& entry) {
      std::string id = entry.text();
      if (entry.sound() && !known.empty() &&
          std::find(known.begin(), known.end(), id) == known.end())
        entry.fault("unknown family \"" + id + "\"", suggest(id, known));
      return id;
    });
  });
  if (ids) filter.families = *ids;
  return filter;
}

SituationRule when_from(Fields& fields) { return fields.needed("when", when_want, rule_from); }

SituationRule when_or_always(Fields& fields) {
  return fields.maybe("when", rule_from).value_or(SituationRule{});
}

}  // namespace callfit
