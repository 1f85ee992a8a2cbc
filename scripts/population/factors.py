"""Shared factors of the traits: loadings by maximum composite likelihood.

The log-likelihoods of all pairs, as functions of their correlation (halves.py), are added up with
r_ab = sum_k loading_ak loading_bk. Every pair so weighs as much as it knows. The number of factors
and the pull of loadings toward 0 are those that predict left-out seasons best."""
from dataclasses import dataclass

import numpy as np
from scipy.interpolate import CubicSpline
from scipy.optimize import minimize

from .halves import CORRELATIONS

MOST_SHARED = 0.96  # at least this share of a trait's variance stays its own: 1 - MOST_SHARED
PULLS = [2.0, 6.0, 20.0, 60.0]
NUMBERS = [1, 2, 3, 4]


class Composite:
    """Sum of the pairs' curves as a smooth function of the loadings, shape (traits, factors)."""

    def __init__(self, curves, traits, weights):
        self.traits = traits
        self.pairs = np.array(sorted(curves))
        values = np.stack([weights @ curves[tuple(pair)] for pair in self.pairs], axis=1)
        self.spline = CubicSpline(CORRELATIONS, values, axis=0)

    def at(self, loadings):
        """Log-likelihood at `loadings` and its gradient."""
        i, j = self.pairs.T
        r = np.clip((loadings[i] * loadings[j]).sum(axis=1), -0.959, 0.959)
        value, slope = self._read(r)
        gradient = np.zeros_like(loadings)
        np.add.at(gradient, i, slope[:, None] * loadings[j])
        np.add.at(gradient, j, slope[:, None] * loadings[i])
        return value.sum(), gradient

    def _read(self, r):
        """Value and slope of each pair's own spline at its own correlation."""
        place = np.clip(np.searchsorted(CORRELATIONS, r) - 1, 0, len(CORRELATIONS) - 2)
        x = r - CORRELATIONS[place]
        c = self.spline.c[:, place, np.arange(len(r))]
        return ((c[0] * x + c[1]) * x + c[2]) * x + c[3], (3 * c[0] * x + 2 * c[1]) * x + c[2]

    def maximise(self, number, pull, start=None):
        """Loadings of `number` factors under a normal prior: pull / 2 times their square."""
        if number == 0:
            return np.zeros((self.traits, 0))
        shape = (self.traits, number)

        def loss(x):
            loadings = x.reshape(shape)
            value, gradient = self.at(loadings)
            beyond = np.maximum((loadings**2).sum(axis=1) - MOST_SHARED, 0)
            value -= 0.5 * pull * (x**2).sum() + 2000 * (beyond**2).sum()
            gradient = gradient - pull * loadings - 8000 * beyond[:, None] * loadings
            return -value, -gradient.ravel()

        starts = [start] if start is not None else self._starts(number)
        found = [minimize(loss, s.ravel(), jac=True, method="L-BFGS-B", options={"maxiter": 400})
                 for s in starts]
        return min(found, key=lambda f: f.fun).x.reshape(shape)

    def _starts(self, number):
        """Principal factors of the pairwise correlations, and two perturbed copies."""
        correlations = np.eye(self.traits)
        best = CORRELATIONS[self.spline(CORRELATIONS).argmax(axis=0)]
        for (i, j), r in zip(self.pairs, best):
            correlations[i, j] = correlations[j, i] = r
        values, vectors = np.linalg.eigh(correlations)
        top = vectors[:, -number:] * np.sqrt(np.maximum(values[-number:] - 0.5, 0.1))
        random = np.random.default_rng(15)
        return [top] + [0.6 * top + 0.3 * random.normal(size=top.shape) for _ in range(2)]


@dataclass
class Choice:
    """One number of factors with one pull: its gains over no factors by left-out season, and how
    far they are behind the best choice's, with the standard error over seasons."""
    number: int
    pull: float
    gains: np.ndarray
    behind: float = 0.0
    behind_error: float = 0.0


def compare(curves, traits, seasons):
    """Every choice of number and pull, fitted without each season and tried on it."""
    years = np.unique(seasons)
    parts = [(Composite(curves, traits, (seasons != year).astype(float)),
              Composite(curves, traits, (seasons == year).astype(float))) for year in years]
    nothing = np.array([test.at(np.zeros((traits, 1)))[0] for _, test in parts])
    rows = [Choice(number, pull, np.array([test.at(train.maximise(number, pull))[0]
                                           for train, test in parts]) - nothing)
            for number in NUMBERS for pull in PULLS]
    best = max(rows, key=lambda row: row.gains.sum())
    for row in rows:
        short = best.gains - row.gains
        row.behind = float(short.sum())
        row.behind_error = float(short.std(ddof=1) * np.sqrt(len(years)))
    return rows


def choose(rows):
    """The fewest factors that are not more than one standard error behind the best; of their pulls
    the best."""
    near = [row for row in rows if row.behind <= row.behind_error]
    number = min(row.number for row in near)
    return max((row for row in rows if row.number == number), key=lambda row: row.gains.sum())


def varimax(loadings, rounds=200):
    """H. F. Kaiser (1958), Psychometrika 23:187-200. Columns by falling variance; in each the first
    loading beyond .4 is positive."""
    number = loadings.shape[1]
    rotation = np.eye(number)
    for _ in range(rounds if number > 1 else 0):
        turned = loadings @ rotation
        u, _, vt = np.linalg.svd(loadings.T @ (
            turned**3 - turned * (turned**2).mean(axis=0)))
        rotation = u @ vt
    out = loadings @ rotation
    out = out[:, np.argsort(-(out**2).sum(axis=0))]
    marked = out[(np.abs(out) > 0.4).argmax(axis=0), np.arange(number)]
    return out * np.where(marked < 0, -1, 1)
