#include <callfit/chart/agreement.hpp>
#include <callfit/charting/disputes.hpp>
#include <charting/key_words.hpp>

#include <algorithm>

namespace callfit::charting {
namespace {

// A row of mine on its way to theirs.
class Taker {
 public:
  Taker(const ChartRows& mine, const ChartRows& theirs, const Dispute& dispute)
      : mine_(mine),
        values_(mine.values(dispute.row)),
        their_values_(theirs.values(dispute.their_row)) {}

  bool take(ChartColumn column) {
    const std::string& wanted = at(their_values_, column);
    if (!mine_.has(column) || !is_compared(column) || at(values_, column) == wanted) return false;
    at(values_, column) = wanted;
    taken_.values.emplace_back(column, wanted);
    return true;
  }

  bool take_blamed(const Findings& faults) {
    bool is_changed = false;
    for (const Finding& fault : faults)
      if (const auto column = from_word<ChartColumn>(fault.place.field))
        is_changed = take(*column) || is_changed;
    return is_changed;
  }

  bool take_everything() {
    bool is_changed = false;
    for (std::size_t c = 0; c < column_count; ++c)
      is_changed = take(static_cast<ChartColumn>(c)) || is_changed;
    return is_changed;
  }

  Findings faults() const { return mine_.read(values_).faults; }
  Taking& taken() { return taken_; }

 private:
  const ChartRows& mine_;
  Values values_;
  Values their_values_;
  Taking taken_;
};

}  // namespace

std::vector<Dispute> open_disputes(const ChartRows& mine, const ChartRows& theirs,
                                   const std::vector<Upheld>& upheld) {
  std::vector<Dispute> open;
  for (Disagreement& one : agreement(mine.chart(), theirs.chart()).disagreements) {
    const Upheld settled{theirs.snap(one.pair.second).line, one.column, one.first, one.second};
    if (std::find(upheld.begin(), upheld.end(), settled) == upheld.end())
      open.push_back({one.pair.first, one.pair.second, one.column, std::move(one.first),
                      std::move(one.second)});
  }
  return open;
}

Taking taking(const ChartRows& mine, const ChartRows& theirs, const Dispute& dispute) {
  Taker row(mine, theirs, dispute);
  row.take(dispute.column);
  for (Findings faults = row.faults(); !faults.empty(); faults = row.faults()) {
    if (row.take_blamed(faults) || row.take_everything()) continue;
    row.taken().fault = said(faults.front());
    break;
  }
  return std::move(row.taken());
}

}  // namespace callfit::charting
