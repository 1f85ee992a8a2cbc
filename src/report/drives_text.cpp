#include <callfit/report/answer_text.hpp>

#include "report/phrases.hpp"

#include <array>

namespace callfit {
namespace {

std::string from_text(const DrivesAnswer& answer) {
  if (!answer.from) return "averaged over where drives start";
  const DriveState& s = *answer.from;
  return "from down " + std::to_string(s.down) + ", " + std::to_string(s.to_go) + " to go, " +
         std::to_string(s.yards_to_goal) + " yards from the goal";
}

std::string head(const DrivesAnswer& answer) {
  std::string text = stand_text(answer.about) + ", " + from_text(answer) + ": " +
                     number_text(Unit::points, answer.points) + " points per drive, net " +
                     number_text(Unit::signed_points, answer.net_points) + ".";
  if (!answer.from)
    text += " Per game of " + fixed(answer.drives_per_game, 1) +
            " drives: " + number_text(Unit::points, answer.points_per_game) + " points, net " +
            number_text(Unit::signed_points, answer.net_points_per_game) + ".";
  return text;
}

class DriveTable {
 public:
  explicit DriveTable(const std::optional<SampledValues>& sampled)
      : sampled_(sampled), table_(columns(sampled.has_value())) {}

  void add(const std::string& name, Unit unit, const Number& number,
           double (*of)(const DriveValues&)) {
    std::vector<std::string> cells{name, value_text(unit, number.centre), range_text(unit, number)};
    if (sampled_) add_sampled(cells, unit, of(sampled_->mean), of(sampled_->standard_error));
    table_.add(std::move(cells));
  }

  void add_result(const NamedNumber& result) {
    std::vector<std::string> cells{result.label, value_text(Unit::share, result.number.centre),
                                   range_text(Unit::share, result.number)};
    const auto which = from_word<DriveResult>(result.id);
    if (sampled_ && which)
      add_sampled(cells, Unit::share, sampled_->mean.share_of(*which),
                  sampled_->standard_error.share_of(*which));
    table_.add(std::move(cells));
  }

  std::string text() const { return table_.text(); }

 private:
  static std::vector<Column> columns(bool sampled) {
    std::vector<Column> columns{{"per drive", Align::left}, {"middle"}, {"90% interval"}};
    if (sampled) columns.insert(columns.end(), {{"sampled"}, {"std. error"}});
    return columns;
  }

  static void add_sampled(std::vector<std::string>& cells, Unit unit, double mean, double error) {
    cells.push_back(value_text(unit, mean));
    cells.push_back(unit == Unit::share ? fixed(100 * error, 3) + '%' : fixed(error, 4));
  }

  const std::optional<SampledValues>& sampled_;
  Table table_;
};

std::string drive_table(const DrivesAnswer& answer) {
  DriveTable table(answer.sampled);
  table.add("points", Unit::points, answer.points, [](const DriveValues& v) { return v.points; });
  table.add("net points", Unit::signed_points, answer.net_points,
            [](const DriveValues& v) { return v.net_points; });
  for (const NamedNumber& result : answer.results) table.add_result(result);
  table.add("first downs", Unit::count, answer.first_downs,
            [](const DriveValues& v) { return v.first_downs; });
  table.add("plays", Unit::count, answer.plays, [](const DriveValues& v) { return v.plays; });
  return table.text();
}

std::string field_table(const DrivesAnswer& answer) {
  if (answer.points_at.empty()) return "";
  Table table({{"first and ten, yards to goal"}, {"points"}, {"90%"}, {"net points"}, {"90%"}});
  constexpr std::array<std::size_t, 11> shown{1, 5, 10, 20, 30, 40, 50, 60, 75, 90, 99};
  for (const std::size_t yards : shown) {
    const Number& points = answer.points_at.at(yards - 1);
    const Number& net = answer.net_points_at.at(yards - 1);
    table.add({std::to_string(yards), value_text(Unit::points, points.centre),
               range_text(Unit::points, points), value_text(Unit::signed_points, net.centre),
               range_text(Unit::signed_points, net)});
  }
  return '\n' + table.text();
}

std::string situations_table(const DrivesAnswer& answer) {
  if (answer.situations.empty()) return "";
  Table table({{"situation", Align::left, 60}, {"plays per drive, at the mean rates"}});
  for (const SituationPlays& situation : answer.situations)
    table.add({situation.label, value_text(Unit::count, situation.plays)});
  return '\n' + table.text();
}

std::string handoffs_text(const HandoffAnswer& handoffs) {
  return wrapped("Handoffs: success of " + number_text(Unit::share, handoffs.success) +
                 " is taken as his, usual " + percent(handoffs.usual) +
                 ". Of what handoffs differ by, less than half goes with the quarterback; line and "
                 "runners have the rest (docs/population.md).");
}

}  // namespace

std::string drives_text(const DrivesAnswer& answer) {
  std::string text = wrapped(head(answer)) + tape_line(answer.about) + '\n' + drive_table(answer);
  text += std::string(net_points_meaning) + '\n';
  if (answer.handoffs) text += handoffs_text(*answer.handoffs);
  if (answer.sampled)
    text += std::to_string(answer.sampled->drives) +
            " sampled drives at the mean rates; the error is the sampling's alone, not the "
            "tape's\n";
  return text + seed_line(answer.net_points, Unit::points, "net points per drive") +
         field_table(answer) + situations_table(answer) + '\n' + method_line(answer.method);
}

}  // namespace callfit
