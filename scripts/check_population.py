#!/usr/bin/python3
"""Holds the joint population against seasons it has not seen.

Usage: scripts/check_population.py --fit    fits without each season: left_out.json, some minutes
       scripts/check_population.py          the predictive check with left_out.json
       scripts/check_population.py --glmm   our fits beside lme4's in glmm_check.csv
       scripts/check_population.py --ages   what half-lives of games would bring
Each season is left out in turn: spreads, loadings and Betas are fitted on the others. Prints the
tables of docs/population.md and writes data/quarterbacks/population_check.csv. Needs Debian's
python3-numpy and python3-scipy."""
import csv
import json
import multiprocessing
import os
import sys

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np

import build_settings
from population import ages, build, carry, independent, predict, traits

ROOT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..")
DATA = os.path.join(ROOT, "data", "quarterbacks")
FACTORS = (2, 6.0)  # number and pull, as build_population.py chooses them from all seasons
SEASONS = range(2009, 2019)
WINDOWS = ["first 4 games", "first 8 games", "season before"]
SNAPS = {"first 4 games": [50, 100, 150, 1000], "first 8 games": [50, 250, 300, 1000],
         "season before": [100, 300, 500, 1000]}


def prior_without(season):
    """(season, what the other seasons say) in the form of left_out.json."""
    games, totals = build.load(DATA)
    seasons = [year for year in SEASONS if year != season]
    model = traits.estimate_men(games, totals, seasons, list(predict.RATES), FACTORS)
    return str(season), predict.Prior.of(model, games, seasons, traits.LEAST_DROPBACKS).as_json()


def fit():
    with multiprocessing.Pool(2) as pool:
        priors = dict(pool.imap(prior_without, SEASONS))
    path = os.path.join(DATA, "left_out.json")
    build_settings.write(path, {"factors": {"number": FACTORS[0], "pull": FACTORS[1]},
                                "traits": list(predict.RATES), "without": priors})


def scores_of(season, games, totals, prior, steady):
    """Scores of one left-out season, by window."""
    random = np.random.default_rng(season)
    out = [predict.Scores() for _ in WINDOWS]
    predict.within_season(games, prior, season, 4, steady, out[0], random)
    predict.within_season(games, prior, season, 8, steady, out[1], random)
    carried = carry.CarryOver(os.path.join(DATA, "carry_over.csv"))
    predict.next_season(games, totals, prior, season, carried, out[2], random)
    return [scores.arrays() for scores in out]


def merged(parts):
    parts = [part for part in parts if len(part["man"])]
    return {name: np.concatenate([part[name] for part in parts]) for name in parts[0]}


def groups(window, scores):
    """(label, rows) of the groups a table shows."""
    everything = np.ones(len(scores["man"]), bool)
    yield "all rates", everything
    for t, name in enumerate(predict.RATES):
        yield name, scores["rate"] == t
    edges = SNAPS[window]
    for low, high in zip(edges, edges[1:]):
        yield f"{low} to {high - 1} snaps", (scores["first"] >= low) & (scores["first"] < high)
    if window == "season before":
        for moved, label in ((0, "same team"), (1, "new team")):
            yield label, scores["moved"] == moved


def table(window, scores):
    random = np.random.default_rng(15)
    for label, keep in groups(window, scores):
        if not keep.any():
            continue
        row = {"window": window, "group": label, "rows": int(keep.sum()),
               "men": len(np.unique(scores["man"][keep])),
               "trials": int(scores["trials"][keep].sum())}
        for base in ("league", "raw", "independent"):
            gain, error = predict.gains(scores, keep, "joint", base, random)
            row[f"joint_over_{base}"] = round(gain, 4)
            row[f"joint_over_{base}_se"] = round(error, 4)
        gain, error = predict.gains(scores, keep, "independent", "league", random)
        row["independent_over_league"] = round(gain, 4)
        row["independent_over_league_se"] = round(error, 4)
        gain, _ = predict.gains(scores, keep, "raw", "league", random)
        row["raw_over_league"] = round(gain, 4)
        row["coverage90"] = round(100 * predict.coverage(scores, keep), 1)
        yield row


