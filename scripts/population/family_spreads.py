"""How far one family's rate departs from its trait, where depth and lane tell families apart."""
import numpy as np
from scipy.optimize import brentq, minimize_scalar

from . import glmm
from .halves import GRID
from .traits import LEAST_DROPBACKS

NODES, WEIGHTS = np.polynomial.hermite_e.hermegauss(15)
WEIGHTS = WEIGHTS / WEIGHTS.sum()


def log_tables(games, fits, trait, rates):
    """Log-likelihood of each unit's count of each rate on a grid of effects (log-odds scale).
    The rate's season mean is the one that fits it alone; game effects are the trait's."""
    used = games.unit_dropbacks >= LEAST_DROPBACKS
    trait_fit = fits[trait]
    game = float(np.hypot(*trait_fit.spreads[1:]))
    wide = np.linspace(-1, 1, 81) * 6 * max(trait_fit.spreads[0], 0.1)
    out = []
    for name in rates:
        counts = games.rate(name)
        alone = glmm.fit(games, counts, used[games.unit], (True, False, False), intervals=False)
        at = used[games.unit] & (counts.trials > 0)
        mean = np.array([alone.means[year] for year in games.season[at]])
        table = np.zeros((len(used), len(wide)))
        for place, u in enumerate(wide):
            value, _, _ = glmm.game_terms(mean + u, counts.hits[at], counts.trials[at], game)
            np.add.at(table[:, place], games.unit[at], value)
        out.append(table[used])
    return wide, out


def own_spread(games, fits, trait, rates):
    """Standard deviation, 90% interval and log-likelihood over none of what one family's rate has
    of its own; one value for all `rates` of the trait."""
    wide, tables = log_tables(games, fits, trait, rates)
    u = fits[trait].spreads[0] * GRID
    prior = np.exp(-0.5 * GRID**2)
    prior /= prior.sum()
    tops = [table.max(axis=1, keepdims=True) for table in tables]
    density = [np.exp(table - top) for table, top in zip(tables, tops)]

    def log_likelihood(own):
        at = np.clip(u[:, None] + own * NODES, wide[0], wide[-1])
        place = np.clip(np.searchsorted(wide, at) - 1, 0, len(wide) - 2)
        part = (at - wide[place]) / (wide[1] - wide[0])
        total = 1.0
        for table in density:
            read = table[:, place] * (1 - part) + table[:, place + 1] * part
            total = total * (read @ WEIGHTS)
        return float(np.log(total @ prior).sum())

    most = 0.6
    best = minimize_scalar(lambda s: -log_likelihood(s), bounds=(0, most), method="bounded").x
    none, top = log_likelihood(0.0), log_likelihood(best)
    if none >= top - 1e-3:
        best, top = 0.0, none
    excess = lambda s: top - log_likelihood(s) - glmm.DROP90
    low = brentq(excess, 0, best) if best > 0 and excess(0.0) > 0 else 0.0
    high = brentq(excess, best, 2.0)
    return {"own_spread": float(best), "interval90": [float(low), float(high)],
            "gain": top - none, "n": int(len(density[0]))}


LANED_RATES = {"quick": ("completion_quick", ["completion_quick_outside",
                                              "completion_quick_middle"]),
               "deep": ("completion_deep", ["completion_deep_outside", "completion_deep_middle"])}
INTERCEPTION_RATES = ["interception_behind_line", "interception_quick",
                      "interception_intermediate", "interception_deep"]
YAC_RATES = ["yac_behind_line", "yac_quick"]


def all_own_spreads(games, fits):
    out = {depth: own_spread(games, fits, trait, rates)
           for depth, (trait, rates) in LANED_RATES.items()}
    out["interception"] = own_spread(games, fits, "interception", INTERCEPTION_RATES)
    out["yac"] = own_spread(games, fits, "yac_short", YAC_RATES)
    return out


def gain_spread(games, pmf, total, number):
    """Spread of the proportional-odds shift that gives men's mean gain the spread it has, by
    moments: variance of the means less what chance gives, over the mean's slope in the shift.
    `pmf` is the setting's distribution, `total` and `number` columns of yards and plays."""
    units = len(games.unit_man)
    yards = np.bincount(games.unit, games.column[total], units)
    n = np.bincount(games.unit, games.column[number], units)
    used = (games.unit_dropbacks >= LEAST_DROPBACKS) & (n >= 5)
    p = np.array(pmf["p"]) / sum(pmf["p"])
    gains = pmf["from"] + np.arange(len(p))
    within = p @ gains**2 - (p @ gains) ** 2
    mean, n = yards[used] / n[used], n[used]
    season = games.unit_season[used]
    for year in np.unique(season):
        at = season == year
        mean[at] -= np.average(mean[at], weights=n[at])
    beyond = p[::-1].cumsum()[::-1][1:]
    slope = (beyond * (1 - beyond)).sum()

    def moment(weights):
        m, k = mean[weights], n[weights]
        weight = k / (k + 30)
        return (weight * (m**2 - within / k)).sum() / weight.sum()

    random = np.random.default_rng(15)
    size = len(mean)
    draws = [moment(random.integers(size, size=size)) for _ in range(400)]
    spread = lambda v: float(np.sqrt(max(v, 0)) / slope)
    return {"spread": spread(moment(np.arange(size))),
            "interval90": [spread(v) for v in np.quantile(draws, [0.05, 0.95])], "n": int(size),
            "yards": float(np.sqrt(max(moment(np.arange(size)), 0)))}
