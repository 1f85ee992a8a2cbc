"""One rate of many quarterbacks: logistic regression with crossed normal effects.

logit p = season mean + quarterback-season + opponent-season + game, each effect normal with its own
standard deviation. The game's effect is integrated out by Gauss-Hermite quadrature, the crossed two
by Laplace's approximation (seasons are independent blocks), maximum likelihood over the rest.
N. E. Breslow and D. G. Clayton (1993), J. Am. Stat. Assoc. 88:9-25."""
from dataclasses import dataclass, field

import numpy as np
from scipy.linalg import cho_solve, cholesky
from scipy.optimize import brentq, minimize

NODES, WEIGHTS = np.polynomial.hermite_e.hermegauss(7)
LOG_WEIGHTS = np.log(WEIGHTS / WEIGHTS.sum())
DROP90 = 1.3528  # half of the 90% point of chi-square with one degree of freedom
LEAST = 1e-3     # a standard deviation as good as none


def softplus(x):
    return np.logaddexp(0, x)


def game_terms(eta, hits, trials, spread):
    """Log-likelihood of each game at `eta` with its own effect integrated out, and its first two
    derivatives."""
    at = eta[:, None] + spread * NODES if spread > LEAST else eta[:, None]
    log_weights = LOG_WEIGHTS if spread > LEAST else np.zeros(1)
    p = 1 / (1 + np.exp(-at))
    log_terms = hits[:, None] * at - trials[:, None] * softplus(at) + log_weights
    top = log_terms.max(axis=1, keepdims=True)
    weight = np.exp(log_terms - top)
    total = weight.sum(axis=1, keepdims=True)
    weight /= total
    slope = hits[:, None] - trials[:, None] * p
    first = (weight * slope).sum(axis=1)
    second = (weight * (slope**2 - trials[:, None] * p * (1 - p))).sum(axis=1) - first**2
    return (top + np.log(total))[:, 0], first, second


@dataclass
class Season:
    """Rows of one season with effects numbered from 0: quarterbacks first, then opponents."""
    hits: np.ndarray
    trials: np.ndarray
    unit: np.ndarray
    opponent: np.ndarray
    units: int
    effects: int
    names: np.ndarray
    state: np.ndarray = field(default=None)

    def laplace(self, spreads, mean=None):
        """Laplace's marginal log-likelihood, at `mean` or at the one most likely together with the
        effects, and that mean."""
        man, opponent, game = spreads
        scale = np.r_[np.full(self.units, man), np.full(self.effects - self.units, opponent)]
        state = self._start()
        if mean is not None:
            state = np.r_[state[:-1], mean]
        for _ in range(60):
            eta = (state[-1] + scale[self.unit] * state[self.unit]
                   + scale[self.opponent] * state[self.opponent])
            value, first, second = game_terms(eta, self.hits, self.trials, game)
            gradient, hessian = self._derivatives(first, np.maximum(-second, 1e-9), scale)
            gradient[:-1] -= state[:-1]
            if mean is not None:
                gradient[-1], hessian[-1], hessian[:, -1], hessian[-1, -1] = 0, 0, 0, 1
            hessian[np.diag_indices(self.effects)] += 1
            root = cholesky(hessian, lower=True, overwrite_a=True, check_finite=False)
            step = cho_solve((root, True), gradient, check_finite=False)
            size = np.abs(step).max()
            state = state + step * min(1.0, 2.0 / max(size, 1e-12))
            if size < 1e-6:
                break
        self.state = state
        half_logdet = np.log(np.diag(root)[:-1]).sum()  # the mean stands last, so it drops out
        return value.sum() - 0.5 * (state[:-1] ** 2).sum() - half_logdet, state[-1]

    def marginal_mean(self, spreads):
        """The mean that maximises Laplace's likelihood itself, by two parabolas."""
        _, mean = self.laplace(spreads)
        for step in (0.05, 0.01):
            left, middle, right = (self.laplace(spreads, mean + move)[0]
                                   for move in (-step, 0, step))
            mean += 0.5 * step * (left - right) / (left - 2 * middle + right)
        self.laplace(spreads, mean)
        return mean

    def _start(self):
        if self.state is not None:
            return self.state
        p = (self.hits.sum() + 0.5) / (self.trials.sum() + 1)
        return np.r_[np.zeros(self.effects), np.log(p / (1 - p))]

    def _derivatives(self, first, weight, scale):
        size = 1 + self.effects
        a, b = self.unit, self.opponent
        sa, sb = scale[a], scale[b]
        gradient = np.bincount(a, first * sa, size) + np.bincount(b, first * sb, size)
        gradient[-1] = first.sum()
        both = np.bincount(a * size + b, weight * sa * sb, size * size).reshape(size, size)
        both[:, -1] += np.bincount(a, weight * sa, size) + np.bincount(b, weight * sb, size)
        hessian = both + both.T
        diagonal = np.bincount(a, weight * sa**2, size) + np.bincount(b, weight * sb**2, size)
        diagonal[-1] = weight.sum()
        hessian[np.diag_indices(size)] = diagonal
        return gradient, hessian


