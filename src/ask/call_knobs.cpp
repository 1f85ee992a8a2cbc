#include <callfit/stats/logit.hpp>

#include <ask/knob.hpp>
#include <ask/log_odds_move.hpp>

#include <algorithm>

namespace callfit::ask {
namespace {

using Shares = std::vector<double>;

// Calls against every shell: the plain list and the lists of single shells.
void set_everywhere(CallSituation& situation, std::size_t family, double value,
                    const std::string& path) {
  set_share(situation.share, family, value, path);
  for (auto& own : situation.share_by_shell)
    if (own) set_share(*own, family, value, path);
}

Shares& own_list(CallSituation& situation, std::size_t shell) {
  auto& own = situation.share_by_shell[shell];
  if (!own) own = situation.share;
  return *own;
}

Knob situation_knob(const Scheme& scheme, std::size_t s, std::size_t f) {
  const std::string path = "call." + scheme.situations[s].id + '.' + scheme.families[f].id;
  Knob knob{path, "calls of " + scheme.families[f].label + ", " + scheme.situations[s].label};
  knob.get = [s, f](const Question& q) { return q.scheme.situations[s].share[f]; };
  knob.set = [s, f, path](Question& q, double value) {
    set_everywhere(q.scheme.situations[s], f, value, path);
  };
  return knob;
}

Knob shell_knob(const Scheme& scheme, std::size_t s, std::size_t f, std::size_t shell) {
  Knob knob = situation_knob(scheme, s, f);
  const std::string name(enum_words<Shell>[shell]);
  knob.path += '.' + name;
  knob.about += ", against " + plain(name);
  knob.get = [s, f, shell](const Question& q) {
    return q.scheme.situations[s].against(static_cast<Shell>(shell))[f];
  };
  knob.set = [s, f, shell, path = knob.path](Question& q, double value) {
    set_share(own_list(q.scheme.situations[s], shell), f, value, path);
  };
  return knob;
}

// Over the plays that come up on the question's own ground.
double overall_share(const Question& q, std::size_t f) {
  return call_shares(q.scheme, q.ground->call_places)[f];
}

Knob overall_knob(const Scheme& scheme, std::size_t f) {
  const std::string path = "call.all." + scheme.families[f].id;
  Knob knob{path, "calls of " + scheme.families[f].label + ", all situations"};
  knob.get = [f](const Question& q) { return overall_share(q, f); };
  knob.set = [f, path](Question& q, double value) {
    const Scheme before = q.scheme;
    const auto at = [&](double shift) {
      q.scheme = before;
      for (CallSituation& situation : q.scheme.situations) {
        set_share(situation.share, f, shifted(situation.share[f], shift), path);
        for (auto& own : situation.share_by_shell)
          if (own) set_share(*own, f, shifted((*own)[f], shift), path);
      }
      return overall_share(q, f);
    };
    move_to(at, value, path);
  };
  return knob;
}

}  // namespace

void add_call_knobs(const Question& question, Knobs& knobs) {
  const Scheme& scheme = question.scheme;
  for (std::size_t f = 0; f < scheme.families.size(); ++f) knobs.push_back(overall_knob(scheme, f));
  for (std::size_t s = 0; s < scheme.situations.size(); ++s)
    for (std::size_t f = 0; f < scheme.families.size(); ++f) {
      knobs.push_back(situation_knob(scheme, s, f));
      for (std::size_t shell = 0; shell < shell_count; ++shell)
        knobs.push_back(shell_knob(scheme, s, f, shell));
    }
}

}  // namespace callfit::ask
