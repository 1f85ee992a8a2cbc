// The demo's case in a reader's hands: the page's text of it, handles, tries.
#include "../ask/demo_case.hpp"

#include <callfit/reader/reader.hpp>
#include <callfit/report/answer_text.hpp>
#include <callfit/report/door.hpp>
#include <callfit/telling/fit_scene.hpp>
#include <callfit/telling/telling.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>

using namespace callfit;
using nlohmann::json;

namespace {

constexpr std::size_t few_draws = 500;

struct Demo {
  Files disk;
  std::string file = std::string(CALLFIT_SOURCE_DIR) + "/profiles/demo/case.json";
  std::string document = disk.read(file);
  Case about = testing::demo_case(few_draws);
  std::string whole =
      whole_case(about, document, file, testing::shipped_texts(disk), disk.beside());
  std::vector<PageHandle> handles = parse_page_handles(document, file);

  std::string text(bool anonymous = false) const {
    return page_case_text(whole, about, Stand{}, handles, Wording{}, anonymous);
  }
  Reader reader() const { return Reader(parse_page_case(text(), "page"), 1); }
};

const Demo& demo() {
  static const Demo one;
  return one;
}

// Numbers are alike to 1e-9, relative above 1; everything else is the same.
bool alike(const json& a, const json& b) {
  if (a.is_number() && b.is_number()) {
    const double x = a.get<double>(), y = b.get<double>();
    return std::abs(x - y) <= 1e-9 * std::max(1.0, std::abs(x));
  }
  if (a.type() != b.type() || a.size() != b.size()) return false;
  if (!a.is_structured()) return a == b;
  for (auto one = a.begin(), other = b.begin(); one != a.end(); ++one, ++other)
    if (!alike(*one, *other)) return false;
  return true;
}

std::string what_is_wrong(const std::string& answer) {
  const json document = json::parse(answer);
  CHECK(document.at("format") == "callfit-error/1");
  return document.at("findings").dump();
}

}  // namespace

TEST_CASE("a page's case answers as the case does", "[plain]") {
  Study own(demo().about, 1);
  Reader reader = demo().reader();
  for (
      const char* request :
      {R"({"kind": "fit"})", R"({"kind": "say", "against": {"quarterback": 2, "scheme": 1}})",
       R"({"kind": "drives", "quarterback": 2, "scheme": 2})",
       R"({"kind": "try", "tries": [{"name": "more", "changes": [{"path": "call.all.boot", "set": 0.2}]}]})"}) {
    INFO(request);
    CHECK(alike(json::parse(answer_json(own, request)),
                json::parse(answer_json(reader.study(), request))));
  }
}

TEST_CASE("what a page says untouched is what the picture and the paragraph say", "[plain]") {
  Reader reader = demo().reader();
  const Shown shown = reader.shown({});
  Study own(demo().about, 1);
  const FitScene scene = fit_scene(own, Stand{});
  CHECK(shown.headline == fit_telling(scene.fit, scene.against, Wording{}).headline);
  CHECK(shown.paragraph == paragraph(std::get<SayAnswer>(own.answer(
                               SayRequest{Stand{}, held_against(Stand{}, own.about())}))));
  CHECK(shown.effect.empty());
  CHECK(shown.try_text.empty());
  REQUIRE(shown.handles.size() == demo().handles.size());
  for (const Shown::Handle& handle : shown.handles) {
    CHECK(handle.text == handle.began);
    CHECK_FALSE(handle.is_turned);
  }
  for (const Shown::Row& row : shown.rows) CHECK(row.value == row.began);
}

