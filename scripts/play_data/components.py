"""The observed outcomes that are fitted together: which rows, which distribution, which shifts."""
import numpy as np

from . import assumed
from .call_mix import odds_of_mix
from .estimate import ProportionalOdds, before_spotting, counts, kaplan_meier, smooth_tail
from .plays import DEEP, DROPBACKS, PASS_FAMILIES, QUICK, in_range
from .spotting import span

LATE = (3, 4)
PASS_DOWNS = [((1, 1), (11, 99)), ((2, 2), (1, 2)), ((2, 2), (3, 6)), ((2, 2), (7, 10)),
              ((2, 2), (11, 99)), (LATE, (1, 1)), (LATE, (2, 3)), (LATE, (4, 6)), (LATE, (7, 10)),
              (LATE, (11, 15)), (LATE, (16, 99))]
PASS_BANDS = [(1, 2), (3, 5), (6, 10), (11, 20), (91, 99)]
RUN_DOWNS = [((1, 2), (11, 99)), ((2, 2), (2, 3)), (LATE, (1, 1)), (LATE, (2, 3)), (LATE, (4, 10)),
             (LATE, (11, 99))]
RUN_BANDS = [(1, 1), (2, 2), (3, 5), (6, 10), (11, 20), (91, 99)]
SCRAMBLE_DOWNS = [(LATE, (1, 6)), (LATE, (7, 99))]
SCRAMBLE_BANDS = [(1, 5), (6, 20)]
SHORT = ["screen"] + QUICK
LONG = ["intermediate"] + DEEP
YARDS = {"yac": (-15, 99), "run": (-15, 99), "scramble": (-5, 90), "depth": (-12, 70)}


def rules(downs, bands, families=None, kinds=None):
    """Columns of a design: a situation and to whom it applies."""
    who = {"families": families} if families else {"kinds": kinds} if kinds else {}
    return ([dict(when={"down": list(d), "to_go": list(t)}, **who) for d, t in downs]
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
    """On late downs what is told of a gain is whether it reached the line: receivers and runners go
    for it, defenders guard it or give up everything but it, so the yards are no shifted ones."""
    at = part.rows
    low, high = YARDS[part.gain]
    late = plays["down"][at] >= 3
    reached = yards >= needed
    edge = needed + plays.spotting.share * plays.spotting.before_goal[at]
    part.least = np.where(late, np.where(reached, np.maximum(edge, low), low), part.least)
    part.most = np.where(late, np.where(reached, high, edge - 1), part.most)


def gain_component(plays, name, rows, yards, censored, families, base_rows, columns, factor=None,
                   needed=None):
    """`families`: lists of families that share a base distribution, estimated on `base_rows`. Where
    `needed` is given, it is what reaches the line."""
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
    if needed is not None:
        reach_the_line(part, plays, yards[part.rows], needed[part.rows])
    part.censored = censored[part.rows]
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
                                    rows & open_field, rules(PASS_DOWNS, bands, families)))
    return parts


def after_catch_components(plays):
    air, yac, spot = plays["air_yards"], plays["yac"], plays["yards_to_goal"]
    reached = air + yac >= spot
    parts = []
    for families, groups, needed in ((SHORT, [[f] for f in SHORT], plays["to_go"] - air),
                                     (LONG, [["intermediate"], DEEP], None)):
        rows = plays.of(*families) & (plays["complete"] == 1) & (air < spot) & ~np.isnan(yac)
        parts.append(gain_component(plays, "yac", rows, yac, reached, groups, rows & (spot > 20),
                                    rules(PASS_DOWNS, PASS_BANDS, families), "yac", needed))
    return parts


def run_components(plays):
    yards, spot = plays["yards"], plays["yards_to_goal"]
    reached = yards >= spot
    runs, scrambles = plays.of("handoff"), plays.of("scramble")
    plain = (spot > 10) & (spot < 91) & ~((plays["down"] >= 3) & (plays["to_go"] <= 1))
    return [gain_component(plays, "run", runs, yards, reached, [["handoff"]], runs & plain,
                           rules(RUN_DOWNS, RUN_BANDS, kinds=["handoff"]), "run", plays["to_go"]),
            gain_component(plays, "scramble", scrambles, yards, reached, [["scramble"]],
                           scrambles & (spot > 20),
                           rules(SCRAMBLE_DOWNS, SCRAMBLE_BANDS, kinds=["pass"]))]


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
