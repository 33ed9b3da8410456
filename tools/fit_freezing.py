#!/usr/bin/python3
"""Fit the water-activity constants of origin `fit` in data/matter/freezing.csv.

ln a_w,i = -ln(1 + r) + d x + x^2 (k + l x + (k' + l' x) (1 - x) g(T)), r = particles per water, x = r / (1 + r), g = 1000 (1/T - 1/298.15 K);
salts add the Debye-Hueckel term. Rows: freezing points of both sources (as the activity of ice at that temperature), and water activities
at 25 C, each weighed by its tolerance. Each solute has at most a quarter as many fitted constants as it has rows. Where a published
constant at 25 C exists (origin memory) it stands, and only its change with temperature is fitted.
Ethanol: the knots are table rows, one constant (the curve's value at no ethanol) is found from the rows below 10 mass %.
"""
import numpy as np
from scipy.interpolate import PchipInterpolator
from scipy.optimize import least_squares

from fitting import ROOT, molar_mass, rows

R, T0, T25 = 8.31446261815324, 273.15, 298.15
M_W, M_E = molar_mass("water"), molar_mass("ethanol")
PATH = ROOT / "data/matter/freezing.csv"
SOURCES = {"sodium chloride": "crc2021 melinder2010", "glycerol": "crc2021 melinder2010"}


def constant(quantity, of=""):
    for line in PATH.read_text(encoding="utf-8").splitlines():
        if line.startswith(f"{quantity},{of},,"):
            return float(line.split(",")[3])
    return 0.0


def series(quantity):
    return [float(line.split(",")[3]) for line in PATH.read_text(encoding="utf-8").splitlines() if line.startswith(f"{quantity},,")]


def store(quantity, of, value):
    lines = PATH.read_text(encoding="utf-8").splitlines()
    new = f"{quantity},{of},,{value:.6g},1,fit,{SOURCES.get(of, 'crc2021')}"
    at = [i for i, line in enumerate(lines) if line.startswith(f"{quantity},{of},,")]
    lines[at[0] if at else len(lines):at[0] + 1 if at else len(lines)] = [new]
    PATH.write_text("\n".join(lines) + "\n", encoding="utf-8")


FUSION, STEP = constant("heat_of_fusion_molar"), constant("heat_capacity_step")
A0, A25, B = constant("debye_hueckel", "0C"), constant("debye_hueckel", "25C"), constant("debye_hueckel", "closeness")


def g(t):
    return 1e3 * (1 / (t + 273.15) - 1 / T25)


def ln_ice(t):
    u = (t + 273.15) / T0
    return -(FUSION / R / T0) * (1 / u - 1) + (STEP / R) * (np.log(u) + 1 / u - 1)


SALTS = {  # particles and ionic strength per formula unit
    "sodium chloride": (2, 1, molar_mass("sodium") + molar_mass("chloride")),
    "potassium chloride": (2, 1, molar_mass("potassium") + molar_mass("chloride")),
    "calcium chloride": (3, 3, molar_mass("calcium") + 2 * molar_mass("chloride")),
    "sodium citrate": (4, 6, molar_mass("citric acid") + 3 * (molar_mass("sodium") - molar_mass("salt hydrogen"))),
}
NAMES = ("linear", "square", "square_slope", "cube", "cube_slope")


def part(m, t, particles, c):
    r = particles * m * M_W / 1e3
    x = r / (1 + r)
    d, k, ks, l, ls = (c.get(n, 0.0) for n in NAMES)
    return -np.log1p(r) + d * x + x * x * (k + l * x + (ks + ls * x) * (1 - x) * g(t))


def debye_hueckel(ionic, ions, t):
    i = ionic / (1 + ions * M_W / 1e3)
    return 2e-3 * M_W * (A25 + (A0 - A25) * g(t) / g(0.0)) * i**1.5 / (1 + B * np.sqrt(i))


def ln_activity(solute, m, t, c):
    if solute == "sodium citrate":  # booked as citric acid with three hydrogens exchanged
        acid = {n: constant(n, "citric acid") for n in NAMES}
        return part(m, t, 1, acid) + part(3 * m, t, 1, c) + debye_hueckel(6 * m, 3 * m, t)
    if solute in SALTS:
        particles, ionic, _ = SALTS[solute]
        return part(m, t, particles, c) + debye_hueckel(ionic * m, particles * m, t)
    return part(m, t, 1, c)


