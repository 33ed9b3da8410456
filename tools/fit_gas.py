#!/usr/bin/python3
"""Fit the virial coefficients of N2O and CO2 into data/gas/real_gas.csv.

B(T) and C(T) = c0 + c1 (300/T) + c2 (300/T)^2. B from the judged second virial coefficients (-20 to 36 C), each row alike. Then, with
that B, C from the judged Z and ln(fugacity coefficient) of the gas (0 to 25 C, 1 to 50 bar), each weighed by its tolerance.
Prints the worst miss as a share of the tolerance: 0.5 % to 10 bar, 1.5 % to 31 bar, 3 % above.
"""
import numpy as np

from fitting import least_squares, replace, rows

R = 83.14462618  # bar cm3/(mol K)


def basis(t_c):
    x = 300 / (t_c + 273.15)
    return np.array([1, x, x * x])


def tolerance(p_bar):
    return 0.005 if p_bar <= 10 else 0.015 if p_bar <= 31 else 0.03


def pvt(gas):
    """Celsius, bar, Z, fugacity coefficient of the judged gas rows up to 50 bar."""
    names = ("temperature_C", "pressure_bar_abs", "compressibility_Z", "fugacity_coefficient")
    table = [tuple(float(r[n]) for n in names) for r in rows("gas_pvt", gas=gas, phase="gas")]
    return [row for row in table if row[1] <= 50]


def at_pressure(b, c3, t_c, p_bar):
    """Z and fugacity coefficient at a pressure, by Newton's method in the concentration."""
    rt = R * (t_c + 273.15)
    c = p_bar / rt
    for _ in range(60):
        c -= (c * (1 + b * c + c3 * c * c) * rt - p_bar) / (rt * (1 + 2 * b * c + 3 * c3 * c * c))
    z = 1 + b * c + c3 * c * c
    return z, np.exp(2 * b * c + 1.5 * c3 * c * c - np.log(z))


def fit(gas, name, source):
    second = [(float(r["temperature_C"]), float(r["second_virial_cm3_per_mol"])) for r in rows("gas_second_virial", gas=gas)]
    b, b_miss, _ = least_squares([basis(t) for t, _ in second], [value for _, value in second])
    left, right = [], []
    for t, p, z, phi in pvt(gas):
        c = p / (z * R * (t + 273.15))
        left += [c * c * basis(t) / (tolerance(p) * z), 1.5 * c * c * basis(t) / tolerance(p)]
        right += [(z - 1 - b @ basis(t) * c) / (tolerance(p) * z), (np.log(phi * z) - 2 * b @ basis(t) * c) / tolerance(p)]
    c3, _, _ = least_squares(left, right)
    worst = 0.0
    for t, p, z, phi in pvt(gas):
        z_got, phi_got = at_pressure(b @ basis(t), c3 @ basis(t), t, p)
        worst = max(worst, abs(z_got / z - 1) / tolerance(p), abs(phi_got / phi - 1) / tolerance(p))
    replace("real_gas", "second_virial", name, b, "cm3/mol", source, 9, "gas")
    replace("real_gas", "third_virial", name, c3, "cm6/mol2", source, 9, "gas")
    print(f"{gas}: {len(second)} second virials, worst miss {np.abs(b_miss).max():.3f} cm3/mol; "
          f"{len(pvt(gas))} states, worst miss {worst:.3f} of the tolerance")


fit("N2O", "nitrous oxide", "lemmon2006")
fit("CO2", "carbon dioxide", "span1996")
