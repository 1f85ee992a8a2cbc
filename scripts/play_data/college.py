"""The college setting: what college feeds tell, laid over the professional setting.

College feeds have no depth, lane, shell or scramble. What both leagues' feeds tell is counted alike
in both (`Alike`), and the professional setting is moved by the difference on the log-odds scale: so
what one feed leaves out or counts in its own way cancels as far as it does so in both. Nothing here
looks at how drives end."""
import os

import numpy as np

from . import assumed, kicks
from .average_scheme import SITUATIONS, league_average
from .estimate import bins_of, counts, dense, logistic, logit, pmf
from .plays import DROPBACKS, PASS_FAMILIES, QB_RUNS, in_range, read_table

ZONES = {"open>20": (21, 99), "red11-20": (11, 20), "inside10": (1, 10)}
TO_GO = {"1-2": (1, 2), "3-5": (3, 5), "6-8": (6, 8), "9-12": (9, 12), "13+": (13, 99)}
RATES = {"completion": ("comp_pct", "att"), "interception": ("int_pct_att", "att"),
         "sack": ("sack_rate", "n_dropbacks_without_scrambles")}
KINDS = {"rb_run": ["rb_run"], "qb_rush": ["qb_run", "scramble"], "completion": ["pass"]}
LEAST = 100      # trials in a cell, in both leagues
RUN_BANDS = ("red11-20", "inside10")
FUMBLERS = {"sack": ("sack", ["sack"]), "handoff": ("rb_run", ["rb_run"]),
            "qb_run": ("qb_rush", ["qb_run", "scramble"]),
            "scramble": ("qb_rush", ["qb_run", "scramble"])}
FINER = 3        # as far as a finer situation may depart from its cells
CALM_SECONDS = 240
HALVES = [(1, 50), (51, 99)]   # the opponent's and the own
LONGEST_KICK = 59   # no kick of 60 yards and more was made in the half season, of 6
SOURCE, SOURCE_2025, BOTH = "college-2014-2019", "college-2025", "college and pro"
BOTH_COLLEGE = "college-2014-2019 and 2025"


def text(value):
    """Number of a CSV as it is written there ("3.0" of a float column is "3")."""
    return str(int(value)) if isinstance(value, float) and value == int(value) else str(value)


class Tables:
    def __init__(self, folder):
        self.folder = folder
        self.loaded = {}

    def __getitem__(self, name):
        if name not in self.loaded:
            self.loaded[name] = read_table(self.folder, name)
        return self.loaded[name]

    def row(self, name, **where):
        """The one row with these words; None where it is not there."""
        table = self[name]
        at = np.ones(len(next(iter(table.values()))), bool)
        for column, word in where.items():
            at &= np.array([text(v) == word for v in table[column]])
        places = np.nonzero(at)[0]
        if len(places) == 0:
            return None
        assert len(places) == 1, (name, where)
        return {column: values[places[0]] for column, values in table.items()}


class Alike:
    """Professional plays counted as the college tables are: all quarters, penalties apart."""

    def __init__(self, plays):
        self.p = plays
        self.rows = plays.scrimmage & ~plays.penalty_after & (plays["aborted"] == 0)
        kind = plays["play_type"]
        self.attempt = self.rows & (kind == "pass")
        self.dropback = self.rows & np.isin(kind, ["pass", "sack"])
        self.hits = {"completion": plays["complete"] == 1,
                     "interception": plays["interception"] == 1, "sack": kind == "sack"}

    def trials(self, rate):
        return self.dropback if rate == "sack" else self.attempt

    def cell(self, down="ALL", to_go="ALL", zone="ALL"):
        inside = self.rows.copy()
        if down != "ALL":
            inside &= self.p["down"] == int(down)
        if to_go != "ALL":
            inside &= in_range(self.p["to_go"], TO_GO[to_go])
        if zone != "ALL":
            inside &= in_range(self.p["yards_to_goal"], ZONES[zone])
        return inside

    def kind(self, name):
        rows = self.rows & np.isin(self.p["play_type"], KINDS[name])
        return rows & (self.p["complete"] == 1) if name == "completion" else rows


def cells():
    for zone in ZONES:
        for down in "1234":
            for to_go in TO_GO:
                yield zone, down, to_go


