"""quarterback_games and quarterback_seasons counted from the plays of the drives that a man led."""
import collections
import csv
import os

from . import drives_of_men
from .drives_of_men import number, success

DEPTHS = ("behind_line", "quick", "intermediate", "deep")
DEPTH_FROM = (0, 10, 20)      # air yards at which the next begins
LANES = ("left", "middle", "right")
LONG = 10                     # yards


def columns():
    names = ["dropbacks", "attempts", "completions", "interceptions", "sacks", "sack_fumbles",
             "scrambles", "scrambles_10plus", "scramble_yards_sum"]
    for depth in DEPTHS:
        names += [f"{depth}_{lane}_{what}" for lane in LANES
                  for what in ("attempts", "completions", "yac10", "yac_sum")]
        names += [f"{depth}_lane_unknown_{what}" for what in ("attempts", "completions")]
    return names


def count_throw(row, play):
    complete = play["complete"] == "1"
    row["attempts"] += 1
    row["completions"] += complete
    row["interceptions"] += play["interception"] == "1"
    if not play["air_yards"]:
        return
    depth = DEPTHS[sum(number(play, "air_yards") >= least for least in DEPTH_FROM)]
    stem = f"{depth}_{play['lane'] or 'lane_unknown'}"
    row[stem + "_attempts"] += 1
    row[stem + "_completions"] += complete
    if complete and play["lane"]:
        row[stem + "_yac10"] += number(play, "yac") >= LONG
        row[stem + "_yac_sum"] += int(number(play, "yac"))


def count_dropback(row, play):
    row["dropbacks"] += 1
    if play["play_type"] == "pass":
        count_throw(row, play)
    elif play["play_type"] == "sack":
        row["sacks"] += 1
        row["sack_fumbles"] += play["fumble"] == "1"
    else:
        row["scrambles"] += 1
        row["scrambles_10plus"] += number(play, "yards") >= LONG
        row["scramble_yards_sum"] += int(number(play, "yards"))


def count_handoff(row, play):
    row["handoffs"] += 1
    row["handoff_success"] += int(success(play))
    row["handoff_yards"] += int(number(play, "yards"))


def led_in(data, leader, quarters, kneels, is_of):
    """{(game, drive_id): (man, season)} of the drives begun in these quarters, with or without those
    that only knelt, of the man's games that `is_of` names; by man and season their number, points
    and starts."""
    led, sums = {}, collections.defaultdict(collections.Counter)
    for drive in drives_of_men.rows(os.path.join(data, "play-data", "drives.csv.gz")):
        key = (int(drive["game"]), int(drive["drive_id"]))
        if key not in leader or number(drive, "quarter") not in quarters:
            continue
        if not is_of(*leader[key], key[0]):
            continue
        if number(drive, "kneel_only") and not kneels:
            continue
        led[key] = leader[key]
        sums[leader[key]].update(drives=1, points=number(drive, "points"),
                                 start=number(drive, "start_yards_to_goal"))
    return led, sums


def count_plays(plays, led):
    """Counts by (man, season, game) of dropbacks, by (man, season) of handoffs."""
    games = collections.defaultdict(lambda: dict.fromkeys(columns(), 0))
    handoffs = collections.defaultdict(
        lambda: dict.fromkeys(("handoffs", "handoff_success", "handoff_yards"), 0))
    for game, rows in plays.items():
        for play in rows:
            who = led.get((game, int(play["drive_id"])))
            if not who:
                continue
            if play["play_type"] in ("pass", "sack", "scramble"):
                count_dropback(games[(*who, game)], play)
            elif play["play_type"] == "rb_run" and play["aborted"] == "0":
                count_handoff(handoffs[who], play)
    return games, handoffs


def order_of_games(data):
    return {(int(row["quarterback"]), int(row["season"]), int(row["game"])): int(row["game_order"])
            for row in drives_of_men.rows(os.path.join(data, "quarterbacks",
                                                       "quarterback_games.csv.gz"))}


def teams_changed(data):
    path = os.path.join(data, "quarterbacks", "quarterback_seasons.csv")
    with open(path, encoding="utf-8") as stream:
        return {(int(row["quarterback"]), int(row["season"])): row["new_team"]
                for row in csv.DictReader(stream)}


def of_quarters(data, plays, leader, quarters, kneels=True, is_of=lambda man, season, game: True):
    """Rows of both tables from the drives begun in these quarters; their starts are those of the
    same drives."""
    led, sums = led_in(data, leader, quarters, kneels, is_of)
    counts, handoffs = count_plays(plays, led)
    order, new_team = order_of_games(data), teams_changed(data)
    games = [{"quarterback": man, "season": season, "game": game,
              "game_order": order[man, season, game], **row}
             for (man, season, game), row in sorted(counts.items())]
    seasons = [{"quarterback": who[0], "season": who[1], "drives": of["drives"],
                "points": round(of["points"]),
                "start_q13_mean": round(of["start"] / of["drives"], 2), **handoffs[who],
                "new_team": new_team.get(who, "")} for who, of in sorted(sums.items())]
    return games, seasons


def doubled(rows, kept=("quarterback", "season", "game", "game_order", "start_q13_mean", "new_team")):
    return [{name: value if name in kept else 2 * value for name, value in row.items()}
            for row in rows]


def of_halves(data, plays, leader, quarters):
    """Both tables twice: of every second game, the first, third, ... and the others. Counts are
    doubled, so that what is asked of a season's number of dropbacks is asked of half as many."""
    order = order_of_games(data)
    for rest in (1, 0):
        yield tuple(doubled(rows) for rows in of_quarters(
            data, plays, leader, quarters,
            is_of=lambda man, season, game, rest=rest: order[man, season, game] % 2 == rest))
