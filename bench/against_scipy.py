#!/usr/bin/env python3
"""against_scipy.py PROGRAM - five questions to `bloomset balance`, written as equations too and solved by SciPy (python3-scipy).

Each is a mixture of water, sucrose, ethanol and citric acid in grams x_i with amounts as written a_i: minimise sum (x_i/a_i - 1)^2 under the targets, which
are plain shares and sums. Prints both optima, their largest relative difference (at most 1e-6, else it exits 1) and the ratio of times. The program's time counts
its start, reading and printing; SciPy's counts the solve alone.
"""
import json
import pathlib
import subprocess
import sys
import tempfile
import time

import numpy
from scipy.optimize import minimize

AS_WRITTEN = numpy.array([90.0, 25.0, 20.0, 1.0])
THINGS = ["water", "sucrose", "ethanol", "citric acid"]


def share(i):
    return lambda x: 100.0 * x[i] / x.sum()


# (targets as text, constraints: kind, function of x which is 0 or above 0)
PROBLEMS = [
    (["'mix'.sugar = 12 %"], [("eq", lambda x: share(1)(x) - 12.0)]),
    (["'mix'.sugar = 12 %", "'mix'.mass = 150 g"], [("eq", lambda x: share(1)(x) - 12.0), ("eq", lambda x: x.sum() - 150.0)]),
    (["'mix'.ethanol >= 30 g", "'mix'.mass <= 140 g"], [("ineq", lambda x: x[2] - 30.0), ("ineq", lambda x: 140.0 - x.sum())]),
    (["'mix'.ethanol = 24 g", "'mix'.sugars = 30 g", "'mix'.mass = 160 g"],
     [("eq", lambda x: x[2] - 24.0), ("eq", lambda x: x[1] - 30.0), ("eq", lambda x: x.sum() - 160.0)]),
    (["'mix'.sugar 20-25 %", "'mix'.ethanol <= 10 g", "'mix'.mass >= 150 g"],
     [("ineq", lambda x: share(1)(x) - 20.0), ("ineq", lambda x: 25.0 - share(1)(x)), ("ineq", lambda x: 10.0 - x[2]), ("ineq", lambda x: x.sum() - 150.0)]),
]


def by_program(program, targets, folder):
    path = pathlib.Path(folder) / "mix.toml"
    takes = ", ".join(f'"{grams:g} g {thing}"' for grams, thing in zip(AS_WRITTEN, THINGS))
    path.write_text(f'bloomset = 1\ntitle = "Mix"\n[[part]]\nname = "mix"\nmade = "ahead"\nstep = [ {{ do = "combine", take = [{takes}] }} ]\n')
    words = [program, "balance", str(path), "--exact", "--json"]
    for target in targets:
        words += ["--target", target]
    for thing in THINGS:
        words += ["--vary", thing]
    start = time.perf_counter()
    done = subprocess.run(words, capture_output=True, text=True, check=True)
    seconds = time.perf_counter() - start
    grams = {amount["thing"]: amount["after_g"] for amount in json.loads(done.stdout)["amounts"]}
    return numpy.array([grams[thing] for thing in THINGS]), seconds


def by_scipy(constraints):
    def scaled(function):
        return lambda u: function(u * AS_WRITTEN)

    start = time.perf_counter()
    found = minimize(lambda u: ((u - 1.0) ** 2).sum(), numpy.ones(4), jac=lambda u: 2.0 * (u - 1.0), method="SLSQP", bounds=[(0.0, 10.0)] * 4,
                     constraints=[{"type": kind, "fun": scaled(function)} for kind, function in constraints], options={"ftol": 1e-15, "maxiter": 300})
    return found.x * AS_WRITTEN, time.perf_counter() - start


def main():
    worst, ratios = 0.0, []
    with tempfile.TemporaryDirectory() as folder:
        for targets, constraints in PROBLEMS:
            ours, our_s = by_program(sys.argv[1], targets, folder)
            theirs, their_s = by_scipy(constraints)
            difference = numpy.max(numpy.abs(ours - theirs) / AS_WRITTEN)
            worst = max(worst, difference)
            ratios.append(our_s / their_s)
            print(f"{'; '.join(targets)}\n  program {numpy.round(ours, 6)}  {1e3 * our_s:.1f} ms\n  scipy   {numpy.round(theirs, 6)}  {1e3 * their_s:.1f} ms\n"
                  f"  differ by {difference:.1e} of the amounts as written")
    print(f"largest difference {worst:.1e}; time of the program over SciPy's {min(ratios):.1f} to {max(ratios):.1f}")
    sys.exit(0 if worst <= 1e-6 else 1)


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    main()
