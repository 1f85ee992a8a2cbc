"""Calls of an average offence by situation, from the same plays."""
from . import assumed
from .call_mix import ANY, SITUATIONS, snaps_in, weights
from .plays import PASS_FAMILIES

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
    if band[1] <= 20:
        return name + f", inside {_span(band)} yards"
    return name + ("" if band[0] == 21 else f", own {_span((100 - band[1], 100 - band[0]))}")


def first_down_dropbacks(scheme):
    """Share of dropbacks and number of snaps of the situations of first down."""
    return {situation["label"]: (round(sum(situation["calls"][f] for f in PASS_FAMILIES), 2),
                                 situation["snaps"])
            for situation in scheme["situations"] if situation["when"].get("down") == [1, 1]}


def league_average(plays):
    every = plays.counted & (plays.family != "")
    situations = []
    for down, to_go, band in SITUATIONS:
        rows = snaps_in(plays, (down, to_go, band))
        when = {"down": list(down), "to_go": list(to_go), "yards_to_goal": list(band)}
        known = bool((rows & (plays.family != "sack") & (plays.family != "scramble")).any())
        if not known:
            print(f"league average: no snap whose call is known in {_label(down, to_go, band)}; it"
                  " calls what is called everywhere")
        situations.append({"id": f"down{down[0]}{'' if down[0] == down[1] else down[1]}"
                                 f"_togo{to_go[0]}_{to_go[1]}_spot{band[0]}_{band[1]}",
                           "label": _label(down, to_go, band), "when": when,
                           "calls": weights(plays, rows if known else every),
                           "snaps": int(rows.sum())})
    situations.append({"id": "other", "label": "Everything else", "when": {},
                       "calls": weights(plays, every), "snaps": int(every.sum())})
    return {"format": "callfit-scheme/1", "id": "league-average", "name": "League average",
            "about": f"Calls of an average professional offence, {plays.years}, drives begun in the"
                     " first or third quarter; pass families by depth and lane of the throw."
                     " The three kinds of planned quarterback run are one in the data and shared"
                     " out evenly.",
            "source": assumed.SOURCES["play-data"], "families": "families.json",
            "situations": situations, "demands": []}
