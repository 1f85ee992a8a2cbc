#include <ask/estimates.hpp>
#include <ask/memory.hpp>
#include <callfit/ask/namesakes.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/base/names.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace callfit::ask {
namespace {

constexpr std::size_t remembered = 32;  // standings with changes

// Places of draws that belong to no quarterback of the case.
constexpr std::uint64_t population_place = 0xffff'ffff;

void require_case(const Case& about) {
  if (about.quarterbacks.empty()) refuse_at("/quarterbacks", "no quarterback", "give at least one");
  if (about.schemes.empty()) refuse_at("/schemes", "no scheme", "give at least one");
  const std::size_t draws = about.options.draws;
  if (draws < fewest_draws || draws > most_draws)
    refuse_at("/options/draws", fmt::format("cannot be {}", draws),
              fmt::format("take {} to {}", fewest_draws, most_draws));
}

std::string key_of(const Stand& stand) {
  std::string key = fmt::format("{}/{}/{}", stand.quarterback, stand.scheme, stand.as_learned);
  for (const Change& change : stand.changes)
    key += fmt::format("\n{} {} {:a} {}", change.path, static_cast<int>(change.way), change.amount,
                       change.word);
  return key;
}

void move_to_end(std::deque<std::string>& keys, const std::string& key) {
  const auto found = std::find(keys.begin(), keys.end(), key);
  std::rotate(found, std::next(found), keys.end());
}

// The matchup with other call shares and without its drives: worth_beside() needs none.
Matchup recalled(const Matchup& matchup, const Scheme& scheme,
                 const std::vector<CallPlace>& places) {
  Matchup out = matchup;
  out.plan.reset();
  out.bound.scheme = scheme;
  out.bound.call_share = call_shares(scheme, places);
  return out;
}

}  // namespace

Memory::Memory(Case about, unsigned threads, Pace pace)
    : case_(std::move(about)), threads_(threads), pace_(pace) {
  require_case(case_);
  const std::vector<std::string> names = shown_names(case_);
  for (std::size_t i = 0; i < names.size(); ++i) case_.quarterbacks[i].profile.name = names[i];
  setting_ = std::make_shared<const Setting>(case_.setting);
  net_ = case_.net
             ? *case_.net
             : average_net_values(case_.setting, case_.average_scheme, case_.options.end_of_half);
  average_ = average_player(case_.setting);
  matchups_.resize(case_.schemes.size());
  known_.resize(case_.quarterbacks.size());
}

std::shared_ptr<const Matchup> Memory::matchup(std::size_t scheme) {
  auto& entry = matchups_[scheme];
  if (!entry) {
    Matchup ground;
    ground.setting = case_.setting;
    ground.net = net_;
    ground.starts = start_shares(case_.setting);
    entry = std::make_shared<const Matchup>(
        with_scheme(ground, case_.setting, case_.schemes[scheme],
                    {case_.options.policy, case_.options.end_of_half}));
  }
  return entry;
}

std::shared_ptr<const PlayerDraws> Memory::draws_of(const Profile& profile,
                                                    std::size_t place) const {
  return std::make_shared<const PlayerDraws>(PlayerDraws::of_profile(
      profile, *setting_, {case_.options.seed, place}, case_.options.draws));
}

const Memory::Known& Memory::known(std::size_t quarterback) {
  Known& known = known_[quarterback];
  if (!known.sample) {
    const Profile& profile = case_.quarterbacks[quarterback].profile;
    known.profile = std::make_shared<const Profile>(profile);
    known.mean = std::make_shared<const Player>(mean_player(profile, *setting_));
    known.sample = std::make_shared<const Sample>(draws_of(profile, quarterback), setting_);
  }
  return known;
}

const Sample& Memory::population() {
  if (!population_)
    population_.emplace(
        std::make_shared<const PlayerDraws>(PlayerDraws::of_population(
            *setting_, {case_.options.seed, population_place}, case_.options.draws)),
        setting_);
  return *population_;
}

void Memory::require(const Stand& stand) const {
  const auto check = [](const char* field, std::size_t place, std::size_t count) {
    if (place >= count)
      refuse_at(field, fmt::format("there is no place {}", place + 1),
                fmt::format("the case has {}", count));
  };
  check("/quarterback", stand.quarterback, case_.quarterbacks.size());
  check("/scheme", stand.scheme, case_.schemes.size());
}

