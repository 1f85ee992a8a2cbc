#!/usr/bin/python3
"""Makes settings/population/*.json: what quarterbacks differ by, and what goes together.

Usage: scripts/build_population.py
Reads data/quarterbacks and settings/pro.json (means and gains of the families). Needs Debian's
python3-numpy and python3-scipy. Deterministic: same input, same bytes. docs/population.md says what
each number is."""
import json
import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from build_settings import write
from population import build

ROOT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..")


def main():
    with open(os.path.join(ROOT, "settings", "pro.json"), encoding="utf-8") as stream:
        setting = json.load(stream)
    for name, part in build.populations(os.path.join(ROOT, "data", "quarterbacks"), setting):
        write(os.path.join(ROOT, "settings", "population", name + ".json"), part)


if __name__ == "__main__":
    main()