class Differences:
    """College less professional, on the log-odds scale."""

    def __init__(self, tables, alike, moved_on):
        self.t, self.alike, self.moved_on = tables, alike, moved_on
        self.level, self.by_cell = {}, {}
        for rate in RATES:
            self._rate(rate)

    def _rate(self, rate):
        """One level for all cells (weights: inverse variances), and what each cell departs from it,
        pulled toward none by how much cells really differ (DerSimonian and Laird 1986)."""
        column, trials = RATES[rate]
        found = []
        for zone, down, to_go in cells():
            row = self.t.row("dropback_sack.csv", down=down, to_go=to_go, zone=zone)
            inside = self.alike.cell(down, to_go, zone) & self.alike.trials(rate)
            n = int(inside.sum())
            if row is None or n < LEAST or row[trials] < LEAST:
                continue
            hits = self.alike.hits[rate][inside].sum()
            here, there = (hits + 0.5) / (n + 1), row[column]
            made = there * row[trials]
            there = (made + 0.5) / (row[trials] + 1)
            variance = (1 / (n * here * (1 - here)) + 1 / (row[trials] * there * (1 - there)))
            found.append(((zone, down, to_go), logit(there) - logit(here), variance, n))
        shift = np.array([f[1] for f in found])
        weight = 1 / np.array([f[2] for f in found])
        level = float((weight * shift).sum() / weight.sum())
        excess = (weight * (shift - level) ** 2).sum() - (len(found) - 1)
        spread = max(0.0, excess / (weight.sum() - (weight**2).sum() / weight.sum()))
        self.by_cell[rate] = {
            cell: (float((value - level) * spread / (spread + variance)), n)
            for cell, value, variance, n in found}
        self.level[rate] = level + (self._since(rate) if self.moved_on else 0.0)

    def _since(self, rate):
        """How the level moved from 2014-2019 to 2025, or for sacks, which 2025 lacks, to 2019."""
        column = {"completion": "comp_pct", "interception": "int_pct_att",
                  "sack": "sack_rate_without_scrambles"}[rate]
        seasons = self.t["rates_by_season.csv"]
        before = self.t.row("dropback_sack.csv", down="ALL", to_go="ALL", zone="ALL")[
            RATES[rate][0]]
        if rate == "sack":
            now = seasons[column][-1]
        else:
            now = self.t["team_game_rates_2025.csv"][
                {"completion": "completion", "interception": "interception_per_attempt"}[rate]][0]
        return float(logit(now) - logit(before))

    def adjustments(self):
        """A rule a cell."""
        out = []
        for zone, down, to_go in cells():
            rates = {rate: (round(table[zone, down, to_go][0], 3), table[zone, down, to_go][1])
                     for rate, table in self.by_cell.items() if (zone, down, to_go) in table}
            rates = {rate: value for rate, value in rates.items() if abs(value[0]) >= 0.005}
            if rates:
                out.append({"when": {"down": [int(down)] * 2, "to_go": list(TO_GO[to_go]),
                                     "yards_to_goal": list(ZONES[zone])}, "kinds": ["pass"],
                            "rates": {rate: shift for rate, (shift, _) in rates.items()},
                            "n": {rate: n for rate, (_, n) in rates.items()}, "source": BOTH})
        return out

    def _beyond(self, name, zone, low, high):
        """P(yards >= g) for g = low .. high, college and professional."""
        table = self.t["yards_pmf.csv"]
        rows = (table["kind"] == name) & (table["zone"] == zone)
        n = np.zeros(high - low + 1)
        np.add.at(n, np.clip(table["yards"][rows] - low, 0, high - low).astype(int),
                  table["n"][rows])
        there = np.cumsum(n[::-1])[::-1] / n.sum()
        inside = self.alike.kind(name) & self.alike.cell(zone=zone)
        here = np.cumsum(counts(self.alike.p["yards"][inside], low, high)[::-1])[::-1]
        return there, here

    def curve(self, name, zone="open>20", low=-15, high=99):
        """Shift of P(yards >= g) by g. Where fewer than one gain in 200 gets to, either way, the
        curve goes on level."""
        there, here = self._beyond(name, zone, low, high)
        sure = (there > 0.005) & (there < 0.995) & (here > 0.005) & (here < 0.995)
        places = np.nonzero(sure)[0]
        shift = np.zeros(high - low + 1)
        shift[places] = logit(there[places]) - logit(here[places])
        shift[:places[0]], shift[places[-1] + 1:] = shift[places[0]], shift[places[-1]]
        return shift

    def moved(self, form, curve, low=-15, high=99):
        """A gain distribution in JSON form, moved by the curve."""
        shares = dense(form, low, high)
        beyond = np.cumsum(shares[::-1])[::-1]
        inside = (beyond > 1e-12) & (beyond < 1 - 1e-12)
        out = np.where(beyond >= 1 - 1e-12, 1.0, 0.0)
        out[inside] = logistic(logit(beyond[inside]) + curve[inside])
        out = np.minimum.accumulate(out)
        return pmf(out - np.append(out[1:], 0.0), low)

    def zone_shift(self, name, zone):
        """Beyond what the open field says: mean shift over the gains that the zone has room for."""
        def shift(where):
            there, here = self._beyond(name, where, 0, 6)
            return logit(there[1:]) - logit(here[1:])

        return float(np.mean(shift(zone) - shift("open>20")))


