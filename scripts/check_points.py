#!/usr/bin/python3
"""Points of real seasons: why their parts weigh what they do, and how often odds came true.

Usage: scripts/check_points.py             why the parts weigh what they do
       scripts/check_points.py --record    how often odds came true: settings/record

Plain: finds who led each drive of data/play-data, takes from every catch and handoff what its place
on the field (catches: depth of the throw, spot, down and distance; handoffs: those and the score)
makes of the league's yards and success, and runs
`callfit validate pro --quarterbacks ... --seasons ...` on tables in which yards after the catch and
handoffs are so levelled. Prints the weights beside those of the plain tables; those of tables that
hold the found drives alone: all, those begun in quarters 1 and 3, in 2 and 4, and of the latter
those that did not only kneel; the slopes of halves of seasons, of what they differ by and of what
they have in common; those of a setting whose throws are intercepted as often as those of
the plain tables; and what an interception costs a drive in the plays.

--record: for each season, spreads and loadings of the population are those of left_out.json, fitted
without it (handoffs, fumbles, gains of scrambles and what carries over are those of all seasons),
the season before is the tape, and the season's points the truth. Bands of odds of all seasons are
put together; their standard errors are those of one run over all seasons, where what pairs share a
man is counted across seasons too.

Needs Debian's python3-numpy and build/release/bin/callfit (or CALLFIT_PROGRAM)."""
import csv
import gzip
import json
import math
import os
import subprocess
import sys
import tempfile

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np

import build_settings
from population import drive_tables, drives_of_men
from population.drive_tables import DEPTHS
from population.drives_of_men import number, success

ROOT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..")
DATA = os.path.join(ROOT, "data")
PROGRAM = os.environ.get("CALLFIT_PROGRAM", os.path.join(ROOT, "build/release/bin/callfit"))
SPOTS = [3, 6, 11, 16, 21, 31, 41, 51, 61, 76, 91]      # yards to goal
AIR = [-4, -1, 0, 2, 4, 6, 8, 10, 12, 15, 20, 25, 30, 40]
TO_GO = [2, 3, 5, 7, 10, 11, 16]
SCORE = [-16, -8, -3, 1, 4, 9, 17]                       # points ahead


def centred(values, groups):
    """Values less the mean of their group."""
    _, at = np.unique(groups, return_inverse=True)
    return values - (np.bincount(at, values) / np.bincount(at))[at]


def levelled(values, cells):
    """Values less the mean of their cell, plus the mean of all."""
    _, cell = np.unique(np.array(cells), axis=0, return_inverse=True)
    return centred(values, cell) + values.mean()


def catches(plays, leader):
    """(man and season, depth band, yards after the catch, levelled) of every catch."""
    out, cells = [], []
    for game, rows in plays.items():
        for play in rows:
            who = leader.get((game, int(play["drive_id"])))
            if who and play["play_type"] == "pass" and play["complete"] == "1" and play["yac"] \
                    and play["air_yards"]:
                air, down = number(play, "air_yards"), number(play, "down")
                out.append((who, int(np.digitize(air, [0, 10, 20])), number(play, "yac")))
                cells.append((np.digitize(air, AIR), np.digitize(number(play, "yards_to_goal"),
                                                                 SPOTS),
                              down, np.digitize(number(play, "to_go"), [4, 7, 11])))
    yards = np.array([row[2] for row in out])
    return [row + (level,) for row, level in zip(out, levelled(yards, cells))]


def handoffs(plays, leader):
    """(man and season, success, yards, success levelled, yards levelled) of every handoff."""
    who, cells, made = [], [], []
    for game, rows in plays.items():
        for play in rows:
            man = leader.get((game, int(play["drive_id"])))
            if man and play["play_type"] == "rb_run" and play["aborted"] == "0":
                who.append(man)
                made.append((success(play), number(play, "yards")))
                cells.append((number(play, "down"), np.digitize(number(play, "to_go"), TO_GO),
                              np.digitize(number(play, "yards_to_goal"), SPOTS),
                              np.digitize(number(play, "score_diff"), SCORE),
                              min(number(play, "quarter"), 4)))
    made = np.array(made)
    return list(zip(who, made[:, 0], made[:, 1], levelled(made[:, 0], cells),
                    levelled(made[:, 1], cells)))


