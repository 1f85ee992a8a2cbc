"""Where a play that ends at the line to gain is spotted.

Yards are whole. Whoever is short of the line by inches has one yard to go, whoever reaches it by inches a
first down: so the ball is spotted one yard short of the line more than twice as often as on it, whatever
the line and the play, while both together are what neighbouring yards let expect. A gain that just
reaches the line is therefore a yard shorter with one chance for all plays.

At the goal line the same holds with a chance of its own: whatever is short of it by a yard and a half and
less lies on the 1. Touchdowns tell no yards, so that chance is found by likelihood
(components.goal_spotting)."""
import numpy as np

GOAL_SPOTTING_FROM = 20  # yards to the goal; as the program has it


class Spotting:
    def __init__(self, plays):
        p = plays
        self.before_goal = p["to_go"] < p["yards_to_goal"]
        ends = p.scrimmage & ~p.penalty_after & ~p.lost & (p["aborted"] == 0) & self.before_goal
        past = p["yards"] - p["to_go"]
        self.short = ends & (past == -1)   # spotted a yard short of the line
        self.reached = ends & (past == 0)  # on it
        # Sneaks are run for that yard, so neighbouring yards say nothing of them.
        gained = (ends & p.even & (np.isin(p["play_type"], ["rb_run", "scramble"])
                                   | (p["complete"] == 1)
                                   | ((p["play_type"] == "qb_run") & (p["to_go"] > 1))))
        counted = {yards: int((gained & (past == yards)).sum()) for yards in (-2, -1, 0, 1)}
        self.counted = counted
        self.n = counted[-1] + counted[0]
        fall = (counted[-2] / counted[1]) ** (1 / 3)  # of one yard against the next
        self.share = max(0.0, 1 - counted[0] * (1 + fall) / self.n)
        self.at_goal, self.n_goal = 0.0, 0
        self.near_goal = p["yards_to_goal"] <= GOAL_SPOTTING_FROM

    def short_of(self, rows):
        """Of rows before the goal line, the share that is spotted a yard short of the line."""
        return float(self.short[rows & self.before_goal].mean())

    def said(self):
        return (f"plays that end a yard short of the line: {self.counted[-1]}, on it:"
                f" {self.counted[0]}, a yard farther either way: {self.counted[-2]} and"
                f" {self.counted[1]}")

    def setting(self):
        return {"share": round(self.share, 4), "at_goal": round(self.at_goal, 2),
                "n": self.n + self.n_goal, "source": "play-data"}


def sneaks(shares, low, short, pulled_back):
    """Gains of sneaks such that a share `short` of them, as counted, is spotted a yard short of the
    line. Whoever runs for one yard looks where the line is, so their gains of one are not pulled back
    as often as others: what is too many for that is put a yard farther."""
    one = 1 - low
    most = max(0.0, short - shares[one - 1]) / pulled_back if pulled_back > 0 else 1.0
    excess = max(0.0, shares[one] - most)
    out = shares.copy()
    out[one] -= excess
    out[one + 1] += excess
    return out


def span(yards, short, reached):
    """Least and largest gain, before spotting, of plays with these yards."""
    return yards - reached, yards + short