def mean(form):
    p = np.array(form["p"]) / sum(form["p"])
    return float(p @ (form["from"] + np.arange(len(p))))


def gain(base, form, source):
    """The gain with other shares; bins stay, cut to what there is."""
    return {**form, "bins": bins_of(form, base["bins"][1:]), "source": source}


class CollegeFamilies:
    """Rates and gains that college moves."""

    def __init__(self, pro, differences, plays, qb):
        self.pro, self.d, self.plays, self.qb = pro, differences, plays, qb
        self.yac_shift = self._yac_shift()

    def _yac_shift(self):
        """One proportional-odds shift of the yards after every catch that brings the mean yards of
        a completion in the open field up by what the leagues differ by."""
        there, here = self.d._beyond("completion", "open>20", -15, 99)
        wanted = float(there[1:].sum() - here[1:].sum())
        throws = {f: int((self.plays.of(f) & (self.plays["complete"] == 1)).sum())
                  for f in PASS_FAMILIES}
        forms = {f: self.pro["families"][f]["gains"]["yac"] for f in PASS_FAMILIES}
        total = sum(throws.values())
        low, high = -2.0, 2.0
        for _ in range(50):
            middle = (low + high) / 2
            curve = np.full(115, middle)
            moved = sum(throws[f] * (mean(self.d.moved(forms[f], curve)) - mean(forms[f]))
                        for f in PASS_FAMILIES) / total
            low, high = (middle, high) if moved < wanted else (low, middle)
        return middle

    def _rates(self, family, kind):
        out = {}
        base = self.pro["families"][family]["rates"]
        shifts = {}
        if kind == "pass":
            shifts = {rate: (self.d.level[rate], BOTH) for rate in RATES}
            shifts["success"] = (self.d.level["completion"], "assumed")
            shifts["explosive"] = (self._explosive("completion", 20), BOTH)
        elif kind == "handoff" or family in QB_RUNS:
            name = "rb_run" if kind == "handoff" else "qb_rush"
            shifts["success"] = (self._explosive(name, 4), "assumed")
            shifts["explosive"] = (self._explosive(name, 12), BOTH)
        for rate, (shift, source) in shifts.items():
            out[rate] = {"mean": round(float(logistic(logit(base[rate]["mean"]) + shift)), 5),
                         "source": source}
        return out

    def _explosive(self, name, yards):
        there, here = self.d._beyond(name, "open>20", 0, 99)
        shift = float(logit(there[yards]) - logit(here[yards]))
        return shift + (self.d.level["completion"] / 2 if name == "completion" else 0.0)

    def family(self, name):
        base = self.pro["families"][name]
        kind = base["kind"]
        out = {"rates": self._rates(name, kind)}
        if kind == "pass":
            form = self.d.moved(base["gains"]["yac"], np.full(115, self.yac_shift))
            out["gains"] = {"yac": gain(base["gains"]["yac"], form, BOTH)}
        elif kind == "handoff":
            form = self.d.moved(base["gains"]["run"], self.d.curve("rb_run"))
            out["gains"] = {"run": gain(base["gains"]["run"], form, BOTH)}
        elif name in QB_RUNS:
            out["gains"] = {"run": gain(base["gains"]["run"], self.qb.planned, SOURCE)}
        return {key: value for key, value in out.items() if value}


