"""The recipe's programmes beside HiGHS, on the same instances, in the same run.

    python3 -m venv V && V/bin/pip install highspy==1.16.0 numpy
    V/bin/python crates/advice/recipe/benches/beside_highs.py [--seeds 60]     # from the repository's root

n products, m constituents; a product carries 2 to 5 of them; a band of 4 to 12 % lies around what a random recipe of five
products gives, so that every instance can be met. Amounts are whole, 0 to 60, but in "lp". Kinds: "lp" and "integer", least
cost; "fewest", fewest products; "fixed", least cost where every product costs 5 more, at most 8 of them. HiGHS gets its
yes-or-nos with 60 as the large number, ours makes its own rows for them. Both prove (gap 1e-9 or none), one thread, presolve
on. CPU time: HiGHS for passing and running the model, the best of three runs; ours for building, solving and settling it, the
mean of as many runs as take 0.08 s.
"""
import argparse
import json
import os
import subprocess
import tempfile
import time

import highspy
import numpy as np

SIZES = [(10, 12), (20, 14), (30, 16), (40, 20)]
KINDS = ["lp", "integer", "fewest", "fixed"]


def instance(n, m, seed):
    r = np.random.default_rng(seed)
    A = np.zeros((m, n))
    for j in range(n):
        k = r.choice(m, size=r.integers(2, 6), replace=False)
        A[k, j] = np.round(r.lognormal(0, 0.8, size=k.size), 3)
    for i in range(m):
        if not A[i].any():
            A[i, r.integers(n)] = 1.0
    x = np.zeros(n)
    use = r.choice(n, size=min(5, n), replace=False)
    x[use] = r.integers(3, 40, size=use.size)
    b = A @ x
    w = r.uniform(0.04, 0.12, size=m)
    return A, b * (1 - w), b * (1 + w) + np.where(b == 0, r.uniform(1, 10, size=m), 0), np.round(r.uniform(0.05, 1, size=n), 3)


def model(kind, A, lo, hi, c):
    m, n = A.shape
    inf = highspy.kHighsInf
    ties = kind in ("fewest", "fixed")
    nv = 2 * n if ties else n
    B, L, H, C, ub = A, lo, hi, c, np.full(n, 60.0)
    if ties:
        B = np.zeros((m + n + 1, nv))
        B[:m, :n] = A
        B[m + np.arange(n), np.arange(n)] = 1
        B[m + np.arange(n), n + np.arange(n)] = -60
        B[-1, n:] = 1
        L = np.concatenate([lo, np.full(n, -inf), [0]])
        H = np.concatenate([hi, np.zeros(n), [8.0 if kind == "fixed" else float(n)]])
        C = np.concatenate([c, np.full(n, 5.0)]) if kind == "fixed" else np.concatenate([np.zeros(n), np.ones(n)])
        ub = np.concatenate([ub, np.ones(n)])
    lp = highspy.HighsLp()
    nz = B.T.nonzero()
    lp.num_col_, lp.num_row_ = nv, B.shape[0]
    lp.col_cost_, lp.col_lower_, lp.col_upper_ = C, np.zeros(nv), ub
    lp.row_lower_, lp.row_upper_ = L, H
    lp.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    lp.a_matrix_.start_ = np.concatenate([[0], np.cumsum(np.bincount(nz[0], minlength=nv))])
    lp.a_matrix_.index_, lp.a_matrix_.value_ = nz[1], B.T[nz]
    if kind != "lp":
        lp.integrality_ = [highspy.HighsVarType.kInteger] * nv
    return lp


def highs(h, lp):
    best = float("inf")
    for _ in range(3):
        t = time.process_time_ns()
        h.passModel(lp)
        h.run()
        best = min(best, (time.process_time_ns() - t) / 1e6)
        if best > 2000:
            break
    assert h.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return best, h.getInfo().objective_function_value, h.getInfo().mip_node_count


def main():
    ap = argparse.ArgumentParser()
    ap.add_argument("--seeds", type=int, default=60)
    seeds = ap.parse_args().seeds
    h = highspy.Highs()
    h.setOptionValue("output_flag", False)
    h.setOptionValue("threads", 1)
    h.setOptionValue("mip_rel_gap", 1e-9)
    made = [(kind, n, m, *instance(n, m, s)) for kind in KINDS for n, m in SIZES for s in range(seeds)]
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "instances.json")
        rows = [dict(kind=k, n=n, m=m, a=A.tolist(), lower=lo.tolist(), upper=hi.tolist(), cost=c.tolist()) for k, n, m, A, lo, hi, c in made]
        json.dump(rows, open(path, "w"))
        out = subprocess.run(["cargo", "bench", "-q", "-p", "recipe", "--bench", "programme", "--", path], check=True, capture_output=True, text=True)
        ours = json.loads(out.stdout.strip().splitlines()[-1])
    theirs = [highs(h, model(k, A, lo, hi, c)) for k, _, _, A, lo, hi, c in made]
    print(f"HiGHS {h.version()}, load {os.getloadavg()[0]:.1f}\n")
    print("| kind | n x m | ours ms median / p90 / max | HiGHS ms median / p90 / max | HiGHS / ours, median | nodes ours / HiGHS | proved | largest relative difference |")
    print("|---|---|---|---|---|---|---|---|")
    for kind in KINDS:
        for n, m in SIZES:
            at = [i for i, row in enumerate(made) if row[:3] == (kind, n, m)]
            a, b = np.array([ours[i]["ms"] for i in at]), np.array([theirs[i][0] for i in at])
            proved = [i for i in at if ours[i]["proved"]]
            gap = max(abs(ours[i]["objective"] - theirs[i][1]) / max(1, abs(theirs[i][1])) for i in proved)
            q = lambda v: f"{np.median(v):.2f} / {np.percentile(v, 90):.2f} / {max(v):.1f}"
            nodes = f"{np.median([ours[i]['nodes'] for i in at]):.0f} / {np.median([theirs[i][2] for i in at]):.0f}"
            print(f"| {kind} | {n} x {m} | {q(a)} | {q(b)} | {np.median(b) / np.median(a):.1f} | {nodes} | {len(proved)} of {len(at)} | {gap:.0e} |")


main()
