#include "report/case_names.hpp"

#include <callfit/base/nearest.hpp>
#include <callfit/report/door.hpp>
#include <format/changes.hpp>
#include <format/kept_json.hpp>
#include <format/part.hpp>

#include <algorithm>
#include <array>
#include <functional>

namespace callfit {
namespace {

constexpr auto source = "request";
constexpr Texts some_path{1, 200, "a path such as rate.deep_outside.completion"};
constexpr Texts some_number{1, 200, "a number such as net_points or rate.boot.completion"};
constexpr Sizes some_tries{1, 100, "a list of 1 to 100 tries"};
constexpr Sizes one_or_two{1, 2, "a list of one or two ranges"};
constexpr Sizes any_places{0, 1000, "a list of names or places; an empty list means all"};
constexpr std::string_view stand_want = R"(a stand such as {"quarterback": 1, "scheme": 1})";

[[noreturn]] void refuse(const std::string& what, const std::string& mend) {
  throw InputError(Finding{{source, 0, ""}, what, mend});
}

void require_modest(std::string_view text) {
  if (text.size() > longest_request)
    refuse("is " + std::to_string(text.size()) + " bytes long",
           "give at most " + std::to_string(longest_request));
}

std::string places_in_words(const std::vector<std::size_t>& places) {
  std::vector<std::string> words;
  words.reserve(places.size());
  for (const std::size_t place : places) words.push_back(std::to_string(place + 1));
  return either_of(words);
}

std::vector<std::string> flat(const std::vector<Names>& names) {
  std::vector<std::string> all;
  for (const Names& one : names) all.insert(all.end(), one.begin(), one.end());
  return all;
}

/// A name, or a place counted from 1, as a place counted from 0.
std::size_t place_from(const Part& part, const std::vector<Names>& names, const std::string& what) {
  const nlohmann::json& value = part.value();
  if (!value.is_string()) {
    const Numbers places{1, static_cast<double>(names.size()), {}};
    if (value.is_number_integer() && places.hold(value.get<double>()))
      return value.get<std::size_t>() - 1;
    part.misfit("the name of a " + what + ", or a place from 1 to " + std::to_string(names.size()));
    return 0;
  }
  const auto name = value.get<std::string>();
  const std::vector<std::size_t> places = places_called(names, name);
  if (places.size() == 1) return places.front();
  if (places.empty())
    part.fault("no " + what + " of the case is called \"" + name + "\"",
               suggest(name, flat(names)));
  else
    part.fault("\"" + name + "\" fits " + std::to_string(places.size()) + " of the case",
               "give the place: " + places_in_words(places));
  return 0;
}

/// Reads one request's keys; the case says what can be named.
constexpr Sizes some_kept{1, 1000, "a list of kept answers"};

class Reader {
 public:
  explicit Reader(const Case& about)
      : about_(about), quarterbacks_(quarterback_names(about)), schemes_(scheme_names(about)) {}

  Stand stand(Fields& fields) const {
    Stand stand;
    stand.quarterback = fields.maybe("quarterback", quarterback()).value_or(0);
    stand.scheme = fields.maybe("scheme", scheme()).value_or(0);
    stand.changes = fields.maybe("changes", changes_from).value_or(std::vector<Change>{});
    stand.as_learned = fields.flag_or("as_learned", false);
    return stand;
  }

  Stand stand_at(Fields& fields, std::string_view key) const {
    return fields.object(key, stand_want, [this](Fields& inside) { return stand(inside); });
  }

  Request fit(Fields& fields) const {
    return FitRequest{stand(fields), fields.flag_or("weights_by_points", false)};
  }

  Request drives(Fields& fields) const {
    constexpr Numbers drives_rule{0, 1e9, {}};
    DrivesRequest request{stand(fields), fields.maybe("from", state_from), 0};
    const auto sampled =
        fields.maybe("sampled_drives", [&](const Part& part) { return part.integer(drives_rule); });
    request.sampled_drives = static_cast<std::uint64_t>(sampled.value_or(0));
    return request;
  }

  Request compare(Fields& fields) const {
    return CompareRequest{places(fields, "quarterbacks", quarterback()),
                          places(fields, "schemes", scheme())};
  }

  Request tries(Fields& fields) const {
    const Stand turned = stand(fields);
    return TryRequest{turned,
                      fields.objects("tries", some_tries,
                                     R"(a try such as {"name": "...", "changes": []})", try_from)};
  }