class QuarterbackRuns:
    """College counts planned runs and scrambles as one. Scrambles per dropback and their yards are
    taken to be the professional ones; what is left is planned."""

    def __init__(self, tables, alike, pro):
        everything = tables.row("playcall_mix.csv", zone="ALL", down="ALL", to_go="ALL")
        kind = alike.p["play_type"]
        scrambles = int((alike.rows & (kind == "scramble")).sum())
        self.per_dropback = scrambles / int(alike.dropback.sum())
        share = everything["dropback_without_scrambles"] * self.per_dropback
        self.scrambled = share / everything["qb_rush_with_scrambles"]
        table = tables["yards_pmf.csv"]
        rows = (table["kind"] == "qb_rush") & (table["zone"] == "open>20")
        n = np.zeros(115)
        np.add.at(n, np.clip(table["yards"][rows] + 15, 0, 114).astype(int), table["n"][rows])
        left = n / n.sum() - self.scrambled * dense(pro["shared_gains"]["scramble"], -15, 99)
        self.planned = pmf(np.maximum(left, 0), -15)

    def planned_share(self, row):
        return max(0.0, row["qb_rush_with_scrambles"]
                   - row["dropback_without_scrambles"] * self.per_dropback)


def average_scheme(plays, tables, alike, qb):
    """Professional calls of each situation, dropbacks, handoffs and planned runs each moved by what
    the leagues' shares differ by in the cells of down, distance and zone that make it up."""
    scheme = league_average(plays)
    kind = plays["play_type"]
    groups = {"pass": np.isin(kind, DROPBACKS), "handoff": kind == "rb_run",
              "qb_run": kind == "qb_run"}
    here, there, cell_of = [], [], np.full(len(kind), -1)
    for place, (zone, down, to_go) in enumerate(cells()):
        row = (tables.row("playcall_mix.csv", zone=zone, down=down, to_go=to_go)
               or tables.row("playcall_mix.csv", zone=zone, down=down, to_go="ALL"))
        inside = alike.cell(down, to_go, zone)
        cell_of[inside] = place
        here.append([(inside & rows).sum() / max(inside.sum(), 1) for rows in groups.values()])
        planned = qb.planned_share(row)
        there.append([1 - row["rb_run"] - planned, row["rb_run"], planned])
    here, there = np.array(here), np.array(there)
    bands = [*SITUATIONS, ((1, 4), (1, 99), (1, 99))]
    for situation, (down, to_go, band) in zip(scheme["situations"], bands):
        rows = (alike.rows & in_range(plays["down"], down) & in_range(plays["to_go"], to_go)
                & in_range(plays["yards_to_goal"], band))
        if not rows.any():
            rows = alike.rows  # league_average() has told so
        met = np.bincount(cell_of[rows], minlength=len(here)) / rows.sum()
        calls = situation["calls"]
        for place, group in enumerate(groups):
            inside = [family for family in calls if _group(family) == group]
            before = sum(calls[family] for family in inside)
            finer = before / max(met @ here[:, place], 1e-9)
            after = met @ there[:, place] * min(max(finer, 1 / FINER), FINER)
            for family in inside:
                within = calls[family] / before if before > 0 else 1 / len(inside)
                calls[family] = after * within
        total = sum(calls.values())
        situation["calls"] = {family: round(float(share / total), 4)
                              for family, share in calls.items()}
        situation.pop("snaps")
    scheme.update(
        id="college-average", name="College average",
        about="Calls of an average college offence, 2014-2019: dropbacks, handoffs and planned"
              " quarterback runs by down, distance and zone are college's; how passes split by"
              " depth and lane, quarterback runs by kind, and what finer situations add is the"
              " professional league's.", source=assumed.SOURCES[SOURCE])
    return scheme


def _group(family):
    return "pass" if family in PASS_FAMILIES or family == "boot" else (
        "handoff" if family == "handoff" else "qb_run")


