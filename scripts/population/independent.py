"""Our fits beside lme4's (scripts/check_population_glmm.R) on the same games."""
import csv

from . import glmm
from .traits import LEAST_DROPBACKS

PARTS = ["quarterback", "opponent", "game"]


def compare(games, path):
    """Rows (rate, game effect in the model, quantity, ours, theirs, standard error, difference in
    standard errors). Standard errors of spreads: the width of the 90% profile interval over
    2 x 1.645; of means: lme4's."""
    with open(path, encoding="utf-8", newline="") as stream:
        theirs = list(csv.DictReader(stream))
    used = games.unit_dropbacks[games.unit] >= LEAST_DROPBACKS
    for rate, with_game in sorted({(r["rate"], int(r["game_effect"])) for r in theirs}):
        fit = glmm.fit(games, games.rate(rate), used, (True, True, bool(with_game)))
        ours = {f"mean_{year}": (mean, None) for year, mean in fit.means.items()}
        for name, spread, interval in zip(PARTS, fit.spreads, fit.intervals):
            ours[f"spread_{name}"] = spread, interval
        for row in theirs:
            if (row["rate"], int(row["game_effect"])) != (rate, with_game):
                continue
            if row["quantity"] == "log_likelihood":
                continue
            value, interval = ours[row["quantity"]]
            error = ((interval[1] - interval[0]) / (2 * 1.645) if interval
                     else float(row["standard_error"]))
            estimate = float(row["estimate"])
            yield {"rate": rate, "game_effect": with_game, "quantity": row["quantity"],
                   "ours": round(float(value), 5), "lme4": round(estimate, 5),
                   "standard_error": round(float(error), 5),
                   "apart": round(float((value - estimate) / error), 3)}
