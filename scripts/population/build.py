"""From the tables to the populations of the three settings."""
import copy
import os

import numpy as np

from . import assumed, carry, family_spreads, form, levels, predict, traits
from .games import Games


FIRST_GAMES = 4      # a season's mean is taken from these and drifts afterwards
COLLEGE_UNITS = 876  # quarterback-seasons in college_spreads.csv


def load(folder):
    games = Games(os.path.join(folder, "quarterback_games.csv.gz"))
    return games, traits.SeasonTotals(os.path.join(folder, "quarterback_seasons.csv"), games)


def populations(folder, setting):
    """(name, JSON) of the professional, the college and the high school population."""
    games, totals = load(folder)
    model = traits.estimate(games, totals, np.unique(games.season))
    drift = {name: predict.league_drift(games, name, np.unique(games.season), FIRST_GAMES)
             for name in predict.RATES}
    steady = traits.within_season(games, model.fits, np.unique(games.season))
    own = family_spreads.all_own_spreads(games, model.fits)
    shared = setting["shared_gains"]
    gains = {"sack": family_spreads.gain_spread(games, shared["sack"], "sack_yards_sum", "sacks")}
    explosive = {r["rate"]: r for r in levels.read(os.path.join(folder, "explosive_spreads.csv"))
                 if r["window"] == "2009-2018"}
    pro_rows = levels.pro_spreads(folder)
    level = levels.Levels(folder)
    pro = form.Population(model, steady, drift, own, gains,
                          carry.CarryOver(os.path.join(folder, "carry_over.csv")),
                          level, pro_rows, setting, explosive).professional()
    college = college_of(pro, level, pro_rows)
    return [("pro", pro), ("college", college), ("high-school", high_school_of(college))]


def college_of(pro, level, pro_rows):
    """College: its own spreads where counted, the professional ones else; opponents and games wider
    as completions cluster more."""
    out = copy.deepcopy(pro)
    wider = level.college_clustering(pro_rows)
    for name, trait in out["traits"].items():
        ratio = level.college_ratio(name, pro_rows)
        if ratio is None:
            trait.update(source="assumed", why="no rows for college: the professional spread")
            trait.pop("interval90", None)
            trait.pop("n", None)
        else:
            trait["spread"] = form.number(trait["spread"] * ratio)
            if "interval90" in trait:
                trait["interval90"] = [form.number(x * ratio) for x in trait["interval90"]]
            if trait["source"] != "assumed":
                trait.update(source="college", n=COLLEGE_UNITS)
        for key in ("opponent_spread", "game_spread"):
            trait[key] = form.number(trait[key] * wider)
        trait["opponent_why"] = "the professional one, wider as college games cluster more"
        trait.pop("opponent_interval90", None)
        trait.pop("game_interval90", None)
    shift = pro["levels"]["college"]
    out["levels"] = {
        "pro": {**shift, "shift": {k: -v for k, v in shift["shift"].items()}},
        "high_school": {"shift": {}, "source": "assumed", "why": "no data at all"}}
    for trait in out["traits"].values():
        apart = trait["level_spread"]["college"]
        trait["level_spread"] = {"pro": apart, "high_school": form.number(
            apart * assumed.HIGH_SCHOOL_WIDER)}
    return out


def own_spreads(population):
    """Every rate and gain that says how much a family differs beyond its trait."""
    gains = population["gains"]
    for group in (population["rates"], gains):
        for family in group.values():
            for entry in family.values():
                if "own_spread" in entry:
                    yield entry


def high_school_of(college):
    out = copy.deepcopy(college)
    for trait in out["traits"].values():
        trait["spread"] = form.number(trait["spread"] * assumed.HIGH_SCHOOL_WIDER)
        for key in ("opponent_spread", "game_spread"):
            trait[key] = form.number(trait[key] * assumed.HIGH_SCHOOL_WIDER)
        for key in ("interval90", "n"):
            trait.pop(key, None)
        trait.update(source="assumed", why="no data at all: college's spread, and wider")
        apart = trait["level_spread"]["pro"]
        trait["level_spread"] = {"college": form.number(apart * assumed.HIGH_SCHOOL_WIDER),
                                 "pro": form.number(apart * assumed.HIGH_SCHOOL_WIDER**2)}
    for entry in own_spreads(out):
        entry["own_spread"] = form.number(entry["own_spread"] * assumed.HIGH_SCHOOL_WIDER)
        entry.pop("own_interval90", None)
        entry.update(source="assumed", why="no data at all: college's spread, and wider")
    shift = college["levels"]["pro"]
    out["levels"] = {"college": {"shift": {}, "source": "assumed", "why": "no data at all"},
                     "pro": {**shift, "source": "assumed", "why": "college's shifts; no data"}}
    return out
