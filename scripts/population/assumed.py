"""Every number of the population that no table covers, in one place, with the reason."""

SOURCES = {
    "quarterbacks": "counts by quarterback and game, 2009-2018 regular seasons: data/quarterbacks,"
                    " github derek-adair/nflgame, commit 35574f097d6cc5987447320ae7db12dd7aa6a54e,"
                    " UNLICENSE; estimated by scripts/build_population.py",
    "carry_over": "data/quarterbacks/carry_over.csv, rows recommended (pro 2009-2018, college"
                  " 2014-2020); judgement is in them",
    "college": "data/quarterbacks/college_spreads.csv, github saiemgilani/cfbscrapR-data, commit"
               " 8e8fecb86dd3673da257f9c7c6f03bd87dce53ce, MIT",
    "college_to_pro": "data/quarterbacks/college_to_pro.csv: 23 men with 200 college and 100"
                      " professional dropbacks",
    "explosive": "data/quarterbacks/explosive_spreads.csv",
    "setting": "settings/pro.json, families",
    "assumed": "assumed; no source",
}

# Traits that no table counts: spread on the log-odds scale, the measured trait they lean on, the
# correlation assumed with what that trait shares with others, and why.
TRAITS = {
    "on_time": (0.25, "completion_quick", 0.4, "charted only; about .04 of a rate of .8"),
    "catchable": (0.20, "completion_quick", 0.7,
                  "charted only; .03 of a rate of .82, as much as men differ in completions"),
    "pressured": (0.25, "sack", 0.5, "charted only; about as sacks differ on the log-odds scale"),
    "evaded": (0.35, "scramble", 0.5, "charted only; about .04 of a rate of .13"),
    "designed_run": (0.25, "scramble_gain", 0.6,
                     "10 and more yards per designed run differ by .56, but quarterback sneaks are"
                     " in and their share differs from man to man; taken as gains of scrambles do"),
    "depth": (0.16, None, 0.0,
              "yards within a depth band are not in the data; the bands' shares differ by .15 to"
              " .19 on the log-odds scale (spreads.csv)"),
}
ASSUMED_OPPONENT = {"on_time": 0.05, "catchable": 0.07, "pressured": 0.12, "evaded": 0.05,
                    "designed_run": 0.08, "depth": 0.05, "handoff": 0.12}
OPPONENT_WHY = "no counts by game; about as neighbouring measured traits"

FAMILY_DEPTH = {"screen": "behind_line", "quick_middle": "quick", "quick_outside": "quick",
                "intermediate": "intermediate", "boot": "quick", "deep_middle": "deep",
                "deep_outside": "deep"}
LANED = {"quick_middle": ("quick", "middle"), "quick_outside": ("quick", "outside"),
         "deep_middle": ("deep", "middle"), "deep_outside": ("deep", "outside")}
YAC_TRAIT = {"behind_line": "yac_short", "quick": "yac_short", "intermediate": "yac_intermediate",
             "deep": "yac_short"}

# What one family's rate departs from its trait by, where depth and lane do not tell.
OWN = {"sack": (0.10, "sacks carry no depth in the data"),
       "scramble": (0.15, "scrambles carry no depth in the data"),
       "success": (0.08, "success by man and family is not in the tables"),
       "explosive": (0.10, "gains of 20 by man and family are known for short throws alone"),
       "fumble": (0.10, "fumbles other than on sacks are not in the tables"),
       "charted": (0.10, "charted only"),
       "boot": (0.12, "boots are not told from other throws in the data"),
       "gain": (0.05, "gains by man and family are not in the tables")}

# High school has no data: college's spreads times this.
HIGH_SCHOOL_WIDER = 1.3
