"""What shells and pressure do to throws, and how often they come: tracking of whole seasons.

Effects are differences of log-odds between like throws (down and distance, zone, depth held), with
standard errors by game. Depths that do not differ by more than chance (W. G. Cochran 1954, Biometrics
10:101-129) share the effect of all throws. One whose 90% interval holds zero is taken to be zero. Shells
of sacks, scrambles and runs are not in the data: what the setting says of those is assumed."""
import os

from . import assumed
from .plays import DEEP, QUICK, read_table

SURE = 1.6449  # standard normal quantile of .95
DEPTHS = {"behind_line": ["screen"], "quick": QUICK, "intermediate": ["intermediate", "boot"],
          "deep": DEEP}
SHELLS = {"one_high": None, "two_high": "two_high", "none_high": "other"}
OUTCOMES = {"completion": "completion", "interception": "interception", "yac10": "yac"}
DISTANCES = {"1st": ((1, 1), None), "2nd_1-2": ((2, 2), (1, 2)), "2nd_3-5": ((2, 2), (3, 5)),
             "2nd_6-8": ((2, 2), (6, 8)), "2nd_9+": ((2, 2), (9, 99)),
             "3rd4th_1-2": ((3, 4), (1, 2)), "3rd4th_3-5": ((3, 4), (3, 5)),
             "3rd4th_6-8": ((3, 4), (6, 8)), "3rd4th_9+": ((3, 4), (9, 99))}
ZONES = {"inside10": (1, 10), "red11-20": (11, 20), "open>20": None}
SAME = 6.251  # chi-square of 3 degrees of freedom at .90: four depths
LEAST = 60  # throws behind a rule of shares


class Coverage:
    def __init__(self, data):
        folder = os.path.join(data, "quarterbacks")
        self.effects = read_table(folder, "coverage_pressure.csv")
        self.shares = read_table(folder, "coverage_shares.csv")

    def effect(self, treatment, level, outcome, depth):
        """Difference of log-odds against one high (or no pressure), its 90% interval, throws; zero
        where the interval holds it."""
        by_depth = [self._counted(treatment, level, outcome, name)[:2] for name in DEPTHS]
        weights = [1 / se**2 for _, se in by_depth]
        mean = sum(w * value for w, (value, _) in zip(weights, by_depth)) / sum(weights)
        differ = sum(w * (value - mean) ** 2 for w, (value, _) in zip(weights, by_depth)) > SAME
        value, se, n = self._counted(treatment, level, outcome, depth if differ else "ALL")
        said = f"{value - SURE * se:+.2f} to {value + SURE * se:+.2f}"
        return (value if abs(value) > SURE * se else 0.0), said, n

    def _counted(self, treatment, level, outcome, depth):
        t = self.effects
        at = ((t["treatment"] == treatment) & (t["level"] == level) & (t["outcome"] == outcome)
              & (t["depth"] == depth))
        assert at.sum() == 1, (treatment, level, outcome, depth)
        return (float(t["adjusted_logit_difference"][at][0]), float(t["se"][at][0]),
                int(t["n_level"][at][0]))

    def shell_rules(self):
        """First match: inside the 20 by zone and down, then by down and distance, last all throws."""
        t, out = self.shares, []
        for zone, band in ZONES.items():
            for name, (down, to_go) in DISTANCES.items():
                at = (t["zone"] == zone) & (t["down_distance"] == name)
                if at.any() and t["n_throws"][at][0] >= LEAST:
                    when = {"down": list(down)}
                    if to_go:
                        when["to_go"] = list(to_go)
                    if band:
                        when["yards_to_goal"] = list(band)
                    out.append(self._rule(when, at))
            if band:
                at = (t["zone"] == zone) & (t["down_distance"] == "ALL")
                out.append(self._rule({"yards_to_goal": list(band)}, at))
        out.append(self._rule({}, (t["zone"] == "ALL") & (t["down_distance"] == "ALL")))
        return out

    def _rule(self, when, at):
        two, none = (round(float(self.shares[name][at][0]), 4) for name in ("two_high", "other"))
        return {"when": when, "one_high": round(1 - two - none, 4), "two_high": two,
                "none_high": none, "n": int(self.shares["n_throws"][at][0]), "source": "tracking"}

    def shell_cells(self):
        """Shifts against a throw of all shells: their mean over all throws is none."""
        share = self.shell_rules()[-1]
        out = []
        for depth, families in DEPTHS.items():
            found = {outcome: {shell: self.effect("shell", word, outcome, depth) if word
                               else (0.0, "", 0) for shell, word in SHELLS.items()}
                     for outcome in OUTCOMES}
            for shell, word in SHELLS.items():
                rates, gains, about = {}, {}, []
                for outcome, name in OUTCOMES.items():
                    effects = found[outcome]
                    mean = sum(share[s] * effects[s][0] for s in SHELLS)
                    shift = round(effects[shell][0] - mean, 4) + 0.0
                    if name == "yac":
                        gains[name] = shift
                    else:
                        rates[name] = {"shift": shift, "kappa": assumed.CELL_KAPPA["shell"]}
                    if word:
                        about.append(f"{outcome} {effects[shell][1]}")
                entry = {"condition": "shell", "value": shell, "families": families,
                         "rates": rates, "gains": gains, "source": "tracking"}
                if word:
                    entry["about"] = "90% intervals against one high: " + ", ".join(about)
                    entry["n"] = found["completion"][shell][2]
                out.append(entry)
        return out

    def pressured(self, depth):
        """Share of throws under pressure."""
        t = self.effects
        at = ((t["treatment"] == "pressure") & (t["outcome"] == "completion")
              & (t["depth"] == depth))
        under, n = t["n_level"][at][0], t["n_baseline"][at][0] + t["n_level"][at][0]
        return float(under / n), int(n)

    def pressured_of(self, family):
        depth = next(name for name, families in DEPTHS.items() if family in families)
        return self.pressured(depth)

    def pressure_cells(self):
        out = []
        for depth, families in DEPTHS.items():
            share, _ = self.pressured(depth)
            found = {outcome: self.effect("pressure", "pressure", outcome, depth)
                     for outcome in ("completion", "interception")}
            said = ", ".join(f"{outcome} {found[outcome][1]}" for outcome in found)
            for value, part in (("no", -share), ("yes", 1 - share)):
                out.append({"condition": "pressure", "value": value, "families": families,
                            "rates": {outcome: {"shift": round(part * effect, 4) + 0.0,
                                                "kappa": assumed.CELL_KAPPA["pressure"]}
                                      for outcome, (effect, _, _) in found.items()},
                            "n": found["completion"][2], "source": "tracking",
                            "about": "90% intervals, pressure against none: " + said})
        return out
