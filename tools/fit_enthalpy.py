#!/usr/bin/python3
"""Fit the heat of mixing of ethanol and water: 15 coefficients a_jk of data/matter/enthalpy.csv.

HE = x (1-x) sum_j sum_k a_jk (1-2x)^k (t-25)^j, j < 3, k < 5, from two tables at once: heat capacities
(cp = ideal cp + dHE/dt) and heats of mixing, each row weighed by its tolerance (2 %; 40 and 60 J/mol).
Above x = 0.45 there is no heat capacity to hold the curvature in t, and a bare fit swings there by thousands of J/mol; six weak
rows ask d2HE/dt2 to be 0 within 0.1 J/(mol K^2), the size it has where it is known. So HE stays smooth to 100 C.
"""
import numpy as np

from fitting import constants, least_squares, molar_mass, replace, rows

TERMS_X, TERMS_T = 5, 3
M_W, M_E = molar_mass("water"), molar_mass("ethanol")


def cp(of, t_c):
    return sum(c * (t_c + 273.15) ** k for k, c in enumerate(constants("enthalpy", "heat_capacity", of))) / molar_mass(of)


def basis(x, t_c, derivative=0):
    u, z = t_c - 25.0, 1 - 2 * x
    powers = {0: [1, u, u * u], 1: [0, 1, 2 * u], 2: [0, 0, 2]}[derivative]
    return np.array([x * (1 - x) * z**k * powers[j] for j in range(TERMS_T) for k in range(TERMS_X)])


def main():
    a, b, names = [], [], []
    for r in rows("ethanol_water_heat_capacity"):
        w, t, value = float(r["ethanol_mass_percent"]) / 100, float(r["temperature_C"]), float(r["heat_capacity_J_per_kg_K"])
        n = w / M_E + (1 - w) / M_W
        tolerance = 0.02 * value
        a.append(1e3 * n * basis(w / M_E / n, t, 1) / tolerance)
        b.append((value - w * cp("ethanol", t) - (1 - w) * cp("water", t)) / tolerance)
        names.append(f"cp {100 * w:g} % {t:g} C")
    for r in rows("ethanol_water_excess_enthalpy"):
        x, t = float(r["ethanol_mole_fraction"]), float(r["temperature_C"])
        tolerance = 40.0 if t < 30 else 60.0
        a.append(basis(x, t) / tolerance)
        b.append(float(r["excess_enthalpy_J_per_mol"]) / tolerance)
        names.append(f"HE x {x:g} {t:g} C")
    judged = len(a)
    for x in (0.5, 0.6, 0.7, 0.8, 0.9, 0.97):
        a.append(basis(x, 25.0, 2) / 0.1)
        b.append(0.0)
    solution, miss, left_out = least_squares(a, b)
    worst, alone = np.abs(miss[:judged]).argmax(), np.abs(left_out[:judged]).argmax()
    print(f"{judged} rows, {len(solution)} coefficients; worst miss {miss[worst]:.2f} of the tolerance at {names[worst]}, "
          f"left out {left_out[alone]:.2f} at {names[alone]}")
    for j in range(TERMS_T):
        replace("enthalpy", "excess_enthalpy", f"t{j}", solution[j * TERMS_X:(j + 1) * TERMS_X], "J/(mol K^j)", "melinder2010 nagamachi2006", 9)


main()
