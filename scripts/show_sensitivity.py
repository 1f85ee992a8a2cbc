#!/usr/bin/python3
"""Writes docs/sensitivity-table.md: by how much the demo's headline moves when numbers that are
assumed are halved and doubled.

Usage: scripts/show_sensitivity.py
Runs `callfit answer case.json --part brief` on the demo with other spreads in its setting's
population. Needs build/release/bin/callfit (or CALLFIT_PROGRAM); some minutes."""
import copy
import json
import os
import subprocess
import tempfile

ROOT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..")
DEMO = os.path.join(ROOT, "profiles", "demo")
PROGRAM = os.environ.get("CALLFIT_PROGRAM", os.path.join(ROOT, "build/release/bin/callfit"))
CHARTED_ONLY = ("on_time", "catchable", "pressured", "evaded")


def read(*path):
    with open(os.path.join(ROOT, *path), encoding="utf-8") as stream:
        return json.load(stream)


def write(path, value):
    with open(path, "w", encoding="utf-8") as stream:
        json.dump(value, stream)


def everything(population, factor):
    population["assumed_scale"] *= factor


def trait(*names):
    def scale(population, factor):
        for name in names:
            population["traits"][name]["spread"] *= factor
    return scale


def own_spread(part, names):
    """Of one family against its trait, where it is assumed."""
    def scale(population, factor):
        for family in population[part].values():
            for name, entry in family.items():
                if name in names and entry.get("source") == "assumed":
                    entry["own_spread"] *= factor
    return scale


def opponents(population, factor):
    for entry in population["traits"].values():
        for name in ("opponent_spread", "game_spread"):
            entry[name] *= factor


def levels(population, factor):
    for entry in population["traits"].values():
        for name in entry["level_spread"]:
            entry["level_spread"][name] *= factor


def assumed_traits(population):
    return [name for name, entry in population["traits"].items()
            if entry["source"] == "assumed" and name not in CHARTED_ONLY]


def groups(population):
    yield "everything marked assumed", everything
    for name in assumed_traits(population):
        yield f"trait {name}: spread", trait(name)
    yield "traits that only a chart counts: spread", trait(*CHARTED_ONLY)
    yield "boots: completion apart from other quick throws", own_spread("rates", ("completion",))
    for name in ("sack", "scramble", "fumble"):
        yield f"{name} of one family", own_spread("rates", (name,))
    yield "gains of one family", own_spread("gains", ("depth", "yac", "run"))
    yield "opponents and games: all spreads", opponents
    yield "between levels: all spreads", levels


def headline(folder, population, setting):
    """The brief's whole change, net points a game, and its odds, surroundings counted."""
    write(os.path.join(folder, "population.json"), population)
    write(os.path.join(folder, "setting.json"), setting)
    case = read("profiles", "demo", "case.json")
    case["setting"] = os.path.join(folder, "setting.json")
    for man in case["quarterbacks"]:
        man["charts"] = [os.path.join(DEMO, chart) for chart in man["charts"]]
    for scheme in case["schemes"]:
        scheme["calls"] = [os.path.join(DEMO, calls) for calls in scheme.get("calls", [])]
        if not scheme["calls"]:
            del scheme["calls"]
    path = os.path.join(folder, "case.json")
    write(path, case)
    done = subprocess.run([PROGRAM, "answer", path, "--part", "brief", "--json"],
                          capture_output=True, check=True, text=True)
    return json.loads(done.stdout)["answer"]["change"]


def signed(points):
    text = f"{points:+.2f}"
    return "0.00" if float(text) == 0 else text


def cell(change):
    whole, ahead = change["net_points_per_game"], change["ahead"]
    return (f"{signed(whole['centre'])} ({signed(whole['low'])} to {signed(whole['high'])}),"
            f" {ahead['odds']:.2f}")


def setting_for(name):
    setting = read("settings", name + ".json")
    if "based_on" in setting and not os.path.isabs(setting["based_on"]):
        setting["based_on"] = os.path.join(ROOT, "settings", setting["based_on"])
    setting["population"] = "population.json"
    return setting


def lines():
    name = read("profiles", "demo", "case.json")["setting"]
    setting = setting_for(name)
    population = read("settings", "population", name + ".json")
    with tempfile.TemporaryDirectory() as folder:
        as_is = headline(folder, population, setting)
        yield "| what | halved | doubled |"
        yield "|---|---|---|"
        for label, scale in groups(population):
            cells = []
            for factor in (0.5, 2):
                changed = copy.deepcopy(population)
                scale(changed, factor)
                cells.append(cell(headline(folder, changed, setting)))
            yield f"| {label} | {cells[0]} | {cells[1]} |"
        yield ""
        yield f"As it is: {cell(as_is)}."


def main():
    head = ("# What the demo's headline owes to assumed numbers\n\n"
            "Written by `scripts/show_sensitivity.py`: what changes from the last starter to the"
            " new one, net points a\ngame (90% interval, surroundings counted), and the odds that"
            " it is for the better, with spreads of\n`settings/population` halved and doubled one"
            " group at a time. The means of all rates stay.\n\n")
    text = head + "\n".join(lines()) + "\n"
    with open(os.path.join(ROOT, "docs", "sensitivity-table.md"), "w",
              encoding="utf-8") as stream:
        stream.write(text)


if __name__ == "__main__":
    main()
