#include <callfit/format/opponents.hpp>
#include <format/worded_rows.hpp>

#include <array>
#include <map>
#include <utility>

namespace callfit {

enum class OpponentColumn {
  opponent,
  level,
  games,
  attempts,
  completions,
  interceptions,
  sacks,
  scrambles,
  better_than,
  give_or_take
};

template <>
inline constexpr auto enum_words<OpponentColumn> = std::to_array<std::string_view>(
    {"opponent", "level", "games", "attempts", "completions", "interceptions", "sacks", "scrambles",
     "better_than", "give_or_take"});

namespace {

using Text = std::string;

constexpr double usual_give_or_take = 0.15;

class OpponentsReader {
 public:
  explicit OpponentsReader(Text source)
      : rows_(std::move(source), "opponent", {OpponentColumn::opponent}) {}

  std::vector<OpponentRecord> read(std::string_view text) {
    rows_.read(text, [this] { take(); });
    return std::move(records_);
  }

 private:
  void take() {
    const std::size_t before = rows_.faults();
    OpponentRecord record;
    record.name = Text(rows_.field(OpponentColumn::opponent));
    record.level = plain_word(rows_.field(OpponentColumn::level));
    if (record.name.empty()) rows_.fault(OpponentColumn::opponent, "is blank", "fill it in");
    record.games = rows_.count(OpponentColumn::games).value_or(0);
    const BoxScore allowed = rows_.box_score();
    record.allowed = allowed.counts();
    record.better_than = rows_.number(OpponentColumn::better_than, 0.01, 0.99,
                                      "a share of the level's defences, 0.01 to 0.99");
    record.give_or_take =
        rows_.number(OpponentColumn::give_or_take, 0.01, 0.5, "a share from 0.01 to 0.5")
            .value_or(usual_give_or_take);
    if (rows_.faults() == before && allowed.holds_any() == record.better_than.has_value())
      rows_.fault(OpponentColumn::opponent, "has both counts and better_than, or neither",
                  "give one of them");
    const auto [first, fresh] = lines_.try_emplace({record.name, record.level}, rows_.line());
    if (!fresh)
      rows_.fault(
          OpponentColumn::opponent,
          "\"" + record.name + "\" stands in line " + std::to_string(first->second) + " already",
          "keep one of them");
    records_.push_back(std::move(record));
  }

  WordedRows<OpponentColumn> rows_;
  std::map<std::pair<Text, Text>, std::size_t> lines_;
  std::vector<OpponentRecord> records_;
};

}  // namespace

std::vector<OpponentRecord> parse_opponents(std::string_view text, const std::string& source) {
  return OpponentsReader(source).read(text);
}

}  // namespace callfit
