"""The traits that are measured, their fits, and the factors they share."""
import csv
from dataclasses import dataclass

import numpy as np

from . import factors, glmm, halves
from .games import Counts

LEAST_DROPBACKS = 100
LEAST_MEETINGS = 6     # an opponent's games that count for what opponents share
LEAST_OPPONENT = 0.03  # below this spread an opponent's effect is as good as none
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


def fit_traits(games, totals, seasons, intervals, names=None):
    used = games.unit_dropbacks >= LEAST_DROPBACKS
    rows = used[games.unit] & np.isin(games.season, seasons)
    fits = {name: glmm.fit(games, games.rate(name), rows, parts, intervals=intervals)
            for name, parts in MEASURED.items() if names is None or name in names}
    if names is not None:
        return fits
    rows = used[totals.unit] & np.isin(totals.season, seasons)
    fits["handoff"] = glmm.fit(totals, totals.rate("handoff"), rows, (True, False, False),
                               intervals=intervals)
    return fits


def base_of(source, fit, used):
    """Season mean by row; not a number where the row's unit is not used."""
    mean = np.array([fit.means.get(year, np.nan) for year in source.season])
    return np.where(used[source.unit], mean, np.nan)


def tables(games, totals, fits, seasons):
    """Likelihood tables of all traits by unit (halves.likelihoods). Handoffs are known by season
    alone: both halves are the whole season."""
    used = (games.unit_dropbacks >= LEAST_DROPBACKS) & np.isin(games.unit_season, seasons)
    out = []
    for name, fit in fits.items():
        source = totals if name == "handoff" else games
        bearer = halves.Bearer(source.unit, source.order % 2, len(used), fit.spreads[0],
                               float(np.hypot(*fit.spreads[1:])))
        table = halves.likelihoods(source.rate(name), base_of(source, fit, used), bearer)
        out.append(table[[0, 0]][:, used] if name == "handoff" else table[:, used])
    return out, used


def opponent_tables(games, fits, names, seasons):
    """The same for opponents: quarterbacks at their most likely effects, games halved by week."""
    used = (games.unit_dropbacks >= LEAST_DROPBACKS) & np.isin(games.unit_season, seasons)
    opponents = games.opponent.max() + 1
    met = np.bincount(games.opponent[used[games.unit]], minlength=opponents) >= LEAST_MEETINGS
    out = []
    for name in names:
        fit = fits[name]
        effect = np.array([fit.effects.get(unit, np.nan) for unit in games.unit])
        bearer = halves.Bearer(games.opponent, games.column["week"].astype(int) % 2, opponents,
                               fit.spreads[1], fit.spreads[2])
        out.append(halves.likelihoods(games.rate(name), base_of(games, fit, used) + effect,
                                      bearer)[:, met])
    season = np.zeros(opponents, int)
    season[games.opponent] = games.season
    return out, season[met]


def within_season(games, fits, seasons):
    """How steady each trait is between first and second half of a season: (correlation, 90%
    interval) by trait. Where 1 is within the interval the correlation is taken as 1."""
    used = (games.unit_dropbacks >= LEAST_DROPBACKS) & np.isin(games.unit_season, seasons)
    late = games.order > np.bincount(games.unit)[games.unit] / 2
    out = {}
    for name in MEASURED:
        fit = fits[name]
        bearer = halves.Bearer(games.unit, late.astype(int), len(used), fit.spreads[0],
                               float(np.hypot(*fit.spreads[1:])))
        r, interval = halves.steadiness(games.rate(name), base_of(games, fit, used), bearer,
                                        glmm.DROP90)
        out[name] = (1.0 if interval[1] >= halves.STEADY[-1] else r), interval
    return out


@dataclass
class Shared:
    """Factors of some effects: names in order, loadings (names, factors), the choices compared."""
    names: list
    loadings: np.ndarray
    curves: dict
    choices: list
    number: int
    pull: float
    units: int

    def of(self, name):
        """Loadings of one trait; none where it was not among them."""
        return (self.loadings[self.names.index(name)] if name in self.names
                else np.zeros(self.number))


def share(names, table, seasons, fixed):
    """Factors of the effects in `table`; `fixed` is (number, pull), chosen here where None."""
    curves = halves.all_curves(table)
    choices = [] if fixed else factors.compare(curves, len(names), seasons)
    if not fixed:
        chosen = factors.choose(choices)
        fixed = chosen.number, chosen.pull
    composite = factors.Composite(curves, len(names), np.ones(len(seasons)))
    loadings = factors.varimax(composite.maximise(*fixed))
    return Shared(names, loadings, curves, choices, *fixed, len(seasons))


@dataclass
class Model:
    """Everything that the quarterbacks of some seasons say: fits by trait, what quarterbacks share
    and what opponents share."""
    fits: dict
    men: Shared
    opponents: Shared


def estimate_men(games, totals, seasons, names, fixed):
    """Fits and shared factors of quarterbacks alone, for `names`, without intervals."""
    fits = fit_traits(games, totals, seasons, False, names)
    table, used = tables(games, totals, fits, seasons)
    return Model(fits, share(list(fits), table, games.unit_season[used], fixed), None)


def estimate(games, totals, seasons, intervals=True, fixed=(None, None)):
    """The model of these seasons; `fixed` gives number of factors and pull for quarterbacks and
    for opponents, chosen from the data where None."""
    fits = fit_traits(games, totals, seasons, intervals)
    table, used = tables(games, totals, fits, seasons)
    men = share(list(fits), table, games.unit_season[used], fixed[0])
    names = [name for name, fit in fits.items() if fit.spreads[1] > LEAST_OPPONENT]
    table, years = opponent_tables(games, fits, names, seasons)
    return Model(fits, men, share(names, table, years, fixed[1]))
