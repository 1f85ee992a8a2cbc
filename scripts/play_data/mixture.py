"""Quality of an offence against a defence: a latent class shared by all plays of one team in one
game, found by expectation-maximisation from the outcomes of plays alone (never from drives).

The class stands at the three Gauss-Hermite nodes of a standard normal and moves completions,
sacks, interceptions, runs and yards after the catch, each by its own loading on the log-odds
scale. A. P. Dempster, N. M. Laird and D. B. Rubin (1977), J. R. Stat. Soc. B 39:1-38."""
import numpy as np

from .estimate import RIDGE, logistic_fit

NODES = np.sqrt(3) * np.array([-1.0, 0.0, 1.0])
WEIGHTS = np.array([1 / 6, 2 / 3, 1 / 6])
FACTORS = {"completion": 0.15, "sack": -0.15, "interception": -0.15, "run": 0.15, "yac": 0.15}


def _log_likelihood(part, node):
    eta = part.offset + part.X @ part.beta + part.loading * node
    if part.rate:
        return np.where(part.hit > 0, -np.log1p(np.exp(-eta)), -np.log1p(np.exp(eta)))
    return part.odds.log_likelihood(part.which, part.least, part.most, part.censored, eta)


def _fit(part, belief):
    """Maximises over the shifts, and over the loading when `belief` (rows x classes) is given."""
    loaded = belief is not None and part.factor in FACTORS
    copies = len(NODES) if loaded else 1
    X = np.tile(part.X, (copies, 1))
    ridge = np.full(X.shape[1], RIDGE)
    ridge[:part.constants] = 1e-6
    weight = np.ones(part.n)
    start = part.beta
    if loaded:
        X = np.hstack([X, np.repeat(NODES, part.n)[:, None]])
        ridge = np.append(ridge, 1e-6)
        weight = belief.T.ravel()
        start = np.append(part.beta, part.loading)
    again = lambda column: np.tile(column, copies)
    if part.rate:
        beta = logistic_fit(X, again(part.hit), weight, ridge, start, again(part.offset))
    else:
        beta = part.odds.fit(X, again(part.which), again(part.least), again(part.most),
                             again(part.censored), weight, ridge, start)
    part.beta, part.loading = (beta[:-1], beta[-1]) if loaded else (beta, 0.0)


def _beliefs(parts, unit, units):
    """Posterior class of each unit, and the total log-likelihood."""
    total = np.zeros((units, len(NODES)))
    for part in parts:
        for place, node in enumerate(NODES):
            np.add.at(total[:, place], unit[part.drive], _log_likelihood(part, node))
    total += np.log(WEIGHTS)
    top = total.max(axis=1)
    log_sum = top + np.log(np.exp(total - top[:, None]).sum(axis=1))
    return np.exp(total - log_sum[:, None]), log_sum.sum()


def fit_all(parts, unit, most=400):
    """Fits every component; returns the log-likelihood without classes and with them."""
    units = int(unit.max()) + 1
    for part in parts:
        _fit(part, None)
    _, plain = _beliefs(parts, unit, units)
    for part in parts:
        part.loading = FACTORS.get(part.factor, 0.0)
    moved = [part for part in parts if part.factor in FACTORS]
    before = -np.inf
    for _ in range(most):
        belief, total = _beliefs(parts, unit, units)
        if abs(total - before) < 1e-3:
            break
        before = total
        for part in moved:
            _fit(part, belief[unit[part.drive]])
    return plain, total


def loadings(parts):
    """One loading per factor; where several components share a factor, weighted by their rows."""
    out = {}
    for factor in FACTORS:
        shared = [part for part in parts if part.factor == factor]
        out[factor] = float(sum(p.loading * p.n for p in shared) / sum(p.n for p in shared))
    return out
