#include <ask/terms.hpp>
#include <profile/gain_parts.hpp>

namespace callfit::ask {
namespace {

class Collector {
 public:
  void add(Term term, double by_points, double by_net) {
    if (by_points == 0 && by_net == 0) return;
    term.by_points = by_points;
    term.by_net = by_net;
    terms.push_back(term);
  }

  void add_bins(std::size_t family, GainPart part, const std::vector<double>& by_points,
                const std::vector<double>& by_net) {
    for (std::size_t b = 0; b < by_net.size(); ++b) {
      Term term;
      term.family = family;
      term.kind = Term::Kind::bin;
      term.part = part;
      term.bin = b;
      add(term, by_points[b], by_net[b]);
    }
  }

  void add_family(std::size_t f, const FamilyGradient& by_points, const FamilyGradient& by_net) {
    for (std::size_t r = 0; r < rate_count; ++r) {
      Term term;
      term.family = f;
      term.rate = static_cast<Rate>(r);
      add(term, by_points.rate[r], by_net.rate[r]);
      term.kind = Term::Kind::shell;
      for (term.shell = 0; term.shell < shell_count; ++term.shell)
        add(term, by_points.shell[term.shell][r], by_net.shell[term.shell][r]);
    }
    add_bins(f, GainPart::depth, by_points.depth_bins, by_net.depth_bins);
    add_bins(f, GainPart::yac, by_points.yac_bins, by_net.yac_bins);
    add_bins(f, GainPart::run, by_points.run_bins, by_net.run_bins);
  }

  std::vector<Term> terms;
};

}  // namespace

double& Term::in(Player& player) const {
  if (kind == Kind::bin) return bins_of(player, family, part)[bin];
  PlayerFamily& own = player.families[family];
  const auto r = static_cast<std::size_t>(rate);
  return kind == Kind::rate ? own.rate[r] : own.cell[shell][r];
}

double Term::in(const Player& player) const {
  // The player is only looked at.
  return in(const_cast<Player&>(player));  // NOLINT(cppcoreguidelines-pro-type-const-cast)
}

DrawColumn Term::of(const Sample& sample) const {
  if (kind == Kind::rate) return sample.rate(family, rate);
  if (kind == Kind::shell) return sample.cell(family, cell_of(static_cast<Shell>(shell)), rate);
  return sample.bins(part, family == no_family ? 0 : family)[bin];
}

std::vector<Term> terms_of(const PointGradients& gradient) {
  Collector collector;
  const DriveGradient& points = gradient.points;
  const DriveGradient& net = gradient.net_points;
  for (std::size_t f = 0; f < net.families.size(); ++f)
    collector.add_family(f, points.families[f], net.families[f]);
  collector.add_bins(no_family, GainPart::scramble, points.scramble_bins, net.scramble_bins);
  collector.add_bins(no_family, GainPart::sack, points.sack_bins, net.sack_bins);
  return std::move(collector.terms);
}

}  // namespace callfit::ask