Standing Memory::plain(std::size_t quarterback, std::size_t scheme) {
  Standing standing;
  standing.quarterback = quarterback;
  standing.scheme = scheme;
  standing.matchup = matchup(scheme);
  const Known& who = known(quarterback);
  standing.mean = who.mean;
  standing.sample = who.sample;
  standing.question =
      make_question(standing.matchup, who.profile, case_.quarterbacks[quarterback].tape, who.mean);
  return standing;
}

Standing Memory::standing_of(const Profile& profile, std::size_t place, std::size_t scheme) {
  Standing standing;
  standing.quarterback = place;
  standing.scheme = scheme;
  standing.matchup = matchup(scheme);
  standing.mean = std::make_shared<const Player>(mean_player(profile, *setting_));
  standing.sample = std::make_shared<const Sample>(draws_of(profile, place), setting_);
  standing.question = make_question(standing.matchup, std::make_shared<const Profile>(profile),
                                    nullptr, standing.mean);
  return standing;
}

Standing& Memory::standing(const Stand& stand) {
  require(stand);
  const std::string key = key_of(stand);
  const auto found = standings_.find(key);
  if (found != standings_.end()) {
    if (!stand.changes.empty()) move_to_end(turned_, key);
    return found->second;
  }
  if (stand.changes.empty()) {
    Standing& own = standings_.emplace(key, plain(stand.quarterback, stand.scheme)).first->second;
    own.question.as_learned = stand.as_learned;
    return own;
  }
  Standing& base = standing({stand.quarterback, stand.scheme, {}, stand.as_learned});
  Turned changed = ask::turned(base.question, knobs(base), stand.changes);
  Standing made = turned(base, std::move(changed.question), changed.stale);
  turned_.push_back(key);
  if (turned_.size() > remembered) forget_one();
  return standings_.emplace(key, std::move(made)).first->second;
}

Standing& Memory::held(const Stand& stand) {
  held_ = key_of(stand);
  return standing(stand);
}

void Memory::forget_one() {
  const auto oldest = std::find_if(turned_.begin(), turned_.end(),
                                   [this](const std::string& key) { return key != held_; });
  standings_.erase(*oldest);
  turned_.erase(oldest);
}

std::shared_ptr<const Matchup> Memory::called(const std::shared_ptr<const Matchup>& from,
                                              const Scheme& scheme) {
  if (called_.from != from || !(called_.made->bound.scheme == scheme))
    called_ = {from, std::make_shared<const Matchup>(with_calls(*from, *setting_, scheme))};
  return called_.made;
}

Standing Memory::turned(const Standing& from, Question question, const Stale& stale) {
  Standing out = from;
  out.turned = true;
  out.replanned = from.replanned || stale.plan;
  out.recharted = from.recharted || stale.tape;
  out.question = std::move(question);
  if (stale.plan) {
    out.matchup = std::make_shared<const Matchup>(matchup_of(out.question));
  } else if (stale.calls && pace_ == Pace::following) {
    out.matchup = std::make_shared<const Matchup>(
        recalled(*from.matchup, out.question.scheme, from.question.ground->call_places));
  } else if (stale.calls) {
    out.matchup = called(from.matchup, out.question.scheme);
  } else if (stale.fit) {
    Matchup demanded = *from.matchup;
    demanded.bound.scheme.demands = out.question.scheme.demands;
    out.matchup = std::make_shared<const Matchup>(std::move(demanded));
  }
  if (stale.tape)
    out.sample = std::make_shared<const Sample>(draws_of(*out.question.profile, out.quarterback),
                                                setting_, out.question.player);
  else if (stale.quarterback)
    out.sample =
        std::make_shared<const Sample>(from.sample->unmoved(), setting_, out.question.player);
  if (stale.tape || stale.quarterback) {
    out.mean = std::make_shared<const Player>(out.question.mean_player());
    out.measures = nullptr;
    out.estimates = nullptr;
    out.strengths = nullptr;
  }
  if (stale.calls || stale.plan || stale.tape || stale.quarterback) {
    out.drives_turned = true;
    out.tangent = nullptr;
    out.worth = nullptr;
    out.drive_rows = nullptr;
  }
  out.levers = nullptr;  // their steps and places hang on everything
  out.fit_told = nullptr;
  out.footings = {};
  if (stale.fit || stale.tape || stale.quarterback) out.fit = nullptr;
  if (stale.fit) out.others = nullptr;
  if (out.fit == nullptr) out.place = nullptr;
  return out;
}

