"""Adjustments, penalties, fourth downs: what happens around a call."""
import json

import numpy as np

from . import assumed
from .estimate import counts, logit, pmf
from .mixture import NODES, WEIGHTS
from .plays import PASS_FAMILIES, in_range


def _who(part, place):
    """To whom a constant of a component applies."""
    if part.constants > 1:
        return {"families": [PASS_FAMILIES[place]]}
    if part.gain in ("depth", "yac"):
        return {"families": sorted({f for group in part.groups for f in group})}
    return {"kinds": part.columns[0]["kinds"]}


def _with_boot(column):
    """A boot shares the shifts of quick throws (assumed)."""
    families = column.get("families", [])
    if "quick_outside" in families:
        column = {**column, "families": families + ["boot"]}
    return column


def _constants(part, overall):
    """What first down in the open field adds to the family's all-round rate or gain."""
    for place in range(part.constants):
        who = _who(part, place)
        mean = overall[part.rate][who.get("families", [None])[0]] if part.rate else 0.5
        yield {"when": {}, **who}, part.beta[place] - logit(mean)


def adjustments(parts, overall):
    """The fitted shifts, one rule per situation and group of families. `overall`: the rates that
    the shifts are against, by rate and family (None: all)."""
    merged = {}
    for part in parts:
        name = part.rate or part.gain
        rows = [part.n] * part.constants + [int(n) for n in part.X[:, part.constants:].sum(axis=0)]
        moved = list(_constants(part, overall)) + list(part.shifts())
        for n, (column, shift) in zip(rows, moved):
            if n == 0 or abs(shift) < 0.005:
                continue
            if column["when"]:
                column = _with_boot(column)
            rule = merged.setdefault(json.dumps(column, sort_keys=True), {**column, "n": {}})
            rule.setdefault("rates" if part.rate else "gains", {})[name] = round(float(shift), 3)
            rule["n"][name] = n
            rule["source"] = "play-data"
    return list(merged.values()) + _boot_constants(parts, overall)


def _boot_constants(parts, overall):
    shifts = {}
    for part in parts:
        if part.constants > 1:
            moved = dict(zip(PASS_FAMILIES, (v for _, v in _constants(part, overall))))
            shifts[part.rate] = round(float(sum(
                share * moved[f] for f, share in assumed.BOOT_MIX.items())), 3)
    return [{"when": {}, "families": ["boot"], "rates": shifts, "source": "assumed"}]


def quality(loadings):
    """Classes at the nodes of the fitted latent factor."""
    classes = []
    for node, weight in zip(NODES, WEIGHTS):
        moved = {name: round(value * float(node), 4) + 0.0 for name, value in loadings.items()}
        rates = {name: moved[name] for name in ("completion", "sack", "interception")}
        classes.append({"weight": round(float(weight), 6), "rates": rates,
                        "gains": {name: moved[name] for name in ("run", "yac")}})
    return {"classes": classes, "source": "play-data"}


def bad_snap(plays):
    rows = plays.even & plays.scrimmage & (plays["down"] > 0)
    bad = rows & (plays["aborted"] == 1)
    lost = plays["fumble_lost"][bad] == 1
    return {"probability": round(float(bad.sum() / rows.sum()), 5),
            "fumble_lost": round(float(lost.mean()), 4), "n": int(bad.sum()),
            "source": "play-data"}


def few_yards(yards, edges):
    """Distribution of rare moves at few values: the rounded mean between each two edges. Half a
    percent of snaps does not deserve fifty outcomes."""
    values = []
    for low, high in zip([-99] + edges, edges + [200]):
        inside = yards[(yards >= low) & (yards < high)]
        if len(inside):
            values.append(np.full(len(inside), int(round(float(inside.mean())))))
    values = np.concatenate(values)
    low, high = int(values.min()), int(values.max())
    return pmf(counts(values, low, high), low)


