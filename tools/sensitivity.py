#!/usr/bin/env python3
"""Would the checks notice if a constant of the matter model were a little wrong?

Draws constants from data/matter/*.csv (seed 20261124), changes one at a time by 1 % (0.1 % where it scales a density),
rebuilds the runner and the unit tests of matter in a copy of the tree, and says which checks fail. Survivors are listed
with the largest change they cause, in units of the check's tolerance.

  tools/sensitivity.py [--count 40] [--seed 20261124] [--work DIR]

Takes some ten minutes on two cores; not a part of `./run test`. Results: docs/sensitivity.md.
"""
import argparse
import csv
import pathlib
import random
import shutil
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parent.parent
TESTS = [f"matter_{name}_test" for name in ("acidity", "component", "density", "enthalpy", "freezing", "ice", "properties", "refraction", "vapour", "viscosity")]
TABLES = ROOT / "tests" / "reference" / "physical"


def constants():
    """(file, line number, the row's fields) of every numeric constant."""
    found = []
    for path in sorted((ROOT / "data" / "matter").glob("*.csv")):
        header = None
        for number, line in enumerate(path.read_text().splitlines()):
            if line.startswith("#") or not line.strip():
                continue
            fields = next(csv.reader([line]))
            if header is None:
                header = fields
                continue
            row = dict(zip(header, fields))
            if float(row["value"]) != 0.0:
                found.append((path.name, number, row))
    return found


def judge(computed):
    """{(table, row, column): |error| / tolerance} of every judged value, and the value."""
    got = {(r["table"], r["row"], r["column"]): r["computed"] for r in csv.DictReader(computed.splitlines())}
    ratios = {}
    for check in csv.DictReader((TABLES / "checks.csv").open()):
        path = TABLES / (check["table"] + ".csv")
        if check["work"] != "matter" or not path.exists():
            continue
        for row in csv.DictReader(path.open()):
            key = (check["table"], row["row"], check["judged_column"])
            if row.get("judged", "yes").startswith("no") or key in ratios or not fits(row, check["valid_range"]):
                continue
            expected = float(row[check["judged_column"]])
            tolerance = max(float(check["abs_tol"]), float(check["rel_tol"]) * abs(expected))
            text = got.get(key, "")
            value = float(text) if text else float("inf")
            ratios[key] = (abs(value - expected) / tolerance, value, tolerance)
    return ratios


def fits(row, conditions):
    for condition in filter(None, conditions.split(";")):
        for op in ("<=", ">=", "!=", "<", ">", "="):
            if op in condition:
                column, limit = (part.strip() for part in condition.split(op, 1))
                break
        left = row[column]
        if op in ("=", "!="):
            if (left in limit.split("|")) != (op == "="):
                return False
        elif not {"<=": float.__le__, ">=": float.__ge__, "<": float.__lt__, ">": float.__gt__}[op](float(left), float(limit)):
            return False
    return True


def main():
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("--count", type=int, default=40)
    arguments.add_argument("--seed", type=int, default=20261124)
    arguments.add_argument("--work", help="folder for the copy of the tree (default: a temporary one)")
    asked = arguments.parse_args()
    work = pathlib.Path(asked.work or tempfile.mkdtemp(prefix="sensitivity-"))
    tree, build = work / "tree", work / "build"
    if tree.exists():
        shutil.rmtree(tree)
    shutil.copytree(ROOT, tree, ignore=shutil.ignore_patterns(".git", "build*", "node_modules"))
    subprocess.run(["cmake", "-S", tree, "-B", build, "-G", "Ninja", "-DCMAKE_BUILD_TYPE=Release", "-DCMAKE_CXX_COMPILER_LAUNCHER=ccache"], check=True, capture_output=True)

    def evaluate():
        subprocess.run(["ninja", "-C", build, "physical", *TESTS], check=True, capture_output=True)
        computed = subprocess.run([build / "checks" / "physical", TABLES], check=True, capture_output=True, text=True).stdout
        failed = set()
        for test in TESTS:
            said = subprocess.run([build / "tests" / "matter" / test, "--gtest_brief=1"], capture_output=True, text=True, timeout=300).stdout
            failed |= {line.split("]")[1].split("(")[0].split(",")[0].strip() for line in said.splitlines() if line.startswith("[  FAILED  ]") and "." in line}
        failed = sorted(failed)
        return judge(computed), failed

    baseline, unit_failures = evaluate()
    if any(ratio > 1 for ratio, _, _ in baseline.values()) or unit_failures:
        sys.exit("the unchanged tree fails its own checks; mend that first")
    drawn = random.Random(asked.seed).sample(constants(), asked.count)
    noticed, survivors = 0, []
    for name, number, row in drawn:
        path = tree / "data" / "matter" / name
        lines = path.read_text().splitlines()
        step = 1.001 if "kg/m3" in row["unit"] else 1.01
        changed = dict(row, value=repr(float(row["value"]) * step))
        with path.open("w", newline="") as out:
            for n, line in enumerate(lines):
                if n == number:
                    csv.writer(out, lineterminator="\n").writerow(changed.values())
                else:
                    out.write(line + "\n")
        label = f"{name}: {row['quantity']} {row['of']} {row['index']} = {row['value']} {row['unit']} x {step}"
        try:
            ratios, failed = evaluate()
        finally:
            path.write_text("\n".join(lines) + "\n")
        tables = sorted({key[0] for key, (ratio, _, _) in ratios.items() if ratio > 1})
        moved = max(((abs(value - baseline[key][1]) / tolerance, key) for key, (_, value, tolerance) in ratios.items()), default=(0.0, ("", "", "")))
        if tables or failed:
            noticed += 1
            print(f"noticed   {label}: {', '.join(tables + failed)}", flush=True)
        else:
            survivors.append((moved, label))
            print(f"survives  {label}: moves {moved[1][0]} {moved[1][1]} {moved[1][2]} by {moved[0]:.3f} of its tolerance", flush=True)
    print(f"{noticed} of {len(drawn)} noticed, {len(survivors)} survive")


if __name__ == "__main__":
    main()
