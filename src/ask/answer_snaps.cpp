// The snaps behind a number: which rows it counts, and how much each moved it.
#include <ask/answers.hpp>
#include <ask/attribution.hpp>
#include <ask/estimates.hpp>
#include <ask/snap_numbers.hpp>
#include <ask/tracked.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <optional>

namespace callfit::ask {
namespace {

constexpr std::size_t most_told = 6;  // either way

class SnapsTeller {
 public:
  SnapsTeller(Memory& memory, const SnapsRequest& request)
      : memory_(memory),
        standing_(memory.standing(request.stand)),
        number_(find_number(snap_numbers(standing_), request.number)) {}

  SnapsAnswer tell() {
    SnapsAnswer answer;
    answer.about = about_of(memory_, standing_, is_of_points() ? Tells::net_points : Tells::place);
    answer.number = number_.number;
    answer.shown = shown();
    answer.has_charts = standing_.question.tape && !standing_.question.tape->charts.empty();
    if (!answer.has_charts) return answer;
    const auto tracked = this->tracked();
    const TapeStages* stages = tracked ? memory_.stages(standing_) : nullptr;
    std::optional<Attribution> parts;
    if (stages != nullptr) {
      parts = attribution_of(*stages, *tracked, standing_.question);
      memory_.count_solves(tracked->solves);
    }
    list_rows(answer, parts ? &*parts : nullptr);
    if (parts) tell_moves(*parts, answer);
    return answer;
  }

 private:
  bool is_of_points() const {
    return number_.number.unit == SnapUnit::points || number_.number.unit == SnapUnit::net_points;
  }

  std::optional<Number> shown() {
    if (const auto* result = std::get_if<ResultNumber>(&number_.what)) return shown(*result);
    if (const auto* measure = std::get_if<MeasureNumber>(&number_.what)) {
      const auto what = static_cast<Measure>(measure->rate);
      return estimate_of(standing_, measure->family, what, measure->cell,
                         standing_.sample->measure(measure->family, what, measure->cell));
    }
    if (const auto* gain = std::get_if<GainNumber>(&number_.what))
      return number_of(standing_.sample->gain(gain->part, gain->family));
    return std::nullopt;
  }

  std::optional<Number> shown(const ResultNumber& result) {
    const double games = standing_.drives_per_game();
    switch (result.kind) {
      case ResultNumber::Kind::place:
        return number_of(memory_.place(standing_));
      case ResultNumber::Kind::distance:
        return number_of(memory_.fit(standing_).distance);
      case ResultNumber::Kind::points:
        return scaled(number_of(memory_.worth(standing_).points), games);
      case ResultNumber::Kind::net_points:
        return scaled(number_of(memory_.worth(standing_).net_points), games);
      case ResultNumber::Kind::demand:
        return std::nullopt;  // told as a part of a mean
    }
    return std::nullopt;
  }

  std::optional<Tracked> tracked() {
    if (const auto* measure = std::get_if<MeasureNumber>(&number_.what))
      return measure->cell
                 ? tracked_cell(standing_, {measure->family, measure->rate, *measure->cell})
                 : tracked_rate(standing_, measure->family, measure->rate);
    if (const auto* gain = std::get_if<GainNumber>(&number_.what))
      return tracked_gain(standing_, gain->family, gain->part);
    const auto* result = std::get_if<ResultNumber>(&number_.what);
    if (result == nullptr) return std::nullopt;
    switch (result->kind) {
      case ResultNumber::Kind::place:
        return tracked_place(memory_, standing_);
      case ResultNumber::Kind::distance:
        return tracked_distance(standing_);
      case ResultNumber::Kind::demand:
        return tracked_distance(standing_, number_.number.address);
      case ResultNumber::Kind::points:
      case ResultNumber::Kind::net_points:
        return tracked_points(standing_, result->kind == ResultNumber::Kind::net_points);
    }
    return std::nullopt;
  }

  void list_rows(SnapsAnswer& answer, const Attribution* parts) {
    const Setting& setting = standing_.question.ground->setting;
    std::size_t counted = 0;  // of those that have a part
    for (const SnapVisit& visit : visited()) {
      const std::size_t part = counted;
      if (visit.weighted) ++counted;
      if (!is_about(number_, visit.family, *visit.snap)) continue;
      SnapRow row;
      row.chart = visit.chart->source;
      row.line = visit.snap->line;
      row.snap = *visit.snap;
      row.family = visit.family < setting.families.size() ? setting.families[visit.family].label
                                                          : std::string();
      row.weight = visit.weighted ? visit.weight : 0;
      const Counting counting = counting_of(number_, *visit.snap, row.weight, setting.success);
      row.counts = counting.counts;
      row.why_not = counting.why_not;
      row.made = counting.made;
      if (!row.counts) row.weight = 0;
      if (parts != nullptr && visit.weighted) row.moved = parts->moved[part];
      answer.rows.push_back(std::move(row));
    }
  }

  // Every row of the charts; those that count in the order of the evidence.
  struct SnapVisit {
    const Chart* chart = nullptr;
    const Snap* snap = nullptr;
    std::size_t family = 0;
    bool weighted = false;
    double weight = 0;
  };

  std::vector<SnapVisit> visited() const {
    const Question& question = standing_.question;
    const Setting& setting = question.ground->setting;
    std::map<const Snap*, std::pair<std::size_t, double>> weights;
    weigh(question.tape->charts, setting, question.weighting, question.tape->like,
          [&](const WeightedSnap& one) {
            weights[one.snap] = {one.family, one.weight};
          });
    if (const TapeStages* stages = memory_.stages(standing_))
      for (const EvidenceSnap& one : stages->evidence.snaps)
        weights[one.weighted.snap].second = one.counted;
    const FamilyPlaces families(setting, question.tape->like);
    std::vector<SnapVisit> out;
    for (const Chart& chart : question.tape->charts)
      for (const Snap& snap : chart.snaps) {
        const auto found = weights.find(&snap);
        out.push_back({&chart, &snap,
                       families.at(snap.family.view()).value_or(setting.families.size()),
                       found != weights.end(), found == weights.end() ? 0 : found->second.second});
      }
    return out;
  }

  static void tell_moves(const Attribution& parts, SnapsAnswer& answer) {
    SnapMoves moves{parts.without, parts.with, 0, 0, parts.season_totals, parts.rest()};
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < answer.rows.size(); ++i) {
      if (!answer.rows[i].moved) continue;
      moves.rows += *answer.rows[i].moved;
      order.push_back(i);
    }
    moves.other_snaps = std::accumulate(parts.moved.begin(), parts.moved.end(), 0.0) - moves.rows;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return *answer.rows[a].moved > *answer.rows[b].moved;
    });
    for (const std::size_t i : order)
      if (*answer.rows[i].moved > 0 && answer.most_up.size() < most_told)
        answer.most_up.push_back(i);
    for (auto i = order.rbegin(); i != order.rend(); ++i)
      if (*answer.rows[*i].moved < 0 && answer.most_down.size() < most_told)
        answer.most_down.push_back(*i);
    answer.moves = moves;
  }

  Memory& memory_;
  Standing& standing_;
  NumberPlace number_;
};

}  // namespace

SnapsAnswer answer(Memory& memory, const SnapsRequest& request, const Progress&) {
  return SnapsTeller(memory, request).tell();
}

}  // namespace callfit::ask
