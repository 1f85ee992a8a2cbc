#include "../support/message_of.hpp"
#include "../support/shipped.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/profile.hpp>
#include <callfit/profile/draws.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace callfit;
using callfit::testing::college;
using callfit::testing::message_of;
using callfit::testing::root;
using nlohmann::json;

namespace {

const Profile& new_starter() {
  static const Profile profile = [] {
    Findings notices;
    const Chart chart = Files().chart(root + "profiles/demo/new-starter.csv", notices);
    return build_profile("New starter", {chart}, college(), weighting_of(college()));
  }();
  return profile;
}

json document() { return json::parse(profile_to_json(new_starter(), college())); }

Profile read(const json& profile) { return parse_profile(profile.dump(), "p.json", college()); }

std::string profile_message(const json& profile) {
  return message_of([&] { read(profile); });
}

void check_same(const CellEstimate& a, const CellEstimate& b) {
  CHECK(a.cell == b.cell);
  CHECK(a.rate == b.rate);
  CHECK(a.shift == b.shift);
  CHECK(a.kappa == b.kappa);
  CHECK(a.mean == b.mean);
  CHECK(a.interval.low == b.interval.low);
  CHECK(a.interval.high == b.interval.high);
  CHECK(a.departure == b.departure);
  CHECK(a.counts.effective_made == b.counts.effective_made);
}

const CellEstimate& cell_of(const Profile& profile, std::size_t family, Rate rate, Cell cell) {
  for (const CellEstimate& estimate : profile.families[family].cells)
    if (estimate.rate == rate && estimate.cell == cell) return estimate;
  throw std::logic_error("no such cell");
}

std::size_t index_of(const std::string& id) {
  return static_cast<std::size_t>(college().find_family(id) - college().families.data());
}

}  // namespace

TEST_CASE("a profile written and read back is the same to the last bit") {
  const Profile& first = new_starter();
  const std::string text = profile_to_json(first, college());
  const Profile second = parse_profile(text, "p.json", college());
  CHECK(profile_to_json(second, college()) == text);
  REQUIRE(second.families.size() == first.families.size());
  for (std::size_t f = 0; f < first.families.size(); ++f) {
    const FamilyProfile& a = first.families[f];
    const FamilyProfile& b = second.families[f];
    for (std::size_t r = 0; r < rate_count; ++r) {
      REQUIRE(a.rates[r].has_value() == b.rates[r].has_value());
      if (!a.rates[r]) continue;
      CHECK(a.rates[r]->mean == b.rates[r]->mean);
      CHECK(a.rates[r]->strength == b.rates[r]->strength);
      CHECK(a.rates[r]->counts.effective_of == b.rates[r]->counts.effective_of);
    }
    REQUIRE(a.cells.size() == b.cells.size());
    for (std::size_t c = 0; c < a.cells.size(); ++c) check_same(a.cells[c], b.cells[c]);
    CHECK(a.depth.has_value() == b.depth.has_value());
    if (a.yac) CHECK(a.yac->alpha == b.yac->alpha);
  }
  CHECK(first.scramble.alpha == second.scramble.alpha);
  CHECK(first.weighting.levels.size() == second.weighting.levels.size());
  const Player one = PlayerDraws::of_profile(first, college(), {1}, 3).player_at(2);
  const Player two = PlayerDraws::of_profile(second, college(), {1}, 3).player_at(2);
  for (std::size_t f = 0; f < one.families.size(); ++f)
    CHECK(one.families[f].cell == two.families[f].cell);
}

TEST_CASE("when a person edits a rate, its cells follow") {
  const std::size_t boot = index_of("boot");
  json edited = document();
  json& completion = edited["families"]["boot"]["rates"]["completion"];
  const double before = completion["mean"].get<double>();
  completion["mean"] = before - 0.2;
  const Profile profile = read(edited);
  const auto completion_index = static_cast<std::size_t>(Rate::completion);
  CHECK(profile.families[boot].rates[completion_index]->mean == before - 0.2);
  const CellEstimate& moving = cell_of(profile, boot, Rate::completion, Cell::moving);
  const CellEstimate& was = cell_of(new_starter(), boot, Rate::completion, Cell::moving);
  CHECK(moving.mean < was.mean - 0.05);
  CHECK(moving.interval.low < moving.mean);
  CHECK(moving.interval.high > moving.mean);
  // Other rates and their cells stay as they were.
  check_same(cell_of(profile, boot, Rate::interception, Cell::two_high),
             cell_of(new_starter(), boot, Rate::interception, Cell::two_high));
}

