"""What real drives did: kept apart, to compare with and never to fit."""
import csv
import os

import numpy as np

from . import assumed
from .plays import SCRIMMAGE, in_range

RESULTS = {"touchdown": "td", "field_goal": "fg_made", "missed_field_goal": "fg_missed",
           "punt": "punt", "interception": "interception", "fumble": "fumble", "downs": "downs",
           "safety": "safety"}
BUCKETS = {"ALL": (1, 99), "own_1-9": (91, 99), "own_10-14": (86, 90), "own_15-19": (81, 85),
           "own_20-24": (76, 80), "own_25": (75, 75), "own_26-29": (71, 74), "own_30-39": (61, 70),
           "own_40-49": (51, 60), "opp_41-50": (41, 50), "opp_31-40": (31, 40),
           "opp_21-30": (21, 30), "opp_11-20": (11, 20), "opp_1-10": (1, 10)}
SERIES_BANDS = [(1, 99), (1, 5), (6, 10), (11, 20), (21, 30), (31, 40), (41, 50), (51, 60),
                (61, 70), (71, 80), (81, 90), (91, 99)]
LENGTH_BANDS = [(0, 3), (4, 6), (7, 9), (10, 12), (13, 15), (16, 99)]
THIRD_BANDS = [(1, 1), (2, 3), (4, 6), (7, 10), (11, 15), (16, 45), (1, 45)]


def drive_results(drives, used):
    """Drives `used` as all and by start; an unknown start counts in ALL alone."""
    out = []
    for bucket, band in BUCKETS.items():
        inside = used if bucket == "ALL" else used & in_range(drives["start_yards_to_goal"], band)
        n = int(inside.sum())
        if n == 0:
            continue
        points = drives["points"][inside]
        share = lambda word: round(float((drives["result"][inside] == word).mean()), 5)
        out.append({"start": bucket, "yards_to_goal": list(band), "n": n,
                    "points": round(float(points.mean()), 5),
                    "points_se": round(float(points.std() / np.sqrt(n)), 5),
                    "plays": round(float(drives["plays"][inside].mean()), 5),
                    "results": {name: share(word) for name, word in RESULTS.items()}})
    return out


def drive_lengths(drives, used):
    """Share of the drives `used` by how many plays they took; the last band has no end."""
    taken = drives["plays"][used]
    return {"counts": "drives begun in the first or third quarter, by snaps that count, no kicks",
            "rows": [{"plays": list(band), "n": int(used.sum()),
                      "share": round(float(in_range(taken, band).mean()), 5)}
                     for band in LENGTH_BANDS]}


def start_counts(plays):
    """Drives by yards_to_goal of their start, 1-99: the mix to average a drive table over."""
    rows = plays.even_drives & (plays.drives["plays"] > 0) & (plays.drives["kneel_only"] == 0)
    tally = np.bincount(plays.drives["start_yards_to_goal"][rows].astype(int), minlength=100)
    return [int(n) for n in tally[1:100]]


def _series(plays, snaps):
    """Row index of each series' first snap, and whether it ended in a first down or touchdown on one
    of the `snaps`."""
    at = np.nonzero(plays.even & snaps)[0]
    game_drive = plays.drive[at]
    won = (plays["first_down"][at] == 1) | (plays["first_down_by_penalty"][at] == 1)
    new_drive = np.concatenate(([True], game_drive[1:] != game_drive[:-1]))
    opens = new_drive | np.concatenate(([True], won[:-1]))
    number = np.cumsum(opens) - 1
    good = np.zeros(number[-1] + 1, bool)
    np.logical_or.at(good, number, won | (plays["offence_td"][at] == 1))
    first = at[opens]
    goal = np.minimum(plays["yards_to_goal"][first], 10)
    normal = (plays["down"][first] == 1) & (plays["to_go"][first] == goal)
    return first[normal], good[normal]


def without_fouls(plays):
    """Share of series converted, and what it would be in a feed that leaves fouled snaps out."""
    unfouled = plays.snap & (plays["pen_side"] == "") & (plays["no_play"] == 0)
    return [round(float(_series(plays, snaps)[1].mean()), 3) for snaps in (plays.snap, unfouled)]


def series_conversion(plays):
    first, good = _series(plays, plays.snap)
    spot = plays["yards_to_goal"][first]
    return [{"yards_to_goal": list(band), "n": int(in_range(spot, band).sum()),
             "share": round(float(good[in_range(spot, band)].mean()), 5)} for band in SERIES_BANDS]


