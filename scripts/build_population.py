#!/usr/bin/python3
"""Makes settings/population/*.json and docs/population-table.md: what quarterbacks differ by, and
what goes together.

Usage: scripts/build_population.py
Reads data/quarterbacks and settings/pro.json (means and gains of the families). Needs Debian's
python3-numpy and python3-scipy. Deterministic: same input, same bytes. docs/population.md says what
each number is."""
import json
import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from build_settings import write
from population import build, table

ROOT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..")


def main():
    with open(os.path.join(ROOT, "settings", "pro.json"), encoding="utf-8") as stream:
        setting = json.load(stream)
    data = os.path.join(ROOT, "data", "quarterbacks")
    parts = dict(build.populations(data, setting))
    for name, part in parts.items():
        write(os.path.join(ROOT, "settings", "population", name + ".json"), part)
    text = "\n".join(table.lines(parts["pro"], os.path.join(data, "correlations.csv")))
    with open(os.path.join(ROOT, "docs", "population-table.md"), "w", encoding="utf-8") as stream:
        stream.write("# The professional population, number by number\n\n" + text + "\n")


if __name__ == "__main__":
    main()