TEST_CASE("a cell without its mean is derived from family, shift and counts") {
  json edited = document();
  for (json& cell : edited["families"]["boot"]["cells"]) {
    cell.erase("mean");
    cell.erase("interval90");
  }
  const Profile profile = read(edited);
  // The family's posterior is kept as a Beta, so the two ways differ a little where snaps of
  // another level shifted it.
  const std::size_t boot = index_of("boot");
  for (const CellEstimate& cell : profile.families[boot].cells) {
    const CellEstimate& built = cell_of(new_starter(), boot, cell.rate, cell.cell);
    CHECK(cell.mean == Approx(built.mean).margin(0.001));
  }
}

TEST_CASE("each fault of a profile has its message") {
  struct Case {
    const char* pointer;
    const char* value;
    const char* message;
  };
  const auto [pointer, value, message] = GENERATE(values<Case>({
      {"/setting", "\"pro\"",
       "p.json: /setting: the profile was made with setting pro, not college; use --setting pro, "
       "or "
       "build it again from its charts"},
      {"/families/boot/rates/completion/mean", "1",
       "p.json: /families/boot/rates/completion/mean: 1 does not fit here; give a share above 0 "
       "and "
       "below 1"},
      {"/families/boot/rates/completion/mean", "\"60%\"",
       "p.json: /families/boot/rates/completion/mean: \"60%\" does not fit here; give a share "
       "above "
       "0 and below 1"},
      {"/families/boot/rates/completion/strength", "-5",
       "p.json: /families/boot/rates/completion/strength: -5 does not fit here; give how many "
       "snaps "
       "the estimate is worth, 0.01 or more"},
      {"/families/boot/rates/completion/strength", "1e-17",
       "p.json: /families/boot/rates/completion/strength: 1e-17 does not fit here; give how many "
       "snaps the estimate is worth, 0.01 or more"},
      {"/families/boot/gains/depth/alpha", "[1, 2]", nullptr},
      {"/families/boots",
       "{\"snaps\": 0, \"effective_snaps\": 0, \"rates\": {}, \"cells\": [], "
       "\"gains\": {}}",
       "p.json: /families/boots: unknown family; did you mean boot?"},
      {"/families/boot/cells/0/cell", "\"on_the_move\"",
       "p.json: /families/boot/cells/0/cell: unknown word \"on_the_move\"; use one_high, two_high, "
       "none_high, pocket, moving, clean, pressure, left, middle, right, short, intermediate or "
       "deep"},
      {"/weighting/levels/college/weight", "1.5",
       "p.json: /weighting/levels/college/weight: 1.5 does not fit here; give a share from 0 to 1"},
  }));
  json profile = document();
  profile[json::json_pointer(pointer)] = json::parse(value);
  if (message)
    CHECK(profile_message(profile) == message);
  else
    CHECK_THAT(profile_message(profile),
               Catch::Contains("/families/boot/gains/depth/alpha: 2 weights for "));
}

TEST_CASE("missing parts of a profile are named") {
  json profile = document();
  profile["families"].erase("boot");
  profile["families"]["handoff"]["rates"].erase("success");
  profile["families"]["handoff"]["gains"].erase("run");
  CHECK(profile_message(profile) ==
        "p.json: /families/boot: is missing; build the profile again\n"
        "p.json: /families/handoff/rates/success: is missing; build the profile again\n"
        "p.json: /families/handoff/gains/run: is missing; build the profile again");
}

TEST_CASE("sources, known opponents and season totals are read back as they were") {
  Profile first = new_starter();
  Evidence& evidence = first.evidence;
  const Population& population = *college().population;
  evidence.sources = {source_after(population, PlaceChange::new_team)};
  evidence.sources[0].name = "team North";
  for (std::size_t i = 0; i < evidence.tallies.size(); i += 2) evidence.tallies[i].source = 0;
  REQUIRE_FALSE(evidence.opponents.empty());
  evidence.opponents[0].effects.resize(population.traits.size());
  evidence.opponents[0].effects[2] = OpponentEffect{0.1, 0.05};
  const std::size_t rate = *population.find_quantity("boot.completion");
  evidence.mixtures = {{{{rate, 1, 0.1}}, 100, 160, 5, 0, 0}};
  const Posterior joint = posterior_of(with_assumed_spreads(population), evidence);
  const Profile second = parse_profile(profile_to_json(first, college()), "p.json", college());
  for (std::size_t q = 0; q < joint.marginals.size(); ++q) {
    CHECK(second.joint->marginals[q].mean == joint.marginals[q].mean);
    CHECK(second.joint->marginals[q].sd == joint.marginals[q].sd);
  }
  CHECK(second.evidence.sources[0].name == "team North");
  json broken = json::parse(profile_to_json(first, college()));
  broken["evidence"]["mixtures"][0]["made"] = 170;
  CHECK(profile_message(broken).find("/evidence/mixtures/0/made: more than there were") !=
        std::string::npos);
  broken = json::parse(profile_to_json(first, college()));
  broken["evidence"]["counts"][0]["source"] = 7;
  CHECK(profile_message(broken).find("/evidence/counts/0/source") != std::string::npos);
}