DOWNS = {"first": (1, 1), "second": (2, 2), "third": (3, 3), "fourth": (4, 4)}
RUN_FROM = {"early": (1, 3), "late": (4, 4)}   # downs on which hardly anybody, or most, kick


class Penalties:
    """Accepted penalties per snap of their downs, kicks included; wiped-out downs by down, penalties
    after the gain by what the ball did until the next snap."""

    def __init__(self, plays):
        self.p = plays
        self.snap = plays.even & plays.snap
        self.wiped = self.snap & (plays["no_play"] == 1)
        self.kinds = []

    def _add(self, name, side, rows, snaps, yards, **more):
        n = int(rows.sum())
        if n == 0:
            return
        self.kinds.append({"id": name, "side": side,
                           "probability": round(n / int(snaps.sum()), 6), "yards": yards,
                           "automatic_first_down": False, **more, "n": n, "source": "play-data"})

    def _replayed(self, label, downs):
        p = self.p
        snaps = self.snap & in_range(p["down"], downs)
        when = {"when": {"down": list(downs)}}
        back = -p["pen_net_yards"]
        for yards, low, high in ((5, 0, 6), (10, 7, 12), (15, 13, 60)):
            rows = self.wiped & snaps & (p["pen_side"] == "off") & in_range(back, (low, high))
            self._add(f"offence_{yards}_{label}", "offence", rows, snaps, yards, **when)
        self._against_defence(label, snaps, when)

    def _against_defence(self, label, snaps, when):
        p = self.p
        net = p["pen_net_yards"]
        five = self.wiped & snaps & (p["pen_side"] == "def") & (net <= 6)
        clear = five & (p["to_go"] > 6)  # here the yards alone give no first down
        share = (p["first_down_by_penalty"][clear] == 1).mean()
        n = int(five.sum())
        for name, part, automatic in (("five", 1 - share, False), ("five_first", share, True)):
            self.kinds.append({"id": f"defence_{name}_{label}", "side": "defence",
                               "probability": round(float(n * part / snaps.sum()), 6), "yards": 5,
                               "automatic_first_down": automatic, **when,
                               "n": int(round(n * part)), "source": "play-data"})
        long = self.wiped & snaps & (p["pen_side"] == "def") & (net > 6)
        self._add(f"defence_long_{label}", "defence", long, snaps,
                  few_yards(net[long], [10, 15, 20, 30, 40]), **when,
                  **{"automatic_first_down": True, "spot_foul": True})

    def _after_the_gain(self, label, downs):
        """What the ball did is told of all downs together; how often, of those `downs`."""
        p = self.p
        when = {"when": {"down": list(downs)}}
        moved = p["yards_to_goal"] - p["yards_to_goal"][p.following]
        next_down = p["down"][p.following] - p["down"]
        stands = self.snap & p.penalty_after
        snaps = self.snap & in_range(p["down"], downs)

        def add(name, side, rows, fouls, of, yards, **more):
            """`rows` are the share of the `fouls` whose end is known that are of this name."""
            share = int(rows.sum()) / max(int(of.sum()), 1)
            n = int((fouls & snaps).sum())
            if n == 0 or share == 0:
                return
            self.kinds.append({"id": f"{name}_{label}", "side": side,
                               "probability": round(n * share / int(snaps.sum()), 6),
                               "yards": yards, "automatic_first_down": side == "defence",
                               "spot_foul": True, **more, **when, "n": int(round(n * share)),
                               "source": "play-data"})

        defence = stands & (p["pen_side"] == "def")
        seen = defence & p.same_drive
        if seen.any():
            add("defence_after_gain", "defence", seen, defence, seen,
                few_yards(moved[seen], [5, 10, 15, 19, 25, 35]), stands=True)
        offence = stands & (p["pen_side"] == "off")
        again = offence & p.same_drive & (next_down == 0)
        onward = offence & p.same_drive & (next_down == 1)
        for name, rows, kept in (("again", again, False), ("counts", onward, True)):
            if rows.any():
                add(f"offence_after_gain_{name}", "offence", rows, offence, again | onward,
                    few_yards(-moved[rows], [0, 5, 10, 13, 16]), stands=kept)

    def first_downs(self):
        """By down: how often its snaps gave a first down by a foul that wiped the down out."""
        gave = self.wiped & (self.p["first_down_by_penalty"] == 1)
        return {label: round(float(gave[self.snap & in_range(self.p["down"], downs)].mean()), 3)
                for label, downs in DOWNS.items()}

    def table(self):
        for label, downs in DOWNS.items():
            self._replayed(label, downs)
        for label, downs in RUN_FROM.items():
            self._after_the_gain(label, downs)
        return self.kinds


