#!/usr/bin/env python3
"""The exact and the Monte Carlo engine beside what numpy and scipy do on the same chain.

Usage: bench/compare_numpy.py [BUILD_FOLDER]   (default build/release, with the benchmark built)

Needs Debian's python3-numpy and python3-scipy. Everything runs on one
thread, in one run, and the shortest of some repetitions counts; listing the chain's outcomes and
building the sampler's tables are not counted.
"""
import json
import pathlib
import subprocess
import sys
import tempfile
import time

import numpy as np
import scipy.sparse
import scipy.sparse.linalg

CLASSES = 3  # quality classes that the exact engine solves side by side
DRIVES = 1 << 17  # in step: as many as still fit the caches best, by trial
TOLERANCE = 1e-12


def shortest(work, repetitions):
    """Shortest CPU time of work() in seconds, and its last result."""
    best, result = np.inf, None
    for _ in range(repetitions):
        start = time.process_time()
        result = work()
        best = min(best, time.process_time() - start)
    return best, result


def load(folder):
    read = lambda name, kind: np.fromfile(folder / name, dtype=kind)
    reward = read("reward.f64", "f8").reshape(-1, 3)
    states = len(reward)
    q = scipy.sparse.csr_matrix(
        (read("probability.f64", "f8"), (read("row.i32", "i4"), read("column.i32", "i4"))), (states, states))
    values = read("values.f64", "f8").reshape(-1, 2)
    return q, reward, read("starts.f64", "f8"), read("first.i32", "i4"), read("order.i32", "i4"), values


def value_iteration(q, reward):
    """All states at once until no value moves by more than TOLERANCE."""
    values = np.zeros_like(reward)
    while True:
        new = reward + q @ values
        if np.abs(new - values).max() < TOLERANCE:
            return new
        values = new


def sparse_lu(q, reward, order=None):
    """SuperLU, in its default order or in the given one; I - Q needs no pivots off the diagonal."""
    system = scipy.sparse.csc_matrix(scipy.sparse.identity(q.shape[0]) - q)
    if order is None:
        return scipy.sparse.linalg.splu(system, diag_pivot_thresh=0).solve(reward)
    solver = scipy.sparse.linalg.splu(system[order][:, order], permc_spec="NATURAL", diag_pivot_thresh=0)
    values = np.empty_like(reward)
    values[order] = solver.solve(reward[order])
    return values


def alias_tables(q):
    """Walker's tables of every row, the end of the drive as one more outcome; laid end to end."""
    end = q.shape[0]
    first, size, keep, own, other = [], [], [], [], []
    for row in range(end):
        where = slice(q.indptr[row], q.indptr[row + 1])
        targets = np.append(q.indices[where], end)
        p = np.append(q.data[where], max(0.0, 1 - q.data[where].sum())) * len(targets)
        alias = np.arange(len(targets))
        small = [i for i in alias if p[i] < 1]
        large = [i for i in alias if p[i] >= 1]
        while small and large:
            s, l = small.pop(), large[-1]
            alias[s] = l
            p[l] -= 1 - p[s]
            if p[l] < 1:
                small.append(large.pop())
        first.append(len(keep))
        size.append(len(targets))
        keep.extend(p)
        own.extend(targets)
        other.extend(targets[alias])
    return (np.array(first, "i4"), np.array(size, "f4"), np.array(keep, "f4"), np.array(own, "i4"),
            np.array(other, "i4"))


def sample(tables, starts, end, random):
    """DRIVES drives in step, each to its end; the number of steps."""
    first, size, keep, own, other = tables
    at = starts
    steps = 0
    while len(at):
        steps += len(at)
        place = random.random(len(at), dtype="f4") * size[at]
        column = place.astype("i4")
        place -= column
        column += first[at]
        at = np.where(place < keep[column], own[column], other[column])
        at = at[at != end]
    return steps


def callfit_seconds(build):
    """CPU seconds of {exact points of all classes, one sampled play}, by the benchmark program."""
    with tempfile.NamedTemporaryFile(suffix=".json") as out:
        subprocess.run([build / "bench/callfit_bench", "--benchmark_filter=^(exact_points|sampled_plays)(/|$)",
                        f"--benchmark_out={out.name}", "--benchmark_out_format=json"],
                       check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        runs = [r for r in json.load(open(out.name))["benchmarks"] if r["run_type"] == "iteration"]
    scale = {"ms": 1e-3, "us": 1e-6, "ns": 1e-9}
    exact = min(r["cpu_time"] * scale[r["time_unit"]] for r in runs if r["name"].startswith("exact_points"))
    play = min(1 / r["items_per_second"] for r in runs if r["name"].startswith("sampled_plays"))
    return exact, play


def main():
    build = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else "build/release").resolve()
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([build / "bench/callfit_chain", folder], check=True)
        q, reward, start_shares, first, order, exact_values = load(pathlib.Path(folder))
    exact, play = callfit_seconds(build)
    one_class = exact / CLASSES
    print(f"chain: {q.shape[0]} states, {q.nnz} entries; one class of the exact engine {one_class * 1e3:.2f} ms, "
          f"one sampled play {play * 1e9:.1f} ns")
    points_and_net = np.ascontiguousarray(reward[:, :2])
    for name, work, repetitions in [
            ("value iteration, scipy's CSR product", lambda: value_iteration(q, points_and_net), 3),
            ("scipy splu, states from the goal out", lambda: sparse_lu(q, points_and_net, order), 3),
            ("scipy splu, its default order", lambda: sparse_lu(q, points_and_net), 1)]:
        seconds, values = shortest(work, repetitions)
        apart = np.abs(values[first[1:]] - exact_values[1:]).max()
        print(f"{name:45} {seconds * 1e3:9.1f} ms  {seconds / one_class:7.1f} x one class, "
              f"{seconds / exact:6.1f} x all {CLASSES}; values apart by {apart:.0e}")

    plays_by_state = value_iteration(q, reward[:, 2:])[:, 0]
    random = np.random.Generator(np.random.SFC64(1))
    starts = first[random.choice(100, DRIVES, p=start_shares)]
    plays = plays_by_state[starts].sum()
    tables = alias_tables(q)
    seconds, _ = shortest(lambda: sample(tables, starts, q.shape[0], random), 5)
    print(f"{'numpy, alias tables, drives in step':45} {seconds / plays * 1e9:9.1f} ns a play  "
          f"{seconds / plays / play:7.1f} x a sampled play of callfit")


if __name__ == "__main__":
    main()