TEST_CASE("a turned handle says what a try of the same says, and its text leads back to it",
          "[plain]") {
  Reader reader = demo().reader();
  const std::vector<PutHandle> put{{1, 20}, {4, 3}};
  const Shown shown = reader.shown(put);
  const auto& [words, range] = demo().handles[1];
  CHECK(shown.handles[1].is_turned);
  CHECK(shown.handles[1].at == 20);
  CHECK(shown.handles[1].text == "22%");  // 0.02 + 20 * 0.01, the case's handle
  CHECK(range.path == "call.all.boot");
  CHECK_FALSE(shown.effect.empty());
  CHECK(shown.rows.front().value != shown.rows.front().began);
  // The strip of his place of 100 is the place itself; what was turned is drawn where it went.
  const Shown start = reader.shown({});
  CHECK(start.rows.front().strip.centre != shown.rows.front().strip.centre);
  for (const Shown::Row& row : shown.rows) {
    CHECK((0 <= row.strip.low && row.strip.high <= 100));
    CHECK((row.strip.low <= row.strip.centre && row.strip.centre <= row.strip.high));
  }
  CHECK(shown.try_text == "call.all.boot=0.22&rate.intermediate.completion=0.43");

  const auto back = reader.put_by(shown.try_text);
  REQUIRE(back.size() == put.size());
  for (std::size_t i = 0; i < put.size(); ++i) {
    CHECK(back[i].handle == put[i].handle);
    CHECK(back[i].at == put[i].at);
  }
}

TEST_CASE("every place of every handle survives its text") {
  Reader reader(parse_page_case(demo().text(), "page"), 1, Pace::following);
  for (std::size_t h = 0; h < demo().handles.size(); ++h)
    for (const std::size_t at :
         {std::size_t{0}, demo().handles[h].range.count / 2, demo().handles[h].range.count - 1}) {
      const auto back = reader.put_by(reader.shown({{h, at}}).try_text);
      REQUIRE(back.size() == 1);
      CHECK(back[0].handle == h);
      CHECK(back[0].at == at);
    }
}

TEST_CASE("a try in the address is checked like any input") {
  Reader reader = demo().reader();
  const auto refused = [&reader](const std::string& text) {
    return what_is_wrong(reader.answer(json{{"try", text}}.dump()));
  };
  CHECK(refused("call.all.boot=0.9").find("2.0% to 26%") != std::string::npos);
  CHECK(refused("rate.boot.sack=0.1").find("nothing that this page lets turn") !=
        std::string::npos);
  CHECK(refused("<script>alert(1)</script>").find("PATH=VALUE") != std::string::npos);
  CHECK(refused("call.all.boot=x2").find("value of its handle") != std::string::npos);
  CHECK(refused("call.all.boot=nan").find("value of its handle") != std::string::npos);
  CHECK(refused("call.all.boot=0.1&call.all.boot=0.2").find("twice") != std::string::npos);
  CHECK(refused(std::string(3000, 'a')).find("address") != std::string::npos);
  CHECK(
      what_is_wrong(reader.answer(R"({"put": [{"handle": 9, "at": 1}]})")).find("/put/0/handle") !=
      std::string::npos);
  CHECK(what_is_wrong(reader.answer(R"({"put": [{"handle": 1, "at": 31}]})")).find("/put/0/at") !=
        std::string::npos);
  CHECK(what_is_wrong(reader.answer("{")).find("request") == std::string::npos);
  CHECK(json::parse(reader.answer("{}")).at("format") == "callfit-shown/1");
}

TEST_CASE("a quick answer moves the same way and leaves the odds out") {
  Reader quick(parse_page_case(demo().text(), "page"), 1, Pace::following);
  const Shown shown = quick.shown({{3, 0}});
  CHECK(shown.effect.empty());
  CHECK(shown.handles[3].text == "60%");
  CHECK_FALSE(shown.headline.empty());
}

