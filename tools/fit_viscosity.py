#!/usr/bin/python3
"""Fit viscosities into data/matter/viscosity.csv: the surface of ethanol and water, and ln(mu/mu_water) of each solute.

Forms: see the head of that table. Every row is weighed by its tolerance (5 %, 10 % above 50 mass %); rows that are not judged count
10 times less, but for the electrolytes, of which none is judged. Fewer terms at higher powers of theta, so that the surface stays sensible
beyond 20 C: at 40 C and 40 mass % it then gives 1.49 mPa s, which it was not shown (from memory, Bingham 1922: 1.48).
"""
import csv

import numpy as np

from fitting import REFERENCE, constants, least_squares, molar_mass, replace, rows

TERMS_BY_THETA = (4, 3, 2)
TERMS = {"glucose": 2, "fructose": 2, "maltose": 2, "lactose": 1, "glycerol": 3, "citric acid": 1, "lactic acid": 2, "acetic acid": 3,
         "phosphoric acid": 1, "sodium chloride": 2, "potassium chloride": 2, "calcium chloride": 2, "sodium citrate": 2}
CROWDING = constants("viscosity", "crowding")[0]
SODIUM = 3 * (molar_mass("sodium") - molar_mass("salt hydrogen"))
EXCHANGED = SODIUM / (SODIUM + molar_mass("citric acid"))


def theta(t_c):
    return 1e3 / (t_c + 273.15) - 1e3 / 293.15


def cold(t_c):
    """How much more a sugar thickens in the cold: the temperature law of the ICUMSA viscosity formula, 0 at 20 C."""
    middle, pole = constants("viscosity", "cold")
    return (middle - t_c) / (pole + t_c) - (middle - 20) / (pole + 20)


def ln_water(t_c):
    d, c = 20 - t_c, constants("viscosity", "viscosity", "water")
    return np.log(constants("viscosity", "viscosity_20c", "water")[0]) + np.log(10) * d / (t_c + 96) * np.polyval(c[::-1], d)


def ln_ethanol(t_c):
    c, t_k = constants("viscosity", "viscosity", "ethanol"), t_c + 273.15
    return np.log(1e3) + c[0] + c[1] / t_k + c[2] * np.log(t_k)


def tolerance(w):
    return 0.05 if w <= 0.5 else 0.1


def tell(name, count, miss, left_out):
    print(f"{name:20} {count:3} judged rows, worst miss {np.abs(miss).max():.2f} of the tolerance, left out {np.abs(left_out).max():.2f}")


def ethanol_water():
    table = [(float(r["ethanol_mass_percent"]) / 100, float(r["temperature_C"]), float(r["dynamic_viscosity_mPa_s"])) for r in rows("ethanol_water_viscosity")]
    table += [(float(r["solute_mass_percent"]) / 100, 20.0, float(r["dynamic_viscosity_mPa_s"])) for r in rows("viscosity", solute="ethanol")]
    terms = [(j, k) for j, count in enumerate(TERMS_BY_THETA) for k in range(count)]
    a = [[w * (1 - w) * theta(t) ** j * (1 - 2 * w) ** k / tolerance(w) for j, k in terms] for w, t, _ in table]
    b = [(np.log(mu) - (1 - w) * ln_water(t) - w * ln_ethanol(t)) / tolerance(w) for w, t, mu in table]
    solution, miss, left_out = least_squares(a, b)
    for j in range(len(TERMS_BY_THETA)):
        replace("viscosity", "ethanol_water", f"t{j}", [c for c, (i, _) in zip(solution, terms) if i == j], "1", "melinder2010 crc2021", 6)
    tell("ethanol and water", len(table), miss, left_out)


def crowded(w):
    return w / (1 - CROWDING * w)


def sucrose():
    table = [(float(r["solute_mass_percent"]) / 100, float(r["temperature_C"]), float(r["dynamic_viscosity_mPa_s"])) for r in rows("viscosity", solute="sucrose")]
    table = [row for row in table if row[0] > 0]
    a = [[crowded(w) ** k * s / tolerance(w) for s in (1, cold(t)) for k in (1, 2)] for w, t, _ in table]
    b = [(np.log(mu) - ln_water(t)) / tolerance(w) for w, t, mu in table]
    solution, miss, left_out = least_squares(a, b)
    replace("viscosity", "solute_viscosity", "sucrose", solution[:2], "1", "crc2021", 6)
    replace("viscosity", "solute_cold", "sucrose", solution[2:], "1", "crc2021", 6)
    tell("sucrose", len(table), miss, left_out)


def others():
    with open(REFERENCE / "viscosity.csv", newline="", encoding="utf-8") as f:
        table = list(csv.DictReader(f))
    fitted = {}
    for solute, terms in TERMS.items():
        mine = [r for r in table if r["solute"] == solute]
        judged = np.array([r["judged"] == "yes" for r in mine])
        share = EXCHANGED if solute == "sodium citrate" else 1.0
        a, b = [], []
        for r, counts in zip(mine, judged):
            w = float(r["solute_mass_percent"]) / 100
            allowed = tolerance(w) * (1 if counts or not judged.any() else 10)
            y = crowded(w)
            value = np.log(float(r["dynamic_viscosity_mPa_s"])) - ln_water(20.0)
            if share < 1:
                value -= (1 - share) * sum(c * y ** (k + 1) for k, c in enumerate(fitted["citric acid"]))
            a.append([share * y ** (k + 1) / allowed for k in range(terms)])
            b.append(value / allowed)
        solution, miss, left_out = least_squares(a, b)
        fitted[solute] = solution
        replace("viscosity", "solute_viscosity", "sodium for hydrogen" if share < 1 else solute, solution, "1", "crc2021", 6)
        told = judged if judged.any() else np.ones(len(mine), bool)
        tell(solute, judged.sum(), miss[told], left_out[told])


ethanol_water()
sucrose()
others()
