"""Makes quantile-type-7.csv: samples, shares, and numpy's quantile of them.

Rows of the manual's sample are checked against Python's own statistics.quantiles(method="inclusive") as well.
Run: python3 quantile-type-7.py > quantile-type-7.csv, with numpy 2.4.6. The test needs no Python.
"""

import random
import statistics

import numpy

# The sample of the Python manual, statistics.quantiles; from memory.
MANUAL = [105, 129, 87, 86, 111, 111, 89, 81, 108, 92, 110, 100, 75, 105, 103, 109, 76, 119, 99, 91, 103, 129, 106, 101,
          84, 111, 74, 87, 86, 103, 103, 106, 86, 111, 75, 87, 102, 121, 111, 88, 89, 101, 106, 95, 103, 107, 101, 81,
          109, 104]


def row(sample, share, source):
    quantile = float(numpy.quantile(numpy.array(sample, dtype=float), share))
    print(f"{' '.join(repr(float(number)) for number in sample)},{share!r},{quantile!r},{source},by formula")


random.seed(20261125)
print(f"# Made by quantile-type-7.py with numpy {numpy.__version__}, numpy.quantile as it comes (linear: type 7 of Hyndman and Fan).")
print("sample,share,quantile,source,mark")
for place, decile in enumerate(statistics.quantiles(MANUAL, n=10, method="inclusive"), start=1):
    assert abs(float(numpy.quantile(MANUAL, place / 10)) - decile) < 1e-12
    row(MANUAL, place / 10, "numpy on the sample of the Python manual (statistics.quantiles; from memory)")
for number in range(190):
    size = random.choice([1, 2, 3, 5, 6, 11, 55])
    kind = number % 4
    if kind == 0:
        sample = [round(random.lognormvariate(1.5, 0.6), 1) for _ in range(size)]
    elif kind == 1:
        sample = [random.uniform(0, 1440) for _ in range(size)]
    elif kind == 2:
        # Observations and copies of one prior value: ties.
        sample = [round(random.gauss(7, 2), 1) for _ in range(size)] + [6.0] * 5
    else:
        sample = [random.choice([1e-9, 0.1, 0.3, 1440.0]) for _ in range(size)]
    share = random.choice([0.0, 0.5, 0.8, 0.9, 0.95, 1.0, round(random.random(), 3)])
    row(sample, share, "numpy on a generated sample")
