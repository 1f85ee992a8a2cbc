"""Correlation of two rates' true values over quarterback-seasons, from disjoint halves of games.

Rate a is taken from even games and rate b from odd games, and the other way round, so that no play
and no game is shared: neither sampling noise nor a common game passes for a common cause."""
from dataclasses import dataclass

import numpy as np

from .glmm import game_terms

GRID = np.linspace(-4.5, 4.5, 37)
CORRELATIONS = np.linspace(-0.96, 0.96, 33)


def bivariate_weights(r, grid=GRID):
    """Weights of grid x grid for two standard normals with correlation r."""
    x, y = grid[:, None], grid[None, :]
    log_density = -(x**2 - 2 * r * x * y + y**2) / (2 * (1 - r**2))
    weights = np.exp(log_density)
    return weights / weights.sum()


TABLE = np.array([bivariate_weights(r) for r in CORRELATIONS])


@dataclass
class Bearer:
    """Whose effect is looked at: `unit` and `half` (0, 1) by row, number of units, standard
    deviation of the effect, and of all else that differs between games."""
    unit: np.ndarray
    half: np.ndarray
    units: int
    spread: float
    rest: float


def likelihoods(counts, base, bearer, grid=GRID):
    """Likelihood of each unit's games on `grid` (its own effect in standard deviations), for even
    and odd games: shape (2, units, grid), each row scaled to a maximum of 1. `base` is the log-odds
    without the effect, not a number where a row is not used."""
    out = np.zeros((2, bearer.units, len(grid)))
    at = (counts.trials > 0) & ~np.isnan(base)
    for place, x in enumerate(grid):
        value, _, _ = game_terms(base[at] + bearer.spread * x, counts.hits[at], counts.trials[at],
                                 bearer.rest)
        np.add.at(out, (bearer.half[at], bearer.unit[at], place), value)
    return np.exp(out - out.max(axis=2, keepdims=True))


def pair_curve(a, b):
    """Log-likelihood of each unit at CORRELATIONS, both ways of halving: (units, CORRELATIONS)."""
    out = 0.0
    for first, second in ((a[0], b[1]), (a[1], b[0])):
        out = out + np.log(np.stack([((first @ w) * second).sum(axis=1) for w in TABLE], axis=1))
    return out


def all_curves(tables):
    """Curves of every pair of traits, by (i, j), i < j."""
    return {(i, j): pair_curve(tables[i], tables[j])
            for j in range(len(tables)) for i in range(j)}


FINE = np.linspace(-4.5, 4.5, 91)
STEADY = np.r_[np.arange(0.4, 0.96, 0.02), 0.97, 0.98, 0.99, 0.999]


def steadiness(counts, base, bearer, drop):
    """Correlation of a trait between the two halves of `bearer` (first and second part of a
    season), with the interval where the log-likelihood is at most `drop` below its maximum."""
    table = likelihoods(counts, base, bearer, FINE)
    kept = ~np.isnan(table).any(axis=(0, 2))
    first, second = table[0, kept], table[1, kept]
    curve = np.array([np.log(((first @ bivariate_weights(r, FINE)) * second).sum(axis=1)).sum()
                      for r in STEADY])
    inside = STEADY[curve >= curve.max() - drop]
    return float(STEADY[curve.argmax()]), [float(inside[0]), float(inside[-1])]
