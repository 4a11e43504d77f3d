"""Hourly tide-generating potential of degree two at the equator and Greenwich, as doubles on standard output.

Moon and sun by the ERFA library (IAU SOFA routines): moon98, epv00, precession and nutation pnm06a, sidereal time gst06.
18.61 years from 1995-01-01 00:30 UTC. Needs numpy and pyerfa. ratios.csv holds what the analysis of this project finds
in it, divided by the neighbour's.
"""
import sys

import erfa
import numpy as np

MOON_OVER_SUN = 4902.800066 / 1.32712440018e11
FROM_JD = 2449718.5
TT_MINUS_UTC_DAYS = 63 / 86400

utc = (np.arange(int(18.6134 * 8766)) + 0.5) / 24
tt = utc + TT_MINUS_UTC_DAYS
turn = erfa.pnm06a(FROM_JD, tt)
sidereal = erfa.gst06(FROM_JD, utc, FROM_JD, tt, turn)
moon = erfa.moon98(FROM_JD, tt)["p"]
sun = -erfa.epv00(FROM_JD, tt)[0]["p"]
potential = 0
for place, mass in ((moon, MOON_OVER_SUN), (sun, 1)):
    of_date = np.einsum("nij,nj->ni", turn, place)
    distance = np.linalg.norm(of_date, axis=1)
    sin_d = of_date[:, 2] / distance
    cos_d = np.sqrt(1 - sin_d**2)
    hour = sidereal - np.arctan2(of_date[:, 1], of_date[:, 0])
    semidiurnal = 0.75 * cos_d**2 * np.cos(2 * hour)
    diurnal = 1.5 * sin_d * cos_d * np.cos(hour)
    potential = potential + mass / distance**3 * (semidiurnal + diurnal)
sys.stdout.buffer.write((potential / potential.std()).astype("<f8").tobytes())
