"""Counts of quarterbacks by game, and which counts make which rate."""
import csv
import gzip
from dataclasses import dataclass

import numpy as np

DEPTHS = ["behind_line", "quick", "intermediate", "deep"]
LANES = ["left", "middle", "right"]
LANE_GROUPS = {"outside": ["left", "right"], "middle": ["middle"]}


@dataclass
class Counts:
    """One rate by game: `hits` of `trials`, both shape (games,)."""
    hits: np.ndarray
    trials: np.ndarray


class Games:
    """Rows of quarterback_games; a unit is one quarterback in one season, an opponent is the
    passer of the other side in that season and stands for the defence behind him."""

    def __init__(self, path):
        opener = gzip.open if path.endswith(".gz") else open
        with opener(path, "rt", encoding="utf-8", newline="") as stream:
            rows = list(csv.reader(stream))
        table = np.array(rows[1:], dtype=float)
        self.column = {name: table[:, i] for i, name in enumerate(rows[0])}
        self._index()

    def _index(self):
        column = self.column
        self.season = column["season"].astype(int)
        self.man = column["quarterback"].astype(int)
        key = self.man * 10000 + self.season
        keys, self.unit = np.unique(key, return_inverse=True)
        self.unit_man, self.unit_season = keys // 10000, keys % 10000
        self.unit_dropbacks = np.bincount(self.unit, column["dropbacks"])
        self.order = column["game_order"].astype(int)
        self.opponent = self._opponents()

    def _opponents(self):
        """Number of the other side's passer in that season; a game with more than two passers
        does not tell the sides, so each of its rows has an opponent of its own."""
        game = self.column["game"].astype(int) * 10000 + self.season
        _, place, size = np.unique(game, return_inverse=True, return_counts=True)
        clear = size[place] == 2
        total = np.bincount(place, self.unit)
        other = total[place] - self.unit
        own = self.unit.max() + 1 + np.arange(len(game))
        self.clear = clear
        return np.unique(np.where(clear, other, own), return_inverse=True)[1]

    def lanes(self, depths, what, lanes=tuple(LANES)):
        return sum(self.column[f"{depth}_{lane}_{what}"] for depth in depths for lane in lanes)

    def depth(self, depth, what):
        return self.lanes([depth], what, (*LANES, "lane_unknown"))

    def rate(self, name):
        column = self.column
        direct = {
            "completion": ("completions", "attempts"),
            "interception": ("interceptions", "attempts"),
            "sack": ("sacks", "dropbacks"), "scramble": ("scrambles", "dropbacks"),
            "sack_fumble": ("sack_fumbles", "sacks"),
            "scramble_gain": ("scrambles_10plus", "scrambles"),
            "designed_run": ("designed_runs_10plus", "designed_runs"),
            "untargeted": ("untargeted_attempts", "attempts"),
        }
        if name in direct:
            hits, trials = direct[name]
            return Counts(column[hits], column[trials])
        if name == "designed_run_share":
            return Counts(column["designed_runs"], column["dropbacks"] + column["designed_runs"])
        kind, _, where = name.partition("_")
        if kind in ("completion", "interception"):
            return self._throws(kind + "s", where)
        if kind == "yac":
            return self._after_catch(where)
        raise KeyError(name)

    def _throws(self, what, where):
        for lane, lanes in LANE_GROUPS.items():
            if where.endswith("_" + lane):
                depth = where[:-len(lane) - 1]
                return Counts(self.lanes([depth], what, lanes),
                              self.lanes([depth], "attempts", lanes))
        return Counts(self.depth(where, what), self.depth(where, "attempts"))

    def _after_catch(self, where):
        """Ten yards and more after the catch, per completion with a known lane."""
        depths = {"short": ["behind_line", "quick"], "": DEPTHS}.get(where, [where])
        return Counts(self.lanes(depths, "yac10"), self.lanes(depths, "completions"))