class HalfSeason:
    """Drives of 2025, a row each."""

    def __init__(self, tables):
        self.d = d = dict(tables["drives_2025_even.csv.gz"])
        # The feed counts the try for a field goal as a play: 98 drives with one took four plays and
        # 10 took three, where with punts it is 289 and 1,877.
        d["plays"] = d["plays"] - np.isin(d["result"], ["fg_made", "fg_missed"])
        self.used = np.isin(d["quarter"], [1, 3]) & (d["kneel_only"] == 0) & (
            d["result"] != "end_half")
        order = np.lexsort((d["drive_id"], d["game"]))
        self.before = np.full(len(order), "", dtype="U12")
        same = d["game"][order[1:]] == d["game"][order[:-1]]
        self.before[order[1:]] = np.where(same, d["result"][order[:-1]], "")
        after = np.full(len(order), -1)
        half = np.where(d["quarter"] <= 2, 1, 2)
        same &= (half[order[1:]] == half[order[:-1]]) & (
            d["side"][order[1:]] != d["side"][order[:-1]])
        after[order[:-1]] = np.where(same, order[1:], -1)
        own = np.where(after >= 0, 100 - d["start_yards_to_goal"][after], np.nan)
        self.next_own = np.where((after >= 0) & (d["after_kickoff"][after] != 1), own, np.nan)

    def punts(self):
        d = self.d
        net = d["end_yards_to_goal"] - self.next_own
        rules = []
        for band in kicks.PUNT_BANDS:
            every = (d["result"] == "punt") & in_range(d["end_yards_to_goal"], band)
            known = every & (d["opponent_td"] == 0) & in_range(net, (-24, 74))
            touchback = known & (self.next_own == 20) & (band[1] <= 60)
            rules.append({"yards_to_goal": list(band),
                          "touchback": round(float(touchback.sum() / known.sum()), 4),
                          "return_touchdown": round(float(d["opponent_td"][every].mean()), 4),
                          "net": pmf(counts(net[known & ~touchback], -24, 74), -24),
                          "n": int(known.sum()), "source": SOURCE_2025})
        return rules

    def tried(self, band):
        """Field-goal tries as a share of kicks from a band of the field."""
        d = self.d
        inside = in_range(d["end_yards_to_goal"], band) & (d["secs_left_in_half"] > CALM_SECONDS)
        tries = (inside & np.isin(d["result"], ["fg_made", "fg_missed"])).sum()
        return float(tries / (tries + (inside & (d["result"] == "punt")).sum()))

    def starts(self):
        d = self.d
        known = self.used & ~np.isnan(d["start_yards_to_goal"])
        kinds = {"kickoff": d["after_kickoff"] == 1}
        kinds["punt"] = ~kinds["kickoff"] & (self.before == "punt")
        kinds["turnover"] = ~kinds["kickoff"] & ~kinds["punt"]
        out = {}
        for name, rows in kinds.items():
            rows = rows & known
            out[name] = {"share": round(float(rows.sum() / known.sum()), 6),
                         "start": pmf(counts(100 - d["start_yards_to_goal"][rows], 1, 99), 1),
                         "n": int(rows.sum()), "source": SOURCE_2025}
        return out

    def kickoff(self):
        d = self.d
        rows = (d["after_kickoff"] == 1) & (d["start_yards_to_goal"] > 55)  # onside kicks apart
        return {"start": pmf(counts(100 - d["start_yards_to_goal"][rows], 1, 99), 1),
                "n": int(rows.sum()), "source": SOURCE_2025}


def field_goal(tables):
    terms = tables["fg_logit_2025.csv"]
    value = dict(zip(terms["term"], terms["value"]))
    return {"intercept": round(float(value["intercept"]), 4),
            "slope": round(float(value["per_yard_of_distance"]), 5), "longest": LONGEST_KICK,
            "n": int(terms["n"][0]), "source": SOURCE_2025}


FOURTH_TO_GO = {"1": (1, 1), "2": (2, 2), "3": (3, 3), "4-5": (4, 5), "6-8": (6, 8),
                "9-12": (9, 12), "13+": (13, 99)}


def neutral_fourths(tables):
    """Bands of the field with the rows of the choice table there: quarters 1 to 3, close games."""
    table = tables["fourth_down_choice.csv"]
    close = table["scope"] == "neutral"
    for band in sorted({(int(a), int(b)) for a, b in zip(table["ytg_lo"], table["ytg_hi"])}):
        rows = np.nonzero(close & (table["ytg_lo"] == band[0]))[0]
        yield band, {text(table["to_go"][i]): {name: table[name][i]
                                               for name in ("n", "go", "go_success")} for i in rows}


def shift_to(expected, wanted):
    """Where `expected`, which grows with the shift, is what is wanted."""
    low, high = -3.0, 3.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if expected(middle) < wanted else (low, middle)
    return float(middle)