// One man's stands are like each other: with changes like the one without, which is the same
// whatever would go along; in another scheme like that in the first. So a stand is always worked
// out from the same one, whatever was asked before.
Standing* Memory::start_of(const Standing& standing) {
  const bool is_learned = standing.question.as_learned;
  if (standing.turned)
    return &this->standing({standing.quarterback, standing.scheme, {}, is_learned});
  if (is_learned) return &this->standing({standing.quarterback, standing.scheme, {}, false});
  const bool is_of_case = standing.sample == known_[standing.quarterback].sample;
  if (is_of_case && standing.scheme > 0)
    return &this->standing({standing.quarterback, 0, {}, is_learned});
  return nullptr;
}

bool Memory::follows(const Standing& standing) const {
  return pace_ == Pace::following && standing.turned && !standing.replanned;
}

Tangent Memory::made_tangent(const Threads& threads, const Standing& standing) {
  Standing* start = start_of(standing);
  if (start == nullptr) return tangent_of(*standing.matchup, *standing.mean, threads.few);
  const Tangent& near = tangent_on(threads, *start);
  if (!follows(standing)) {
    Tangent own = tangent_of(*standing.matchup, *standing.mean, threads.few, &near);
    if (standing.turned || pace_ == Pace::settled) own.outcomes.reset();
    return own;
  }
  const bool is_same_man = standing.mean == start->mean;
  return with_calls(is_same_man ? near : tangent_beside(near, *standing.mean),
                    start->question.scheme, standing.question.scheme);
}

Standing* Memory::of_same_drives(const Standing& standing) {
  const bool is_same = standing.turned ? !standing.drives_turned : standing.question.as_learned;
  return is_same ? start_of(standing) : nullptr;
}

const Tangent& Memory::tangent_on(const Threads& threads, Standing& standing) {
  if (standing.tangent) return *standing.tangent;
  if (Standing* start = of_same_drives(standing)) {
    tangent_on(threads, *start);
    standing.tangent = start->tangent;
  } else {
    standing.tangent = std::make_shared<const Tangent>(made_tangent(threads, standing));
    count_solves(standing.tangent->exact_solves);
  }
  return *standing.tangent;
}

OutcomeWorth Memory::outcomes(Standing& standing) {
  const Tangent& at = tangent(standing);
  if (!at.outcomes) count_solves(outcomes_cost);
  return outcomes_at(at, *standing.matchup, threads_);
}

Worth Memory::made_worth(const Threads& threads, const Standing& standing,
                         const Progress& progress) {
  Standing* start = start_of(standing);
  if (start == nullptr && pace_ == Pace::following)
    return worth_in_short(standing.tangent, *standing.matchup, *standing.sample, *standing.mean,
                          threads);
  if (start == nullptr)
    return worth_of(standing.tangent, *standing.matchup, *standing.sample, *standing.mean, threads,
                    progress);
  const Worth& near = worth_on(threads, *start, {});
  if (follows(standing))
    return worth_beside(near, standing.tangent, *standing.sample, *standing.mean);
  const bool is_carried = standing.turned && !standing.replanned && !standing.recharted;
  return worth_near(near, is_carried ? &start->question.scheme : nullptr, standing.tangent,
                    *standing.matchup, *standing.sample, *standing.mean, threads, progress);
}

const Worth& Memory::worth_on(const Threads& threads, Standing& standing,
                              const Progress& progress) {
  if (standing.worth) return *standing.worth;
  if (Standing* start = of_same_drives(standing)) {
    worth_on(threads, *start, progress);
    standing.tangent = start->tangent;
    standing.worth = start->worth;
  } else {
    const std::size_t spent = tangent_on(threads, standing).exact_solves;
    standing.worth = std::make_shared<const Worth>(made_worth(threads, standing, progress));
    count_solves(standing.worth->method.exact_solves - spent);
  }
  return *standing.worth;
}