def third_downs(plays):
    rows = plays.counted & (plays["down"] == 3)
    good = ~plays.lost & ((plays["yards"] >= plays["to_go"]) | (plays["offence_td"] == 1))
    out = []
    for band in THIRD_BANDS:
        at = rows & in_range(plays["to_go"], band)
        out.append({"to_go": list(band), "n": int(at.sum()),
                    "share": round(float(good[at].mean()), 5)})
    return out


def red_zone(plays):
    """Drives with a snap inside the opponent's 20: how many end in a touchdown."""
    inside = plays.even & plays.snap & (plays["yards_to_goal"] <= 20)
    drives = np.unique(plays.drive[inside])
    drives = drives[drives >= 0]
    return {"n": int(len(drives)),
            "touchdown": round(float((plays.drives["result"][drives] == "td").mean()), 5)}


def expected_points(plays, width):
    """Next score at first and ten (or goal) in the first and third quarter, by bands of yards."""
    spot, value = plays["yards_to_goal"], plays["next_score_points"]
    rows = (np.isin(plays["quarter"], [1, 3]) & np.isin(plays["play_type"], SCRIMMAGE)
            & (plays["no_play"] == 0) & (plays["down"] == 1)
            & (plays["to_go"] == np.minimum(10, spot)))
    out = []
    for low in range(1, 100, width):
        band = [low, min(low + width - 1, 99)]
        inside = rows & in_range(spot, band)
        n = int(inside.sum())
        if n > 0:
            out.append({"yards_to_goal": band, "n": n,
                        "points": round(float(value[inside].mean()), 5),
                        "se": round(float(value[inside].std() / np.sqrt(n)), 5)})
    return out


GOLDNER = {"downs": "downs_pct", "fumble": "fumble_pct", "interception": "int_pct",
           "punt": "punt_pct", "missed_field_goal": "missed_fg_pct", "field_goal": "fg_pct",
           "touchdown": "td_pct", "safety": "safety_pct", "end_of_half": "end_half_game_pct"}


def goldner(data):
    with open(os.path.join(data, "published", "goldner_2012_table3.csv"), encoding="utf-8") as stream:
        rows = list(csv.DictReader(stream))
    return [{"down": int(row["down"]), "to_go": int(row["distance"]),
             "yards_to_goal": int(row["yards_to_goal"]), "points": float(row["ep"]),
             "plays": float(row["expected_plays_remaining"]),
             "results": {name: round(float(row[column]) / 100, 4)
                         for name, column in GOLDNER.items()}} for row in rows]


CARTER_MACHOL = {95: -1.245, 85: -0.637, 75: 0.236, 65: 0.923, 55: 1.538, 45: 2.392, 35: 3.167,
                 25: 3.681, 15: 4.572, 5: 6.041}


def published(data):
    return {
        "goldner_2012": {
            "source": "K. Goldner (2012), J. Quantitative Analysis in Sports 8(1),"
                      " doi 10.1515/1559-0410.1400, Table 3; professional, 2005-2009; points = 6.96 touchdown + 3 field goal - 2 safety",
            "counts": "own drive only", "rows": goldner(data)},
        "carter_machol_1971": {
            "source": "V. Carter and R. E. Machol (1971), Operations Research 19(2):541-544,"
                      " doi 10.1287/opre.19.2.541, Table I; professional, 1969; values from"
                      " memory",
            "counts": "next score", "rows": [{"yards_to_goal": spot, "points": points}
                                             for spot, points in CARTER_MACHOL.items()]}}


def observed(plays, data):
    used = plays.even_drives & (plays.drives["kneel_only"] == 0)
    return {
        "format": "callfit-observed/1", "id": f"pro-{plays.years}", "setting": "pro",
        "about": f"Drives begun in the first or third quarter, {plays.years}. Used to check"
                 " settings/pro.json, never to make it.",
        "source": assumed.SOURCES["play-data"],
        "starts": {"yards_to_goal_from": 1, "n": start_counts(plays)},
        "drives": drive_results(plays.drives, used),
        "drive_lengths": drive_lengths(plays.drives, used),
        "series_conversion": {"counts": "first down or touchdown in a series begun at first and"
                                        " ten or goal", "rows": series_conversion(plays)},
        "third_down": {"counts": "played third downs that gained the distance",
                       "rows": third_downs(plays)},
        "red_zone": {"counts": "drives with a snap inside the 20", **red_zone(plays)},
        "expected_points_by_5_yards": {
            "counts": "next score of either team in the half, touchdown 7",
            "rows": expected_points(plays, 5)},
        "expected_points_by_yard": {
            "counts": "next score of either team in the half, touchdown 7",
            "rows": expected_points(plays, 1)},
        "published": published(data)}
