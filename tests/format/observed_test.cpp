#include "../support/message_of.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/observed.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <functional>

using namespace callfit;
using callfit::testing::message_of;
using nlohmann::json;

namespace {

const std::string shipped = CALLFIT_SOURCE_DIR "/settings/observed/pro-2015-2018.json";

std::string observed_message(const std::function<void(json&)>& spoil) {
  json document = json::parse(Files().read(shipped));
  spoil(document);
  return message_of([&] { parse_observed(document.dump(), "o.json"); });
}

}  // namespace

TEST_CASE("the shipped observations are read") {
  const Observed observed = Files().observed(shipped);
  CHECK(observed.setting == "pro");
  REQUIRE(observed.drives.size() == 14);
  // Drives of 2015-2018 begun in quarters 1 and 3: rows of data/play-data/drives.csv.gz.
  CHECK(observed.drives.front().n == 11583);
  CHECK(observed.starts.size() == 100);
  CHECK(observed.own_drive.size() == 20);
  CHECK(observed.next_score.size() == 10);
  // Goldner 2012, Table 3, first row: own 20, first and ten.
  CHECK(observed.own_drive.front().points == Approx(1.24));
  CHECK(observed.own_drive.front().share[0] == Approx(0.1384));
}

TEST_CASE("bad observations are named with their place") {
  struct Case {
    std::string name;
    std::function<void(json&)> spoil;
    std::string place, what;
  };
  const std::vector<Case> cases{
      {"a share above 1", [](json& d) { d["red_zone"]["touchdown"] = 1.5; }, "/red_zone/touchdown",
       ""},
      {"no starts", [](json& d) { d["starts"]["n"] = std::vector<int>(99, 0); }, "/starts/n",
       "no drive starts anywhere"},
      {"an empty band", [](json& d) { d["starts"]["n"][24] = 0, d["starts"]["n"][74] = 0; },
       "/drives/5", "no start lies in its yards_to_goal"},
      {"a band that runs backwards",
       [](json& d) {
         d["drives"][1]["yards_to_goal"] = {50, 40};
       },
       "/drives/1/yards_to_goal", ""},
      {"a line beyond the goal",
       [](json& d) { d["published"]["goldner_2012"]["rows"][0]["to_go"] = 90; },
       "/published/goldner_2012/rows/0/to_go", "beyond the goal line"},
  };
  for (const Case& entry : cases) {
    CAPTURE(entry.name);
    const std::string message = observed_message(entry.spoil);
    CHECK(message.find(entry.place) != std::string::npos);
    CHECK(message.find(entry.what) != std::string::npos);
  }
}
