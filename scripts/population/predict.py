"""Do first games predict the rest, and one season the next? Each season left out in turn.

A quarterback's traits have a factor prior, so given the factors they are independent: the posterior
is a mixture over a grid of factor values, and every step is a sum over grids (no simulation but for
predictive counts)."""
from dataclasses import dataclass, field

import numpy as np
from scipy.optimize import brentq, minimize_scalar
from scipy.special import betaln

from .glmm import NODES, WEIGHTS, game_terms

GRID = np.linspace(-5, 5, 81)       # a trait in standard deviations
FACTOR_GRID = np.linspace(-3.6, 3.6, 19)
GAME_WEIGHTS = WEIGHTS / WEIGHTS.sum()
RATES = {  # trait -> name in prediction.csv
    "completion_behind_line": "completion_behind_line", "completion_quick": "completion_quick",
    "completion_intermediate": "completion_intermediate", "completion_deep": "completion_deep",
    "interception": "interception", "sack": "sack", "scramble": "scramble",
    "yac_short": "yac10_short", "yac_intermediate": "yac10_intermediate",
    "designed_run_share": "designed_run_share", "untargeted": "untargeted"}
METHODS = ["league", "raw", "independent", "joint"]


def sigmoid(x):
    return 1 / (1 + np.exp(-x))


@dataclass
class Prior:
    """Spreads (quarterback; game with opponent), loadings (traits, factors) and the concentration
    of a Beta for each of RATES, from seasons that do not hold the test season."""
    spread: np.ndarray
    game: np.ndarray
    loadings: np.ndarray
    concentration: np.ndarray

    def as_json(self):
        return {name: np.round(value, 5).tolist() for name, value in vars(self).items()}

    @staticmethod
    def from_json(value):
        return Prior(**{name: np.array(part) for name, part in value.items()})

    @staticmethod
    def of(model, games, seasons, least):
        fits = [model.fits[name] for name in RATES]
        return Prior(np.array([f.spreads[0] for f in fits]),
                     np.array([np.hypot(*f.spreads[1:]) for f in fits]),
                     np.array([model.men.of(name) for name in RATES]),
                     np.array([concentration(games, name, seasons, least) for name in RATES]))


def by_unit(games, values, rows):
    return np.bincount(games.unit[rows], values[rows], len(games.unit_man))


def concentration(games, name, seasons, least):
    """Concentration of a Beta between quarterback-seasons by maximum likelihood, season means
    fixed at the pooled rates."""
    counts = games.rate(name)
    rows = np.isin(games.season, seasons) & (games.unit_dropbacks[games.unit] >= least)
    hits, trials = by_unit(games, counts.hits, rows), by_unit(games, counts.trials, rows)
    used = trials > 0
    hits, trials, season = hits[used], trials[used], games.unit_season[used]
    mean = np.zeros(len(hits))
    for year in seasons:
        at = season == year
        mean[at] = hits[at].sum() / trials[at].sum()

    def loss(log_k):
        a, b = mean * np.exp(log_k), (1 - mean) * np.exp(log_k)
        return -(betaln(hits + a, trials - hits + b) - betaln(a, b)).sum()

    return float(np.exp(minimize_scalar(loss, bounds=(0, 11), method="bounded").x))


def centre(mean, spread, game):
    """Log-odds whose logit-normal mixture has this mean."""
    total = np.hypot(spread, game)
    return brentq(lambda m: GAME_WEIGHTS @ sigmoid(m + total * NODES) - mean, -12, 12)


def likelihood_tables(games, prior, league, rows, units):
    """Log-likelihood of each unit's rows on GRID, by trait: (traits, units, GRID)."""
    out = np.zeros((len(RATES), len(games.unit_man), len(GRID)))
    for t, name in enumerate(RATES):
        counts = games.rate(name)
        at = rows & (counts.trials > 0)
        for place, x in enumerate(GRID):
            value, _, _ = game_terms(np.full(at.sum(), league[t]) + prior.spread[t] * x,
                                     counts.hits[at], counts.trials[at], prior.game[t])
            np.add.at(out[t, :, place], games.unit[at], value)
    return out[:, units]


def posteriors(tables, loadings):
    """Posterior of each trait on GRID given all tables: (traits, units, GRID), rows sum to 1."""
    factors = loadings.shape[1]
    mesh = np.stack(np.meshgrid(*[FACTOR_GRID] * factors, indexing="ij"), -1).reshape(-1, factors)
    log_mesh = -0.5 * (mesh**2).sum(axis=1)
    like = np.exp(tables - tables.max(axis=2, keepdims=True))
    given = []
    for t in range(len(tables)):
        own = np.sqrt(max(1 - (loadings[t] ** 2).sum(), 1e-3))
        density = np.exp(-0.5 * ((GRID - (mesh @ loadings[t])[:, None]) / own) ** 2)
        given.append(density / density.sum(axis=1, keepdims=True))
    shares = np.array([np.log(like[t] @ given[t].T + 1e-300) for t in range(len(tables))])
    total = shares.sum(axis=0) + log_mesh
    out = np.zeros_like(like)
    for t in range(len(tables)):
        others = total - shares[t]
        weight = np.exp(others - others.max(axis=1, keepdims=True))
        out[t] = like[t] * (weight @ given[t])
    return out / out.sum(axis=2, keepdims=True)


