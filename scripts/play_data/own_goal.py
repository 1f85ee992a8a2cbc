"""What plays come to that would end behind the own goal line.

In front of it sacks and losses are shorter than elsewhere: whoever can gets the ball out. Of the gains
that in the open field (for handoffs: with the shifts of their place) would end behind the line, the share
that was a safety is counted over all of the field and all quarters: safeties are rare. What happens
behind the line otherwise, fouls of the offence and bad snaps, is counted in it, since it comes up where
sacks end there; kicks are not."""
import numpy as np

from .components import Component
from .plays import SCRIMMAGE, in_range

LYING_THERE, BEGUN_FROM = (1, 2), (2, 14)  # balls kept out, and where such sacks begin
OPEN_FIELD = (20, 80)  # from here nothing reaches a goal line
NEAR = 25              # hardly a play loses so much
KINDS = {"sack": ["sack"], "scramble": ["scramble"], "catch": ["pass"], "qb_run": ["qb_run"],
         "handoff": ["rb_run"]}
BANDS = [(97, 99), (1, 96)]
NORMAL_90 = 1.6449


def _behind(plays, rows):
    """For each row the chance that such a play of the open field loses as much as here is room for."""
    own, yards = 100 - plays["yards_to_goal"], plays["yards"]
    usual = yards[rows & in_range(own, OPEN_FIELD)]
    share = np.array([(usual <= -room).mean() for room in range(100)]) if len(usual) else np.zeros(100)
    return np.where(rows, share[np.clip(own, 1, 99).astype(int)], 0.0)


def _handoffs_behind(plays, rows, part):
    """The same of handoffs, with the shifts of their place."""
    here = Component(plays, rows, part.columns)
    eta = part.beta[0] + here.X @ part.beta[part.constants:]
    room = (100 - plays["yards_to_goal"])[here.rows]
    out = np.zeros(len(rows))
    out[here.rows] = 1 - part.odds.at_least(np.zeros(here.n, int), 1 - room, eta)
    return out


def _safeties(plays):
    """Rows that were the last of a drive that ended in a safety, kicks apart."""
    last = np.full(len(plays.drives["game"]), -1)
    known = np.nonzero(plays.drive >= 0)[0]
    last[plays.drive[known]] = known
    last = last[(plays.drives["result"] == "safety") & (last >= 0)]
    out = np.zeros(len(plays.drive), bool)
    out[last] = np.isin(plays["play_type"][last], SCRIMMAGE + ["noplay"])
    return out


def _kept_out(plays, sacks):
    """Sacks begun in front of the own goal that end right before it, and how many would at the
    lengths of the open field."""
    own, yards = 100 - plays["yards_to_goal"], plays["yards"]
    near = sacks & in_range(own, BEGUN_FROM)
    usual = yards[sacks & in_range(own, OPEN_FIELD)]
    if len(usual) == 0:
        return 0, 0.0
    expected = sum(float(in_range(begun + usual, LYING_THERE).mean()) for begun in own[near])
    return int((near & in_range(own + yards, LYING_THERE)).sum()), round(expected, 1)


def poisson_90(n):
    """B. E. Wilson and M. M. Hilferty (1931), Proc. Natl. Acad. Sci. 17:684-688."""
    low = n * (1 - 1 / (9 * n) - NORMAL_90 / (3 * np.sqrt(n))) ** 3 if n > 0 else 0.0
    more = n + 1
    return low, more * (1 - 1 / (9 * more) + NORMAL_90 / (3 * np.sqrt(more))) ** 3


def own_goal(plays, parts):
    handoffs = next(part for part in parts if part.columns[0].get("kinds") == ["handoff"])
    good = plays.scrimmage & ~plays.penalty_after & ~plays.lost & (plays["aborted"] == 0)
    good &= (plays["play_type"] != "pass") | (plays["complete"] == 1)
    near = 100 - plays["yards_to_goal"] <= NEAR
    expected = {}
    for kind, types in KINDS.items():
        rows = good & np.isin(plays["play_type"], types)
        expected[kind] = (_handoffs_behind(plays, rows & near, handoffs) if kind == "handoff"
                          else _behind(plays, rows) * near)
    every = sum(expected.values())
    safeties = _safeties(plays)
    own = 100 - plays["yards_to_goal"]
    print("safeties, and gains that would end behind the own goal line:",
          {band: (int(safeties[in_range(own, band)].sum()),
                  round(float(every[in_range(own, band)].sum()), 1))
           for band in ((1, 1), (2, 3), (4, 6), (7, 9), (10, 14), (15, NEAR))},
          {kind: (int((safeties & good & np.isin(plays["play_type"], types)).sum()),
                  round(float(expected[kind].sum()), 1)) for kind, types in KINDS.items()})
    print("sacks from the own 2 to 14 that end on the own 1 or 2, and at lengths of the open field:",
          _kept_out(plays, good & (plays["play_type"] == "sack")))
    return [_rule(band, safeties, every, plays) for band in BANDS]


def _rule(band, safeties, every, plays):
    at = in_range(plays["yards_to_goal"], band)
    n, behind = int(safeties[at].sum()), float(every[at].sum())
    low, high = (min(1.0, end / behind) if behind > 0 else 1.0 for end in poisson_90(n))
    return {"yards_to_goal": list(band), "safety": round(min(1.0, n / max(behind, 1e-9)), 3),
            "n": {"safeties": n, "behind": round(behind, 1)},
            "about": f"90% interval {low:.2f} to {high:.2f}", "source": "play-data"}
