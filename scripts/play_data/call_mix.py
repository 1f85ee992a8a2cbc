"""Which families are called where, and what that alone makes of sacks and scrambles."""
import numpy as np

from . import assumed
from .estimate import logistic, logit
from .plays import PASS_FAMILIES, QB_RUNS, in_range

ANY = (1, 99)
ONE, TWO, THREE, FOUR, LATE = (1, 1), (2, 2), (3, 3), (4, 4), (3, 4)
SITUATIONS = (
    [(d, ANY, (1, 2)) for d in (ONE, TWO, LATE)]
    + [(ONE, ANY, (3, 5)), (TWO, ANY, (3, 5)), (LATE, (1, 2), (3, 5)), (LATE, (3, 99), (3, 5))]
    + [(ONE, ANY, (6, 10)), (TWO, (1, 5), (6, 10)), (TWO, (6, 99), (6, 10)),
       (LATE, (1, 2), (6, 10)), (LATE, (3, 99), (6, 10))]
    + [(ONE, ANY, (11, 20)), (TWO, (1, 3), (11, 20)), (TWO, (4, 8), (11, 20)),
       (TWO, (9, 99), (11, 20)), (LATE, (1, 1), (11, 20)), (LATE, (2, 3), (11, 20)),
       (LATE, (4, 6), (11, 20)), (LATE, (7, 99), (11, 20))]
    + [(ONE, ANY, (97, 99)), (ONE, ANY, (91, 96)), (TWO, (1, 6), (91, 99)),
       (TWO, (7, 99), (91, 99)), (LATE, (1, 3), (91, 99)), (LATE, (4, 10), (91, 99)),
       (LATE, (11, 99), (91, 99))]
    + [(ONE, ANY, (86, 90)), (TWO, (7, 99), (86, 90)), (THREE, (11, 99), (86, 90))]
    + [(ONE, t, (21, 85)) for t in ((1, 5), (6, 10), (11, 15), (16, 99))]
    + [(TWO, t, (21, 90)) for t in ((1, 1), (2, 3), (4, 6))]
    + [(TWO, t, (21, 85)) for t in ((7, 9), (10, 10), (11, 15), (16, 99))]
    + [(THREE, t, (21, 90)) for t in ((1, 1), (2, 2), (3, 3), (4, 6), (7, 10))]
    + [(THREE, t, (21, 85)) for t in ((11, 15), (16, 99))]
    + [(FOUR, (1, 1), (21, 90)), (FOUR, (2, 99), (21, 90))])


def solve_level(odds, throws, target):
    """Rates by family with these log-odds differences whose mean over dropbacks is `target`."""
    low, high = -10.0, 3.0
    for _ in range(80):
        middle = (low + high) / 2
        rate = {f: logistic(middle + odds[f]) for f in PASS_FAMILIES}
        dropbacks = {f: throws[f] / (1 - rate[f]) for f in PASS_FAMILIES}
        mean = (sum(dropbacks[f] * rate[f] for f in PASS_FAMILIES) / sum(dropbacks.values()))
        low, high = (middle, high) if mean < target else (low, middle)
    return rate


def weights(plays, rows):
    """Calls of the situation. A dropback that ended in a sack or scramble has no depth: it is dealt
    to the families by their odds of such an end (assumed)."""
    names = PASS_FAMILIES + ["handoff", "qb_run", "qb_sneak"]
    count = {f: float((rows & (plays.family == f)).sum()) for f in names}
    for result, odds in (("sack", assumed.SACK_ODDS), ("scramble", assumed.SCRAMBLE_ODDS)):
        loose = int((rows & (plays.family == result)).sum())
        lean = {f: count[f] * np.exp(odds[f]) for f in PASS_FAMILIES}
        total = sum(lean.values())
        if total > 0:
            for f in PASS_FAMILIES:
                count[f] += loose * lean[f] / total
    qb_run = count.pop("qb_run")
    for f in QB_RUNS:
        count[f] = qb_run / len(QB_RUNS)
    total = sum(count.values())
    return {f: round(value / total, 4) for f, value in count.items()}


def snaps_in(plays, situation):
    down, to_go, band = situation
    return (plays.counted & in_range(plays["down"], down) & in_range(plays["to_go"], to_go)
            & in_range(plays["yards_to_goal"], band) & (plays.family != ""))


def _of_dropbacks(plays, rows, rate):
    """The share of the situation's dropbacks that end so, at the families' all-round rates."""
    calls = weights(plays, rows)
    dropbacks = sum(calls[f] for f in PASS_FAMILIES)
    return sum(calls[f] * rate[f] for f in PASS_FAMILIES) / dropbacks


def odds_of_mix(plays, odds, result):
    """For every row, by how much its situation's choice of families alone moves the log-odds that a
    dropback ends in this result. What a situation adds is told beside it: long throws are called on
    third and long, and take their sacks along."""
    every = plays.counted & (plays.family != "")
    ends = int((every & (plays.family == result)).sum())
    throws = {f: int(plays.of(f).sum()) for f in PASS_FAMILIES}
    dropbacks = sum(int((every & (plays.family == name)).sum()) for name in ("sack", "scramble"))
    rate = solve_level(odds, throws, ends / (dropbacks + sum(throws.values())))
    usual = logit(_of_dropbacks(plays, every, rate))
    moved = np.zeros(len(every))
    for situation in SITUATIONS:
        rows = snaps_in(plays, situation)
        if (rows & np.isin(plays.family, PASS_FAMILIES)).any():
            moved[rows] = logit(_of_dropbacks(plays, rows, rate)) - usual
    return moved
