"""The families' rates and gains of the setting."""
import numpy as np

from . import assumed
from .call_mix import solve_level
from .components import SHORT, depth_shares, simple_gain
from .estimate import bins_of, counts, dense, logistic, logit, pmf, smooth_tail
from .plays import DEEP, PASS_FAMILIES, QUICK
from .spotting import sneaks


def gain(shares, first, part, family, n, source="play-data"):
    """JSON of a gain distribution: shape, bins and concentration."""
    form = pmf(shares, first)
    last = form["from"] + len(form["p"]) - 1
    bins = assumed.BINS[part]
    if isinstance(bins, dict):
        group = "quick" if family in QUICK else "deep" if family in DEEP else family
        bins = bins[group]
    bins = bins_of(form, bins)
    yards = np.arange(form["from"], last + 1)
    p = np.array(form["p"]) / sum(form["p"])
    variance = float(p @ yards**2 - (p @ yards) ** 2)
    spread = (assumed.DEEP_GAIN_SPREAD if family in DEEP else {}).get(
        part, assumed.GAIN_SPREAD[part])
    return {**form, "bins": bins, "kappa": round(max(variance / spread**2 - 1, 10), 1),
            "n": int(n), "source": source}


class FamilyBook:
    """Builds `families`, `shared_gains` and `fumble_lost` from fitted components."""

    def __init__(self, plays, parts, coverage):
        self.plays, self.coverage = plays, coverage
        self.rate_parts = {part.rate: part for part in parts if part.rate}
        self.gain_parts = {}
        for part in parts:
            if part.gain:
                for place, group in enumerate(part.groups):
                    for family in group:
                        self.gain_parts[family, part.gain] = (part, place)
        self.throws = {f: int(plays.of(f).sum()) for f in PASS_FAMILIES}
        self.fumble_lost = self._fumble_lost()
        self._solve_rates()

    def _solve_rates(self):
        plays = self.plays
        of = {}
        for name, hit in (("completion", plays["complete"]), ("interception",
                                                              plays["interception"])):
            of[name] = {f: float((hit[plays.of(f)] == 1).mean()) for f in PASS_FAMILIES}
        self.overall = {name: dict(table) for name, table in of.items()}
        for name, odds in (("sack", assumed.SACK_ODDS), ("scramble", assumed.SCRAMBLE_ODDS)):
            target = float(self.rate_parts[name].hit.mean())
            of[name] = solve_level(odds, self.throws, target)
            self.overall[name] = {None: target}
        mix = assumed.BOOT_MIX
        for name, shift in assumed.BOOT_SHIFTS.items():
            mean = sum(mix[f] * of[name][f] for f in mix)
            of[name]["boot"] = float(logistic(logit(mean) + shift))
        self.rate = of

    def _fumble_lost(self):
        plays = self.plays
        lost = plays["fumble_lost"] == 1
        rows = {"sack": plays.of("sack"), "scramble": plays.of("scramble"),
                "completion": plays.of(*PASS_FAMILIES) & (plays["complete"] == 1),
                "handoff": plays.of("handoff"), "qb_run": plays.of("qb_run", "qb_sneak")}
        return {name: (float(lost[at].mean()), int(at.sum())) for name, at in rows.items()}

    def _good(self, rows):
        """Shares of successful and of explosive snaps."""
        p = self.plays
        least = assumed.DEFINITIONS
        need = np.choose(p["down"][rows].astype(int) - 1, least["success"]) * p["to_go"][rows]
        passing = np.isin(p["play_type"][rows], ["pass", "sack"])
        gained = np.where(p["interception"][rows] == 1, -99, p["yards"][rows])
        long = np.where(passing, least["explosive_pass"], least["explosive_run"])
        return (gained >= need - 1e-9).mean(), (gained >= long).mean()

    def _rates(self, family, kind):
        spread = assumed.SPREADS
        out = {}
        if kind == "pass":
            for name in ("completion", "interception", "sack", "scramble"):
                counted = name in ("completion", "interception") and family != "boot"
                out[name] = {"mean": round(float(self.rate[name][family]), 4),
                             "spread": spread[name][family],
                             "source": "play-data" if counted else "assumed"}
                if counted:
                    out[name]["n"] = self.throws[family]
            out["pressured"] = self._pressured(family)
        out.update(self._outcome_rates(family, kind))
        for name, (means, sd) in assumed.CHARTED.items():
            if family in means:
                out[name] = {"mean": means[family], "spread": sd, "source": "assumed"}
        return out

    def _pressured(self, family):
        """Of dropbacks: throws as tracked, scrambles like throws, every sack (assumed)."""
        of_throws, n = self.coverage.pressured_of(family)
        sack = self.rate["sack"][family]
        return {"mean": round(float((1 - sack) * of_throws + sack), 4),
                "spread": assumed.PRESSURED_SPREAD, "source": "tracking", "n": n}

    def _outcome_rates(self, family, kind):
        lost = {name: value for name, (value, _) in self.fumble_lost.items()}
        if kind == "pass":
            mix = assumed.BOOT_MIX if family == "boot" else {family: 1}
            good = np.array([self._good(self.plays.of(f)) for f in mix]).T @ list(mix.values())
            run = self._good(self.plays.of("scramble"))
            sack, scramble = self.rate["sack"][family], self.rate["scramble"][family]
            throw = 1 - sack - scramble
            success, explosive = (throw * good[i] + scramble * run[i] for i in (0, 1))
            fumble = (sack * lost["sack"] + scramble * lost["scramble"]
                      + throw * self.rate["completion"][family] * lost["completion"])
            n = sum(self.throws[f] for f in mix)
        else:
            rows = self.plays.of(family if family in ("handoff", "qb_sneak") else "qb_run")
            success, explosive = self._good(rows)
            fumble, n = lost[kind], int(rows.sum())
        means = {"success": success, "explosive": explosive, "fumble": fumble}
        caps = {"success": 1, "explosive": 0.45 * max(explosive, 1e-4) ** 0.5, "fumble": fumble / 2}
        return {name: {"mean": round(float(max(mean, 1e-4)), 4), "n": n, "source": "play-data",
                       "spread": round(float(min(assumed.SPREADS[name], caps[name])), 4)}
                for name, mean in means.items()}

    def _fitted(self, family, part_name):
        part, place = self.gain_parts[family, part_name]
        shares = part.odds.bases[place]
        return gain(shares, part.odds.low, part_name, family, (part.which == place).sum())

    def _pass_gains(self, family):
        plays = self.plays
        caught = plays.of(family) & (plays["complete"] == 1)
        if family == "boot":
            return self._boot_gains()
        if (family, "depth") in self.gain_parts:
            depth = self._fitted(family, "depth")
        else:
            group = DEEP if family in DEEP else [family]
            rows = plays.of(*group) & (plays["complete"] == 1) & (
                plays["yards_to_goal"] > (45 if family in DEEP else 20))
            depth = gain(depth_shares(plays, rows), -12, "depth", family, rows.sum())
        assert caught.any()
        return {"depth": depth, "yac": self._fitted(family, "yac")}

    def _boot_gains(self):
        parts = {f: self._pass_gains(f) for f in assumed.BOOT_MIX}
        weight = {f: share * self.rate["completion"][f] for f, share in assumed.BOOT_MIX.items()}
        out = {}
        for name, low, high in (("depth", -12, 70), ("yac", -15, 99)):
            mixed = sum(weight[f] * dense(parts[f][name], low, high) for f in parts)
            out[name] = gain(mixed, low, name, "boot", 0, "assumed")
        return out

    def _interceptions(self, family):
        group = DEEP if family in DEEP else list(assumed.BOOT_MIX) if family == "boot" else [family]
        rows = self.plays.of(*group) & (self.plays["interception"] == 1)
        return {**pmf(depth_shares(self.plays, rows), -12), "n": int(rows.sum()),
                "source": "play-data"}

    def family(self, name):
        kind, label = assumed.LABELS[name]
        out = {"label": label, "kind": kind, "rates": self._rates(name, kind)}
        if kind == "pass":
            out["gains"] = self._pass_gains(name)
            out["interception_depth"] = self._interceptions(name)
        elif name == "handoff":
            out["gains"] = {"run": self._fitted("handoff", "run")}
        else:
            rows = self.plays.of("qb_sneak" if name == "qb_sneak" else "qb_run")
            shares = simple_gain(self.plays, rows, -15, 60)
            if name == "qb_sneak":
                spotted = self.plays.spotting
                shares = sneaks(shares, -15, spotted.short_of(rows), spotted.share)
            shares = smooth_tail(shares, -15, 12)
            out["gains"] = {"run": gain(shares, -15, "run", name, rows.sum())}
        return out

    def shared_gains(self):
        sacks = self.plays.of("sack")
        shares = counts(np.minimum(self.plays["yards"][sacks], 0), -25, 0)
        return {"scramble": self._fitted("scramble", "scramble"),
                "sack": gain(shares, -25, "sack", "sack", sacks.sum())}