TEST_CASE("handles that nobody chose: three calls and two beliefs, inside what can be set") {
  Study study(demo().about, 1);
  const auto handles = usual_handles(study, Stand{});
  REQUIRE(handles.size() == 5);
  for (std::size_t h = 0; h < 3; ++h) CHECK(handles[h].range.path.starts_with("call.all."));
  for (std::size_t h = 3; h < 5; ++h) CHECK_FALSE(handles[h].range.path.starts_with("call."));
  for (const PageHandle& handle : handles) {
    CHECK(handle.range.from < handle.range.to);
    CHECK(handle.range.count >= fewest_steps);
    CHECK(handle.range.count <= most_steps);
    CHECK_FALSE(handle.words.empty());
  }
  CHECK_NOTHROW(require_handles(study, Stand{}, handles, "case"));
}

TEST_CASE("handles that do not fit the case are told by their place") {
  Study study(demo().about, 1);
  const std::vector<PageHandle> handles{{"a", {"call.all.bot", 0.1, 0.2, 3}},
                                        {"b", {"policy", 0, 1, 2}},
                                        {"c", {"call.all.boot", 0.1, 1.2, 3}}};
  try {
    require_handles(study, Stand{}, handles, "case.json");
    FAIL("nothing was found");
  } catch (const InputError& error) {
    REQUIRE(error.findings().size() == 3);
    CHECK(error.findings()[0].place.field == "/page/handles/0/path");
    CHECK(error.findings()[0].mend.find("call.all.boot") != std::string::npos);
    CHECK(error.findings()[1].what.find("words") != std::string::npos);
    CHECK(error.findings()[2].place.field == "/page/handles/2");
  }
}

TEST_CASE("the part page of a case is read, and what is wrong with it is told") {
  CHECK(parse_page_handles(R"({"format": "callfit-case/1"})", "case").empty());
  const auto handles = parse_page_handles(
      R"({"page": {"handles": [{"path": "policy", "words": "p", "from": 0, "to": 1}]}})", "case");
  REQUIRE(handles.size() == 1);
  CHECK(handles[0].range.count == 21);
  const auto fault = [](const std::string& handle) {
    try {
      parse_page_handles(R"({"page": {"handles": [)" + handle + "]}}", "case");
    } catch (const InputError& error) {
      return error.findings().front().place.field + ": " + error.findings().front().what;
    }
    return std::string();
  };
  CHECK(fault("").starts_with("/page/handles"));
  CHECK(fault(R"({"path": "a", "words": "w", "from": 1, "to": 1})").find("from is not below to") !=
        std::string::npos);
  CHECK(fault(R"({"path": "a", "words": "w", "from": 0, "to": 1, "count": 1})")
            .starts_with("/page/handles/0/count"));
  CHECK(fault(R"({"path": "a", "words": "", "from": 0, "to": 1})")
            .starts_with("/page/handles/0/words"));
  CHECK(fault(R"({"path": "a", "words": "w", "from": 0, "to": 1, "step": 1})").find("step") !=
        std::string::npos);
  const std::string one = R"({"path": "a", "words": "w", "from": 0, "to": 1})";
  CHECK(fault(one + ", " + one).find("has a handle before") != std::string::npos);
}

TEST_CASE("a page's case that is no such text is refused with its place") {
  CHECK_THROWS_AS(parse_page_case("{}", "page"), InputError);
  json document = json::parse(demo().text());
  document["stand"]["quarterback"] = 3;
  CHECK_THROWS_WITH(parse_page_case(document.dump(), "page"),
                    Catch::Contains("/stand/quarterback"));
}

// Or the page would work them out, which takes longer than all else that it does at its start.
TEST_CASE("a page's case follows from what its net values follow from") {
  const PageCase held = parse_page_case(demo().text(), "page");
  REQUIRE(held.about.net);
  CHECK(held.about.net->first_and_ten == demo().about.net->first_and_ten);
}

TEST_CASE("an anonymous page's case names nobody") {
  const std::string text = demo().text(true);
  const PageCase held = parse_page_case(text, "page");
  CHECK(held.about.quarterbacks[0].profile.name == "New starter");
  CHECK(held.about.quarterbacks[1].profile.name == "Other starter 2");
  CHECK(text.find("Last starter") == std::string::npos);
}