def bolder(tables, part):
    """How much more teams went for it in 2025 than in 2014-2019: one shift of the odds for a part
    of the field.

    The drives of 2025 have no downs, so it is read off where drives gave up the ball on fourth
    down: of fourth downs at odds o of going, each try failing with chance f, the tries that end
    a drive stand to the kicks as o f to 1. Only drives begun in the second quarter with more than
    four minutes left are used: the drives of quarters 1 and 3 stay unseen, to check with."""
    d = tables["drives_2025_even.csv.gz"]
    used = (d["quarter"] == 2) & (d["secs_left_in_half"] > CALM_SECONDS)
    stalled = []
    for band, rows in neutral_fourths(tables):
        if not part[0] <= band[0] <= part[1]:
            continue
        every = rows["ALL"]
        inside = used & in_range(d["end_yards_to_goal"], band)
        tries = (inside & (d["result"] == "downs")).sum()
        kicked = (inside & np.isin(d["result"], ["punt", "fg_made", "fg_missed"])).sum()
        if every["go"] > 0 and not np.isnan(every["go_success"]):
            fail = 1 - every["go_success"]
            stalled.append((tries, tries + kicked, logit(every["go"]) + np.log(fail)))
    failed, n, odds = np.array(stalled).T
    return shift_to(lambda shift: (n * logistic(odds + shift)).sum(), failed.sum())


def rooted(tables, plays, part):
    """One shift of the odds of going by distance for a part of the field, such that they come to the
    share of all fourth downs there that was gone for.

    The feed has no kicks: how far it was before one is what third down left, and comes out short
    (`long_to_go`). How many kicked is not touched by that, so that is what holds; distances
    are the professional ones."""
    fourth = plays.even & plays.snap & (plays["down"] == 4)
    odds, weight, gone, n = [], [], 0.0, 0.0
    for band, rows in neutral_fourths(tables):
        if not part[0] <= band[0] <= part[1]:
            continue
        every = rows["ALL"]
        inside = fourth & in_range(plays["yards_to_goal"], band)
        for words, to_go in FOURTH_TO_GO.items():
            met = (inside & in_range(plays["to_go"], to_go)).sum() / max(inside.sum(), 1)
            odds.append(logit(np.clip(rows.get(words, every)["go"], 1e-4, 1 - 1e-4)))
            weight.append(met * every["n"])
        gone, n = gone + every["go"] * every["n"], n + every["n"]
    odds, weight = np.array(odds), np.array(weight)
    return shift_to(lambda shift: (weight * logistic(odds + shift)).sum(), gone)


def long_to_go(tables, alike):
    """Share with 13 yards and more to go: fourth downs 21 to 70 yards from the goal, third downs
    outside the 20; college and professional."""
    close = [rows for band, rows in neutral_fourths(tables) if band[0] >= 21 and band[1] <= 70]
    n = lambda words: sum(rows[words]["n"] for rows in close if words in rows)
    third = [tables.row("playcall_mix.csv", zone="open>20", down="3", to_go=words)["n"]
             for words in ("13+", "ALL")]
    p = alike.p
    snaps = p.even & p.snap
    here = [snaps & (p["down"] == 4) & in_range(p["yards_to_goal"], (21, 70)),
            snaps & (p["down"] == 3) & in_range(p["yards_to_goal"], ZONES["open>20"])]
    share = lambda rows: round(float((p["to_go"][rows] >= 13).mean()), 3)
    return {"fourth": [round(float(n("13+") / n("ALL")), 3), share(here[0])],
            "third": [round(float(third[0] / third[1]), 3), share(here[1])]}


def fourth_down(tables, shifts, half):
    """Going for it: 2014-2019, moved to 2025 by a shift for each part of the field. Kicks of
    2014-2019 are not told apart: punts and field goals in the proportion in which drives of 2025 were
    ended by them from that spot, those begun in the last minutes of a half left out."""
    rules = []
    for band, rows in neutral_fourths(tables):
        shift = next(value for part, value in shifts.items() if part[0] <= band[0] <= part[1])
        tried = half.tried(band)
        for words in [*FOURTH_TO_GO, "ALL"]:  # the last one for distances too rare to be there
            if words not in rows:
                continue
            n, share = rows[words]["n"], np.clip(rows[words]["go"], 1e-4, 1 - 1e-4)
            go = round(float(logistic(logit(share) + shift)), 4)
            kick = round((1 - go) * tried, 4)
            to_go = {} if words == "ALL" else {"to_go": list(FOURTH_TO_GO[words])}
            rules.append({"when": {"yards_to_goal": list(band), **to_go}, "go": go,
                          "punt": round(1 - go - kick, 4), "field_goal": kick, "n": int(n),
                          "source": BOTH_COLLEGE})
    rules.append({"when": {}, "go": 0.0, "punt": 1.0, "field_goal": 0.0, "source": "assumed"})
    return rules