  Request sweep(Fields& fields) const {
    const Stand turned = stand(fields);
    SweepRequest request{
        turned,
        fields.objects("ranges", one_or_two,
                       R"(a range such as {"path": "...", "from": 0, "to": 1, "count": 11})",
                       range_from)};
    if (request.ranges.size() == 2 && request.ranges[0].path == request.ranges[1].path &&
        fields.sound())
      fields.at("ranges").fault("both ranges turn the same path", "give two different paths");
    return request;
  }

  Request levers(Fields& fields) const { return LeversRequest{stand(fields)}; }

  Request break_even(Fields& fields) const {
    const Stand first = stand_at(fields, "first");
    const Stand second = stand_at(fields, "second");
    return BreakEvenRequest{first, second, fields.text("path", some_path),
                            fields.flag_or("both", false)};
  }

  Request package(Fields& fields) const {
    const Stand turned = stand(fields);
    // Of a scheme that is not known nothing can be said about its families.
    const Scheme& scheme = fields.sound("scheme") ? about_.schemes.at(turned.scheme) : Scheme{};
    return PackageRequest{
        turned, fields.object("package", R"(a package such as {"family": "...", "share": 0.1})",
                              [&](Fields& inside) { return package_from(inside, scheme); })};
  }

  Request tailor(Fields& fields) const {
    const Stand turned = stand(fields);
    const auto limits = fields.maybe("limits", [](const Part& part) {
      return part.object(R"(limits such as {"move": 0.05, "run_pass": 0.05})", limits_from);
    });
    return TailorRequest{turned, limits.value_or(TailorLimits{})};
  }

