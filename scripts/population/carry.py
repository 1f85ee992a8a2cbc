"""What carries over to the next place: rows `recommended` of carry_over.csv."""
import csv

SITUATIONS = {"same_caller": "same_team_same_caller", "new_caller": "same_team_new_caller",
              "new_team": "new_team"}
# trait -> row of the table
ROWS = {"yac_short": "yac10_short", "yac_intermediate": "yac10_intermediate"}
LIKE = {"scramble_gain": "scramble", "designed_run": "scramble", "sack_fumble": "sack",
        "on_time": "completion", "catchable": "completion", "pressured": "sack",
        "evaded": "scramble", "depth": "deep_share", "sack_gain": "sack",
        "untargeted": "completion"}


class CarryOver:
    def __init__(self, path):
        with open(path, encoding="utf-8", newline="") as stream:
            self.rows = {(r["level"], r["rate"], r["situation"]): r for r in csv.DictReader(stream)}

    def of(self, trait, level="pro"):
        """Correlations by move with their ranges, and where they come from."""
        rate = ROWS.get(trait, trait)
        assumed = trait in LIKE
        rate = LIKE.get(trait, rate)
        if trait == "handoff":
            return HANDOFF
        out = {}
        for move, situation in SITUATIONS.items():
            row = self.rows.get((level, rate, situation)) or self.rows["pro", rate, situation]
            out[move] = {"r": float(row["r"]),
                         "interval90": [float(row["r_lo90"]), float(row["r_hi90"])]}
        source = "assumed" if assumed else "carry_over"
        why = {"why": f"not in the table; as {rate}"} if assumed else {}
        return {"moves": out, "source": source, **why}

    def next_season(self, trait, new_team):
        """Correlation of one season with the next; the caller is not known where the team is the
        same."""
        rate = LIKE.get(trait, ROWS.get(trait, trait))
        return float(self.rows["pro", rate, "new_team" if new_team else "same_team"]["r"])


# carry_over.md, point 6: same man and team .67 (.32-1.05), same man and new team .53 (.21-.93).
HANDOFF = {"moves": {"same_caller": {"r": 0.67, "interval90": [0.32, 1.0]},
                     "new_caller": {"r": 0.67, "interval90": [0.32, 1.0]},
                     "new_team": {"r": 0.53, "interval90": [0.21, 0.93]}},
           "source": "carry_over",
           "why": "handoff success, pairs; a new caller taken as the same team"}
