"""The observed outcomes that are fitted together: which rows, which distribution, which shifts."""
import numpy as np

from . import assumed
from .call_mix import odds_of_mix
from .estimate import (RIDGE, ProportionalOdds, before_spotting, counts, kaplan_meier,
                       smooth_tail)
from .plays import DEEP, DROPBACKS, PASS_FAMILIES, QUICK, in_range
from .spotting import GOAL_SPOTTING_FROM, span

LATE = (3, 4)
PASS_DOWNS = [((1, 1), (11, 99)), ((2, 2), (1, 2)), ((2, 2), (3, 6)), ((2, 2), (7, 10)),
              ((2, 2), (11, 99)), (LATE, (1, 1)), (LATE, (2, 3)), (LATE, (4, 6)), (LATE, (7, 10)),
              (LATE, (11, 15)), (LATE, (16, 99))]
PASS_BANDS = [(1, 2), (3, 5), (6, 10), (11, 20), (91, 99)]
# Short of the goal line: there the distance counts on every down, and the bands of the field tell it.
RUN_DOWNS = [((1, 2), (11, 99)), ((2, 2), (2, 3), (4, 99)), (LATE, (1, 1), (2, 99)),
             (LATE, (2, 3), (4, 99)), (LATE, (4, 10), (11, 99)), (LATE, (11, 99))]
RUN_BANDS = [(1, 1), (2, 2), (3, 5), (6, 10), (11, 20), (91, 96), (97, 99)]
QB_RUN_BANDS = [(1, 5), (6, 10), (11, 20)]
SCRAMBLE_DOWNS = [(LATE, (1, 6)), (LATE, (7, 99))]
SCRAMBLE_BANDS = [(1, 5), (6, 20)]
SHORT = ["screen"] + QUICK
LONG = ["intermediate"] + DEEP
NEAR_GOAL = 10
SHORT_SECOND = 6
YARDS = {"yac": (-15, 99), "run": (-15, 99), "scramble": (-5, 90), "depth": (-12, 70)}


def rules(downs, bands, families=None, kinds=None):
    """Columns of a design: a situation and to whom it applies."""
    who = {"families": families} if families else {"kinds": kinds} if kinds else {}
    words = ("down", "to_go", "yards_to_goal")
    return ([dict(when={word: list(band) for word, band in zip(words, situation)}, **who)
             for situation in downs]
            + [dict(when={"yards_to_goal": list(band)}, **who) for band in bands])


class Component:
    """One kind of outcome. `rate` or `gain` names what its shifts move; `factor` names the shift
    that the quality of the offence moves along with (None: none)."""

    def __init__(self, plays, rows, columns, factor=None, rate=None, gain=None):
        self.rows = np.nonzero(rows)[0]
        self.columns, self.factor, self.rate, self.gain = columns, factor, rate, gain
        self.drive = plays.drive[self.rows]
        self.n = len(self.rows)
        self.X = np.array([self._applies(plays, column) for column in columns], float).T
        self.constants = 0  # leading columns of X without a ridge
        self.beta, self.loading = None, 0.0
        self.offset = np.zeros(self.n)  # what is known of each row's log-odds beforehand

    def _applies(self, plays, column):
        at = self.rows
        inside = np.ones(len(at), bool)
        for name, band in column["when"].items():
            inside &= in_range(plays[name][at], band)
        if "families" in column:
            inside &= np.isin(plays.family[at], column["families"])
        return inside

    def with_constants(self, table):
        self.constants = table.shape[1]
        self.X = np.hstack([table, self.X])
        return self

    def shifts(self):
        return zip(self.columns, self.beta[self.constants:])


def rate_component(plays, name, rows, hit, columns, families=None, factor=None):
    part = Component(plays, rows, columns, factor, rate=name)
    part.hit = hit[part.rows].astype(float)
    groups = [plays.family[part.rows] == f for f in families] if families else [
        np.ones(part.n, bool)]
    return part.with_constants(np.array(groups, float).T)


