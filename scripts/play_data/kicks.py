"""Kicks, turnovers and where drives start."""
import os

import numpy as np

from .estimate import counts, logistic_fit, pmf
from .plays import in_range, read_table

PUNT_BANDS = [(1, 35), (36, 40), (41, 45), (46, 50), (51, 55), (56, 60), (61, 65), (66, 70),
              (71, 80), (81, 90), (91, 99)]


class NextStart:
    """Own yard line where the other team starts after each play's drive (nan when unknown: end of
    a half, or a kickoff in between)."""

    def __init__(self, plays):
        d = plays.drives
        order = np.lexsort((d["drive_id"], d["game"]))
        after = np.full(len(order), -1)
        same_game = d["game"][order[1:]] == d["game"][order[:-1]]
        after[order[:-1]] = np.where(same_game, order[1:], -1)
        half = np.where(d["quarter"] <= 2, 1, np.where(d["quarter"] <= 4, 2, 3))
        known = (after >= 0) & (half == half[after])
        self.after_any = np.where(known, 100 - d["start_yards_to_goal"][after], np.nan)
        played_on = known & (d["after_kickoff"][after] != 1)
        own = np.where(played_on, self.after_any, np.nan)
        self.own = np.where(plays.drive >= 0, own[plays.drive], np.nan)


def punts(plays, start):
    net = plays["yards_to_goal"] - start.own
    kind = plays["play_type"] == "punt"
    rules = []
    for band in PUNT_BANDS:
        every = kind & in_range(plays["yards_to_goal"], band)
        known = every & (plays["opponent_td"] == 0) & in_range(net, (-24, 74))
        if not known.any():
            raise SystemExit(f"punt: none from {band} yards; take more seasons")
        touchback = known & (plays["touchback"] == 1) & (start.own == 20)
        rules.append({"yards_to_goal": list(band),
                      "touchback": round(float(touchback.sum() / known.sum()), 4),
                      "return_touchdown": round(float(plays["opponent_td"][every].mean()), 4),
                      "net": pmf(counts(net[known & ~touchback], -24, 74), -24),
                      "n": int(known.sum()), "source": "play-data"})
    return rules


def turnovers(plays, start):
    """Returns from the catch of an interception, and from the end of the gain of a fumble."""
    picked = plays["interception"] == 1
    spot = plays["yards_to_goal"] - plays["air_yards"]
    back = start.own - spot
    kept = picked & (plays["opponent_td"] == 0) & (spot > 0) & in_range(back, (-10, 90))
    lost = (plays["fumble_lost"] == 1) & plays.scrimmage
    run = start.own - (plays["yards_to_goal"] - plays["yards"])
    held = lost & (plays["opponent_td"] == 0) & in_range(run, (-15, 90))
    return {"interception_return": pmf(counts(back[kept], -10, 90), -10),
            "interception_touchdown": round(float(plays["opponent_td"][picked].mean()), 4),
            "fumble_return": pmf(counts(run[held], -15, 90), -15),
            "fumble_touchdown": round(float(plays["opponent_td"][lost].mean()), 4),
            "n": {"interceptions": int(picked.sum()), "fumbles": int(lost.sum())},
            "source": "play-data"}


def field_goal(plays):
    rows = plays["play_type"] == "fg"
    distance = plays["kick_dist"][rows]
    X = np.column_stack([np.ones(len(distance)), distance])
    beta = logistic_fit(X, (plays["fg_made"][rows] == 1).astype(float), np.ones(len(distance)),
                        np.full(2, 1e-9))
    return {"intercept": round(float(beta[0]), 4), "slope": round(float(beta[1]), 5),
            "longest": 65, "n": int(rows.sum()), "source": "play-data"}


def kickoff(plays):
    table = read_table(plays.folder, "kickoff_start_pmf.csv")
    period = kickoff_period(plays.seasons)
    rows = table["period"] == period
    shares = np.zeros(99)
    shares[table["own_yard"][rows].astype(int) - 1] = table["n"][rows]
    summary = read_table(plays.folder, "kickoff_start_summary.csv")
    at = summary["period"] == period
    return {"start": pmf(shares, 1), "return_touchdown": float(summary["ret_td"][at][0]),
            "n": int(shares.sum()), "about": period, "source": "play-data"}


def kickoff_period(seasons):
    """The kickoff rules of the last season; three seasons are one though a running start went."""
    last = seasons[1]
    return ("2016-2018" if last >= 2016 else "2011-2015 (kick from 35, TB 20)" if last >= 2011
            else "2009-2010 (kick from 30)")


def try_points(plays):
    """Mean points of a try, kicked or played, and how many there were."""
    kicked = (plays["play_type"] == "xp") & (plays["no_play"] == 0)
    played = (plays["play_type"] == "two") & (plays["no_play"] == 0)
    good = plays["try_good"] == 1
    n = int(kicked.sum() + played.sum())
    return float((good & kicked).sum() + 2 * (good & played).sum()) / n, n


def drives_per_game(plays):
    """Drives of one team, and the share of drives that a half cuts off."""
    d = plays.drives
    games = len(np.unique(d["game"]))
    return len(d["game"]) / games / 2, float((d["result"] == "end_half").mean())


def safety_kick(plays, start):
    rows = (plays.drives["result"] == "safety") & ~np.isnan(start.after_any)
    return {**pmf(counts(start.after_any[rows], 1, 99), 1), "n": int(rows.sum()),
            "source": "play-data"}


def starts(plays):
    """How drives of the first and third quarter begin."""
    d = plays.drives
    order = np.lexsort((d["drive_id"], d["game"]))
    before = np.full(len(order), "", dtype="U12")
    before[order[1:]] = d["result"][order[:-1]]
    kinds = {"kickoff": d["after_kickoff"] == 1}
    kinds["punt"] = ~kinds["kickoff"] & (before == "punt")
    kinds["turnover"] = ~kinds["kickoff"] & ~kinds["punt"]
    used = plays.even_drives & (d["kneel_only"] == 0)
    out = {}
    for name, rows in kinds.items():
        rows = rows & used
        own = 100 - d["start_yards_to_goal"][rows]
        out[name] = {"share": round(float(rows.sum() / used.sum()), 6),
                     "start": pmf(counts(own, 1, 99), 1), "n": int(rows.sum()),
                     "source": "play-data"}
    return out