class Crossed:
    """The model of one rate. `rows` picks the rows of `games` that are used."""

    def __init__(self, games, counts, rows):
        self.seasons = {}
        for season in np.unique(games.season[rows]):
            at = np.nonzero(rows & (games.season == season) & (counts.trials > 0))[0]
            if len(at):
                units, unit = np.unique(games.unit[at], return_inverse=True)
                opponents, opponent = np.unique(games.opponent[at], return_inverse=True)
                self.seasons[season] = Season(
                    counts.hits[at], counts.trials[at], unit, len(units) + opponent, len(units),
                    len(units) + len(opponents), units)

    def log_likelihood(self, spreads):
        spreads = np.maximum(np.abs(spreads), LEAST)
        return sum(season.laplace(spreads)[0] for season in self.seasons.values())

    def modes(self, spreads):
        """Season means, and the most likely effect of each quarterback-season (log-odds)."""
        means, effects = {}, {}
        for year, season in self.seasons.items():
            means[year] = season.marginal_mean(spreads)
            effects.update(zip(season.names, spreads[0] * season.state[:season.units]))
        return means, effects


@dataclass
class Fit:
    """Standard deviations (quarterback, opponent, game) on the log-odds scale, their 90% intervals
    (None where not asked for), the season means, most likely effects by unit, log-likelihood."""
    spreads: np.ndarray
    intervals: list
    means: dict
    effects: dict
    log_likelihood: float


def fit(games, counts, rows, parts=(True, True, True), start=(0.2, 0.1, 0.06), intervals=True):
    """Maximum likelihood; `parts` says which of the three effects are in the model. Without
    intervals the maximum is found to .002, with them to .0005."""
    model = Crossed(games, counts, rows)
    free = np.nonzero(parts)[0]

    def value(x):
        spreads = np.zeros(3)
        spreads[free] = x
        return -model.log_likelihood(spreads)

    first = np.asarray(start)[free]
    simplex = np.vstack([first, first + np.diag(0.3 * first)])
    found = minimize(value, first, method="Nelder-Mead", options={
        "xatol": 5e-4 if intervals else 2e-3, "fatol": 2e-3 if intervals else 1e-2,
        "maxfev": 240, "initial_simplex": simplex})
    best = np.abs(found.x)
    spreads = np.zeros(3)
    spreads[free] = np.where(best > 2 * LEAST, best, 0)
    ranges = profile_intervals(value, best, found.fun) if intervals else [None] * len(free)
    full = [None] * 3
    for place, part in enumerate(free):
        full[part] = ranges[place]
    return Fit(spreads, full, *model.modes(np.maximum(spreads, LEAST)), -found.fun)


def profile_intervals(value, best, least):
    """90% intervals by profile likelihood; the other spreads move along the ridge that the
    curvature at the maximum gives."""
    curvature = _curvature(value, best)
    return [_profile(value, best, least, curvature, part) for part in range(len(best))]


def _curvature(value, best):
    size = len(best)
    step = 0.15 * np.maximum(best, 0.05)
    out = np.zeros((size, size))
    middle = value(best)
    for i in range(size):
        ei = np.eye(size)[i] * step[i]
        out[i, i] = (value(best + ei) + value(np.abs(best - ei)) - 2 * middle) / step[i] ** 2
        for j in range(i):
            ej = np.eye(size)[j] * step[j]
            out[i, j] = out[j, i] = (value(best + ei + ej) + value(np.abs(best - ei - ej))
                                     - value(np.abs(best + ei - ej)) - value(np.abs(best - ei + ej))
                                     ) / (4 * step[i] * step[j])
    return out


def _profile(value, best, least, curvature, part):
    others = [i for i in range(len(best)) if i != part]
    inner = curvature[np.ix_(others, others)] + 1e-6 * np.eye(len(others))
    ridge = -np.linalg.solve(inner, curvature[others, part]) if others else np.zeros(0)

    def excess(x):
        point = best.copy()
        point[part] = x
        point[others] = np.maximum(best[others] + np.clip(ridge, -1, 1) * (x - best[part]), 0)
        return value(point) - least - DROP90

    low = brentq(excess, 0, best[part], xtol=1e-3) if excess(0.0) > 0 else 0.0
    high = best[part] + 0.02
    while excess(high) < 0 and high < best[part] + 2:
        high = best[part] + 1.6 * (high - best[part])
    return [float(low), float(brentq(excess, best[part], high, xtol=1e-3))]