def reach_the_line(part, plays, yards, needed):
    """On late downs, where the goal is near, and of throws where second down is short, what is told of a
    gain is whether it reached the line: receivers and runners go for it, defenders guard it or give
    up everything but it, so the yards are no shifted ones. Of a depth it is told where throws of
    that family may reach the line or not."""
    at = part.rows
    low, high = YARDS[part.gain]
    told = (plays["down"][at] >= 3) | (plays["yards_to_goal"][at] <= NEAR_GOAL)
    if part.gain != "run":
        told |= (plays["down"][at] == 2) & (plays["to_go"][at] <= SHORT_SECOND)
    reached = yards >= needed
    spotting = plays.spotting
    edge = needed + np.where(spotting.before_goal[at], spotting.share,
                             spotting.at_goal * spotting.near_goal[at])
    if part.gain == "depth":
        told &= (needed > yards.min()) & (needed <= yards.max())
        edge = needed
    part.least = np.where(told, np.where(reached, np.maximum(edge, low), low), part.least)
    part.most = np.where(told, np.where(reached, high, edge - 1), part.most)


def spot_at_goal(part, plays, room, share):
    """Near the goal a touchdown says that the gain went beyond what just reaches it by the `share` of a
    yard, a ball on the 1 that it fell short of that."""
    near = plays.spotting.near_goal[part.rows]
    left = room - part.most
    part.least = np.where(near & part.censored, room + share, part.least)
    part.most = np.where(near & ~part.censored & (left == 1), part.most + share, part.most)


def gain_component(plays, name, rows, yards, censored, families, base_rows, columns, factor=None,
                   needed=None, room=None):
    """`families`: lists of families that share a base distribution, estimated on `base_rows`. Where
    `needed` is given, it is what reaches the line; `room` is what reaches the goal."""
    low, high = YARDS[name]
    bases = []
    for group in families:
        at = base_rows & np.isin(plays.family, group)
        if name == "depth":
            bases.append(kaplan_meier(yards[at], censored[at], low, high))
        else:
            bases.append(smooth_tail(before_spotting(yards[at], censored[at], low, high,
                                                     plays.spotting.short[at],
                                                     plays.spotting.share), low, 20))
    part = Component(plays, rows, columns, factor, gain=name)
    part.which = np.zeros(part.n, int)
    for place, group in enumerate(families):
        part.which[np.isin(plays.family[part.rows], group)] = place
    part.least = part.most = yards[part.rows]
    if name != "depth":
        part.least, part.most = span(part.most, plays.spotting.short[part.rows],
                                     plays.spotting.reached[part.rows])
    part.censored = censored[part.rows]
    if name == "run":  # the own 1 is as far back as a ball is spotted: more was lost, or not
        back = yards[part.rows] <= plays["yards_to_goal"][part.rows] - 99
        part.least = np.where(back, low, part.least)
    if room is not None:
        spot_at_goal(part, plays, room[part.rows], plays.spotting.at_goal)
    if needed is not None:
        reach_the_line(part, plays, yards[part.rows], needed[part.rows])
    part.odds = ProportionalOdds(bases, low)
    part.groups = families
    return part.with_constants(np.ones((part.n, 1)))


def dropback_components(plays):
    rows = plays.counted & np.isin(plays["play_type"], DROPBACKS) & (plays["aborted"] == 0)
    columns = rules(PASS_DOWNS, PASS_BANDS, kinds=["pass"])
    parts = []
    for name, factor, odds in (("sack", "sack", assumed.SACK_ODDS),
                               ("scramble", None, assumed.SCRAMBLE_ODDS)):
        part = rate_component(plays, name, rows, plays["play_type"] == name, columns, factor=factor)
        part.offset = odds_of_mix(plays, odds, name)[part.rows]
        parts.append(part)
    return parts


def throw_components(plays):
    rows = plays.of(*PASS_FAMILIES)
    downs = rules(PASS_DOWNS, [], kinds=["pass"])
    completion = (downs + rules([], PASS_BANDS, QUICK)
                  + rules([], [(6, 10), (11, 20), (91, 99)], ["intermediate"])
                  + rules([], [(1, 10)], ["screen"]))
    interception = downs + rules([], [(1, 10), (11, 20), (91, 99)], kinds=["pass"])
    return [rate_component(plays, "completion", rows, plays["complete"] == 1, completion,
                           PASS_FAMILIES, "completion"),
            rate_component(plays, "interception", rows, plays["interception"] == 1, interception,
                           PASS_FAMILIES, "interception")]


def depth_components(plays):
    caught = plays["complete"] == 1
    open_field = plays["yards_to_goal"] > 20
    never = np.zeros(len(caught), bool)
    air = plays["air_yards"]
    parts = []
    for families, bands in ((QUICK, PASS_BANDS), (["intermediate"], [(6, 10), (11, 20), (91, 99)])):
        rows = plays.of(*families) & caught & (air <= plays["yards_to_goal"] + 9)
        parts.append(gain_component(plays, "depth", rows, air, never, [[f] for f in families],
                                    rows & open_field, rules(PASS_DOWNS, bands, families),
                                    needed=plays["to_go"]))
    return parts


