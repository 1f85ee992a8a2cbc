"""What real drives did: kept apart, to compare with and never to fit."""
import csv
import os

import numpy as np

from . import assumed
from .plays import in_range, read_table

WINDOW = "2015-2018"
RESULTS = {"touchdown": "p_td", "field_goal": "p_fg_made", "missed_field_goal": "p_fg_missed",
           "punt": "p_punt", "interception": "p_interception", "fumble": "p_fumble",
           "downs": "p_downs", "safety": "p_safety"}
BUCKETS = {"ALL": (1, 99), "own_1-9": (91, 99), "own_10-14": (86, 90), "own_15-19": (81, 85),
           "own_20-24": (76, 80), "own_25": (75, 75), "own_26-29": (71, 74), "own_30-39": (61, 70),
           "own_40-49": (51, 60), "opp_41-50": (41, 50), "opp_31-40": (31, 40),
           "opp_21-30": (21, 30), "opp_11-20": (11, 20), "opp_1-10": (1, 10)}
SERIES_BANDS = [(1, 99), (1, 5), (6, 10), (11, 20), (21, 30), (31, 40), (41, 50), (51, 60),
                (61, 70), (71, 80), (81, 90), (91, 99)]
THIRD_BANDS = [(1, 1), (2, 3), (4, 6), (7, 10), (11, 15), (16, 45), (1, 45)]


def drive_results(folder):
    table = read_table(folder, "drive_results_by_start.csv")
    rows = (table["window"] == WINDOW) & (table["version"] == "started_q1_or_q3")
    out = []
    for place in np.nonzero(rows)[0]:
        bucket = table["start_bucket"][place]
        value = lambda name: float(table[name][place])
        out.append({"start": bucket, "yards_to_goal": list(BUCKETS[bucket]), "n": int(value("n")),
                    "points": value("points_per_drive"), "points_se": value("points_se"),
                    "plays": value("plays_per_drive"),
                    "results": {name: value(column) for name, column in RESULTS.items()}})
    return out


def start_counts(plays):
    """Drives by yards_to_goal of their start, 1-99: the mix to average a drive table over."""
    rows = plays.even_drives & (plays.drives["plays"] > 0) & (plays.drives["kneel_only"] == 0)
    tally = np.bincount(plays.drives["start_yards_to_goal"][rows].astype(int), minlength=100)
    return [int(n) for n in tally[1:100]]


def _series(plays):
    """Row index of each series' first snap, and whether it ended in a first down or touchdown."""
    at = np.nonzero(plays.even & plays.snap)[0]
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


def series_conversion(plays):
    first, good = _series(plays)
    spot = plays["yards_to_goal"][first]
    return [{"yards_to_goal": list(band), "n": int(in_range(spot, band).sum()),
             "share": round(float(good[in_range(spot, band)].mean()), 5)} for band in SERIES_BANDS]


def third_downs(plays):
    rows = plays.even & plays.scrimmage & (plays["down"] == 3)
    good = (plays["first_down"] == 1) | (plays["offence_td"] == 1)
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


def expected_points(folder, name, low, high):
    table = read_table(folder, name)
    rows = np.nonzero((table["window"] == WINDOW) & (table["scope"] == "q1_q3"))[0]
    return [{"yards_to_goal": [int(table[low][i]), int(table[high][i])], "n": int(table["n"][i]),
             "points": float(table["ep"][i]), "se": float(table["se"][i]),
             "own_drive_points": float(table["drive_points_mean"][i])} for i in rows]


GOLDNER = {"downs": "downs_pct", "fumble": "fumble_pct", "interception": "int_pct",
           "punt": "punt_pct", "missed_field_goal": "missed_fg_pct", "field_goal": "fg_pct",
           "touchdown": "td_pct", "safety": "safety_pct", "end_of_half": "end_half_game_pct"}


def goldner(reference):
    with open(os.path.join(reference, "goldner_2012_table3.csv"), encoding="utf-8") as stream:
        rows = list(csv.DictReader(stream))
    return [{"down": int(row["down"]), "to_go": int(row["distance"]),
             "yards_to_goal": int(row["yards_to_goal"]), "points": float(row["ep"]),
             "plays": float(row["expected_plays_remaining"]),
             "results": {name: round(float(row[column]) / 100, 4)
                         for name, column in GOLDNER.items()}} for row in rows]


CARTER_MACHOL = {95: -1.245, 85: -0.637, 75: 0.236, 65: 0.923, 55: 1.538, 45: 2.392, 35: 3.167,
                 25: 3.681, 15: 4.572, 5: 6.041}


def published(reference):
    return {
        "goldner_2012": {
            "source": "K. Goldner (2012), J. Quantitative Analysis in Sports 8(1),"
                      " doi 10.1515/1559-0410.1400, Table 3; professional, 2005-2009; points = 6.96 touchdown + 3 field goal - 2 safety",
            "counts": "own drive only", "rows": goldner(reference)},
        "carter_machol_1971": {
            "source": "V. Carter and R. E. Machol (1971), Operations Research 19(2):541-544,"
                      " doi 10.1287/opre.19.2.541, Table I; professional, 1969; values from"
                      " memory",
            "counts": "next score", "rows": [{"yards_to_goal": spot, "points": points}
                                             for spot, points in CARTER_MACHOL.items()]}}


def observed(plays, reference):
    folder = plays.folder
    return {
        "format": "callfit-observed/1", "id": "pro-2015-2018", "setting": "pro",
        "about": "Drives begun in the first or third quarter, 2015-2018. Used to check settings/"
                 "pro.json, never to make it.",
        "source": assumed.SOURCES["play-data"],
        "starts": {"yards_to_goal_from": 1, "n": start_counts(plays)},
        "drives": drive_results(folder),
        "series_conversion": {"counts": "first down or touchdown in a series begun at first and"
                                        " ten or goal", "rows": series_conversion(plays)},
        "third_down": {"counts": "played third downs that gained the distance",
                       "rows": third_downs(plays)},
        "red_zone": {"counts": "drives with a snap inside the 20", **red_zone(plays)},
        "expected_points_by_5_yards": {
            "counts": "next score of either team in the half, touchdown 7",
            "rows": expected_points(folder, "ep_first_and_10_by_5yards.csv", "ytg_lo", "ytg_hi")},
        "expected_points_by_yard": {
            "counts": "next score of either team in the half, touchdown 7",
            "rows": expected_points(folder, "ep_first_and_10_by_yard.csv", "ytg", "ytg")},
        "published": published(reference)}