FOURTH_BANDS = [(1, 2), (3, 5), (6, 10), (11, 20), (21, 30), (31, 33), (34, 36), (37, 40),
                (41, 45), (46, 50), (51, 60), (61, 75), (76, 99)]


def fourth_down(plays):
    """Shares of choices by band of the field and distance."""
    kind = plays["play_type"]
    chosen = plays.even & (plays["down"] == 4) & np.isin(
        kind, ["punt", "fg", "pass", "sack", "scramble", "qb_run", "rb_run"])
    rules = []
    for band in FOURTH_BANDS:
        fine = [(1, 1), (2, 2), (3, 3), (4, 6), (7, 10), (11, 99)]
        coarse = [(1, 1), (2, 3), (4, 99)]
        for to_go in fine if band[1] <= 50 else coarse:
            rows = chosen & in_range(plays["yards_to_goal"], band)
            exact = rows & in_range(plays["to_go"], to_go)
            if exact.sum() >= assumed.FOURTH_DOWN_THIN:
                rows = exact
            else:  # thin: a wider range of distances, never across one yard to go
                low = to_go[0] if to_go == (1, 1) else max(2, to_go[0] // 2)
                rows = rows & in_range(plays["to_go"], (low, max(2 * to_go[1], 1)))
            n = int(rows.sum())
            if n == 0 and to_go[0] > band[1]:
                continue  # beyond the goal line
            if n == 0:
                print(f"fourth down: no case at {band} with {to_go} to go; the last rule decides")
                continue
            punt = int((rows & (kind == "punt")).sum())
            kick = int((rows & (kind == "fg")).sum())
            rules.append({"when": {"yards_to_goal": list(band), "to_go": list(to_go)},
                          "go": round(1 - round(punt / n, 4) - round(kick / n, 4), 4),
                          "punt": round(punt / n, 4), "field_goal": round(kick / n, 4), "n": n,
                          "source": "play-data"})
    rules.append({"when": {}, "go": 0.0, "punt": 1.0, "field_goal": 0.0, "source": "assumed"})
    return rules


def cells(coverage):
    """Shifts by shell (balanced over the last shell rule), platform and pressure: measured ones of
    throws, assumed ones of all else."""
    last = coverage.shell_rules()[-1]
    one, two, none = (last[shell] for shell in ("one_high", "two_high", "none_high"))
    out = coverage.shell_cells() + coverage.pressure_cells()
    for families, rates, gains in assumed.SHELL_SHIFTS:
        for place, value in enumerate(("one_high", "two_high", "none_high")):
            def part(pair):
                balance = -(two * pair[0] + none * pair[1]) / one
                return round((balance, pair[0], pair[1])[place], 4)
            entry = {"condition": "shell", "value": value, "families": families,
                     "rates": {name: {"shift": part(pair), "kappa": assumed.CELL_KAPPA["shell"]}
                               for name, pair in rates.items()},
                     "gains": {name: part(pair) for name, pair in gains.items()},
                     "source": "assumed"}
            out.append(entry)
    for condition, value, rates in assumed.OTHER_CELLS:
        out.append({"condition": condition, "value": value, "kinds": ["pass"],
                    "rates": {name: {"shift": shift, "kappa": assumed.CELL_KAPPA[condition]}
                              for name, shift in rates.items()}, "source": "assumed"})
    return out
