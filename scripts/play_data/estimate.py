"""The three estimators: censored yardage, logistic and proportional-odds regression."""
import numpy as np

SHIFT_SD = 0.5  # shifts are pulled toward 0 as if drawn from Normal(0, SHIFT_SD) log-odds
RIDGE = 1 / SHIFT_SD**2


def logit(p):
    return np.log(p) - np.log1p(-p)


def logistic(x):
    return 1 / (1 + np.exp(-x))


def pmf(shares, first):
    """JSON form, without the zeros at both ends."""
    shares = np.asarray(shares, float) / np.sum(shares)
    kept = np.nonzero(shares > 5e-7)[0]
    return {"from": int(first + kept[0]),
            "p": [round(float(p), 6) for p in shares[kept[0]:kept[-1] + 1]]}


def bins_of(form, edges):
    """Lowest yard of each bin cut at `edges`; one that no gain falls into joins the one below."""
    bins = [form["from"]]
    for edge in edges:
        below = form["p"][bins[-1] - form["from"]:max(edge - form["from"], 0)]
        if sum(below) > 0 and sum(form["p"][edge - form["from"]:]) > 0:
            bins.append(edge)
    return bins


def dense(form, low, high):
    """Probabilities of low..high out of the JSON form."""
    out = np.zeros(high - low + 1)
    start = form["from"] - low
    out[start:start + len(form["p"])] = form["p"]
    return out / out.sum()


def counts(values, low, high):
    """Shares of low..high; values beyond fall on the ends."""
    places = np.clip(values - low, 0, high - low).astype(int)
    tally = np.bincount(places, minlength=high - low + 1).astype(float)
    return tally / tally.sum()


def kaplan_meier(yards, censored, low, high, longer=None):
    """Shares of low..high where a censored row says only: at least so many yards (a gain cut off
    by the goal line). `longer`: chance that a row gained a yard more.
    E. L. Kaplan and P. Meier (1958), J. Am. Stat. Assoc. 53:457-481."""
    size = high - low + 1
    places = np.clip(yards - low, 0, size - 1).astype(int)
    events = np.bincount(places[~censored], minlength=size).astype(float)
    if longer is not None:
        events -= np.bincount(places, longer, size)
        events += np.bincount(places + 1, longer, size)[:size]
    cut = np.bincount(places[censored], minlength=size).astype(float)
    at_risk = np.cumsum((events + cut)[::-1])[::-1] - cut
    hazard = np.divide(events, at_risk, out=np.zeros(size), where=at_risk > 0)
    alive = np.cumprod(1 - hazard)
    shares = hazard * np.concatenate(([1.0], alive[:-1]))
    shares[np.nonzero(events)[0][-1]] += alive[-1]
    return shares


def before_spotting(yards, censored, low, high, short, pulled_back, rounds=20):
    """kaplan_meier() of gains of which those that just reach the line are spotted a yard short of it
    with chance `pulled_back`; rows `short` are all those spotted there. Expectation-maximisation."""
    short = short & ~censored & (yards >= low) & (yards < high)
    place = np.where(short, yards - low, 0).astype(int)
    longer = np.where(short, pulled_back / (1 + pulled_back), 0.0)
    for _ in range(rounds):
        shares = kaplan_meier(yards, censored, low, high, longer)
        reach = pulled_back * shares[place + 1]
        longer = np.where(short, reach / np.maximum(shares[place] + reach, 1e-12), 0.0)
    return shares


def smooth_tail(shares, low, start):
    """Averages neighbours beyond `start` yards, where single yards are counted a few times only;
    the window widens with the distance and keeps the total."""
    out = shares.copy()
    first = start - low
    out[first:] = 0
    for place in range(first, len(shares)):
        width = min((place - first) // 4, 8, len(shares) - 1 - place)
        out[place - width:place + width + 1] += shares[place] / (2 * width + 1)
    return out / out.sum()


def logistic_fit(X, hit, weight, ridge, start=None, offset=0.0):
    """Coefficients by Newton's method, with a ridge per coefficient."""
    beta = np.zeros(X.shape[1]) if start is None else start.copy()
    for _ in range(50):
        p = logistic(offset + X @ beta)
        gradient = X.T @ (weight * (hit - p)) - ridge * beta
        curvature = (X * (weight * p * (1 - p))[:, None]).T @ X + np.diag(ridge)
        step = np.linalg.solve(curvature, gradient)
        beta += step
        if np.abs(step).max() < 1e-9:
            break
    return beta


class ProportionalOdds:
    """Shifts of known yardage distributions: P(G >= g) = logistic(logit P0(G >= g) + X beta).
    Several distributions can share the shifts; `which` tells each row's own.
    P. McCullagh (1980), J. R. Stat. Soc. B 42:109-142."""

    def __init__(self, bases, low):
        self.low = low
        self.bases = bases
        rows = []
        for base in bases:
            above = np.clip(np.cumsum(base[::-1])[::-1], 1e-9, 1 - 1e-9)
            rows.append(np.concatenate(([30.0], logit(above[1:]), [-30.0])))
        self.cuts = np.array(rows)

    def at_least(self, which, yards, eta):
        """P(G >= yards), in between of whole yards by how far."""
        whole = np.floor(yards)
        cut = lambda place: self.cuts[which, np.clip(place - self.low, 0,
                                                     self.cuts.shape[1] - 1).astype(int)]
        here = logistic(cut(whole) + eta)
        return here + (yards - whole) * (logistic(cut(whole + 1) + eta) - here)

    def _edges(self, which, least, most, censored, eta):
        return (self.at_least(which, least, eta),
                np.where(censored, 0.0, self.at_least(which, most + 1, eta)))

    def log_likelihood(self, which, least, most, censored, eta):
        upper, lower = self._edges(which, least, most, censored, eta)
        return np.log(np.maximum(upper - lower, 1e-12))

    def fit(self, X, which, least, most, censored, weight, ridge, start=None):
        """Gains are known to lie from `least` to `most`. Yards between whole ones stand for a chance of
        the larger one (the slope is then good to a thousandth)."""
        beta = np.zeros(X.shape[1]) if start is None else start.copy()
        for _ in range(50):
            upper, lower = self._edges(which, least, most, censored, X @ beta)
            gradient = X.T @ (weight * (1 - upper - lower)) - ridge * beta
            information = weight * (upper * (1 - upper) + lower * (1 - lower))
            step = np.linalg.solve((X * information[:, None]).T @ X + np.diag(ridge), gradient)
            beta += step
            if np.abs(step).max() < 1e-9:
                break
        return beta
