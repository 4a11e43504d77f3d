"""Reference values of the elementary functions, to 60 digits, rounded to the nearest double: mpmath 1.3, Python 3.
Diagnostics of autoregressive chains have a closed form and are not here. Run: python3 make_reference.py > reference.json
"""
import json
import random
import mpmath as mp

mp.mp.dps = 60
random.seed(20240611)


def spread(n, low, high):
    return [random.uniform(low, high) for _ in range(n)]


def powers(n, low, high):
    return [10.0 ** random.uniform(low, high) for _ in range(n)]


def pairs(f, xs):
    return [[x, float(f(mp.mpf(x)))] for x in xs]


near = [1 + s * v for s in (-1, 1) for v in powers(10, -12, -1)]
small = [s * v for s in (-1, 1) for v in powers(20, -16, -0.3)]
cdf = lambda z: mp.erfc(-z / mp.sqrt(2)) / 2
quantile = lambda p: mp.findroot(lambda z: mp.log(cdf(z)) - mp.log(p) if p < 0.5 else cdf(z) - p,
                                 start(float(p)), tol=1e-50, maxsteps=200)


def start(p):
    from scipy.special import ndtri
    return mp.mpf(float(ndtri(p)))


def ratios(n):
    """Points all round, near and far: atan2(y, x)."""
    return [(s * y, t * x) for y, x in zip(powers(n, -4, 4), powers(n, -4, 4)) for s, t in [signs()]]


def signs():
    return random.choice((-1, 1)), random.choice((-1, 1))


# Nearest doubles to multiples of a quarter turn, and the double that comes nearest to one (Muller 2016, Elementary
# Functions, 3rd ed., ch. 11): where an argument reduction loses its digits.
quarters = [float(k * mp.pi / 2) for k in (1, 2, 3, 4, 5, 180, 12345, 1048575, 1048577, 10**9)]
hardest = [6381956970095103 * 2.0 ** 797, 5e-324, 2.0 ** -30]

FIRST = {
    "exp": pairs(mp.exp, spread(60, -30, 5) + spread(20, -707, 709) + small),
    "log": pairs(mp.log, powers(60, -300, 300) + spread(30, 0.3, 3) + near),
    "log1p": pairs(mp.log1p, small + spread(30, -0.99, 3) + powers(20, 0, 20)),
    "expm1": pairs(mp.expm1, small + spread(40, -5, 5)),
    "erf": pairs(mp.erf, small + spread(40, -6, 6)),
    "normal_cdf": pairs(cdf, spread(60, -37.4, 3) + spread(20, -1, 1)),
    "normal_log_cdf": pairs(lambda z: mp.log(cdf(z)), spread(60, -40, 8) + [-1e3, -1e6]),
    "normal_quantile": pairs(quantile, powers(40, -300, -0.3) + spread(40, 0.01, 0.99)),
    "log_gamma": pairs(mp.loggamma, powers(40, -3, 5) + spread(30, 0.5, 15)),
}
angles = (spread(80, -8, 8) + spread(40, -2000, 2000) + powers(30, -10, 10) + powers(10, 10, 300)
          + quarters + [-q for q in quarters] + hardest)
json.dump(FIRST | {
    "sin": pairs(mp.sin, angles),
    "cos": pairs(mp.cos, angles),
    "atan2": [[y, x, float(mp.atan2(mp.mpf(y), mp.mpf(x)))] for y, x in ratios(200)],
}, __import__("sys").stdout)