def baselines(parts):
    """Our simple methods beside prediction.csv: gain over the league's mean per 1000 trials."""
    with open(os.path.join(DATA, "prediction.csv"), encoding="utf-8", newline="") as stream:
        theirs = {(r["first_games"], r["rate"], r["method"]): r for r in csv.DictReader(stream)}
    for at, first in ((0, "4"), (1, "8")):
        scores = merged([part[at] for part in parts])
        for t, name in enumerate(predict.RATES.values()):
            keep = scores["rate"] == t
            row = {"first_games": first, "rate": name, "n": int(keep.sum()),
                   "n_there": theirs[first, name, "league_mean"]["n_quarterback_seasons"],
                   "trials": int(scores["trials"][keep].sum()),
                   "trials_there": theirs[first, name, "league_mean"]["trials_rest"]}
            league = scores["score"][keep, 0].sum() / scores["trials"][keep].sum()
            row["league_score"] = round(league, 6)
            row["league_score_there"] = theirs[first, name, "league_mean"]["log_score_per_trial"]
            for ours, other in (("raw", "raw_rate"), ("independent", "beta_binomial"),
                                ("joint", "joint_logit_normal")):
                gain, _ = predict.gains(scores, keep, ours, "league", np.random.default_rng(1))
                row[ours] = round(gain, 4)
                row[f"{ours}_there"] = theirs[first, name, other]["gain_vs_league_per_1000_trials"]
            yield row


def write(name, rows):
    with open(os.path.join(DATA, name), "w", encoding="utf-8", newline="") as stream:
        writer = csv.DictWriter(stream, list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def beside_lme4():
    games, _ = build.load(DATA)
    rows = list(independent.compare(games, os.path.join(DATA, "glmm_check.csv")))
    write("glmm_comparison.csv", rows)
    for row in rows:
        print(f"{row['rate']:16} game effect {row['game_effect']} {row['quantity']:19} ours"
              f" {row['ours']:9.5f} lme4 {row['lme4']:9.5f} apart {row['apart']:7.3f} se")


def by_age():
    games, _ = build.load(DATA)
    for rate, seasons, gains in ages.gains(games):
        told = ", ".join(f"{life:g}: {gain:+.2f}" for life, gain in gains.items())
        print(f"{rate:12} {seasons} seasons, half-lives in games {told}")


def main():
    if sys.argv[1:] == ["--glmm"]:
        return beside_lme4()
    if sys.argv[1:] == ["--ages"]:
        return by_age()
    if sys.argv[1:] == ["--fit"]:
        return fit()
    with open(os.path.join(DATA, "left_out.json"), encoding="utf-8") as stream:
        priors = json.load(stream)["without"]
    with open(os.path.join(ROOT, "settings", "population", "pro.json"), encoding="utf-8") as stream:
        known = json.load(stream)["traits"]
    steady = {name: known[name].get("within_season", 1.0) for name in predict.RATES}
    games, totals = build.load(DATA)
    parts = [scores_of(season, games, totals, predict.Prior.from_json(priors[str(season)]), steady)
             for season in SEASONS]
    rows = [row for at, window in enumerate(WINDOWS)
            for row in table(window, merged([part[at] for part in parts]))]
    write("population_check.csv", rows)
    write("baselines_check.csv", list(baselines(parts)))
    for row in rows:
        print(f"{row['window']:14} {row['group']:23} n {row['rows']:5} joint over league"
              f" {row['joint_over_league']:7.3f} ({row['joint_over_league_se']:.3f}), raw"
              f" {row['joint_over_raw']:7.3f}, independent {row['joint_over_independent']:7.3f}"
              f" ({row['joint_over_independent_se']:.3f}), 90% covers {row['coverage90']:.1f}")


if __name__ == "__main__":
    main()