def predicted_mean(posterior, league, prior):
    """Predictive probability of one trial in a new game: (traits, units)."""
    rate = np.array([sigmoid(league[t] + prior.spread[t] * GRID[:, None]
                             + prior.game[t] * NODES) @ GAME_WEIGHTS for t in range(len(league))])
    return np.einsum("tug,tg->tu", posterior, rate)


def predictive_pit(posterior, spread, league, others, units, hits, trials, random, draws=1000):
    """Randomised probability integral transform of each unit's total, by simulation over its
    games: `units` numbers the rows of `hits` and `trials`; `others` are the standard deviations of
    a game's effect and of the league's drift."""
    game, drift = others
    number = len(posterior)
    beyond = np.cumsum(posterior, axis=1)[:, :, None] < random.random((number, 1, draws))
    pick = beyond.sum(axis=1)
    step = GRID[1] - GRID[0]
    u = spread * (GRID[np.minimum(pick, len(GRID) - 1)] + step * (random.random(pick.shape) - 0.5))
    u = u + drift * random.normal(size=u.shape)
    totals, truth = np.zeros((number, draws)), np.bincount(units, hits, number)
    effect = game * random.normal(size=(len(units), draws))
    np.add.at(totals, units, random.binomial(trials.astype(int)[:, None],
                                             sigmoid(league + u[units] + effect)))
    below = (totals < truth[:, None]).mean(axis=1)
    same = (totals == truth[:, None]).mean(axis=1)
    return below + random.random(number) * same


@dataclass
class Scores:
    """One row a quarterback-season and rate: log score by method, trials, and the transform."""
    man: list = field(default_factory=list)
    season: list = field(default_factory=list)
    rate: list = field(default_factory=list)
    first: list = field(default_factory=list)
    trials: list = field(default_factory=list)
    moved: list = field(default_factory=list)
    pit: list = field(default_factory=list)
    score: list = field(default_factory=list)

    def arrays(self):
        return {name: np.array(value) for name, value in vars(self).items()}


def log_score(hits, trials, p):
    p = np.clip(p, 1e-9, 1 - 1e-9)
    return hits * np.log(p) + (trials - hits) * np.log1p(-p)


def add(scores, games, units, t, rest, first, p, pit, moved=None):
    """Scores of one rate; `first` holds each unit's dropbacks in the games that were seen."""
    counts = games.rate(list(RATES)[t])
    hits = by_unit(games, counts.hits, rest)[units]
    trials = by_unit(games, counts.trials, rest)[units]
    for i, unit in enumerate(units):
        if trials[i] == 0:
            continue
        scores.man.append(games.unit_man[unit])
        scores.season.append(games.unit_season[unit])
        scores.rate.append(t)
        scores.first.append(first[i])
        scores.trials.append(trials[i])
        scores.moved.append(-1 if moved is None else moved[i])
        scores.pit.append(pit[i])
        scores.score.append([log_score(hits[i], trials[i], p[m][i]) for m in METHODS])


def league_drift(games, name, seasons, first_games):
    """Standard deviation of how far a season's later mean departs from its first games' on the
    log-odds scale: chance and drift together, from other seasons."""
    counts = games.rate(name)
    moves = []
    for season in seasons:
        odds = []
        for rows in (games.order <= first_games, games.order > first_games):
            at = rows & (games.season == season)
            p = counts.hits[at].sum() / counts.trials[at].sum()
            odds.append(np.log(p / (1 - p)))
        moves.append(odds[1] - odds[0])
    return float(np.sqrt(np.mean(np.square(moves))))


