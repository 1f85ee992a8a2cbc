"""The traits that are measured, their fits, and the factors they share."""
import csv
from dataclasses import dataclass

import numpy as np

from . import factors, glmm, halves
from .games import Counts

LEAST_DROPBACKS = 100
# trait -> effects in its model (quarterback, opponent, game). Where a trial is rare in a game, the
# game's own effect is not told from chance and is left out.
MEASURED = {
    "completion_behind_line": (True, True, True), "completion_quick": (True, True, True),
    "completion_intermediate": (True, True, True), "completion_deep": (True, True, True),
    "interception": (True, True, True), "sack": (True, True, True),
    "scramble": (True, True, True), "yac_short": (True, True, True),
    "yac_intermediate": (True, True, False), "designed_run_share": (True, True, True),
    "untargeted": (True, True, True), "sack_fumble": (True, True, False),
    "scramble_gain": (True, True, False), "designed_run": (True, False, False),
}


class SeasonTotals:
    """Handoffs by quarterback-season, in the shape of Games with one row a season."""

    def __init__(self, path, games):
        with open(path, encoding="utf-8", newline="") as stream:
            rows = list(csv.DictReader(stream))
        place = {(m, s): i for i, (m, s) in enumerate(zip(games.unit_man, games.unit_season))}
        rows = [(place.get((int(r["quarterback"]), int(r["season"]))), r) for r in rows]
        rows = [(unit, r) for unit, r in rows if unit is not None]
        self.unit = np.array([unit for unit, _ in rows])
        self.season = np.array([int(r["season"]) for _, r in rows])
        self.opponent = np.arange(len(rows))
        self.order = np.zeros(len(rows), int)
        self.column = {key: np.array([float(r[key] or "nan") for _, r in rows])
                       for key in ("handoffs", "handoff_success", "handoff_10plus")}

        self._moved = {unit: int(r["new_team"]) for unit, r in rows if r["new_team"] != ""}

    def moved(self, unit):
        """1 if his team is another than before, 0 if the same, None in his first season."""
        return self._moved.get(unit)

    def rate(self, name):
        hits = {"handoff": "handoff_success", "handoff_10plus": "handoff_10plus"}[name]
        return Counts(self.column[hits], self.column["handoffs"])


@dataclass
class Model:
    """Everything that the quarterbacks of some seasons say: fits by trait, loadings (traits,
    factors) in the order of `names`, and how the number of factors was chosen."""
    names: list
    fits: dict
    loadings: np.ndarray
    curves: dict
    choice: list
    number: int
    pull: float
    units: int


def fit_traits(games, totals, seasons, intervals):
    used = games.unit_dropbacks >= LEAST_DROPBACKS
    rows = used[games.unit] & np.isin(games.season, seasons)
    fits = {name: glmm.fit(games, games.rate(name), rows, parts, intervals=intervals)
            for name, parts in MEASURED.items()}
    rows = used[totals.unit] & np.isin(totals.season, seasons)
    fits["handoff"] = glmm.fit(totals, totals.rate("handoff"), rows, (True, False, False),
                               intervals=intervals)
    return fits


def tables(games, totals, fits, seasons):
    """Likelihood tables of all traits by unit (halves.likelihoods)."""
    units = len(games.unit_man)
    used = (games.unit_dropbacks >= LEAST_DROPBACKS) & np.isin(games.unit_season, seasons)
    out = []
    for name, fitted in fits.items():
        source = totals if name == "handoff" else games
        table = halves.likelihoods(source, source.rate(name), fitted, used[source.unit], units)
        out.append(table[[0, 0]][:, used] if name == "handoff" else table[:, used])
    return out, used


def estimate(games, totals, seasons, intervals=True, number=None, pull=None):
    """The model of these seasons; `number` and `pull` of factors are chosen where not given."""
    fits = fit_traits(games, totals, seasons, intervals)
    table, used = tables(games, totals, fits, seasons)
    curves = halves.all_curves(table)
    choice = []
    if number is None:
        choice = factors.compare(curves, len(fits), games.unit_season[used])
        chosen = factors.choose(choice)
        number, pull = chosen.number, chosen.pull
    loadings = factors.Composite(curves, len(fits), np.ones(used.sum())).maximise(number, pull)
    return Model(list(fits), fits, factors.varimax(loadings), curves, choice, number, pull,
                 int(used.sum()))
