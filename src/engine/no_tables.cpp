// A page holds counts alone and no table, so its engine reads none: this stands where
// format/chart.cpp and its neighbours do elsewhere, and what they need is not built for browsers.
#include <callfit/base/finding.hpp>
#include <callfit/format/chart.hpp>
#include <callfit/format/opponents.hpp>
#include <callfit/format/season_totals.hpp>

namespace callfit {
namespace {

[[noreturn]] void refuse_table(const std::string& source) {
  throw InputError(Finding{{source, 0, ""}, "is a table, which pages do not hold", "give counts"});
}

}  // namespace

Chart parse_chart(std::string_view, const std::string& source, Findings&, const ChartWords&) {
  refuse_table(source);
}

SeasonTable parse_season_totals(std::string_view, const std::string& source) {
  refuse_table(source);
}

std::vector<OpponentRecord> parse_opponents(std::string_view, const std::string& source) {
  refuse_table(source);
}

}  // namespace callfit
