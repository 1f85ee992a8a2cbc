#!/usr/bin/python3
"""Makes settings/*.json, schemes/league-average.json and settings/observed/*.json.

Usage: scripts/build_settings.py REFERENCE
REFERENCE is a folder with goldner_2012_table3.csv and play-data/ (plays.csv.gz, drives.csv.gz and
the aggregated tables). Needs Debian's python3-numpy. Deterministic: same input, same bytes.
docs/settings.md says what each group is and where it comes from."""
import copy
import json
import math
import os
import sys

from play_data import (assumed, average_scheme, families, kicks, mixture, observed, plays,
                       situations)
from play_data.components import all_components


def rules(start, played):
    return {"touchdown": 6, "try_mean": 0.9423, "field_goal": 3, "safety": 2,
            "end_zone_depth": 10, "kick_distance_beyond_line": 18,
            "missed_kick": {"behind_line": 8, "minimum_own_yard": 20}, "other_touchback": 20,
            "safety_kick_start": kicks.safety_kick(played, start),
            "n": {"try_mean": 5026}, "source": "rules; try_mean: play-data"}


def levels():
    return {name: {"weight": weight, "shifts": shifts, "source": "assumed"}
            for name, (weight, shifts) in assumed.LEVELS.items()}


def professional(played, parts):
    book = families.FamilyBook(played, parts)
    start = kicks.NextStart(played)
    lost = {name: round(value, 5) for name, (value, _) in book.fumble_lost.items()}
    lost.update(n={name: n for name, (_, n) in book.fumble_lost.items()}, source="play-data")
    return {
        "format": "callfit-setting/1", "id": "pro", "label": "Professional, 2015-2018",
        "level": "pro",
        "about": "Counted on drives begun in the first or third quarter of 2015-2018; kicks and"
                 " turnover returns on all quarters; kickoffs 2016-2018.",
        "sources": assumed.SOURCES, "rules": rules(start, played),
        "definitions": {"success": [0.4, 0.6, 1.0, 1.0], "explosive_pass": 20,
                        "explosive_run": 12, "source": "common practice, no source"},
        "drives_per_game": 11.38, "end_of_half_share": 0.0665,
        "families": {name: book.family(name) for name in assumed.LABELS},
        "population": "population/pro.json",
        "shared_gains": book.shared_gains(), "fumble_lost": lost,
        "bad_snap": situations.bad_snap(played),
        "turnovers": kicks.turnovers(played, start), "cells": situations.cells(),
        "levels": levels(), "shells": situations.shells(),
        "adjustments": situations.adjustments(parts, book.overall),
        "quality": situations.quality(mixture.loadings(parts)),
        "penalties": situations.Penalties(played).table(),
        "fourth_down": situations.fourth_down(played), "field_goal": kicks.field_goal(played),
        "punt": kicks.punts(played, start), "kickoff": kicks.kickoff(played),
        "starts": kicks.starts(played), "average_scheme": "league-average.json"}


def shifted(share, shift):
    return 1 / (1 + math.exp(-(math.log(share / (1 - share)) + shift)))


def shifted_pmf(pmf, shift):
    """Proportional odds: P(G >= g) moves by `shift` on the log-odds scale for g above the least."""
    beyond = [sum(pmf["p"][i:]) / sum(pmf["p"]) for i in range(len(pmf["p"]))]
    beyond = [1.0] + [shifted(b, shift) if 0 < b < 1 else b for b in beyond[1:]] + [0.0]
    return dict(pmf, p=[round(a - b, 6) for a, b in zip(beyond, beyond[1:])])


def derived_families(base, change):
    """A population of another level: its own rates and gains, so that a profile is pulled there."""
    out = copy.deepcopy(base)
    for family in out.values():
        is_pass = family["kind"] == "pass"
        for rate, shift in change["rates"].items() if is_pass else ():
            mean = family["rates"][rate]["mean"]
            family["rates"][rate]["mean"] = round(shifted(mean, shift), 5)
        part = "yac" if is_pass else "run"
        family["gains"][part] = shifted_pmf(family["gains"][part], change["gains"][part])
    return out


def derived_levels(own):
    """Weights and shifts seen from another level: the own level's snaps count whole and unmoved."""
    own_weight, own_shifts = assumed.LEVELS[own]
    return {name: {"weight": min(1.0, round(weight / own_weight, 3)),
                   "shifts": {} if name == own else
                   {rate: round(shifts.get(rate, 0) - own_shifts.get(rate, 0), 3)
                    for rate in sorted({*shifts, *own_shifts})},
                   "source": "assumed"}
            for name, (weight, shifts) in assumed.LEVELS.items()}


def derived(base, name):
    """The professional setting with stated shifts (assumed.DERIVED)."""
    change = assumed.DERIVED[name]
    out = copy.deepcopy(base)
    out.update(id=name, label=change["label"], level=change["level"],
               drives_per_game=change["drives_per_game"])
    out["about"] = ("The professional setting with stated shifts, all assumed, until data exist: "
                    + json.dumps({k: change[k] for k in ("rates", "gains", "field_goal_intercept",
                                                         "rules", "drives_per_game")}))
    out["rules"].update(change["rules"])
    out["field_goal"].update(longest=change["longest"], source="assumed", intercept=round(
        out["field_goal"]["intercept"] + change["field_goal_intercept"], 4))
    out["families"] = derived_families(base["families"], change)
    out["population"] = f"population/{name}.json"
    out["levels"] = derived_levels(change["level"])
    return out


def write(path, value):
    """Numbers of a distribution on one line, the rest indented; written whole or not at all."""
    os.makedirs(os.path.dirname(path), exist_ok=True)
    text = _lines(value, 0)
    with open(path + ".part", "w", encoding="utf-8") as stream:
        stream.write(text + "\n")
    os.replace(path + ".part", path)
    print(f"{path}: {len(text) // 1024} kB")


def _lines(value, depth):
    flat = json.dumps(value, ensure_ascii=False)
    if not isinstance(value, (dict, list)) or len(flat) + 2 * depth <= 98:
        return flat
    if isinstance(value, list) and not any(isinstance(v, (dict, list)) for v in value):
        return flat
    pad = "  " * (depth + 1)
    if isinstance(value, dict):
        inner = [f"{pad}{json.dumps(k)}: {_lines(v, depth + 1)}" for k, v in value.items()]
        ends = "{}"
    else:
        inner = [pad + _lines(v, depth + 1) for v in value]
        ends = "[]"
    return ends[0] + "\n" + ",\n".join(inner) + "\n" + "  " * depth + ends[1]


def main():
    if len(sys.argv) != 2 or not os.path.isdir(os.path.join(sys.argv[1], "play-data")):
        sys.exit("usage: build_settings.py REFERENCE   (a folder that holds play-data/)")
    reference = sys.argv[1]
    root = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..")
    played = plays.Plays(os.path.join(reference, "play-data"))
    parts = all_components(played)
    plain, mixed = mixture.fit_all(parts, played.offence_in_game())
    print(f"quality of the offence: log-likelihood {plain:.1f} without, {mixed:.1f} with classes")
    pro = professional(played, parts)
    write(os.path.join(root, "settings", "pro.json"), pro)
    for name in assumed.DERIVED:
        write(os.path.join(root, "settings", name + ".json"), derived(pro, name))
    write(os.path.join(root, "schemes", "league-average.json"),
          average_scheme.league_average(played))
    write(os.path.join(root, "settings", "observed", "pro-2015-2018.json"),
          observed.observed(played, reference))


if __name__ == "__main__":
    main()