  Request next(Fields& fields) const {
    const Stand turned = stand(fields);
    constexpr Numbers snaps_rule{1, 10'000, {}};
    return NextRequest{turned, fields.number_or("snaps", snaps_rule, NextRequest{}.snaps)};
  }

  Request trend(Fields& fields) const {
    const Stand turned = stand(fields);
    constexpr Numbers before_rule{0, 1000, {}};
    const auto before =
        fields.maybe("before", [&](const Part& part) { return part.integer(before_rule); });
    TrendRequest request{turned, static_cast<std::size_t>(before.value_or(0)), {}};
    if (fields.has("kept"))
      request.kept = fields.objects("kept", some_kept, "what was said on a day", kept_from);
    return request;
  }

  Request brief(Fields& fields) const {
    const Stand first = stand_at(fields, "first");
    return BriefRequest{first, stand_at(fields, "second")};
  }

  Request say(Fields& fields) const {
    const Stand stood = stand(fields);
    return SayRequest{stood, fields.maybe("against", [this](const Part& part) {
                        return part.object(stand_want,
                                           [this](Fields& inside) { return stand(inside); });
                      })};
  }

  Request snaps(Fields& fields) const {
    const Stand stood = stand(fields);
    return SnapsRequest{stood, fields.text("number", some_number)};
  }

 private:
  using Choose = std::function<std::size_t(const Part&)>;

  Choose quarterback() const {
    return [this](const Part& part) { return place_from(part, quarterbacks_, "quarterback"); };
  }
  Choose scheme() const {
    return [this](const Part& part) { return place_from(part, schemes_, "scheme"); };
  }

  static std::vector<std::size_t> places(Fields& fields, std::string_view key,
                                         const Choose& choose) {
    std::vector<std::size_t> seen;
    const auto add = [&](const Part& item) {
      const std::size_t place = choose(item);
      if (item.sound() && std::find(seen.begin(), seen.end(), place) != seen.end())
        item.fault("stands twice in the list", "name each once");
      seen.push_back(place);
      return place;
    };
    return fields.maybe(key, [&](const Part& part) { return part.list(any_places, add); })
        .value_or(std::vector<std::size_t>{});
  }

  static DriveState state_from(const Part& part) {
    constexpr Numbers downs{1, 4, {}};
    constexpr Numbers yards{1, 99, {}};
    return part.object(
        R"(a state such as {"down": 1, "to_go": 10, "yards_to_goal": 75})", [&](Fields& fields) {
          DriveState state;
          state.down = fields.integer("down", downs);
          state.to_go = fields.integer("to_go", yards);
          state.yards_to_goal = fields.integer("yards_to_goal", yards);
          if (fields.sound() && state.to_go > state.yards_to_goal)
            fields.at("to_go").fault("lies beyond the goal", "give at most yards_to_goal");
          return state;
        });
  }

  static Try try_from(Fields& fields) {
    Try one;
    one.name = fields.text_or("name", {0, 200, "a short name"}, "");
    one.changes = fields.needed("changes", changes_want, changes_from);
    return one;
  }

  static SweepRange range_from(Fields& fields) {
    constexpr Numbers steps{fewest_steps, most_steps, {}};
    SweepRange range;
    range.path = fields.text("path", some_path);
    range.from = fields.number("from");
    range.to = fields.number("to");
    const auto count = fields.maybe("count", [&](const Part& part) { return part.integer(steps); });
    if (count) range.count = static_cast<std::size_t>(*count);
    return range;
  }

  static std::string id_from(const Part& part, const std::vector<std::string>& known,
                             const std::string& what) {
    auto id = part.text({0, 200, "the id of a " + what});
    if (part.sound() && !known.empty() && std::find(known.begin(), known.end(), id) == known.end())
      part.fault("the scheme has no " + what + " \"" + id + "\"", suggest(id, known));
    return id;
  }

  static Package package_from(Fields& fields, const Scheme& scheme) {
    std::vector<std::string> situations;
    situations.reserve(scheme.situations.size());
    for (const CallSituation& situation : scheme.situations) situations.push_back(situation.id);
    std::vector<std::string> families;
    families.reserve(scheme.families.size());
    for (const Family& family : scheme.families) families.push_back(family.id);
    constexpr Numbers yards{1, 99, {}};
    constexpr Numbers fades{0, any_number.high, {}};
    Package package;
    package.situation = fields
                            .maybe("situation",
                                   [&](const Part& part) {
                                     return part.value() == nlohmann::json("")
                                                ? std::string()
                                                : id_from(part, situations, "situation");
                                   })
                            .value_or("");
    package.inside =
        fields.maybe("inside_yards", [&](const Part& part) { return part.integer(yards); });
    package.family = fields.needed("family", "the id of a family", [&](const Part& part) {
      return id_from(part, families, "family");
    });
    package.against = fields.maybe("against", [](const Part& part) { return part.word<Shell>(); });
    package.share = fields.number("share", share_rule);
    package.fade = fields.number_or("fade", fades, 0);
    return package;
  }

  static TailorLimits limits_from(Fields& fields) {
    const TailorLimits usual;
    TailorLimits limits;
    limits.move = fields.number_or("move", {0, 1, "a share above 0, up to 1", true}, usual.move);
    limits.run_pass = fields.number_or("run_pass", share_rule, usual.run_pass);
    limits.fade = fields.number_or("fade", {0, any_number.high, {}}, usual.fade);
    limits.uncharted = fields.flag_or("uncharted", usual.uncharted);
    if (fields.sound() && limits.fade * limits.move > 1)
      fields.part().fault("fade x move is above 1", "give a smaller fade or move");
    return limits;
  }

  const Case& about_;
  std::vector<Names> quarterbacks_, schemes_;
};

/// In the order of Request's kinds.
constexpr auto readers = std::to_array<Request (Reader::*)(Fields&) const>(
    {&Reader::fit, &Reader::drives, &Reader::compare, &Reader::tries, &Reader::sweep,
     &Reader::levers, &Reader::break_even, &Reader::package, &Reader::tailor, &Reader::next,
     &Reader::trend, &Reader::brief, &Reader::say, &Reader::snaps});
static_assert(readers.size() == std::variant_size_v<Request>);

Request request_from(Fields& fields, const Case& about) {
  const std::vector<std::string> kinds = all_words<Request>();
  const std::string kind = fields.text("kind", {0, 200, either_of(kinds)});
  fields.part().faults().settle();
  const auto found = std::find(kinds.begin(), kinds.end(), kind);
  if (found == kinds.end()) {
    fields.at("kind").fault("no question is called \"" + kind + "\"", suggest(kind, kinds));
    fields.part().faults().settle();
  }
  const auto reader = readers.at(static_cast<std::size_t>(found - kinds.begin()));
  return (Reader(about).*reader)(fields);
}

}  // namespace

Request request_from_json(std::string_view text, const Case& about) {
  require_modest(text);
  const nlohmann::json document = parse_json(text, source);
  Faults faults(source);
  Request request = Part(document, "", faults)
                        .object(R"(a request such as {"kind": "fit"})",
                                [&](Fields& fields) { return request_from(fields, about); });
  faults.settle();
  return request;
}

}  // namespace callfit