def points(solute):
    found = []
    for table in ("freezing_point", "freezing_point_melinder"):
        for row in rows(table, solute=solute):
            w, t = float(row["solute_mass_percent"]) / 100, float(row["freezing_point_C"])
            if w == 0.0:
                continue
            mass = SALTS[solute][2] if solute in SALTS else molar_mass(solute)
            floor = {"sodium chloride": 0.15, "sodium citrate": 0.25, "glycerol": 0.4}.get(solute, 0.1) if table == "freezing_point" else 0.4
            slope = (FUSION + STEP * t) / (R * (t + 273.15) ** 2)
            found.append((1e3 * w / (1 - w) / mass, t, ln_ice(t), max(floor, 0.02 * abs(t)) * slope))
    for row in rows("water_activity_25C", solute=solute):
        a = float(row["water_activity_25C"])
        found.append((float(row["molality_mol_per_kg_water"]), 25.0, np.log(a), 0.005 / a))
    return np.array(found)


def fit(solute, free, of=None):
    of = of or solute
    data = points(solute)
    held = {n: constant(n, of) for n in NAMES if n not in free}
    more = len(rows("water_activity_from_freezing", solute=solute))

    def miss(p, which):
        m, t, value, tolerance = data[which].T
        return (ln_activity(solute, m, t, held | dict(zip(free, p))) - value) / tolerance

    everything = np.arange(len(data))
    # Glycerol: two sources that differ by up to their tolerances; the fourth power keeps the worst row small.
    power = 4 if solute == "glycerol" else 1
    solve = lambda which: least_squares(lambda p: np.sign(miss(p, which)) * np.abs(miss(p, which)) ** power, [0.5] * len(free), xtol=1e-14, ftol=1e-14).x
    p = solve(everything)
    alone = [miss(solve(np.delete(everything, i)), [i])[0] for i in everything]
    print(f"{of}: {len(data)} + {more} rows, {len(free)} constants; worst {np.abs(miss(p, everything)).max():.2f} of tolerance, left out {np.abs(alone).max():.2f}")
    assert 4 * len(free) <= len(data) + more
    for name, value in zip(free, p):
        store(name, of, value)


def ethanol():
    w, t = np.array(series("ethanol_knot")) / 100, np.array(series("ethanol_freezing"))
    a12, a21 = np.log(constant("activity_at_infinite_dilution", "ethanol")), np.log(constant("activity_at_infinite_dilution", "water"))

    def split(w, t):
        x = (w / M_E) / (w / M_E + (1 - w) / M_W)
        return x, np.log(1 - x) + a21 * (a12 * x / (a12 * x + a21 * (1 - x))) ** 2

    def slope(w, t):
        x, at_25 = split(w, t)
        return (ln_ice(t) - at_25) / (x * x * g(t))

    def miss(start, lowest, highest):
        curve = PchipInterpolator([0.0, *w, 1.0], [start, *slope(w, t), constant("ethanol_slope_end")])
        out = []
        for table in ("freezing_point", "freezing_point_melinder"):
            for row in rows(table, solute="ethanol"):
                wr, tr = float(row["solute_mass_percent"]) / 100, float(row["freezing_point_C"])
                if lowest <= wr < highest:
                    x, at_25 = split(wr, tr)
                    tolerance = max(0.1 if table == "freezing_point" else 0.4, 0.02 * abs(tr))
                    out.append((at_25 + x * x * curve(wr) * g(tr) - ln_ice(tr)) * R * (tr + 273.15) ** 2 / (FUSION + STEP * tr) / tolerance)
        return np.array(out)

    start = least_squares(lambda p: miss(p[0], 0.0, 0.1), [-3.0]).x[0]
    print(f"ethanol: worst {np.abs(miss(start, 0, 1)).max():.2f} of tolerance")
    store("ethanol_slope_start", "", start)


def main():
    for sugar in ("sucrose", "glucose", "fructose", "maltose", "lactose"):
        fit(sugar, ["square_slope"])
    fit("glycerol", ["square_slope", "cube_slope"])
    fit("citric acid", ["linear", "square"])
    fit("lactic acid", ["linear", "square"])
    fit("acetic acid", ["square"])
    fit("phosphoric acid", ["linear"])
    fit("sodium chloride", ["square", "square_slope", "cube"])
    fit("potassium chloride", ["square"])
    fit("calcium chloride", ["square"])
    fit("sodium citrate", ["linear", "square"], of="sodium for hydrogen")
    ethanol()


main()
