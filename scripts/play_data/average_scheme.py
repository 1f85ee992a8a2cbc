"""Calls of an average offence by situation, from the same plays."""
import numpy as np

from . import assumed
from .families import QB_RUNS
from .plays import PASS_FAMILIES, in_range

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
    + [(ONE, ANY, (91, 99)), (TWO, (1, 6), (91, 99)), (TWO, (7, 99), (91, 99)),
       (LATE, (1, 3), (91, 99)), (LATE, (4, 99), (91, 99))]
    + [(ONE, t, (21, 90)) for t in ((1, 5), (6, 10), (11, 15), (16, 99))]
    + [(TWO, t, (21, 90)) for t in ((1, 1), (2, 3), (4, 6), (7, 9), (10, 10), (11, 15), (16, 99))]
    + [(THREE, t, (21, 90)) for t in ((1, 1), (2, 2), (3, 3), (4, 6), (7, 10), (11, 15), (16, 99))]
    + [(FOUR, (1, 1), (21, 90)), (FOUR, (2, 99), (21, 90))])
ORDINAL = {1: "First", 2: "Second", 3: "Third", 4: "Fourth"}


def _span(band, unit=""):
    low, high = band
    if high == 99 and low > 1:
        return f"{low}+{unit}"
    return f"{low}{unit}" if low == high else f"{low}-{high}{unit}"


def _label(down, to_go, band):
    name = " or ".join(ORDINAL[d] for d in range(down[0], down[1] + 1))
    name = name[0] + name[1:].lower()
    if to_go != ANY:
        name += f" and {_span(to_go)}"
    where = {(21, 90): "", (91, 99): ", own 1-9"}.get(band, f", inside {_span(band)} yards")
    return name + where


def _weights(plays, rows):
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


def league_average(plays):
    every = plays.counted & (plays.family != "")
    situations = []
    for down, to_go, band in SITUATIONS:
        rows = (plays.counted & in_range(plays["down"], down) & in_range(plays["to_go"], to_go)
                & in_range(plays["yards_to_goal"], band) & (plays.family != ""))
        when = {"down": list(down), "to_go": list(to_go), "yards_to_goal": list(band)}
        known = bool((rows & (plays.family != "sack") & (plays.family != "scramble")).any())
        if not known:
            print(f"league average: no snap whose call is known in {_label(down, to_go, band)}; it"
                  " calls what is called everywhere")
        situations.append({"id": f"down{down[0]}{'' if down[0] == down[1] else down[1]}"
                                 f"_togo{to_go[0]}_{to_go[1]}_spot{band[0]}_{band[1]}",
                           "label": _label(down, to_go, band), "when": when,
                           "calls": _weights(plays, rows if known else every),
                           "snaps": int(rows.sum())})
    situations.append({"id": "other", "label": "Everything else", "when": {},
                       "calls": _weights(plays, every), "snaps": int(every.sum())})
    return {"format": "callfit-scheme/1", "id": "league-average", "name": "League average",
            "about": f"Calls of an average professional offence, {plays.years}, drives begun in the"
                     " first or third quarter; pass families by depth and lane of the throw."
                     " The three kinds of planned quarterback run are one in the data and shared"
                     " out evenly.",
            "source": assumed.SOURCES["play-data"], "families": "families.json",
            "situations": situations, "demands": []}
