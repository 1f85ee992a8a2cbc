#include <callfit/report/door.hpp>
#include <desk/reading.hpp>
#include <format/part.hpp>

#include <nlohmann/json.hpp>

namespace callfit::desk {
namespace {

constexpr auto source = "request";
constexpr Texts path_rule{1, 200, "a path such as rate.deep_outside.completion"};
constexpr Texts typed_rule{1, 100, "a value such as 40% or 6.5"};
constexpr Texts name_rule{1, 200, "a short name"};
constexpr Texts number_rule{1, 200, "a number such as net_points or rate.boot.completion"};
constexpr Numbers steps_rule{-10'000, 10'000, "a number of steps"};
constexpr Numbers units_rule{-100, 100, "a number of units"};
constexpr double longest_film = 86400;  // seconds, as a chart's times
constexpr Texts pressed_rule{1, 40, "a key such as \"q\" or \"Enter\""};
constexpr Numbers film_time_rule{0, longest_film, "seconds into the film"};
constexpr Numbers film_place_rule{0, 1000, "the place of a film, 0 for none"};
constexpr std::string_view keys_want =
    R"(keys such as {"keys": [{"key": "Enter", "at": 12.5}], "film": 1})";
constexpr std::string_view stand_want = R"(an object such as {"stand": {}})";
constexpr std::string_view turn_want =
    R"(a turn such as {"path": "rate.boot.completion", "steps": 1})";

// The door's own reader takes it as the stand of a question.
Stand stand_from(const Part& part, const Case& about) {
  nlohmann::json question = part.value();
  if (!question.is_object()) {
    part.misfit(R"(a stand such as {"quarterback": 1, "scheme": 1, "changes": []})");
    return {};
  }
  question["kind"] = "fit";
  try {
    return std::get<FitRequest>(request_from_json(question.dump(), about)).stand;
  } catch (const InputError& error) {
    for (const Finding& finding : error.findings())
      part.faults().add(part.pointer() + finding.place.field, finding.what, finding.mend);
  }
  return {};
}

Turn turn_from(Fields& fields) {
  Turn turn{fields.text("path", path_rule), Steps{}};
  const auto steps = fields.maybe("steps", [](const Part& p) { return p.number(steps_rule); });
  const auto units = fields.maybe("units", [](const Part& p) { return p.number(units_rule); });
  const auto typed = fields.maybe("typed", [](const Part& p) { return p.text(typed_rule); });
  if (static_cast<int>(steps.has_value()) + static_cast<int>(units.has_value()) +
              static_cast<int>(typed.has_value()) !=
          1 &&
      fields.sound())
    fields.part().fault("needs one of steps, units and typed", std::string(turn_want));
  if (steps) turn.move = Steps{*steps};
  if (units) turn.move = Units{*units};
  if (typed) turn.move = *typed;
  return turn;
}

template <class Enum>
Enum choice(Fields& fields, std::string_view key, Enum usual) {
  return fields.maybe(key, [](const Part& part) { return part.word<Enum>(); }).value_or(usual);
}

charting::Press press_from(Fields& fields, const std::string& clip) {
  charting::Press press;
  press.key = fields.text("key", pressed_rule);
  press.at = fields.number_or("at", film_time_rule, 0);
  press.is_playing = fields.flag_or("playing", false);
  press.clip = clip;
  return press;
}

template <class Read>
auto read_body(const std::string& body, std::string_view want, Read read) {
  const nlohmann::json document = parse_json(body, source);
  Faults faults(source);
  auto value = Part(document, "", faults).object(want, read);
  faults.settle();
  return value;
}

std::optional<Stand> maybe_stand(Fields& fields, const Case& about) {
  return fields.maybe("stand", [&](const Part& part) { return stand_from(part, about); });
}

}  // namespace

Stand stand_in(const std::string& body, const Case& about) {
  return read_body(body, stand_want,
                   [&](Fields& fields) { return maybe_stand(fields, about).value_or(Stand{}); });
}

Sight sight_in(const std::string& body, const Case& about) {
  return read_body(body, stand_want, [&](Fields& fields) {
    Sight sight;
    sight.look.stand = maybe_stand(fields, about).value_or(Stand{});
    sight.look.turn =
        fields.maybe("turn", [](const Part& part) { return part.object(turn_want, turn_from); });
    sight.following = fields.flag_or("following", false);
    sight.look.frame = choice(fields, "frame", Frame::wide);
    sight.look.theme = choice(fields, "theme", Theme::light);
    return sight;
  });
}

Named named_in(const std::string& body, const Case& about) {
  return read_body(body, stand_want, [&](Fields& fields) {
    Named named;
    named.name = fields.text("name", name_rule);
    named.stand = maybe_stand(fields, about).value_or(Stand{});
    named.frame = choice(fields, "frame", Frame::wide);
    return named;
  });
}

SnapsRequest snaps_in(const std::string& body, const Case& about) {
  return read_body(body, stand_want, [&](Fields& fields) {
    SnapsRequest request;
    request.number = fields.text("number", number_rule);
    request.stand = maybe_stand(fields, about).value_or(Stand{});
    return request;
  });
}

std::vector<charting::Press> pressed_in(const std::string& body,
                                        const std::function<std::string(std::size_t)>& clip_of) {
  return read_body(body, keys_want, [&](Fields& fields) {
    const auto film = static_cast<std::size_t>(fields.number_or("film", film_place_rule, 0));
    const std::string clip = clip_of(film);
    return fields.list("keys", {0, 1000}, [&clip](const Part& part) {
      return part.object(keys_want, [&clip](Fields& one) { return press_from(one, clip); });
    });
  });
}

}  // namespace callfit::desk
