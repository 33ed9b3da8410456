#!/usr/bin/python3
"""Fit specific refractions at 20 C, r = r0 + r1 w + r2 w^2 [cm3/g] a solute, into data/matter/refraction.csv.

(n^2-1)/(n^2+2) = rho ((1-w) r_water + w r), with rho from the constants of data/matter/density.csv (run fit_density.py first).
A solute gets as few coefficients as its rows need. Rows that are not judged count 20 times less.
"""
import csv

import numpy as np

from fitting import REFERENCE, constants, least_squares, molar_mass, replace

OIML = constants("density", "oiml", "a")[::-1]
WATER = OIML[-1]
TERMS = {"ethanol": 3, "sucrose": 3, "glucose": 2, "fructose": 2, "maltose": 3, "lactose": 1, "glycerol": 3, "citric acid": 2, "lactic acid": 3,
         "acetic acid": 1, "phosphoric acid": 1, "sodium chloride": 2, "potassium chloride": 2, "calcium chloride": 2, "sodium citrate": 3}
N_WATER = constants("refraction", "refractive_index", "water")[0]
R_WATER = (N_WATER**2 - 1) / (N_WATER**2 + 2) / (1e-3 * WATER)
SODIUM = 3 * (molar_mass("sodium") - molar_mass("salt hydrogen"))
EXCHANGED = SODIUM / (SODIUM + molar_mass("citric acid"))  # mass of exchanged sodium in trisodium citrate


def apparent_volume(solute, w):
    if solute == "sucrose":
        t = 20.0
        water = np.polyval(constants("density", "icumsa_water", "numerator")[::-1], t) / (1 + t * constants("density", "icumsa_water", "denominator")[0])
        s = np.polyval(constants("density", "icumsa", "c0")[::-1], w)
        return (1 - s / (water + w * s)) / water
    if solute == "sodium citrate":
        return (1 - EXCHANGED) * apparent_volume("citric acid", w) + EXCHANGED * apparent_volume("sodium for hydrogen", w)
    return 1e-3 * np.polyval(constants("density", "apparent_volume", solute)[::-1], w)


def density_g_cm3(solute, w):
    return 1e-3 * (np.polyval(OIML, w) if solute == "ethanol" else 1 / ((1 - w) / WATER + w * apparent_volume(solute, w)))


def main():
    with open(REFERENCE / "refractive_index_20C.csv", newline="", encoding="utf-8") as f:
        table = list(csv.DictReader(f))
    fitted = {}
    for solute, terms in TERMS.items():
        a, b, judged = [], [], []
        share = EXCHANGED if solute == "sodium citrate" else 1.0
        for r in (r for r in table if r["solute"] == solute):
            w, n = float(r["solute_mass_percent"]) / 100, float(r["refractive_index_nD_20C"])
            tolerance = (4e-4 if solute == "ethanol" else 3e-4) * (1.0 if r["judged"] == "yes" else 20.0)
            rho, weight = density_g_cm3(solute, w), (n * n + 2) ** 2 / (6 * n) / tolerance  # tolerances per unit of (n^2-1)/(n^2+2)
            known = rho * (1 - w) * R_WATER
            if share < 1:
                known += rho * w * (1 - share) * np.polyval(fitted["citric acid"][::-1], w)
            a.append([weight * rho * w * share * w**k for k in range(terms)])
            b.append(weight * ((n * n - 1) / (n * n + 2) - known))
            judged.append(r["judged"] == "yes")
        solution, miss, left_out = least_squares(a, b)
        judged = np.array(judged)
        fitted[solute] = solution
        replace("refraction", "specific_refraction", "sodium for hydrogen" if share < 1 else solute, solution, "cm3/g", "crc2021", 6)
        print(f"{solute:20} {judged.sum():3} judged rows, {terms} terms, worst miss {np.abs(miss[judged]).max():.2f}, left out {np.abs(left_out[judged]).max():.2f}")


main()