def moved_games(moves):
    """quarterback_games with the yards after the catch of a man's season moved, in its first game
    with room."""
    rows = list(drives_of_men.rows(os.path.join(DATA, "quarterbacks", "quarterback_games.csv.gz")))
    seen = set()
    for row in rows:
        key = (int(row["quarterback"]), int(row["season"]))
        if key in seen:
            continue
        seen.add(key)
        for depth, name in enumerate(DEPTHS):
            column = f"{name}_left_yac_sum"
            row[column] = int(float(row[column] or 0)) + round(moves.get((key, depth), 0))
    return rows


def moved_seasons(moves):
    with open(os.path.join(DATA, "quarterbacks", "quarterback_seasons.csv"),
              encoding="utf-8") as stream:
        rows = list(csv.DictReader(stream))
    for row in rows:
        made, yards = moves.get((int(row["quarterback"]), int(row["season"])), (0, 0))
        made = int(row["handoff_success"]) + round(made)
        row["handoff_success"] = min(max(made, 0), int(row["handoffs"]))
        row["handoff_yards"] = int(row["handoff_yards"]) + round(yards)
    return rows


def write(path, rows):
    opener = gzip.open if path.endswith(".gz") else open
    with opener(path, "wt", encoding="utf-8", newline="") as stream:
        writer = csv.DictWriter(stream, list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def validated(games, seasons, setting="pro"):
    done = subprocess.run([PROGRAM, "validate", setting, "--quarterbacks", games, "--seasons",
                           seasons, "--json"], capture_output=True, check=True, text=True)
    return json.loads(done.stdout)["result"]["quarterbacks"]["points"]


def same_season(games, seasons, setting="pro"):
    return validated(games, seasons, setting)["same_season"]


def show(title, same):
    print(f"{title}: {same['seasons']} seasons, r {same['correlation']:.3f}, with start"
          f" {same['correlation_with_start']:.3f}, slope {same['slope']:.2f}"
          f" ({same['slope_standard_error']:.2f}), with start {same['slope_with_start']:.2f}"
          f" ({same['slope_with_start_standard_error']:.2f})")
    print("  " + ", ".join(f"{w['part']} {w['weight']:.2f} ({w['standard_error']:.2f})"
                           for w in same["weights"]))


def added(moves, key, amount):
    moves[key] = moves.get(key, 0) + amount


def levelled_tables(plays, leader, folder):
    of_catches, success_moves, yard_moves = {}, {}, {}
    for who, depth, yards, level in catches(plays, leader):
        added(of_catches, (who, depth), level - yards)
    for who, made, yards, made_level, yards_level in handoffs(plays, leader):
        added(success_moves, who, made_level - made)
        added(yard_moves, who, yards_level - yards)
    paths = [os.path.join(folder, "games.csv.gz"), os.path.join(folder, "seasons.csv")]
    write(paths[0], moved_games(of_catches))
    write(paths[1], moved_seasons({who: (success_moves[who], yard_moves[who])
                                   for who in success_moves}))
    return paths


def written(tables, folder):
    paths = [os.path.join(folder, "games.csv.gz"), os.path.join(folder, "seasons.csv")]
    for path, rows in zip(paths, tables):
        write(path, rows)
    return paths


def quarters_tables(plays, leader, quarters, folder, kneels=True):
    return written(drive_tables.of_quarters(DATA, plays, leader, quarters, kneels), folder)


def slope_with_error(made, of, men):
    """Sum of made over sum of `of`, by season of a man; standard error with a man as a cluster."""
    slope = made.sum() / of.sum()
    _, man = np.unique(men, return_inverse=True)
    return slope, math.sqrt((np.bincount(man, made - slope * of) ** 2).sum()) / of.sum()


def halves_apart(plays, leader, quarters, folder):
    """Slopes of points on what the model makes of rates, over halves (every second game) of seasons: of
    the same drives; of what the halves of a season differ by, which is luck of the same man in the
    same team; and of what they have in common, where each half's model stands in for the other's
    (instrumental variable)."""
    halves = [{(one["quarterback"], one["season"]): one for one in
               same_season(*written(tables, folder))["each"]}
              for tables in drive_tables.of_halves(DATA, plays, leader, quarters)]
    both = sorted(set(halves[0]) & set(halves[1]))
    men, seasons = [who[0] for who in both], [who[1] for who in both]
    points, model = ([centred(np.array([half[who][what] for who in both]), seasons)
                      for half in halves] for what in ("points", "model"))
    apart = model[0] - model[1]
    yield len(both)
    yield slope_with_error(sum(p * m for p, m in zip(points, model)), sum(m * m for m in model), men)
    yield slope_with_error((points[0] - points[1]) * apart, apart * apart, men)
    yield slope_with_error(points[0] * model[1] + points[1] * model[0], 2 * model[0] * model[1], men)


def share_intercepted(games, seasons):
    sums = [(int(row["interceptions"]), int(row["attempts"])) for row in drives_of_men.rows(games)
            if int(row["season"]) in seasons]
    return sum(made for made, _ in sums) / sum(of for _, of in sums)


def more_intercepted(ratio, folder):
    """The professional setting with every throw intercepted so many times as often."""
    setting = load(os.path.join(ROOT, "settings", "pro.json"))
    for family in setting["families"].values():
        if "interception" in family["rates"]:
            family["rates"]["interception"]["mean"] *= ratio
    return write_setting(setting, load(os.path.join(ROOT, "settings", "population", "pro.json")),
                         folder)


def cost_of_interception(plays):
    """Own points of a drive after an incompletion in the state of each interception, mean."""
    points = {"td": 6.95, "fg_made": 3.0}
    incomplete, thrown_away = {}, []
    for rows in plays.values():
        for play in rows:
            if play["play_type"] != "pass":
                continue
            state = (play["down"], min(int(number(play, "to_go")) // 4, 5),
                     min(int(number(play, "yards_to_goal") - 1) // 10, 9))
            if play["interception"] == "1":
                thrown_away.append(state)
            elif play["complete"] != "1":
                incomplete.setdefault(state, []).append(points.get(play["drive_result"], 0.0))
    worth = [np.mean(incomplete[state]) for state in thrown_away
             if len(incomplete.get(state, ())) >= 20]
    return np.mean(worth), len(worth)


def load(path):
    with open(path, encoding="utf-8") as stream:
        return json.load(stream)


def write_setting(setting, population, folder):
    """Path of the setting, written with this population beside it."""
    for name, value in (("setting", setting | {"population": "population.json"}),
                        ("population", population)):
        with open(os.path.join(folder, name + ".json"), "w", encoding="utf-8") as stream:
            json.dump(value, stream)
    return os.path.join(folder, "setting.json")


def population_without(season):
    """The professional population with spreads and loadings from the other seasons."""
    population = load(os.path.join(ROOT, "settings", "population", "pro.json"))
    fits = load(os.path.join(DATA, "quarterbacks", "left_out.json"))
    fit = fits["without"][str(season)]
    for t, name in enumerate(fits["traits"]):
        trait = population["traits"][name]
        trait["spread"], trait["loadings"] = fit["spread"][t], fit["loadings"][t]
        games = math.hypot(trait["opponent_spread"], trait["game_spread"])
        opponents = trait["opponent_spread"] / games if games > 0 else 0.0
        trait["opponent_spread"] = fit["game"][t] * opponents
        trait["game_spread"] = fit["game"][t] * math.sqrt(1 - opponents**2)
    return population


def two_seasons(rows, season):
    return [row for row in rows if int(row["season"]) in (season - 1, season)]


def odds_without(season, games, seasons, folder):
    setting = write_setting(load(os.path.join(ROOT, "settings", "pro.json")),
                            population_without(season), folder)
    paths = [os.path.join(folder, "games.csv.gz"), os.path.join(folder, "seasons.csv")]
    write(paths[0], two_seasons(games, season))
    write(paths[1], two_seasons(seasons, season))
    return validated(*paths, setting)["odds"]


def together(parts, errors):
    """Bands of all seasons put together."""
    for band in errors:
        same = [b for part in parts for b in part if b["low"] == band["low"]]
        pairs = sum(b["pairs"] for b in same)
        yield {"low": band["low"], "high": band["high"], "pairs": pairs,
               **{name: round(sum(b["pairs"] * b[name] for b in same) / pairs, 4)
                  for name in ("mean_odds", "came_true")},
               "standard_error": round(band["standard_error"], 4)}


def record():
    paths = [os.path.join(DATA, "quarterbacks", name)
             for name in ("quarterback_games.csv.gz", "quarterback_seasons.csv")]
    games = list(drives_of_men.rows(paths[0]))
    with open(paths[1], encoding="utf-8") as stream:
        seasons = list(csv.DictReader(stream))
    with tempfile.TemporaryDirectory() as folder:
        parts = [odds_without(season, games, seasons, folder) for season in range(2010, 2019)]
    every = validated(*paths)["odds"]
    out = {kind: list(together([part[kind] for part in parts], every[kind]))
           for kind in ("tenths", "verdicts")}
    for kind, bands in out.items():
        for band in bands:
            print(f"{kind} {band['low']:.2f}-{band['high']:.2f}: {band['pairs']:5.0f} pairs, odds"
                  f" {band['mean_odds']:.3f}, came true {band['came_true']:.3f}"
                  f" ({band['standard_error']:.3f})")
    path = os.path.join(ROOT, "settings", "record", "professional.json")
    os.makedirs(os.path.dirname(path), exist_ok=True)
    build_settings.write(path, {
        "format": "callfit-record/1", "of": "professional quarterbacks, 2010-2018",
        "source": "data/quarterbacks, scripts/check_points.py --record",
        "verdicts": out["verdicts"]})


def main():
    if sys.argv[1:] == ["--record"]:
        return record()
    plays, leader, lost = drives_of_men.leaders(DATA)
    print(f"{len(leader)} drives given to their quarterbacks; {lost} games could not be")
    games = os.path.join(DATA, "quarterbacks", "quarterback_games.csv.gz")
    seasons = os.path.join(DATA, "quarterbacks", "quarterback_seasons.csv")
    with tempfile.TemporaryDirectory() as folder:
        level_games, level_seasons = levelled_tables(plays, leader, folder)
        show("as counted", same_season(games, seasons))
        show("yards after the catch levelled", same_season(level_games, seasons))
        show("handoffs levelled", same_season(games, level_seasons))
        show("both levelled", same_season(level_games, level_seasons))
        for title, quarters, kneels in (
                ("found drives", (1, 2, 3, 4, 5), True),
                ("found drives of quarters 1 and 3", (1, 3), True),
                ("found drives of quarters 2 and 4", (2, 4), True),
                ("found drives of quarters 2 and 4, those that only knelt left out", (2, 4), False)):
            show(title, same_season(*quarters_tables(plays, leader, quarters, folder, kneels)))
        for title, quarters in (("all quarters", (1, 2, 3, 4, 5)), ("quarters 1 and 3", (1, 3)),
                                ("quarters 2 and 4", (2, 4))):
            n, *slopes = halves_apart(plays, leader, quarters, folder)
            same, apart, common = (f"{slope:.2f} ({error:.2f})" for slope, error in slopes)
            print(f"halves of {n} seasons, {title}: slope of the same drives {same}, of what the"
                  f" halves differ by {apart}, of what they have in common {common}")
        every, of_setting = (share_intercepted(games, range(first, 2019)) for first in (2009, 2015))
        print(f"intercepted: {every:.2%} of throws, {of_setting:.2%} in the setting's seasons")
        show("setting with as many", same_season(games, seasons,
                                                 more_intercepted(every / of_setting, folder)))
    cost, n = cost_of_interception(plays)
    print(f"an interception for an incompletion costs the drive {cost:.2f} points (n {n})")


if __name__ == "__main__":
    main()
