"""Which quarterback led each drive of data/play-data, which names nobody.

The offence of a drive follows from the score at its start; where the score does not tell, drives
alternate, and the half begins with the side that kicked off. The sides are then given to the
passers of data/quarterbacks whose attempts, completions and sacks in that game agree."""
import collections
import csv
import gzip
import itertools
import os

MOST_APART = 6        # attempts, completions and sacks of both sides together
MAIN_SHARE = 0.75     # of a side's dropbacks in the game: its drives count as his


def rows(path):
    with gzip.open(path, "rt") as stream:
        yield from csv.DictReader(stream)


def number(row, column, blank=0.0):
    return float(row[column]) if row[column] else blank


def success(play):
    share = {1: 0.5, 2: 0.7}.get(int(number(play, "down")), 1.0)
    return float(number(play, "yards") >= share * number(play, "to_go") - 1e-9)


def by_game(data):
    """Drives and passers of each game of a regular season."""
    drives, passers = collections.defaultdict(list), collections.defaultdict(list)
    for row in rows(os.path.join(data, "play-data", "drives.csv.gz")):
        if row["season_type"] == "REG":
            drives[int(row["game"])].append(row)
    for row in rows(os.path.join(data, "quarterbacks", "quarterback_games.csv.gz")):
        passers[int(row["game"])].append(row)
    for game in drives:
        drives[game].sort(key=lambda row: int(row["drive_id"]))
    return drives, passers


def sides(drives):
    """Side (0 or 1) of each drive, and the places from which on it could be the other way round."""
    side, unsure = [0], []
    for before, now in zip(drives, drives[1:]):
        after = (float(before["score_diff"]) + float(before["points"])
                 - float(before["opponent_points"]))
        same, other = abs(float(now["score_diff"]) - after), abs(float(now["score_diff"]) + after)
        second_half = float(before["quarter"]) <= 2 < float(now["quarter"])
        if abs(same - other) >= 1:
            side.append(side[-1] if same < other else 1 - side[-1])
            continue
        if second_half or before["result"] == "end_half":
            unsure.append(len(side))
        side.append(1 - side[0] if second_half else 1 - side[-1])
    return side, unsure[:3]


def counted(plays):
    """Attempts, completions and sacks by drive."""
    out = collections.defaultdict(lambda: [0, 0, 0])
    for play in plays:
        sums = out[int(play["drive_id"])]
        sums[0] += play["play_type"] == "pass"
        sums[1] += play["play_type"] == "pass" and play["complete"] == "1"
        sums[2] += play["play_type"] == "sack"
    return out


def apart(one, other):
    return sum(abs(a - b) for side in (0, 1) for a, b in zip(one[side], other[side]))


def matched(drives, passers, plays):
    """(distance, side of each drive, side of each passer) where both agree best."""
    side, unsure = sides(drives)
    thrown = counted(plays)
    best = None
    for flips in itertools.product((0, 1), repeat=len(unsure)):
        now = list(side)
        for flip, place in zip(flips, unsure):
            now[place:] = [s ^ flip for s in now[place:]]
        sums = [[0, 0, 0], [0, 0, 0]]
        for drive, s in zip(drives, now):
            sums[s] = [a + b for a, b in zip(sums[s], thrown[int(drive["drive_id"])])]
        for given in itertools.product((0, 1), repeat=len(passers)):
            his = [[0, 0, 0], [0, 0, 0]]
            for row, s in zip(passers, given):
                counts = (float(row["attempts"]), float(row["completions"]), float(row["sacks"]))
                his[s] = [a + b for a, b in zip(his[s], counts)]
            distance = apart(sums, his)
            if best is None or distance < best[0]:
                best = (distance, now, given)
    return best


def leaders(data):
    """(plays by game, {(game, drive_id): (quarterback, season)}, games that could not be told)."""
    drives, passers = by_game(data)
    plays = collections.defaultdict(list)
    for play in rows(os.path.join(data, "play-data", "plays.csv.gz")):
        if play["season_type"] == "REG" and play["drive_id"] and play["no_play"] == "0":
            plays[int(play["game"])].append(play)
    out, lost = {}, 0
    for game, his in passers.items():
        distance, side, given = matched(drives[game], his, plays[game])
        if distance > MOST_APART:
            lost += 1
            continue
        for drive, s in zip(drives[game], side):
            of_side = [row for row, g in zip(his, given) if g == s]
            total = sum(float(row["dropbacks"]) for row in of_side)
            for row in of_side:
                if float(row["dropbacks"]) >= MAIN_SHARE * total:
                    out[game, int(drive["drive_id"])] = (int(row["quarterback"]),
                                                         int(row["season"]))
    return plays, out, lost