def after_catch_components(plays):
    air, yac, spot = plays["air_yards"], plays["yac"], plays["yards_to_goal"]
    reached = air + yac >= spot
    parts = []
    for families, groups, needed in ((SHORT, [[f] for f in SHORT], plays["to_go"] - air),
                                     (LONG, [["intermediate"], DEEP], None)):
        rows = plays.of(*families) & (plays["complete"] == 1) & (air < spot) & ~np.isnan(yac)
        parts.append(gain_component(plays, "yac", rows, yac, reached, groups, rows & (spot > 20),
                                    rules(PASS_DOWNS, PASS_BANDS, families), "yac", needed,
                                    spot - air))
    return parts


def run_components(plays):
    yards, spot = plays["yards"], plays["yards_to_goal"]
    reached = yards >= spot
    runs, scrambles = plays.of("handoff"), plays.of("scramble")
    planned = plays.of("qb_run", "qb_sneak")
    plain = (spot > 10) & (spot < 91) & ~((plays["down"] >= 3) & (plays["to_go"] <= 1))
    return [gain_component(plays, "run", runs, yards, reached, [["handoff"]], runs & plain,
                           rules(RUN_DOWNS, RUN_BANDS, kinds=["handoff"]), "run", plays["to_go"],
                           spot),
            gain_component(plays, "scramble", scrambles, yards, reached, [["scramble"]],
                           scrambles & (spot > 20),
                           rules(SCRAMBLE_DOWNS, SCRAMBLE_BANDS, kinds=["pass"]), room=spot),
            gain_component(plays, "run", planned, yards, reached, [["qb_run"], ["qb_sneak"]],
                           planned, rules([], QB_RUN_BANDS, kinds=["qb_run"]),
                           needed=plays["to_go"], room=spot)]


GOAL_BANDS = [(3, 5), (6, 10), (11, GOAL_SPOTTING_FROM)]


def goal_spotting(plays):
    """Of gains that just reach the goal line the share that is spotted on the 1, to a hundredth, by the
    likelihood of handoffs and of yards after short catches, each kind and band of the field with a
    shift of its own; and the rows. From the 1 and the 2 it cannot be told: there a ball that never
    moved lies on the 1 too."""
    spot, air, yac = plays["yards_to_goal"], plays["air_yards"], plays["yac"]
    caught = plays.of(*SHORT) & (plays["complete"] == 1) & (air < spot) & ~np.isnan(yac)
    found = []
    for name, rows, yards, room, groups in (
            ("run", plays.of("handoff"), plays["yards"], spot, [["handoff"]]),
            ("yac", caught, yac, spot - air, [[f] for f in SHORT])):
        near = rows & in_range(spot, (3, GOAL_SPOTTING_FROM)) & ~plays.lost
        part = gain_component(plays, name, near, yards, yards >= room, groups,
                              rows & (spot > GOAL_SPOTTING_FROM), rules([], GOAL_BANDS, kinds=["any"]))
        part.plain, part.room = (part.least, part.most), room[part.rows]
        found.append(part)

    def misfit(share):
        total = 0.0
        for part in found:
            part.least, part.most = part.plain
            spot_at_goal(part, plays, part.room, share)
            ridge = np.full(part.X.shape[1], RIDGE)
            at = (part.which, part.least, part.most, part.censored)
            beta = part.odds.fit(part.X, *at, np.ones(part.n), ridge)
            total -= part.odds.log_likelihood(*at, part.X @ beta).sum()
        return total

    shares = np.linspace(0, 1, 101)
    return float(min(shares, key=misfit)), sum(part.n for part in found)


def all_components(plays):
    return (dropback_components(plays) + throw_components(plays) + depth_components(plays)
            + after_catch_components(plays) + run_components(plays))


def simple_gain(plays, rows, low, high, censor=True):
    """Distribution of the yards of some rows, cut gains treated as censored."""
    yards = plays["yards"][rows]
    reached = (yards >= plays["yards_to_goal"][rows]) & censor
    return before_spotting(yards, reached, low, high, plays.spotting.short[rows],
                           plays.spotting.share)


def depth_shares(plays, rows):
    return counts(plays["air_yards"][rows], *YARDS["depth"])
