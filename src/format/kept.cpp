#include <callfit/base/finding.hpp>
#include <callfit/base/names.hpp>
#include <callfit/format/kept.hpp>
#include <format/kept_json.hpp>

#include <algorithm>

namespace callfit {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view kept_format = "callfit-kept/1";
constexpr std::string_view date_want = "a date such as 2026-11-28";
constexpr std::string_view verdict_want = "what was said of one demand";
constexpr std::string_view kept_game_want =
    R"(a game such as {"game": "week 1", "charted_snaps": 61})";
constexpr Sizes kept_games_rule{0, 10'000, "the games that were charted"};
constexpr Sizes verdicts_rule{0, 10'000, "a list of what was said"};
constexpr Texts kept_name_rule{1, 200, "a short name"};
constexpr Texts date_rule{10, 10, date_want};
constexpr Numbers share_numbers{0, 1, "a share from 0 to 1"};
constexpr Numbers kept_snaps_rule{0, 1e7, "a number of snaps"};

// Year, month and day as digits; months and days in range.
bool is_date(const std::string& text) {
  constexpr std::string_view shape = "dddd-dd-dd";
  if (text.size() != shape.size()) return false;
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const bool digit = text[i] >= '0' && text[i] <= '9';
    if (shape[i] == 'd' ? !digit : text[i] != shape[i]) return false;
  }
  const int month = std::stoi(text.substr(5, 2));
  const int day = std::stoi(text.substr(8, 2));
  return month >= 1 && month <= 12 && day >= 1 && day <= 31;
}

Number estimate_from(Fields& fields) {
  Number number;
  number.centre = fields.number("centre", share_numbers);
  number.low = fields.number("low", share_numbers);
  number.high = fields.number("high", share_numbers);
  if (fields.sound() && !(number.low <= number.centre && number.centre <= number.high))
    fields.part().fault("the middle is not between its ends", "give low <= centre <= high");
  return number;
}

KeptVerdict verdict_from(Fields& fields) {
  KeptVerdict said;
  said.family = fields.text("family", kept_name_rule);
  said.family_label = fields.text("family_label", kept_name_rule);
  said.measure = fields.word<Measure>("measure");
  said.cell = fields.maybe("when", [](const Part& part) { return part.word<Cell>(); });
  said.label = fields.text("label", kept_name_rule);
  said.asked = fields.number("asked", share_numbers);
  said.more_is_better = fields.flag_or("more_is_better", true);
  said.estimate = fields.object("estimate", "middle and ends of the 90% interval", estimate_from);
  said.odds = fields.number("odds", share_numbers);
  return said;
}

KeptGame kept_game_from(Fields& fields) {
  KeptGame game;
  game.game = fields.text("game");
  game.snaps = fields.number("charted_snaps", kept_snaps_rule);
  return game;
}

}  // namespace

void require_date(const std::string& date) {
  if (!is_date(date))
    throw InputError(
        Finding{{"", 0, date}, "is no date", std::string("give ") + std::string(date_want)});
}

KeptAnswer kept_from(Fields& fields) {
  KeptAnswer kept;
  kept.date = fields.text("date", date_rule);
  if (fields.sound("date") && !is_date(kept.date))
    fields.at("date").fault("is no date", "give " + std::string(date_want));
  kept.quarterback = fields.text("quarterback", person_rule);
  kept.scheme = fields.text("scheme", kept_name_rule);
  kept.snaps = fields.number("charted_snaps", kept_snaps_rule);
  kept.games = fields.objects("games", kept_games_rule, kept_game_want, kept_game_from);
  kept.verdicts = fields.objects("verdicts", verdicts_rule, verdict_want, verdict_from);
  return kept;
}

Json kept_json(const KeptAnswer& kept) {
  Json verdicts = Json::array();
  for (const KeptVerdict& said : kept.verdicts) {
    Json one{{"family", said.family},
             {"family_label", said.family_label},
             {"measure", word(said.measure)}};
    if (said.cell) one["when"] = word(*said.cell);
    one.update(Json{{"label", said.label},
                    {"asked", said.asked},
                    {"more_is_better", said.more_is_better},
                    {"estimate",
                     {{"centre", said.estimate.centre},
                      {"low", said.estimate.low},
                      {"high", said.estimate.high}}},
                    {"odds", said.odds}});
    verdicts.push_back(std::move(one));
  }
  Json games = Json::array();
  for (const KeptGame& game : kept.games)
    games.push_back({{"game", game.game}, {"charted_snaps", game.snaps}});
  return {{"date", kept.date},         {"quarterback", kept.quarterback},
          {"scheme", kept.scheme},     {"charted_snaps", kept.snaps},
          {"games", std::move(games)}, {"verdicts", std::move(verdicts)}};
}

std::string kept_to_json(const KeptAnswer& kept) {
  Json document{{"format", kept_format}};
  document.update(kept_json(kept));
  return document.dump(2) + '\n';
}

KeptAnswer parse_kept(std::string_view text, const std::string& source) {
  return read_document(parse_json(text, source), "callfit-kept", source, kept_from);
}

}  // namespace callfit
