"""Other levels: shifts and how far one man's rate there may lie from here."""
import csv
import math

# trait -> rate of college_to_pro.csv and college_spreads.csv
COLLEGE_RATES = {
    "completion_behind_line": "completion", "completion_quick": "completion",
    "completion_intermediate": "completion", "completion_deep": "completion",
    "interception": "interception", "sack": "sack_without_scrambles",
    "yac_short": "completion_10plus", "yac_intermediate": "completion_10plus",
    "scramble_gain": "qb_rush_10plus_with_scrambles",
    "designed_run": "qb_rush_10plus_with_scrambles",
}
# rate of the college tables -> the same rate in spreads.csv, where there is one
SAME = {"completion": "completion", "interception": "interception",
        "sack_without_scrambles": "sack", "qb_rush_10plus_with_scrambles": "scramble_10plus"}
Z90 = 1.645


def read(path):
    with open(path, encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


class Levels:
    def __init__(self, folder):
        self.to_pro = {r["rate"]: r for r in read(f"{folder}/college_to_pro.csv")}
        self.college = {r["rate"]: r for r in read(f"{folder}/college_spreads.csv")
                        if r["min_dropbacks"] == "100"}

    def shift(self, trait):
        """College minus professional on the log-odds scale with standard error, or None."""
        row = self.to_pro.get(COLLEGE_RATES.get(trait))
        return row and (-float(row["shift_pro_minus_college_logit"]), float(row["se"]))

    def between(self, trait, pro_rows, new_team):
        """Correlation of a man's value at the other level with that here, from two witnesses: the
        23 men's residual sd d (r = 1 - d^2 / (sum of the two variances), of the same rate) and the
        move to a new team, weighted by their precision; the range widens where they disagree."""
        witnesses = [(new_team["r"], new_team["interval90"])]
        rate = COLLEGE_RATES.get(trait)
        row = self.to_pro.get(rate)
        if row:
            there = float(self.college[rate]["sd_logit"])
            here = float(pro_rows[SAME[rate]]["sd_logit"]) if rate in SAME else there
            r_of = lambda d: max(1 - float(d) ** 2 / (here**2 + there**2), -1.0)
            witnesses.append((max(r_of(row["residual_sd_logit"]), 0.0),
                              [r_of(row["residual_sd_hi90"]), r_of(row["residual_sd_lo90"])]))
        errors = [max((high - low) / (2 * Z90), 0.05) for _, (low, high) in witnesses]
        weights = [1 / e**2 for e in errors]
        r = sum(w * x for w, (x, _) in zip(weights, witnesses)) / sum(weights)
        misfit = sum(w * (x - r) ** 2 for w, (x, _) in zip(weights, witnesses))
        error = math.sqrt(max(misfit / max(len(witnesses) - 1, 1), 1) / sum(weights))
        return {"r": r, "interval90": [max(r - Z90 * error, -1), min(r + Z90 * error, 1)],
                "measured": row is not None}

    def college_ratio(self, trait, pro_rows):
        """College's spread over the professional one for the same rate, or None."""
        rate = COLLEGE_RATES.get(trait)
        if rate not in SAME:
            return None
        return float(self.college[rate]["sd_logit"]) / float(pro_rows[SAME[rate]]["sd_logit"])

    def college_clustering(self, pro_rows):
        """How much wider opponents and games spread in college: from the excess of game-to-game
        variance of completions over chance, corrected for attempts a game being alike."""
        excess = lambda row: float(row["overdispersion_games"]) - 1
        return math.sqrt(excess(self.college["completion"]) / excess(pro_rows["completion"]))


def pro_spreads(folder):
    return {r["rate"]: r for r in read(f"{folder}/spreads.csv")
            if r["window"] == "2009-2018" and r["min_dropbacks"] == "100"}
