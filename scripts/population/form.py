"""The population as the `population` part of a setting."""
import math

import numpy as np

from . import assumed


def number(x, digits=4):
    return round(float(x), digits)


def span(interval, digits=4):
    return [number(x, digits) for x in interval]


class Population:
    """Builds the JSON of one level. `model` is traits.Model, `steady` traits.within_season,
    `drift` of the league's mean by trait (predict.league_drift),
    `own` family_spreads.all_own_spreads,
    `gains` the spreads of gains by moments, `setting` the professional setting."""

    def __init__(self, model, steady, drift, own, gains, carry, levels, pro_rows, setting,
                 explosive):
        self.model, self.steady, self.drift = model, steady, drift
        self.own, self.gains = own, gains
        self.carry, self.levels, self.pro_rows = carry, levels, pro_rows
        self.setting, self.explosive = setting, explosive

    def professional(self):
        return {"sources": assumed.SOURCES, "factors": self._factors(),
                "traits": self._traits(), "rates": self._rates(), "gains": self._gains(),
                "levels": self._levels(), "assumed_scale": 1}

    def _factors(self):
        table = [{"number": row.number, "pull": row.pull, "gain": number(row.gains.sum(), 1),
                  "behind_best": number(row.behind, 1),
                  "behind_best_error": number(row.behind_error, 1)}
                 for row in self.model.men.choices]
        return {"number": self.model.men.number, "pull": self.model.men.pull,
                "left_out_seasons": table, "source": "quarterbacks", "n": self.model.men.units,
                "opponents": {"number": self.model.opponents.number,
                              "n": self.model.opponents.units, "source": "quarterbacks"},
                "why": "fewest factors whose gain of composite log-likelihood in left-out seasons"
                       " is no more than one standard error behind the best"}

    def _carried(self, name, spread):
        carried = self.carry.of(name)
        moves = dict(carried["moves"])
        level = self.levels.between(name, self.pro_rows, moves["new_team"])
        moves["new_level"] = level
        out = {"carries_over": {move: number(v["r"], 3) for move, v in moves.items()},
               "carries_over_interval90": {move: span(v["interval90"], 3)
                                           for move, v in moves.items()},
               "carries_over_source": carried["source"]}
        if "why" in carried:
            out["carries_over_why"] = carried["why"]
        apart = spread * math.sqrt(2 * (1 - level["r"]))
        out["level_spread"] = {"college": number(apart),
                               "high_school": number(apart * assumed.HIGH_SCHOOL_WIDER)}
        out["level_spread_source"] = "college_to_pro" if level["measured"] else "assumed"
        return out

    def _measured(self, name):
        fit = self.model.fits[name]
        loadings = self.model.men.of(name)
        opponents = self.model.opponents.of(name)
        man, opponent, game = fit.intervals
        return {"spread": number(fit.spreads[0]), "interval90": span(man),
                "loadings": [number(l, 3) for l in loadings], "source": "quarterbacks",
                "n": self.model.men.units, "opponent_spread": number(fit.spreads[1]),
                "opponent_loading": number(opponents[0], 3) if len(opponents) else 0.0,
                **({"opponent_interval90": span(opponent)} if opponent else {}),
                "game_spread": number(fit.spreads[2]),
                **({"game_interval90": span(game)} if game else {}),
                **self._steady(name),
                **self._carried(name, fit.spreads[0])}

    def _steady(self, name):
        if name not in self.steady:
            return {}
        r, interval = self.steady[name]
        drift = {"league_drift": number(self.drift[name])} if name in self.drift else {}
        return {"within_season": number(r, 3), "within_season_interval90": span(interval, 3),
                **drift}

    def _leaning(self, name):
        """An assumed trait: it takes the direction of the trait it leans on."""
        spread, other, correlation, why = assumed.TRAITS[name]
        loadings = np.zeros(self.model.men.number)
        if other:
            theirs = self.model.men.of(other)
            loadings = theirs * correlation / np.linalg.norm(theirs)
        return {"spread": spread, "loadings": [number(l, 3) for l in loadings],
                "source": "assumed", "why": why,
                "opponent_spread": assumed.ASSUMED_OPPONENT[name], "opponent_loading": 0.0,
                "game_spread": 0.0, **self._carried(name, spread)}

    def _traits(self):
        out = {name: self._measured(name) for name in self.model.fits if name != "designed_run"}
        out["handoff"]["opponent_spread"] = assumed.ASSUMED_OPPONENT["handoff"]
        out["handoff"]["opponent_why"] = assumed.OPPONENT_WHY
        for name in assumed.TRAITS:
            out[name] = self._leaning(name)
        out["sack_gain"] = {
            "spread": number(self.gains["sack"]["spread"]),
            "interval90": span(self.gains["sack"]["interval90"]),
            "loadings": [0.0] * self.model.men.number, "source": "quarterbacks",
            "n": self.gains["sack"]["n"], "opponent_spread": 0.0, "opponent_loading": 0.0,
            "game_spread": 0.0, "why": "by moments of mean yards; no correlation measured",
            **self._carried("sack_gain", self.gains["sack"]["spread"])}
        return out

    def _rates(self):
        return {family: self._family_rates(family, part)
                for family, part in self.setting["families"].items()}

    def _family_rates(self, family, part):
        rates = part["rates"]
        kind = part["kind"]
        build = self._pass_rate if kind == "pass" else self._run_rate
        return {name: build(family, name, rates) for name in rates}

    def _pass_rate(self, family, name, rates):
        depth = assumed.FAMILY_DEPTH[family]
        completion = f"completion_{depth}"
        mean = rates[name]["mean"]
        if name == "completion":
            return {"trait": completion, **self._own_completion(family)}
        if name == "interception":
            own = self.own["interception"]
            return {"trait": name, "own_spread": number(own["own_spread"]),
                    "own_interval90": span(own["interval90"]), "source": "quarterbacks"}
        if name in ("sack", "scramble"):
            return {"trait": name, **self._assumed_own(name)}
        through = number((1 - rates["completion"]["mean"]) / (1 - mean), 3)
        if name == "success":
            return {"trait": completion, "slope": through, **self._assumed_own("success"),
                    "same_snaps": "completion"}
        if name == "explosive":
            return self._explosive(family, depth, completion, through)
        if name == "fumble":
            share = rates["sack"]["mean"] * self.setting["fumble_lost"]["sack"] / mean
            return {"trait": "sack_fumble", "slope": number(min(share, 1), 3),
                    **self._assumed_own("fumble")}
        return {"trait": name, **self._assumed_own("charted")}

    def _own_completion(self, family):
        if family == "boot":
            return self._assumed_own("boot")
        if family not in assumed.LANED:
            return {"own_spread": 0.0, "source": "quarterbacks",
                    "why": "the family is the whole depth band"}
        own = self.own[assumed.LANED[family][0]]
        return {"own_spread": number(own["own_spread"]), "own_interval90": span(own["interval90"]),
                "source": "quarterbacks"}

    def _explosive(self, family, depth, completion, through):
        """Gains of 20 and more: a completion deep, yards after the catch on short throws."""
        if depth in ("behind_line", "quick") and family != "boot":
            row = self.explosive["gain20_short_per_attempt"]
            yac = self.model.fits["yac_short"].spreads[0]
            own = math.sqrt(max(float(row["sd_logit"]) ** 2 - yac**2, 0))
            return {"trait": "yac_short", "own_spread": number(own), "source": "explosive",
                    "n": int(row["n_quarterback_seasons"]), "same_snaps": "yac"}
        return {"trait": completion, "slope": through, **self._assumed_own("explosive"),
                "same_snaps": "completion"}

    def _run_rate(self, family, name, rates):
        runner = "handoff" if family == "handoff" else "designed_run"
        if name in ("success", "explosive"):
            return {"trait": runner, **self._assumed_own(name), "same_snaps": "run"}
        if name == "fumble":
            own = {"slope": 0} if family == "handoff" else {}
            return {"trait": "sack_fumble", **own, **self._assumed_own("fumble")}
        return {"trait": name, **self._assumed_own("charted")}

    @staticmethod
    def _assumed_own(what):
        spread, why = assumed.OWN[what]
        return {"own_spread": spread, "source": "assumed", "why": why}

    def _gains(self):
        out = {}
        for family, part in self.setting["families"].items():
            if part["kind"] == "pass":
                depth = assumed.FAMILY_DEPTH[family]
                out[family] = {"depth": {"trait": "depth", **self._assumed_own("gain")},
                               "yac": self._yac(depth)}
            else:
                runner = "handoff" if family == "handoff" else "designed_run"
                out[family] = {"run": {"trait": runner, **self._assumed_own("gain")}}
        out["shared"] = {"scramble": {"trait": "scramble_gain", "own_spread": 0.0,
                                      "source": "quarterbacks"},
                         "sack": {"trait": "sack_gain", "own_spread": 0.0,
                                  "source": "quarterbacks"}}
        return out

    def _yac(self, depth):
        if depth in ("behind_line", "quick"):
            own = self.own["yac"]
            return {"trait": "yac_short", "own_spread": number(own["own_spread"]),
                    "own_interval90": span(own["interval90"]), "source": "quarterbacks"}
        return {"trait": assumed.YAC_TRAIT[depth], **self._assumed_own("gain")}

    def _levels(self):
        shifts = {name: self.levels.shift(name) for name in self.model.fits}
        known = {name: s for name, s in shifts.items() if s}
        college = {"shift": {name: number(s[0], 3) for name, s in known.items()},
                   "shift_standard_error": {name: number(s[1], 3) for name, s in known.items()},
                   "source": "college_to_pro", "n": 23,
                   "why": "the same men in both; completions of all depths have one shift; traits"
                          " not listed have no rows and no shift"}
        high = {**college, "source": "assumed",
                "why": "no data at all: college's shifts, and wider (level_spread)"}
        return {"college": college, "high_school": high}
