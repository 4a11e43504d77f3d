"""Calibration as one would first write it with numpy: curve cut to the part within 6 sd, density, median, 95.4 % set.

Reads one JSON object on standard input: curve (cal BP from 0, yearly: c14_age, sigma_yr), ages [[age, error]], repeats.
Writes one JSON object: seconds of each repeat, medians and outer ends of the sets.
"""
import json
import sys
import time

import numpy as np

job = json.load(sys.stdin)
mu = np.array(job["c14_age"])
sigma = np.array(job["sigma_yr"])
year = np.arange(len(mu), dtype=float)
# The curve climbs, so a coarse index in 14C age finds the part that matters.
highest_so_far = np.maximum.accumulate(mu + 6 * sigma)
lowest_to_come = np.minimum.accumulate((mu - 6 * sigma)[::-1])[::-1]


def calibrate(age, error):
    first = np.searchsorted(highest_so_far, age - 6 * error, side="left")
    end = np.searchsorted(lowest_to_come, age + 6 * error, side="right")
    variance = error * error + sigma[first:end] ** 2
    density = np.exp(-0.5 * (age - mu[first:end]) ** 2 / variance) / np.sqrt(variance)
    density /= density.sum()
    years = year[first:end]
    summed = np.cumsum(density)
    k = np.searchsorted(summed, 0.5)
    median = years[k] + 0.5 - (summed[k] - 0.5) / density[k]
    falling = np.sort(density)[::-1]
    level = falling[np.searchsorted(np.cumsum(falling), 0.954)]
    inside = years[density >= level]
    return median, inside[-1], inside[0]


seconds = []
for _ in range(job["repeats"]):
    begin = time.perf_counter()
    answers = [calibrate(age, error) for age, error in job["ages"]]
    seconds.append(time.perf_counter() - begin)
json.dump({"seconds": seconds, "answers": [[float(x) for x in a] for a in answers]}, sys.stdout)
