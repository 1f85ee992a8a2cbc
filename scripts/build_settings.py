#!/usr/bin/python3
"""Makes settings/*.json, schemes/*-average.json and settings/observed/*.json.

Usage: scripts/build_settings.py [--seasons FIRST[-LAST]] [--college 2025|2014-2019] [--out FOLDER]
Reads data/. Other seasons than the shipped ones go to another folder. Needs Debian's python3-numpy.
Deterministic: same input, same bytes.
docs/settings.md says what each group is and where it comes from."""
import argparse
import copy
import json
import math
import os

from play_data import (assumed, average_scheme, college, coverage, families, kicks, mixture,
                       observed, own_goal, plays, situations, surroundings)
from play_data.components import all_components, goal_spotting

SHIPPED = "2015-2018"


def rules(start, played):
    try_mean, tries = kicks.try_points(played)
    return {"touchdown": 6, "try_mean": round(try_mean, 4), "field_goal": 3, "safety": 2,
            "end_zone_depth": 10, "kick_distance_beyond_line": 18,
            "missed_kick": {"behind_line": 8, "minimum_own_yard": 20}, "other_touchback": 20,
            "hash_gap_feet": 18.5,
            "safety_kick_start": kicks.safety_kick(played, start),
            "n": {"try_mean": tries}, "source": "rules; try_mean: play-data"}


def levels():
    return {name: {"weight": weight, "shifts": shifts, "source": "assumed"}
            for name, (weight, shifts) in assumed.LEVELS.items()}


