// What a study remembers of its case: grounds, draws, standings. Each is made once.
#pragma once

#include <ask/standing.hpp>
#include <ask/tape_stages.hpp>
#include <callfit/ask/case.hpp>
#include <callfit/ask/request.hpp>
#include <callfit/ask/study.hpp>
#include <callfit/base/parallel.hpp>

#include <atomic>
#include <deque>
#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace callfit::ask {

class Memory {
 public:
  Memory(Case about, unsigned threads, Pace pace = Pace::settled);

  const Case& about() const { return case_; }
  unsigned threads() const { return threads_; }
  Pace pace() const { return pace_; }
  const Player& average() const { return average_; }
  std::size_t exact_solves() const { return exact_solves_; }

  /// Throw InputError for places that are not there and for changes that cannot be made.
  Standing& standing(const Stand& stand);
  /// The same for what a request is about: it stays while more stands are made than are remembered,
  /// until the next one is held.
  Standing& held(const Stand& stand);
  /// A standing with the scheme as the question has it; what is not stale is shared with `from`.
  /// Not remembered.
  Standing turned(const Standing& from, Question question, const Stale& stale);

  /// Fill what is missing.
  const Tangent& tangent(Standing& standing) { return tangent_on({threads_, threads_}, standing); }
  /// What outcomes of plays are worth at its means.
  OutcomeWorth outcomes(Standing& standing);
  const Worth& worth(Standing& standing, const Progress& progress = {}) {
    return worth_on({threads_, threads_}, standing, progress);
  }
  /// Of several; those of different men at once.
  void worths(const std::vector<Standing*>& standings, const Progress& progress = {});
  const std::vector<Column>& measures(Standing& standing);
  const std::vector<Number>& estimates(Standing& standing);  // of the measures
  /// Of a measure of a family of the setting.
  const Number& strength(Standing& standing, std::size_t family, Measure measure);
  const FitDraws& fit(Standing& standing);
  const Column& place(Standing& standing);
  /// D^2 of the population in the standing's scheme, sorted.
  const Column& others(Standing& standing);
  /// What the standing's intervals rest on; nothing where the setting has no population. Of a stand
  /// that is only followed, on the same tape: what those of the one without changes do.
  std::optional<Footing> footing(Standing& standing, Tells tells);

  /// His posterior along the weight of his tape; nullptr where there is no tape, or where the
  /// setting does not say how quarterbacks differ together.
  const TapeStages* stages(const Standing& standing);

  /// Members of the setting's population, as many as draws.
  const Sample& population();
  /// The knobs of a man's stands in a scheme.
  const Knobs& knobs(const Standing& standing);

  std::shared_ptr<const Matchup> matchup(std::size_t scheme);
  void count_solves(std::size_t solves) { exact_solves_ += solves; }

  /// Draws of a profile under the case's seed, for the quarterback at a place.
  std::shared_ptr<const PlayerDraws> draws_of(const Profile& profile, std::size_t place) const;
  /// A standing of a profile that is not the case's own (a season's first games).
  Standing standing_of(const Profile& profile, std::size_t place, std::size_t scheme);

 private:
  struct Known {
    std::shared_ptr<const Profile> profile;
    std::shared_ptr<const Player> mean;
    std::shared_ptr<const Sample> sample;
  };

  /// Draws of a profile, and what they were if less were open; nullptr where nothing would change.
  struct Footed {
    std::shared_ptr<const Profile> profile;
    std::size_t opponents = 0;  ///< of whom something is known
    std::shared_ptr<const PlayerDraws> same_place, half_assumed;
    /// Against an average opponent, where others are to come; with what is known of the tape's
    /// opponents forgotten; against an average one with the scores of his own draws.
    std::shared_ptr<const PlayerDraws> usual, no_schedule, not_coming;
  };

  /// A matchup with other calls, and the one it was made of.
  struct Called {
    std::shared_ptr<const Matchup> from, made;
  };

  /// D^2 of the population in a matchup, sorted.
  struct Others {
    std::shared_ptr<const Matchup> of;
    std::shared_ptr<const Column> distance;
  };

  struct Staged {
    std::shared_ptr<const Profile> profile;
    TapeStages stages;
  };

  const Footed& footed(const Standing& standing);
  Footing made_footing(Standing& standing, Tells tells);
  /// The stand of the same man that this one is near; nullptr: none.
  Standing* start_of(const Standing& standing);
  /// The stand that one's drives are those of; nullptr: they are its own.
  Standing* of_same_drives(const Standing& standing);
  /// Whether a stand is only followed, to first order.
  bool follows(const Standing& standing) const;
  Tangent made_tangent(const Threads& threads, const Standing& standing);
  Worth made_worth(const Threads& threads, const Standing& standing, const Progress& progress);
  const Tangent& tangent_on(const Threads& threads, Standing& standing);
  const Worth& worth_on(const Threads& threads, Standing& standing, const Progress& progress);
  Standing plain(std::size_t quarterback, std::size_t scheme);
  /// The last one is remembered: two men are held against each other under the same turned calls.
  std::shared_ptr<const Matchup> called(const std::shared_ptr<const Matchup>& from,
                                        const Scheme& scheme);
  const Known& known(std::size_t quarterback);
  void require(const Stand& stand) const;
  void forget_one();

  Case case_;
  unsigned threads_;
  Pace pace_;
  std::shared_ptr<const Setting> setting_;
  NetValues net_;
  Player average_;
  std::vector<std::shared_ptr<const Matchup>> matchups_;
  std::vector<Known> known_;
  Called called_;
  Others others_;  ///< of the last matchup asked about: two men are in the same one
  std::optional<Sample> population_;
  std::map<std::size_t, Footed> footed_;                        ///< by quarterback
  std::map<std::size_t, Staged> staged_;                        ///< likewise
  std::map<std::pair<std::size_t, std::size_t>, Knobs> knobs_;  ///< by quarterback and scheme
  std::map<std::string, Standing> standings_;
  std::deque<std::string> turned_;  ///< keys of standings with changes, the last asked for last
  std::string held_;
  std::atomic<std::size_t> exact_solves_ = 0;
};

/// Labels of a standing for its answer, and what its intervals rest on.
About about_of(Memory& memory, Standing& standing, Tells tells = Tells::both);

}  // namespace callfit::ask
