"""Reads the play and drive tables and names what each row is."""
import csv
import gzip
import os

import numpy as np

from .spotting import Spotting

PASS_FAMILIES = ["screen", "quick_middle", "quick_outside", "intermediate", "deep_middle",
                 "deep_outside"]
QB_RUNS = ["qb_draw", "zone_read", "qb_power"]
QUICK = ["quick_middle", "quick_outside"]
DEEP = ["deep_middle", "deep_outside"]
DROPBACKS = ["pass", "sack", "scramble"]
SCRIMMAGE = DROPBACKS + ["qb_run", "rb_run"]


def read_table(folder, name):
    """Columns of a .csv or .csv.gz as arrays: numbers as floats (blank = nan), else text."""
    path = os.path.join(folder, name)
    opener = gzip.open if name.endswith(".gz") else open
    with opener(path, "rt", encoding="utf-8", newline="") as stream:
        rows = csv.reader(stream)
        header = next(rows)
        columns = list(zip(*rows))
    table = {}
    for title, column in zip(header, columns):
        text = np.array(column)
        try:
            table[title] = np.where(text == "", "nan", text).astype(float)
        except ValueError:
            table[title] = text
    return table


def in_range(values, band):
    return (values >= band[0]) & (values <= band[1])


class Plays:
    """The rows of some seasons (first, last); `even` marks those of drives begun in the first or
    third quarter, the ones a drive without a clock can be compared with."""

    def __init__(self, folder, seasons):
        self.folder, self.seasons = folder, seasons
        self.rows = self._of_seasons("plays.csv.gz")
        self.drives = self._of_seasons("drives.csv.gz")
        self._join_drives()
        self._mark_kinds()
        self._name_families()
        self.spotting = Spotting(self)

    def __getitem__(self, name):
        return self.rows[name]

    def _of_seasons(self, name):
        table = read_table(self.folder, name)
        chosen = in_range(table["season"], self.seasons)
        if not chosen.any():
            raise SystemExit(f"{name}: no season from {self.seasons[0]} to {self.seasons[1]}")
        return {title: column[chosen] for title, column in table.items()}

    @property
    def years(self):
        first, last = self.seasons
        return str(first) if first == last else f"{first}-{last}"

    def _join_drives(self):
        own = self.rows["game"] * 1000 + self.rows["drive_id"]
        keys = self.drives["game"] * 1000 + self.drives["drive_id"]
        order = np.argsort(keys)
        place = order[np.clip(np.searchsorted(keys[order], own), 0, len(order) - 1)]
        self.drive = np.where(keys[place] == own, place, -1)
        quarter = np.where(self.drive >= 0, self.drives["quarter"][place], 0)
        self.even = np.isin(quarter, [1, 3])
        self.even_drives = np.isin(self.drives["quarter"], [1, 3])

    def _mark_kinds(self):
        kind, down = self["play_type"], self["down"]
        self.scrimmage = np.isin(kind, SCRIMMAGE) & (self["no_play"] == 0) & (down > 0)
        self.snap = (np.isin(kind, SCRIMMAGE + ["noplay", "punt", "fg"])) & (down > 0)
        # A foul after the play moves the ball but not what ended the drive: a pass that was caught
        # by the other team, a lost ball and a touchdown stand. All else with a foul behind it is a
        # kind of penalty (situations.Penalties), with the gain in it.
        self.lost = (self["interception"] == 1) | (self["fumble_lost"] == 1)
        self.penalty_after = (self.scrimmage & (self["pen_side"] != "") & ~self.lost
                              & (self["offence_td"] == 0))
        self.counted = self.even & self.scrimmage & ~self.penalty_after  # outcomes come from these
        following = np.roll(np.arange(len(kind)), -1)
        self.following = following
        self.same_drive = ((self["game"][following] == self["game"])
                           & (self["drive_id"][following] == self["drive_id"])
                           & (down[following] > 0))

    def _name_families(self):
        kind, air = self["play_type"], self["air_yards"]
        middle = self["lane"] == "middle"
        good = self.even & self.scrimmage & (self["aborted"] == 0)
        family = np.full(len(kind), "", dtype="U14")
        for low, high, inside, outside in [(-99, -1, "screen", "screen"),
                                           (0, 9, "quick_middle", "quick_outside"),
                                           (10, 19, "intermediate", "intermediate"),
                                           (20, 99, "deep_middle", "deep_outside")]:
            at = good & (kind == "pass") & (air >= low) & (air <= high)
            family[at & middle] = inside
            family[at & ~middle] = outside
        family[good & (kind == "rb_run")] = "handoff"
        family[good & (kind == "qb_run")] = "qb_run"
        family[good & (kind == "qb_run") & (self["to_go"] <= 1)] = "qb_sneak"
        for result in ("sack", "scramble"):
            family[good & (kind == result)] = result
        self.family = family

    def of(self, *families):
        """Counted rows of these families."""
        return self.counted & np.isin(self.family, families)

    def offence_in_game(self):
        """A number per drive that two drives share when one team had both in one game. The table
        has no teams: whoever has the ball next follows from the score seen from the offence, and
        where the score cannot tell, from the ball changing hands after a drive."""
        d = self.drives
        order = np.lexsort((d["drive_id"], d["game"]))
        side = np.zeros(len(order), int)
        for before, now in zip(order[:-1], order[1:]):
            if d["game"][before] != d["game"][now]:
                continue
            after = d["score_diff"][before] + d["points"][before] - d["opponent_points"][before]
            same, other = abs(d["score_diff"][now] - after), abs(d["score_diff"][now] + after)
            side[now] = side[before] if other > same + 2 else 1 - side[before]
        return np.unique(d["game"] * 2 + side, return_inverse=True)[1]