def fumbles(tables, alike, pro):
    """Lost fumbles: the professional ones, moved by what fumbles differ by."""
    out = {}
    for kind, (name, types) in FUMBLERS.items():
        row = tables.row("yards_summary.csv", kind=name, zone="ALL")
        rows = alike.rows & np.isin(alike.p["play_type"], types)
        shift = logit(row["fumble"]) - logit(float((alike.p["fumble"][rows] == 1).mean()))
        out[kind] = round(float(logistic(logit(pro["fumble_lost"][kind]) + shift)), 5)
    return {**out, "source": BOTH}


def penalties(tables, pro, plays):
    """Their mix is the professional one: the feed does not say who fouled. Box scores count fouls on
    kicks and tries too, and runs and throws that count: so the professional ones are counted here."""
    p = plays
    fouls = (p["pen_side"] != "").sum()
    snaps = (p.scrimmage | np.isin(p["play_type"], ["kneel", "spike"])).sum()
    game = {name: values[0] for name, values in tables["team_game_rates_2025.csv"].items()}
    there = game["penalties_per_team_game"] / (game["attempts_per_team_game"]
                                               + game["rushes_per_team_game"])
    factor = float(there / (fouls / snaps))
    return [{**kind, "probability": round(kind["probability"] * factor, 6), "source": BOTH}
            for kind in pro["penalties"]], factor


def team_game_sd(row, games):
    """Standard deviation of one game's log-odds around the league's: between seasons of
    quarterbacks, and between games of a season by their overdispersion."""
    n = row["trials"] / games
    within = (row["overdispersion_games"] - 1) / (n * row["mean_p"] * (1 - row["mean_p"]))
    return float(np.sqrt(row["sd_logit"] ** 2 + max(within, 0.0)))


def quality(tables, professional_spreads, pro):
    """The professional classes, loadings stretched by how much more games differ in college. For
    runs and yards after the catch there is no such count: they are stretched as completions are."""
    stretch = {}
    for rate, there, trial in (("completion", "completion", "attempts"),
                               ("interception", "interception", "attempts"),
                               ("sack", "sack_without_scrambles", "dropbacks")):
        college = tables.row("spreads.csv", rate=there, min_dropbacks="100")
        own = professional_spreads.row("spreads.csv", rate=rate, trial=trial, min_dropbacks="100",
                                       window="2009-2018")
        games = [row["overdispersion_df"] + row["n_quarterback_seasons"] for row in (college, own)]
        stretch[rate] = team_game_sd(college, games[0]) / team_game_sd(own, games[1])
    stretch["run"] = stretch["yac"] = stretch["completion"]
    classes = [{"weight": entry["weight"],
                **{part: {name: round(value * stretch[name], 4) + 0.0
                          for name, value in entry[part].items()} for part in ("rates", "gains")}}
               for entry in pro["quality"]["classes"]]
    return {"classes": classes, "source": BOTH}, stretch