def professional(played, parts, tracked, surroundings):
    book = families.FamilyBook(played, parts, tracked)
    start = kicks.NextStart(played)
    lost = {name: round(value, 5) for name, (value, _) in book.fumble_lost.items()}
    lost.update(n={name: n for name, (_, n) in book.fumble_lost.items()}, source="play-data")
    a_game, cut_off = kicks.drives_per_game(played)
    return {
        "format": "callfit-setting/1", "id": "pro", "label": f"Professional, {played.years}",
        "level": "pro",
        "about": f"Counted on drives begun in the first or third quarter of {played.years}; kicks"
                 " and turnover returns on all quarters; kickoffs of the last rules only.",
        "sources": assumed.SOURCES, "rules": rules(start, played),
        "definitions": assumed.DEFINITIONS,
        "surroundings": {"points_per_drive_spread": round(surroundings[0], 3),
                         "n": surroundings[1], "source": "quarterbacks"},
        "drives_per_game": round(a_game, 3), "end_of_half_share": round(cut_off, 4),
        "families": {name: book.family(name) for name in assumed.LABELS},
        "population": "population/pro.json",
        "shared_gains": book.shared_gains(), "fumble_lost": lost,
        "bad_snap": situations.bad_snap(played), "spotted_short": played.spotting.setting(),
        "own_goal": own_goal.own_goal(played, parts),
        "turnovers": kicks.turnovers(played, start), "cells": situations.cells(tracked),
        "levels": levels(), "shells": tracked.shell_rules(),
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


def derived_levels(own):
    """Weights and shifts seen from another level: the own level's snaps count whole and unmoved."""
    own_weight, own_shifts = assumed.LEVELS[own]
    return {name: {"weight": min(1.0, round(weight / own_weight, 3)),
                   "shifts": {} if name == own else
                   {rate: round(shifts.get(rate, 0) - own_shifts.get(rate, 0), 3)
                    for rate in sorted({*shifts, *own_shifts})},
                   "source": "assumed"}
            for name, (weight, shifts) in assumed.LEVELS.items()}


def merged(base, change):
    """The change laid over the base, as the settings' reader does (RFC 7386)."""
    if not isinstance(change, dict) or not isinstance(base, dict):
        return copy.deepcopy(change)
    out = {key: value for key, value in base.items() if change.get(key, value) is not None}
    for key, value in change.items():
        if value is not None:
            out[key] = merged(out.get(key), value)
    return out


def high_school_families(base):
    change, out = assumed.HIGH_SCHOOL, {}
    for name, family in base.items():
        is_pass = family["kind"] == "pass"
        part = "yac" if is_pass else "run"
        gain = family["gains"][part]
        out[name] = {"gains": {part: {"p": shifted_pmf(gain, change["gains"][part])["p"],
                                      "source": "assumed"}}}
        if is_pass:
            out[name]["rates"] = {
                rate: {"mean": round(shifted(family["rates"][rate]["mean"], shift), 5),
                       "source": "assumed"} for rate, shift in change["rates"].items()}
    return out


def high_school(college):
    """College with stated shifts: there are no data."""
    change = assumed.HIGH_SCHOOL
    classes = copy.deepcopy(college["quality"]["classes"])
    for entry in classes:
        for part in ("rates", "gains"):
            entry[part] = {name: round(value * change["quality"], 4)
                           for name, value in entry[part].items()}
    wider = change["wider"]
    cells = copy.deepcopy(college["cells"])
    for cell in cells:
        for entry in cell["rates"].values():
            entry["kappa"] = round(entry["kappa"] / wider**2, 1)
        cell["source"] = "assumed"
        for counted in ("n", "about"):
            cell.pop(counted, None)
    beyond = college["surroundings"]["points_per_drive_spread"]
    return {
        "format": "callfit-setting/1", "based_on": "college.json", "id": "high-school",
        "label": "High school, stated shifts of college", "level": "high_school",
        "about": "There are no data of high schools. College with stated shifts, all assumed, and"
                 " games that differ more; all else is inherited: " + json.dumps(change),
        "population": "population/high-school.json",
        "rules": {**change["rules"], "source": "rules; try_mean: assumed"},
        "surroundings": {"points_per_drive_spread": round(beyond * wider, 3), "n": None,
                         "source": "assumed"},
        "drives_per_game": change["drives_per_game"], "cells": cells,
        "families": high_school_families(college["families"]),
        "levels": derived_levels("high_school"),
        "field_goal": {"longest": change["longest"], "source": "assumed", "n": None,
                       "intercept": round(college["field_goal"]["intercept"]
                                          + change["field_goal_intercept"], 4)},
        "quality": {"classes": classes, "source": "assumed"}}


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


def arguments(root):
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--seasons", default=SHIPPED, help="FIRST or FIRST-LAST (%(default)s)")
    parser.add_argument("--college", default="2025", choices=["2025", "2014-2019"],
                        help="season that college is moved on to (%(default)s)")
    parser.add_argument("--out", default=root, help="where settings/ and schemes/ go")
    chosen = parser.parse_args()
    years = [int(year) for year in chosen.seasons.split("-")]
    moved_on = chosen.college == "2025"
    os.makedirs(chosen.out, exist_ok=True)
    if (chosen.seasons != SHIPPED or not moved_on) and os.path.samefile(chosen.out, root):
        parser.error("other seasons need --out: the shipped files are of " + SHIPPED + " and 2025")
    return (years[0], years[-1]), moved_on, chosen.out


def copy_what_is_named(root, out):
    """What settings and schemes name but other hands make: populations, play families."""
    places = [os.path.join("settings", "population", name + ".json")
              for name in ("pro", "college", "high-school")]
    for place in [*places, os.path.join("schemes", "families.json")]:
        with open(os.path.join(root, place), encoding="utf-8") as stream:
            write(os.path.join(out, place), json.load(stream))


def main():
    root = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..")
    data = os.path.join(root, "data")
    seasons, moved_on, out = arguments(root)
    played = plays.Plays(os.path.join(data, "play-data"), seasons)
    played.spotting.at_goal, played.spotting.n_goal = goal_spotting(played)
    parts = all_components(played)
    plain, mixed = mixture.fit_all(parts, played.offence_in_game())
    print(f"quality of the offence: log-likelihood {plain:.1f} without, {mixed:.1f} with classes")
    beyond = surroundings.points_per_drive_spread(os.path.join(data, "quarterbacks"))
    pro = professional(played, parts, coverage.Coverage(data), beyond)
    write(os.path.join(out, "settings", "pro.json"), pro)
    print(played.spotting.said())
    print("first downs by fouls that wiped the down out, share of the down's snaps:",
          situations.Penalties(played).first_downs())
    converted, unfouled = observed.without_fouls(played)
    print(f"series converted: {converted}; of snaps without a foul alone: {unfouled}")
    own, scheme, said = college.college(played, data, pro, moved_on)
    own["levels"] = derived_levels("college")
    print("college:", json.dumps(said))
    write(os.path.join(out, "settings", "college.json"), own)
    write(os.path.join(out, "schemes", "college-average.json"), scheme)
    write(os.path.join(out, "settings", "observed", "college-2025.json"), college.observed(data))
    write(os.path.join(out, "settings", "high-school.json"), high_school(merged(pro, own)))
    league = average_scheme.league_average(played)
    print("dropbacks on first down, and snaps:", average_scheme.first_down_dropbacks(league))
    write(os.path.join(out, "schemes", "league-average.json"), league)
    write(os.path.join(out, "settings", "observed", f"pro-{played.years}.json"),
          observed.observed(played, data))
    if not os.path.samefile(out, root):
        copy_what_is_named(root, out)


if __name__ == "__main__":
    main()
