#include <ask/answers.hpp>
#include <ask/estimates.hpp>
#include <callfit/ask/kept.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/chart/measure_name.hpp>

#include <algorithm>

namespace callfit::ask {
namespace {

// One number that is followed.
struct Followed {
  std::size_t family = 0;  // index into Setting::families
  Measure measure = Measure::completion;
  std::optional<Cell> cell;
};

std::vector<std::string> games_in_order(const std::vector<Chart>& season) {
  std::vector<std::string> games;
  for (const Chart& chart : season)
    for (const Snap& snap : chart.snaps)
      if (std::find(games.begin(), games.end(), snap.game) == games.end())
        games.push_back(std::string(snap.game));
  return games;
}

// The snaps of the season's first `count` games.
std::vector<Chart> up_to(const std::vector<Chart>& season, const std::vector<std::string>& games,
                         std::size_t count) {
  const auto last = games.begin() + static_cast<std::ptrdiff_t>(count);
  std::vector<Chart> out;
  for (const Chart& chart : season) {
    Chart part = chart;
    std::erase_if(part.snaps, [&](const Snap& snap) {
      return std::find(games.begin(), last, snap.game) == last;
    });
    out.push_back(std::move(part));
  }
  return out;
}

// The demands of the scheme, each family and measure once.
std::vector<Followed> demands_to_follow(const BoundScheme& bound) {
  std::vector<Followed> out;
  for (const Demand& demand : bound.scheme.demands) {
    const Followed next{bound.setting_family[demand.family], demand.measure, demand.cell};
    const bool known = std::any_of(out.begin(), out.end(), [&](const Followed& f) {
      return f.family == next.family && f.measure == next.measure && f.cell == next.cell;
    });
    if (!known) out.push_back(next);
  }
  return out;
}

bool within(const Number& last, const Number& first) {
  return first.low <= last.centre && last.centre <= first.high;
}

bool held(const TrendStepAnswer& first, const TrendStepAnswer& last) {
  bool all = within(last.place, first.place) &&
             within(last.net_points_per_drive, first.net_points_per_drive);
  for (std::size_t w = 0; w < first.followed.size(); ++w)
    all = all && within(last.followed[w], first.followed[w]);
  return all;
}

class TrendTeller {
 public:
  TrendTeller(Memory& memory, const TrendRequest& request)
      : memory_(memory), request_(request), now_(memory.standing(request.stand)) {
    if (!now_.question.tape || now_.question.tape->charts.empty())
      refuse_at("/quarterback",
                "a season is followed by its charts, a finished profile no longer has them",
                "give the charts (.csv) in place of the profile");
    if (request.before > now_.question.tape->charts.size())
      refuse_at("/before", "more charts before the season than there are",
                "take at most " + std::to_string(now_.question.tape->charts.size()));
    const std::vector<Change>& changes = request.stand.changes;
    for (std::size_t c = 0; c < changes.size(); ++c)
      if (!changes[c].path.starts_with("level."))
        refuse_at("/changes/" + std::to_string(c) + "/path",
                  "cannot be turned while a season is followed",
                  "turn the weight of a level, level.high_school.weight for instance");
    for (std::size_t k = 0; k < request.kept.size(); ++k)
      if (request.kept[k].quarterback != now_.question.profile->name)
        refuse_at("/kept/" + std::to_string(k) + "/quarterback",
                  "was said of " + request.kept[k].quarterback + ", not of " +
                      now_.question.profile->name,
                  "give his season under his name");
    followed_ = demands_to_follow(now_.matchup->bound);
  }

  TrendAnswer tell(const Progress& progress) {
    const std::vector<Chart>& charts = now_.question.tape->charts;
    const auto split = charts.begin() + static_cast<std::ptrdiff_t>(request_.before);
    const std::vector<Chart> before(charts.begin(), split);
    const std::vector<Chart> season(split, charts.end());
    const std::vector<std::string> games = games_in_order(season);
    TrendAnswer answer;
    answer.about = about_of(memory_, now_, Tells::place);
    for (const Followed& f : followed_) answer.followed.push_back(followed_answer(f));
    for (std::size_t count = 0; count <= games.size(); ++count) {
      std::vector<Chart> tape = before;
      for (Chart& chart : up_to(season, games, count)) tape.push_back(std::move(chart));
      answer.steps.push_back(step(tape, count == 0 ? "" : games[count - 1]));
      if (progress) progress(count + 1, games.size() + 1);
    }
    answer.held = held(answer.steps.front(), answer.steps.back());
    if (!request_.kept.empty()) answer.kept = score_of_kept();
    return answer;
  }

 private:
  FollowedAnswer followed_answer(const Followed& f) const {
    const Setting& setting = now_.question.ground->setting;
    return {setting.families[f.family].label, measure_name(f.measure, f.cell), !as_rate(f.measure),
            measure_of(memory_.average(), setting, f.family, f.measure, f.cell)};
  }

  Profile profile_of(const std::vector<Chart>& tape) const {
    return build_profile(now_.question.profile->name, tape, now_.question.ground->setting,
                         now_.question.weighting, now_.question.tape->like);
  }

  KeptScore score_of_kept() const {
    const Quarterback& quarterback = memory_.about().quarterbacks[now_.quarterback];
    auto score = score_since(request_.kept, quarterback, now_.question.ground->setting);
    if (!score)
      refuse_at("/kept", "nothing of him was charted since",
                "give charts of later games, or nothing that was kept");
    return *std::move(score);
  }

  TrendStepAnswer step(const std::vector<Chart>& tape, const std::string& game) {
    const Profile profile = profile_of(tape);
    Standing standing = memory_.standing_of(profile, now_.quarterback, now_.scheme);
    TrendStepAnswer step;
    step.game = game;
    for (const GameContribution& one : profile.games) {
      step.effective_snaps += one.effective_snaps;
      if (one.game == game) step.snaps += one.snaps;
    }
    step.place = number_of(memory_.place(standing));
    step.net_points_per_drive = number_of(memory_.worth(standing).net_points);
    for (const Followed& f : followed_)
      step.followed.push_back(estimate_of(standing, f.family, f.measure, f.cell,
                                          standing.sample->measure(f.family, f.measure, f.cell)));
    return step;
  }

  Memory& memory_;
  const TrendRequest& request_;
  Standing& now_;
  std::vector<Followed> followed_;
};

}  // namespace

TrendAnswer answer(Memory& memory, const TrendRequest& request, const Progress& progress) {
  return TrendTeller(memory, request).tell(progress);
}

}  // namespace callfit::ask