def college(plays, data, pro, moved_on=True):
    """The setting (what differs from the professional one), its average scheme, and what is said of
    the making. `moved_on`: completions, interceptions, sacks and fourth downs from 2014-2019 on to
    2025."""
    tables = Tables(os.path.join(data, "college"))
    spreads = Tables(os.path.join(data, "quarterbacks"))
    alike = Alike(plays)
    differences = Differences(tables, alike, moved_on)
    qb = QuarterbackRuns(tables, alike, pro)
    book = CollegeFamilies(pro, differences, plays, qb)
    half = HalfSeason(tables)
    fouls, more_fouls = penalties(tables, pro, plays)
    roots = {part: rooted(tables, plays, part) for part in HALVES}
    more = {part: bolder(tables, part) if moved_on else 0.0 for part in HALVES}
    going = {part: roots[part] + more[part] for part in HALVES}
    classes, stretch = quality(tables, spreads, pro)
    # What planned quarterback runs gain wherever they are called is counted in college itself.
    usual = [a for a in pro["adjustments"] if a["when"] or a.get("kinds") != ["qb_run"]]
    red = [{"when": {"yards_to_goal": list(ZONES[zone])}, "kinds": ["handoff"],
            "gains": {"run": round(differences.zone_shift("rb_run", zone), 3)}, "source": BOTH}
           for zone in RUN_BANDS]
    per_game = tables.row("drives_per_game_2025.csv", version="all")
    every = tables.row("drive_results_by_start_2025.csv", version="all", start_bucket="ALL")
    setting = {
        "format": "callfit-setting/1", "based_on": "pro.json", "id": "college",
        "label": "College, 2025", "level": "college",
        "about": "Laid over the professional setting: what a college feed tells (rates of completions,"
                 " interceptions and sacks, yards of runs and completions, calls, kicks, punts,"
                 " fourth downs, penalties, tries, starts, drives a game) is college's. Depth, lane,"
                 " scrambles, shells, pressure, returns of turnovers and the mix of penalties are"
                 " the professional league's, and what stands there with another source.",
        "sources": {SOURCE: assumed.SOURCES[SOURCE], SOURCE_2025: assumed.SOURCES[SOURCE_2025],
                    BOTH: assumed.SOURCES[BOTH], BOTH_COLLEGE: assumed.SOURCES[BOTH_COLLEGE]},
        "population": "population/college.json",
        "rules": {"try_mean": 0.97, "kick_distance_beyond_line": 17, "hash_gap_feet": 40,
                  "missed_kick": {"behind_line": 0, "minimum_own_yard": 20}, "n": None,
                  "source": "rules; try_mean, kick distance: college-2025"},
        "drives_per_game": float(per_game["mean"]),
        "end_of_half_share": round(float(every["p_end_half"]), 4),
        "families": {name: book.family(name) for name in pro["families"]},
        "fumble_lost": fumbles(tables, alike, pro),
        "turnovers": {"interception_touchdown": returned(tables, "interception"),
                      "fumble_touchdown": returned(tables, "fumble")},
        "adjustments": usual + differences.adjustments() + red,
        "quality": classes, "penalties": fouls, "fourth_down": fourth_down(tables, going, half),
        "field_goal": field_goal(tables), "punt": half.punts(), "kickoff": half.kickoff(),
        "starts": half.starts(), "average_scheme": "college-average.json"}
    setting["families"] = {name: part for name, part in setting["families"].items() if part}
    said = {"level": differences.level, "yac shift": book.yac_shift, "fouls": more_fouls, "bolder": list(more.values()),
            "distances": list(roots.values()), "13 and more to go": long_to_go(tables, alike),
            "games differ": stretch, "scrambles of quarterback runs": qb.scrambled}
    return setting, average_scheme(plays, tables, alike, qb), said


def returned(tables, result):
    return float(tables.row("possession_change_2025.csv", result=result)["opp_def_td"])


def observed(data):
    from .observed import drive_lengths, drive_results
    tables = Tables(os.path.join(data, "college"))
    half = HalfSeason(tables)
    known = half.used & ~np.isnan(half.d["start_yards_to_goal"])
    starts = np.bincount(half.d["start_yards_to_goal"][known].astype(int), minlength=100)
    series, points = tables["series_conversion.csv"], tables["ep_first_and_10_by_5yards.csv"]
    rows = np.nonzero(series["scope"] == "neutral")[0]
    spots = np.nonzero(points["scope"] == "q1_q3")[0]
    band = lambda table, i: [int(table["ytg_lo"][i]), int(table["ytg_hi"][i])]
    return {
        "format": "callfit-observed/1", "id": "college-2025", "setting": "college",
        "about": "Drives begun in the first or third quarter, half of the games of 2025; series and"
                 " next scores 2014-2019. Used to check settings/college.json, never to make it.",
        "source": assumed.SOURCES[SOURCE_2025] + "; " + assumed.SOURCES[SOURCE],
        "starts": {"yards_to_goal_from": 1, "n": [int(n) for n in starts[1:100]]},
        "drives": drive_results(half.d, half.used),
        "drive_lengths": drive_lengths(half.d, half.used),
        "series_conversion": {
            "counts": "first down or touchdown in a series begun at first and ten or goal,"
                      " quarters 1 to 3 of close games",
            "rows": [{"yards_to_goal": band(series, i), "n": int(series["n_series"][i]),
                      "share": float(series["first_down_or_td"][i])} for i in rows]},
        "expected_points_by_5_yards": {
            "counts": "next score of either team in the half, touchdown 7",
            "rows": [{"yards_to_goal": band(points, i), "n": int(points["n"][i]),
                      "points": float(points["ep"][i]), "se": float(points["se"][i])}
                     for i in spots]}}
