#!/usr/bin/python3
"""Fit apparent specific volumes at 20 C: phi = a0 + a1 w + a2 w^2 [cm3/g] a solute (fewer terms where they do), into data/matter/density.csv.

w = solute / (solute + water). Each row is weighed by its tolerance as a density; rows that are not judged (acids and calcium
chloride stronger than anyone mixes) count 20 times less, so that an 80 % acid from the shelf is still given sensibly. Sodium citrate is booked as
citric acid and sodium in hydrogen's place: the exchange's own volume is fitted after the acid's.
"""
import csv

import numpy as np

from fitting import REFERENCE, constants, least_squares, molar_mass, replace

WATER = constants("density", "oiml", "a")[0]  # kg/m3 at 20 C, the water that the mixture rule uses
LOOSE = 20.0
TERMS = {"acetic acid": 2, "calcium chloride": 2}  # three for the others
SOLUTES = ["glucose", "fructose", "maltose", "lactose", "glycerol", "citric acid", "lactic acid", "acetic acid", "phosphoric acid",
           "sodium chloride", "potassium chloride", "calcium chloride", "sodium citrate"]
TOLERANCE = {"maltose": 1.0, "sodium citrate": 0.8}


def main():
    with open(REFERENCE / "solution_density_20C.csv", newline="", encoding="utf-8") as f:
        table = list(csv.DictReader(f))
    lost_hydrogen = 3 * molar_mass("salt hydrogen")
    sodium, citric = 3 * molar_mass("sodium") - lost_hydrogen, molar_mass("citric acid")
    exchanged = sodium / (sodium + citric)
    fitted = {}
    for solute in SOLUTES:
        a, b, judged = [], [], []
        salt, terms = solute == "sodium citrate", TERMS.get(solute, 3)
        share = exchanged if salt else 1.0
        for r in (r for r in table if r["solute"] == solute):
            w, rho = float(r["solute_mass_percent"]) / 100, float(r["density_20C_kg_per_m3"])
            tolerance = TOLERANCE.get(solute, 0.5) * (1.0 if r["judged"] == "yes" else LOOSE)
            phi = 1e3 * (1 / rho - (1 - w) / WATER) / w
            if salt:
                phi -= (1 - share) * np.polyval(fitted["citric acid"][::-1], w)
            weight = rho * rho * w * 1e-3 / tolerance  # tolerances per cm3/g
            a.append([weight * share * w**k for k in range(terms)])
            b.append(weight * phi)
            judged.append(r["judged"] == "yes")
        solution, miss, left_out = least_squares(a, b)
        judged = np.array(judged)
        fitted[solute] = solution
        replace("density", "apparent_volume", "sodium for hydrogen" if salt else solute, solution, "cm3/g", "crc2021", 6)
        print(f"{solute:20} {judged.sum():3} judged rows, worst miss {np.abs(miss[judged]).max():.2f} of the tolerance, left out {np.abs(left_out[judged]).max():.2f}")


main()
