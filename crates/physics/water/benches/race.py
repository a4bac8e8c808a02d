"""Races the speciation against PHREEQC on the same waters, each solved at its temperature and, closed, at 25 °C.

    cargo build --release -p water --example race
    VENV/bin/python crates/physics/water/benches/race.py target/release/examples/race

VENV holds phreeqc 1.1.1 (see tests/fixtures/phreeqc/README.md). CPU time of each process counts, not wall time, so that other work
on the machine matters less; the best of several rounds is taken for both, in turn. PHREEQC gets its waters a hundred
at a time, to spare it the cost of each call, and prints three numbers a water.
"""
import os
import random
import resource
import statistics
import subprocess
import sys
import tempfile
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "tests", "fixtures", "phreeqc"))
import make  # noqa: E402  the fixture's script: the same engine, the same random waters

WATERS, ROUNDS, REPEATS, BATCH = 2500, 5, 400, 100
PUNCH = """
SELECTED_OUTPUT 1
 -reset false
 -high_precision true
USER_PUNCH 1
 -headings ph dic sc
10 PUNCH -LA("H+"), TOT("C(4)"), SC
"""


def waters():
    rng, out = random.Random(7), []
    while len(out) < WATERS:
        scale = 10 ** rng.uniform(-3.5, -1.9)
        case, alk = make.random_water(rng, scale, ammonia=rng.random() < 0.5)
        out.append(make.with_carbon(rng, case, alk, "ph"))
    return out


def phreeqc_texts(cases):
    """One text a batch: each water is solved, then the same closed water warmed or cooled to 25 °C."""
    for first in range(0, len(cases), BATCH):
        text = [make.PREAMBLE, PUNCH, "REACTION_TEMPERATURE 1\n 25\nEND\n"]
        for n, case in enumerate(cases[first:first + BATCH], start=1):
            text.append(make.solution(n, case) + f"END\nUSE solution {n}\nUSE reaction_temperature 1\nEND\n")
        yield "".join(text)


def race_phreeqc(engine, texts):
    rows, start = [], time.process_time()
    for text in texts:
        if engine.RunString(text):
            raise RuntimeError(engine.GetErrorString())
        columns = engine.GetSelectedOutput()
        rows += zip(columns["ph"], columns["dic"])
    return time.process_time() - start, rows[0::2]


def cpu_of_children():
    usage = resource.getrusage(resource.RUSAGE_CHILDREN)
    return usage.ru_utime + usage.ru_stime


def race_ours(binary, file, repeats):
    start = cpu_of_children()
    out = subprocess.run([binary, file, str(repeats)], check=True, capture_output=True, text=True).stdout
    return cpu_of_children() - start, [tuple(map(float, line.split(","))) for line in out.splitlines()]


def main():
    binary = sys.argv[1]
    cases, engine = waters(), make.engine()
    texts = list(phreeqc_texts(cases))
    with tempfile.NamedTemporaryFile("w", suffix=".csv") as f:
        for c in cases:
            f.write(",".join(repr(x) for x in [c["temperature_c"], *[c[i] for i in make.IONS], c["alk"], c["value"]]) + "\n")
        f.flush()
        theirs, ours = [], []
        for _ in range(ROUNDS):
            seconds, expected = race_phreeqc(engine, texts)
            theirs.append(seconds / WATERS)
            idle, _ = race_ours(binary, f.name, 0)
            seconds, got = race_ours(binary, f.name, REPEATS)
            ours.append((seconds - idle) / (WATERS * REPEATS))
    worst = max(abs(g[1] / e[1] - 1) for g, e in zip(got, expected))
    print(f"{WATERS} waters, at T and at 25 °C, CPU time, {ROUNDS} rounds; inorganic carbon agrees within {worst:.1e}")
    for name, times in [("PHREEQC", theirs), ("here", ours)]:
        print(f"{name:8} best {1e6 * min(times):9.3f} µs a water, median {1e6 * statistics.median(times):9.3f}, {1 / min(times):10.0f} waters/s")
    print(f"ratio of the best {min(theirs) / min(ours):.0f}, of the medians {statistics.median(theirs) / statistics.median(ours):.0f}")


if __name__ == "__main__":
    main()