void Memory::worths(const std::vector<Standing*>& standings, const Progress& progress) {
  std::map<std::size_t, std::vector<Standing*>> of_man;
  for (Standing* one : standings) {
    if (one->worth) continue;
    of_man[one->quarterback].push_back(one);
    // All that one is worked out from is his own; it is made here, so that threads only look it up.
    for (Standing* start = one; start != nullptr;) start = start_of(*start);
  }
  std::vector<std::vector<Standing*>> men;
  men.reserve(of_man.size());
  for (auto& [man, own] : of_man) men.push_back(std::move(own));
  const bool is_alone = men.size() == 1;
  const Threads threads{is_alone ? threads_ : 1, threads_};
  for_each_unit(
      men.size(), threads_,
      [&](std::size_t man) {
        for (Standing* one : men[man]) worth_on(threads, *one, is_alone ? progress : Progress{});
      },
      is_alone ? Progress{} : progress);
}

const std::vector<Column>& Memory::measures(Standing& standing) {
  if (!standing.measures)
    standing.measures = std::make_shared<const std::vector<Column>>(
        measures_of(*standing.sample, standing.matchup->bound));
  return *standing.measures;
}

const std::vector<Number>& Memory::estimates(Standing& standing) {
  if (!standing.estimates) {
    const BoundScheme& bound = standing.matchup->bound;
    const std::vector<Column>& columns = measures(standing);
    std::vector<Number> all;
    for (std::size_t d = 0; d < columns.size(); ++d) {
      const Demand& demand = bound.scheme.demands[d];
      all.push_back(estimate_of(standing, bound.setting_family[demand.family], demand.measure,
                                demand.cell, columns[d]));
    }
    standing.estimates = std::make_shared<const std::vector<Number>>(std::move(all));
  }
  return *standing.estimates;
}

const Number& Memory::strength(Standing& standing, std::size_t family, Measure measure) {
  if (!standing.strengths)
    standing.strengths = std::make_shared<std::map<std::pair<std::size_t, Measure>, Number>>();
  const auto [entry, is_new] = standing.strengths->try_emplace({family, measure});
  if (is_new)
    entry->second =
        estimate_of(standing, family, measure, {}, standing.sample->measure(family, measure, {}));
  return entry->second;
}

const FitDraws& Memory::fit(Standing& standing) {
  if (!standing.fit)
    standing.fit = std::make_shared<const FitDraws>(
        fit_draws(measures(standing), standing.matchup->bound, standing.sample->size()));
  return *standing.fit;
}

const Column& Memory::others(Standing& standing) {
  if (standing.others) return *standing.others;
  if (others_.of != standing.matchup) {
    const BoundScheme& bound = standing.matchup->bound;
    Column others =
        fit_draws(measures_of(population(), bound), bound, population().size()).distance;
    std::sort(others.begin(), others.end());
    others_ = {standing.matchup, std::make_shared<const Column>(std::move(others))};
  }
  standing.others = others_.distance;
  return *standing.others;
}

const Column& Memory::place(Standing& standing) {
  if (!standing.place)
    standing.place =
        std::make_shared<const Column>(places_among(fit(standing).distance, others(standing)));
  return *standing.place;
}

const TapeStages* Memory::stages(const Standing& standing) {
  const std::shared_ptr<const Profile>& profile = standing.question.profile;
  if (!setting_->population || !profile->joint || !standing.question.tape) return nullptr;
  Staged& staged = staged_[standing.quarterback];
  if (staged.profile != profile)
    staged = {profile, tape_stages(standing.question, {case_.options.seed, standing.quarterback})};
  return &staged.stages;
}

const Knobs& Memory::knobs(const Standing& standing) {
  const auto [entry, is_new] = knobs_.try_emplace({standing.quarterback, standing.scheme});
  if (is_new) entry->second = knobs_of(standing.question);
  return entry->second;
}

About about_of(Memory& memory, Standing& standing, Tells tells) {
  About about;
  about.footing = memory.footing(standing, tells);
  about.assumed_scale = memory.about().options.assumed;
  about.as_learned = standing.question.as_learned;
  const Profile& profile = *standing.question.profile;
  about.quarterback = profile.name;
  about.departures = profile.departures;
  about.scheme = standing.question.scheme.name;
  about.level = plain(standing.question.ground->setting.level);
  about.snaps = profile.snaps();
  for (const GameContribution& game : profile.games) {
    const std::string label = plain(game.level);
    const auto found =
        std::find_if(about.tape.begin(), about.tape.end(),
                     [&label](const LevelCount& count) { return count.level == label; });
    if (found == about.tape.end())
      about.tape.push_back({label, game.snaps});
    else
      found->snaps += game.snaps;
  }
  return about;
}

}  // namespace callfit::ask
