"""Every number that no file covers, in one place. docs/settings.md lists them."""

SOURCES = {
    "quarterbacks": "quarterback games and seasons of a professional league, 2009-2018: github"
                    " derek-adair/nflgame, commit 35574f097d6cc5987447320ae7db12dd7aa6a54e"
                    " (UNLICENSE); data/quarterbacks",
    "play-data": "open play-by-play of a professional league: github derek-adair/nflgame,"
                 " nflgame/gamecenter-json, commit 35574f097d6cc5987447320ae7db12dd7aa6a54e, public"
                 " domain dedication (UNLICENSE); counted by scripts/build_settings.py",
    "tracking": "tracking-based participation of a professional league, throws: shells 2018, pressure"
                " 2016-2018; nflverse data releases, CC BY 4.0, by a stored copy: github Z3r0Coo1/dev,"
                " commit 9a0339b954e9ec7a552dd02b576bb433d9a9b3a2; data/quarterbacks",
    "memory": "from memory, not checked against a source",
    "assumed": "assumed; no source",
    "rules": "professional rule book, 2016-2018: try and kickoff spots, scores, end zone",
    "college-2014-2019": "college plays 2014-2019, top division: github saiemgilani/cfbscrapR-data,"
                         " commit 8e8fecb86dd3673da257f9c7c6f03bd87dce53ce, MIT; data/college",
    "college-2025": "college drives 2025, top division, half of the games: github"
                    " sportsdataverse/cfbfastR-cfb-data, commit"
                    " 4e3aa4ad6ffdbb439d8dbc3e9514527cdfe78bc0, CC BY 4.0; data/college",
    "college-2014-2019 and 2025": "both college sources",
    "college and pro": "the professional number, moved by what college-2014-2019 (levels of"
                       " completions and interceptions, penalties: college-2025) and play-data,"
                       " counted alike, differ by",
}

# Shares of the distance by down; yards.
DEFINITIONS = {
    "success": [0.4, 0.6, 1.0, 1.0], "explosive_pass": 20, "explosive_run": 12,
    "source": "success: B. Carroll, P. Palmer and J. Thorn (1988), The Hidden Game of Football, from"
              " memory; explosive: common practice, no source",
}

LABELS = {
    "quick_middle": ("pass", "Quick throws to the middle (glance, slant off a run-pass option)"),
    "quick_outside": ("pass", "Quick throws outside (hitch, speed out)"),
    "screen": ("pass", "Screens"),
    "intermediate": ("pass", "Intermediate, 10 to 20, from the pocket"),
    "boot": ("pass", "Boot, rollout, sprint-out"),
    "deep_middle": ("pass", "Deep middle (post)"),
    "deep_outside": ("pass", "Deep outside (go, out-and-up)"),
    "qb_draw": ("qb_run", "Quarterback draw"),
    "zone_read": ("qb_run", "Zone read keep"),
    "qb_power": ("qb_run", "Planned quarterback power or sweep"),
    "qb_sneak": ("qb_run", "Quarterback sneak"),
    "handoff": ("handoff", "Handoffs"),
}

# Sacks and scrambles carry no depth in the data. These are log-odds against the average dropback;
# the level is then solved so that the families together reproduce the counted rate.
SACK_ODDS = {"screen": -1.2, "quick_middle": -0.7, "quick_outside": -0.7, "intermediate": 0.35,
             "deep_middle": 0.75, "deep_outside": 0.75}
SCRAMBLE_ODDS = {"screen": -1.5, "quick_middle": -0.4, "quick_outside": -0.4, "intermediate": 0.3,
                 "deep_middle": 0.3, "deep_outside": 0.3}

# Standard deviation between starting quarterbacks.
SPREADS = {
    "completion": {"screen": 0.03, "quick_middle": 0.04, "quick_outside": 0.035,
                   "intermediate": 0.045, "boot": 0.045, "deep_middle": 0.065,
                   "deep_outside": 0.055},
    "interception": {"screen": 0.003, "quick_middle": 0.006, "quick_outside": 0.004,
                     "intermediate": 0.010, "boot": 0.007, "deep_middle": 0.025,
                     "deep_outside": 0.015},
    "sack": {"screen": 0.007, "quick_middle": 0.011, "quick_outside": 0.011,
             "intermediate": 0.022, "boot": 0.018, "deep_middle": 0.03, "deep_outside": 0.03},
    "scramble": {"screen": 0.008, "quick_middle": 0.016, "quick_outside": 0.016,
                 "intermediate": 0.025, "boot": 0.03, "deep_middle": 0.025,
                 "deep_outside": 0.025},
    "success": 0.035, "explosive": 0.02, "fumble": 0.0025,
}

