"""Water under pressure by IAPWS-95, from Debian's python3-iapws: compressed without loss of heat from 0.101325 MPa.

For each line "C MPa" on standard input: density in kg/m3, litres to push in for each litre of vessel, warming in K.
With --table: the table of sim/press/table.go.
"""
import sys
import warnings

from iapws import IAPWS95
from scipy.optimize import fsolve

warnings.filterwarnings("ignore")
ATMOSPHERE = 0.101325  # MPa
ZERO = 273.15  # K


def compressed(celsius, mpa, guess=None):
    """State at an absolute pressure, of the same entropy as at the start."""
    entropy = IAPWS95(T=celsius + ZERO, P=ATMOSPHERE).s
    first = guess if guess is not None else celsius + ZERO + 0.025 * mpa
    kelvin = float(fsolve(lambda x: [IAPWS95(T=float(x[0]), P=mpa).s - entropy], [first], xtol=1e-12)[0])
    return IAPWS95(T=kelvin, P=mpa)


def table():
    starts = range(0, 45, 5)
    pressures = [ATMOSPHERE] + list(range(50, 1001, 50))
    states = [[compressed(t, p) for p in pressures] for t in starts]
    for name, value in (("densities", lambda t, x: x.rho), ("warmings", lambda t, x: x.T - t - ZERO)):
        print(name)
        for t, row in zip(starts, states):
            print("{" + ", ".join("%.4f" % abs(value(t, x)) if abs(value(t, x)) < 5e-5 else "%.4f" % value(t, x) for x in row) + "},")


def main():
    if "--table" in sys.argv[1:]:
        table()
        return
    for line in sys.stdin:
        celsius, mpa = (float(x) for x in line.split())
        at, start = compressed(celsius, mpa), IAPWS95(T=celsius + ZERO, P=ATMOSPHERE)
        print("%.6f %.8f %.6f" % (at.rho, at.rho / start.rho - 1, at.T - start.T))


main()
