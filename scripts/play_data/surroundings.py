"""What seasons of teams score beyond what the quarterback's own rates say."""
import csv
import gzip
import math
import os

import numpy as np

FEWEST_DROPBACKS = 200
RATES = ("completion", "interception", "sack", "scramble", "after_catch", "in_the_air", "handoff")


def _seasons(folder):
    """Counts by quarterback and season, with the points of the drives that he led."""
    counts = {}
    with gzip.open(os.path.join(folder, "quarterback_games.csv.gz"), "rt") as stream:
        for row in csv.DictReader(stream):
            sums = counts.setdefault((int(row["quarterback"]), int(row["season"])), {})
            for name, value in row.items():
                if name not in ("quarterback", "season", "week", "game_order", "game"):
                    sums[name] = sums.get(name, 0) + float(value or 0)
    with open(os.path.join(folder, "quarterback_seasons.csv"), encoding="utf-8") as stream:
        for row in csv.DictReader(stream):
            key = (int(row["quarterback"]), int(row["season"]))
            if counts.get(key, {}).get("dropbacks", 0) >= FEWEST_DROPBACKS:
                yield key, counts[key], row


def _rates(sums, season):
    after = sum(value for name, value in sums.items() if name.endswith("yac_sum"))
    caught = sums["completions"]
    return (caught / sums["attempts"], sums["interceptions"] / sums["attempts"],
            sums["sacks"] / sums["dropbacks"], sums["scrambles"] / sums["dropbacks"],
            after / caught, (sums["pass_yards_sum"] - after) / caught,
            float(season["handoff_yards"]) / float(season["handoffs"]))


def points_per_drive_spread(folder):
    """Standard deviation, and the number of pairs behind it.

    Points per drive, less their season's mean, on seven rates; the covariance of what is left
    between seasons of one man with one team, one year apart: what comes back is not chance."""
    keys, new_team, rates, points = [], {}, [], []
    for key, sums, season in _seasons(folder):
        keys.append(key)
        new_team[key] = season["new_team"]
        rates.append(_rates(sums, season))
        points.append(float(season["points"]) / float(season["drives"]))
    year = np.array([season for _, season in keys])
    table = np.column_stack([np.array(rates), np.array(points)])
    for one in np.unique(year):
        table[year == one] -= table[year == one].mean(axis=0)
    weights = np.linalg.lstsq(table[:, :-1], table[:, -1], rcond=None)[0]
    left = dict(zip(keys, table[:, -1] - table[:, :-1] @ weights))
    pairs = [(left[man, season - 1], left[man, season]) for man, season in keys
             if (man, season - 1) in left and new_team[man, season] == "0"]
    covariance = np.mean([before * after for before, after in pairs])
    return math.sqrt(max(0.0, covariance)), len(pairs)