PRESSURED_SPREAD = 0.05
# Rates that only a chart counts: mean by family, one spread each.
CHARTED = {
    "on_time": ({"screen": 0.92, "quick_middle": 0.85, "quick_outside": 0.85,
                 "intermediate": 0.75, "boot": 0.72, "deep_middle": 0.70, "deep_outside": 0.72},
                0.05),
    "catchable": ({"screen": 0.93, "quick_middle": 0.84, "quick_outside": 0.82,
                   "intermediate": 0.74, "boot": 0.75, "deep_middle": 0.60, "deep_outside": 0.52},
                  0.04),
    "evaded": ({"screen": 0.20, "quick_middle": 0.13, "quick_outside": 0.14,
                "intermediate": 0.10, "boot": 0.13, "deep_middle": 0.08, "deep_outside": 0.08,
                "qb_draw": 0.20, "zone_read": 0.20, "qb_power": 0.20, "qb_sneak": 0.05,
                "handoff": 0.18}, 0.04),
}

# A boot is thrown over this mix of depths, on the move: completions fall by this shift.
BOOT_MIX = {"screen": 0.05, "quick_outside": 0.52, "quick_middle": 0.08, "intermediate": 0.25,
            "deep_outside": 0.07, "deep_middle": 0.03}
BOOT_SHIFTS = {"completion": -0.10, "interception": 0.0, "sack": 0.0, "scramble": 0.5}

# Mean gain of single players: standard deviation in yards, from which the Dirichlet's
# concentration follows (variance of a gain / sd^2 - 1).
GAIN_SPREAD = {"depth": 0.45, "yac": 0.55, "run": 0.45, "scramble": 0.9, "sack": 0.5}
DEEP_GAIN_SPREAD = {"depth": 1.5, "yac": 1.5}
BINS = {"depth": {"screen": [-12, -5, -2], "quick": [0, 3, 6], "intermediate": [10, 13, 16],
                  "deep": [20, 25, 30, 40], "boot": [-12, 0, 5, 10, 15, 20, 30]},
        "yac": [-15, 1, 3, 6, 10, 15, 25], "run": [-15, 0, 2, 4, 7, 12, 20],
        "scramble": [-5, 3, 6, 10, 15, 25], "sack": [-25, -8, -5]}

# What tracking does not tell of shells: sacks and runs. Shifts average to 0 over all throws' shells.
# (families, {rate: (two_high, none_high)}, {gain: (two_high, none_high)}); one_high balances them.
SHELL_SHIFTS = [
    (["deep_middle", "deep_outside", "intermediate", "boot"], {"sack": (0.0, 0.45)}, {}),
    (["quick_middle", "quick_outside", "screen"], {"sack": (0.0, 0.35)}, {}),
    (["handoff"], {}, {"run": (0.10, -0.10)}),
    (["qb_draw"], {}, {"run": (0.30, -0.15)}),
    (["zone_read", "qb_power"], {}, {"run": (0.12, -0.10)}),
]
CELL_KAPPA = {"shell": 120, "platform": 80, "pressure": 80, "lane": 150, "depth": 150}
# (condition, value, {rate: shift}) for all passes.
OTHER_CELLS = [
    ("platform", "pocket", {"completion": 0.03, "on_time": 0.05, "catchable": 0.03}),
    ("platform", "moving", {"completion": -0.15, "on_time": -0.25, "catchable": -0.15,
                            "scramble": 0.5}),
    ("pressure", "no", {"sack": -2.2, "on_time": 0.25, "catchable": 0.15}),
    ("pressure", "yes", {"sack": 1.25, "on_time": -0.8, "catchable": -0.5}),
]
FOURTH_DOWN_THIN = 25  # below so many cases the neighbours to_go are added

# Levels: weight of a snap and log-odds there minus those at the professional level.
LEVELS = {
    "high_school": (0.30, {"completion": 0.10, "interception": 0.20, "sack": -0.15,
                           "scramble": 0.30, "success": 0.20, "explosive": 0.30, "on_time": 0.10,
                           "catchable": 0.05, "pressured": -0.10, "evaded": 0.35, "fumble": 0.2}),
    "college": (0.60, {"completion": 0.05, "interception": 0.08, "sack": -0.05, "scramble": 0.15,
                       "success": 0.08, "explosive": 0.12, "on_time": 0.05, "catchable": 0.03,
                       "pressured": -0.05, "evaded": 0.15, "fumble": 0.1}),
    "pro": (1.0, {}),
}
# high-school.json: college.json with these changes.
HIGH_SCHOOL = {
    "rates": {"completion": -0.35, "interception": 0.37, "sack": 0.03, "scramble": 0.15},
    "gains": {"run": 0.12, "yac": 0.07}, "field_goal_intercept": -1.85, "longest": 47,
    "rules": {"try_mean": 0.85, "hash_gap_feet": 53.333}, "drives_per_game": 10, "quality": 1.25,
    "wider": 1.3}  # spreads of teams, and of cells around what shifts them