def within_season(games, prior, season, first_games, steady, scores, random):
    """First games of one season predict its other games; `steady` gives each trait's correlation
    between parts of a season."""
    early = (games.season == season) & (games.order <= first_games)
    late = (games.season == season) & (games.order > first_games)
    dropbacks = games.column["dropbacks"]
    units = np.nonzero((by_unit(games, dropbacks, early) >= 50)
                       & (by_unit(games, dropbacks, late) >= 100))[0]
    mean = np.array([games.rate(n).hits[early].sum() / games.rate(n).trials[early].sum()
                     for n in RATES])
    league = np.array([centre(m, s, g) for m, s, g in zip(mean, prior.spread, prior.game)])
    tables = likelihood_tables(games, prior, league, early, units)
    joint = posteriors(tables, prior.loadings)
    for t, name in enumerate(RATES):
        if steady[name] < 1:
            joint[t] = carried(joint[t], steady[name])
    p_joint = predicted_mean(joint, league, prior)
    others = [year for year in np.unique(games.season) if year != season]
    first = by_unit(games, dropbacks, early)[units]
    place = np.full(len(games.unit_man), -1)
    place[units] = np.arange(len(units))
    for t, name in enumerate(RATES):
        counts = games.rate(name)
        hits, trials = (by_unit(games, v, early)[units] for v in (counts.hits, counts.trials))
        k = prior.concentration[t]
        p = {"league": np.full(len(units), mean[t]), "raw": (hits + 0.5) / (trials + 1),
             "independent": (hits + mean[t] * k) / (trials + k), "joint": p_joint[t]}
        rows = late & (place[games.unit] >= 0) & (counts.trials > 0)
        drift = league_drift(games, name, others, first_games)
        pit = predictive_pit(joint[t], prior.spread[t], league[t], (prior.game[t], drift),
                             place[games.unit[rows]], counts.hits[rows], counts.trials[rows],
                             random)
        add(scores, games, units, t, late, first, p, pit)


def carried(posterior, r):
    """Posterior of a trait (rows sum to 1 over GRID) after a move with correlation `r`."""
    own = np.sqrt(1 - min(r, 0.995) ** 2)
    step = np.exp(-0.5 * ((GRID[None, :] - r * GRID[:, None]) / own) ** 2)
    return posterior @ (step / step.sum(axis=1, keepdims=True))


def next_season(games, totals, prior, season, carry, scores, random, least=100):
    """The season before predicts this one; the new season's mean is known to all methods."""
    old_rows, new_rows = games.season == season - 1, games.season == season
    dropbacks = games.column["dropbacks"]
    enough_old = by_unit(games, dropbacks, old_rows) >= least
    enough_new = by_unit(games, dropbacks, new_rows) >= least
    old_of = {games.unit_man[u]: u for u in np.nonzero(enough_old)[0]}
    pairs = [(old_of[games.unit_man[u]], u) for u in np.nonzero(enough_new)[0]
             if games.unit_man[u] in old_of and totals.moved(u) is not None]
    if not pairs:
        return
    old, new = np.array(pairs).T
    moved = np.array([totals.moved(u) for u in new])
    means = [np.array([games.rate(n).hits[rows].sum() / games.rate(n).trials[rows].sum()
                       for n in RATES]) for rows in (old_rows, new_rows)]
    leagues = [np.array([centre(m, s, g) for m, s, g in zip(mean, prior.spread, prior.game)])
               for mean in means]
    tables = likelihood_tables(games, prior, leagues[0], old_rows, old)
    joint = posteriors(tables, prior.loadings)
    for t, name in enumerate(RATES):
        for change in (0, 1):
            joint[t][moved == change] = carried(joint[t][moved == change],
                                                carry.next_season(name, bool(change)))
    p_joint = predicted_mean(joint, leagues[1], prior)
    first = by_unit(games, dropbacks, old_rows)[old]
    place = np.full(len(games.unit_man), -1)
    place[new] = np.arange(len(new))
    for t, name in enumerate(RATES):
        counts = games.rate(name)
        hits, trials = (by_unit(games, v, old_rows)[old] for v in (counts.hits, counts.trials))
        k = prior.concentration[t]
        odds = np.log(means[1][t] / (1 - means[1][t])) - np.log(means[0][t] / (1 - means[0][t]))
        move = lambda q: sigmoid(np.log(q / (1 - q)) + odds)
        p = {"league": np.full(len(new), means[1][t]), "raw": move((hits + 0.5) / (trials + 1)),
             "independent": move((hits + means[0][t] * k) / (trials + k)), "joint": p_joint[t]}
        rows = new_rows & (place[games.unit] >= 0) & (counts.trials > 0)
        pit = predictive_pit(joint[t], prior.spread[t], leagues[1][t], (prior.game[t], 0.0),
                             place[games.unit[rows]], counts.hits[rows], counts.trials[rows],
                             random)
        add(scores, games, new, t, new_rows, first, p, pit, moved)


def gains(scores, keep, method, base, random, draws=400):
    """Gain of log score per 1000 trials of `method` over `base` and its standard error, men drawn
    again."""
    a = scores
    difference = a["score"][keep, METHODS.index(method)] - a["score"][keep, METHODS.index(base)]
    men, man = np.unique(a["man"][keep], return_inverse=True)
    top = np.bincount(man, difference, len(men))
    bottom = np.bincount(man, a["trials"][keep], len(men))
    weight = random.multinomial(len(men), np.full(len(men), 1 / len(men)), size=draws)
    return 1000 * top.sum() / bottom.sum(), float((1000 * (weight @ top) / (weight @ bottom)).std())


def coverage(scores, keep):
    """Share of truths within the central 90% of their predictive distribution."""
    pit = scores["pit"][keep]
    return float(((pit >= 0.05) & (pit <= 0.95)).mean())
