"""Densities of pieces whose readings are off by anything within a bound, by Monte Carlo as JCGM 101:2008 has it.

Prints the rows of density.csv. No part of any test: the rows are kept, so that tests need no Python.
"""

import math
import random

random.seed(20260101)
DRAWS = 2_000_000
CASES = [
    ("block", "785:1 100:0.5 50:0.5 20:0.5"),
    ("block", "270:1 100:0.05 50:0.05 20:0.05"),
    ("block", "41:1 30:0.5 20:0.5 8:0.5"),
    ("round", "403:1 25:0.5 100:0.5"),
    ("round", "402.6:0.5 25.4:0.02 101.3:0.1"),
    ("round", "61:1 10:0.05 90:0.5"),
    ("water", "890:5 100:5"),
    ("water", "1134:1 100:2"),
    ("water", "173.8:1 100:1"),
]


def volume_mm3(shape, size):
    if shape == "block":
        return size[0] * size[1] * size[2]
    if shape == "round":
        return math.pi / 4 * size[0] * size[0] * size[1]
    return size[0] * 1000


for shape, text in CASES:
    readings = [tuple(map(float, reading.split(":"))) for reading in text.split()]
    total = squares = 0.0
    for _ in range(DRAWS):
        grams, *size = [value + random.uniform(-off, off) for value, off in readings]
        density = grams / volume_mm3(shape, size) * 1e6
        total += density
        squares += density * density
    mean = total / DRAWS
    print(f"{shape},{text},{mean:.2f},{math.sqrt(squares / DRAWS - mean * mean):.3f},Monte Carlo of 2 million draws as JCGM 101:2008 has it: density.py,by formula")
