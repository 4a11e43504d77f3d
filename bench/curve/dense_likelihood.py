"""Log marginal likelihood of the smooth-rate model by dense algebra (Rasmussen & Williams 2006, Algorithm 2.1), numpy:
reads points as JSON, writes the value and evaluations a second."""
import json
import sys
import time

import numpy as np

given = json.load(sys.stdin)
t, y, s = (np.array(given[k]) for k in "tys")
lam = np.sqrt(3) / given["length"]


def h(x):
    z = lam * np.abs(x)
    return (given["rate_sd"] / lam) ** 2 * (2 * z - 3 + (z + 3) * np.exp(-z))


def evaluate():
    ht = h(t)
    k = given["level_sd"] ** 2 + ht[:, None] + ht[None, :] - h(t[:, None] - t[None, :])
    k[np.diag_indices_from(k)] += s * s
    l = np.linalg.cholesky(k)
    a = np.linalg.solve(l, y)
    return float(-0.5 * a @ a - np.log(np.diag(l)).sum() - 0.5 * len(t) * np.log(2 * np.pi))


for _ in range(2):
    started = time.perf_counter()
    count = 0
    while (elapsed := time.perf_counter() - started) < 0.2:
        value = evaluate()
        count += 1
print(json.dumps({"value": value, "perSecond": count / elapsed}))
