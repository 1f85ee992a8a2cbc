"""docs/population-table.md: what is measured and what is assumed, out of the population itself."""
import csv

import numpy as np


def interval(value):
    return f"{value[0]:.3f} - {value[1]:.3f}" if value else "-"


def lines(population, correlations_path):
    yield ("Made by `scripts/build_population.py` from `settings/population/pro.json`; log-odds"
           " scale, 90% intervals by profile likelihood.\n")
    yield "## Measured traits\n"
    yield ("| trait | n | spread between quarterback-seasons | opponents | left between games |"
           " loadings | first with second half of a season | opponent's loading |")
    yield "|---|---|---|---|---|---|---|---|"
    for name, t in population["traits"].items():
        if t["source"] == "assumed":
            continue
        steady = (f"{t['within_season']:.2f} ({interval(t['within_season_interval90'])})"
                  if "within_season" in t else "-")
        yield (f"| {name} | {t['n']} | {t['spread']:.3f} ({interval(t['interval90'])})"
               f" | {t['opponent_spread']:.3f} ({interval(t.get('opponent_interval90'))})"
               f" | {t['game_spread']:.3f} ({interval(t.get('game_interval90'))})"
               f" | {', '.join(f'{l:.2f}' for l in t['loadings'])} | {steady}"
               f" | {t['opponent_loading']:.2f} |")
    yield "\n## Assumed traits\n"
    yield "| trait | spread | loadings | why |"
    yield "|---|---|---|---|"
    for name, t in population["traits"].items():
        if t["source"] == "assumed":
            yield (f"| {name} | {t['spread']:.3f} | {', '.join(f'{l:.2f}' for l in t['loadings'])}"
                   f" | {t['why']} |")
    yield "\n## Number of factors\n"
    yield ("Composite log-likelihood over no factors in left-out seasons; pull is the normal"
           " prior's weight.\n")
    yield "| factors | pull | gain | behind the best | standard error of that |"
    yield "|---|---|---|---|---|"
    for row in population["factors"]["left_out_seasons"]:
        yield (f"| {row['number']} | {row['pull']:g} | {row['gain']} | {row['behind_best']}"
               f" | {row['behind_best_error']} |")
    yield from beside_correlations(population, correlations_path)
    yield "\n## What carries over\n"
    yield "| trait | same caller | new caller | new team | new level | source |"
    yield "|---|---|---|---|---|---|"
    for name, t in population["traits"].items():
        cells = [f"{t['carries_over'][move]:.2f} ({interval(t['carries_over_interval90'][move])})"
                 for move in ("same_caller", "new_caller", "new_team", "new_level")]
        yield f"| {name} | {' | '.join(cells)} | {t['carries_over_source']} |"


SAME = {"yac10_short": "yac_short", "yac10_intermediate": "yac_intermediate",
        "scramble_10plus": "scramble_gain"}


def beside_correlations(population, path):
    """The factors' correlations beside those of correlations.csv."""
    traits = population["traits"]
    with open(path, encoding="utf-8", newline="") as stream:
        rows = [r for r in csv.DictReader(stream) if r["min_dropbacks"] == "100"]
    yield "\n## Correlations of the factors beside `correlations.csv` (r_split_halves)\n"
    yield "| a | b | factors | halves | 90% interval | inside |"
    yield "|---|---|---|---|---|---|"
    apart, inside = [], []
    for row in rows:
        a, b = (SAME.get(row[k], row[k]) for k in ("rate_a", "rate_b"))
        if a not in traits or b not in traits:
            continue
        r = float(np.dot(traits[a]["loadings"], traits[b]["loadings"]))
        low, high = float(row["split_lo90"]), float(row["split_hi90"])
        apart.append(r - float(row["r_split_halves"]))
        inside.append(low <= r <= high)
        yield (f"| {a} | {b} | {r:.2f} | {float(row['r_split_halves']):.2f}"
               f" | {low:.2f} - {high:.2f} | {'yes' if inside[-1] else 'no'} |")
    yield (f"\n{sum(inside)} of {len(inside)} inside; root mean square difference"
           f" {np.sqrt(np.mean(np.square(apart))):.3f}.")
