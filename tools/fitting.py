"""What the fitting tools share: reading the published rows, writing fitted constants back into data/.

Development only; needs numpy and scipy. Reads tests/reference/physical and nothing else, writes data/<module>/*.csv.
A tool replaces the rows of origin `fit` that it makes and leaves every other line as it stands.
"""
import csv
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parent.parent
REFERENCE = ROOT / "tests" / "reference" / "physical"


def rows(table, **where):
    """Judged rows of a reference table whose columns equal `where`."""
    with open(REFERENCE / f"{table}.csv", newline="", encoding="utf-8") as f:
        return [r for r in csv.DictReader(f) if r["judged"] == "yes" and all(r[k] == v for k, v in where.items())]


def molar_mass(name):
    with open(ROOT / "data/matter/component.csv", newline="", encoding="utf-8") as f:
        for line in csv.reader(f):
            if line[:2] == ["molar_mass", name]:
                return float(line[3])
    raise KeyError(name)


def constants(subject, quantity, of=""):
    """The values of one quantity in data/matter/SUBJECT.csv, in order."""
    with open(ROOT / f"data/matter/{subject}.csv", newline="", encoding="utf-8") as f:
        return [float(r[3]) for r in csv.reader(f) if r[:2] == [quantity, of]]


def replace(subject, quantity, of, values, unit, source, digits=7, module="matter"):
    """Write fitted constants: rows `quantity,of,0..n,value,unit,fit,source` in place of the old ones, or at the end."""
    path = ROOT / f"data/{module}/{subject}.csv"
    lines = path.read_text(encoding="utf-8").splitlines()
    new = [f"{quantity},{of},{i},{v:.{digits}g},{unit},fit,{source}" for i, v in enumerate(values)]
    old = [i for i, line in enumerate(lines) if line.startswith(f"{quantity},{of},")]
    at = old[0] if old else len(lines)
    kept = [line for i, line in enumerate(lines) if i not in old]
    path.write_text("\n".join(kept[:at] + new + kept[at:]) + "\n", encoding="utf-8")


def least_squares(a, b):
    """Solution, misses, and the misses each row would have if it alone were left out."""
    a, b = np.asarray(a), np.asarray(b)
    solution = np.linalg.lstsq(a, b, rcond=None)[0]
    miss = a @ solution - b
    leverage = np.diag(a @ np.linalg.pinv(a))
    return solution, miss, miss / (1 - leverage)
