"""Does an older game of a season say less? The first eight games, each weighted by 2^(-age / half-life),
predict the rest of the season; spread by half-life chosen with hindsight, so that each is at its best."""
import numpy as np
from scipy.optimize import minimize_scalar

HALF_LIVES = (1, 2, 4, 8, 16, np.inf)  # games
RATES = ("completion", "interception", "sack", "scramble")
SEEN = 8  # games
LEAST_SEEN, LEAST_REST = 100, 50  # trials


def halves(games, rate):
    """(seen, rest) by quarterback-season: counts (hits, trials), shapes (SEEN, 2) and (2,)."""
    counts = games.rate(rate)
    for unit in np.unique(games.unit):
        own = np.flatnonzero(games.unit == unit)
        own = own[np.argsort(games.order[own])]
        table = np.column_stack([counts.hits[own], counts.trials[own]])
        seen, rest = table[:SEEN], table[SEEN:].sum(axis=0)
        if seen[:, 1].sum() >= LEAST_SEEN and rest[1] >= LEAST_REST:
            yield seen, rest


def best_score(seen, rest, weights):
    """The highest log score of the rest under a Beta around the league's rate, over its strengths."""
    rate = (seen.sum(axis=(0, 1)) + rest.sum(axis=0))
    rate = rate[0] / rate[1]
    hits, trials = np.tensordot(weights, seen, (0, 1)).T

    def loss(log_strength):
        strength = np.exp(log_strength)
        p = (rate * strength + hits) / (strength + trials)
        return -(rest[:, 0] * np.log(p) + (rest[:, 1] - rest[:, 0]) * np.log1p(-p)).sum()

    return -minimize_scalar(loss, bounds=(0, 9), method="bounded").fun


def gains(games):
    """Rows (rate, seasons, {half-life: gain of log score per 1,000 trials over equal weights})."""
    age = np.arange(SEEN - 1, -1, -1)
    for rate in RATES:
        seen, rest = map(np.array, zip(*halves(games, rate)))
        score = {life: best_score(seen, rest, 2.0 ** (-age / life)) for life in HALF_LIVES}
        per = 1000 / rest[:, 1].sum()
        yield rate, len(rest), {life: per * (score[life] - score[np.inf]) for life in HALF_LIVES[:-1]}
