"""Makes clopper-pearson.csv: counts and scipy's exact interval of the share behind them.

Run: python3 clopper-pearson.py > clopper-pearson.csv, with scipy 1.17.1. The test needs no Python.
"""

import random

import scipy
from scipy.stats import beta, binomtest

random.seed(20261125)
print(f"# Made by clopper-pearson.py with scipy {scipy.__version__}: binomtest(within, of).proportion_ci(confidence, \"exact\").")
print("within,of,confidence,low,high,source,mark")
cases = {(0, 1), (1, 1), (0, 10), (10, 10), (1, 2), (7, 10), (81, 263), (0, 2000), (1999, 2000), (1000, 2000)}
while len(cases) < 200:
    of = random.choice([1, 3, 8, 20, 45, 100, 500, 2000])
    cases.add((random.randint(0, of), of))
for within, of in sorted(cases, key=lambda case: (case[1], case[0])):
    for confidence in [0.95] if of > 100 else [0.9, 0.95, 0.99]:
        interval = binomtest(within, of).proportion_ci(confidence_level=confidence, method="exact")
        # The same by the quantiles of the beta distribution, which is how the interval is usually written down.
        tail = (1 - confidence) / 2
        assert within == 0 or abs(interval.low - beta.ppf(tail, within, of - within + 1)) < 1e-11
        assert within == of or abs(interval.high - beta.ppf(1 - tail, within + 1, of - within)) < 1e-11
        print(f"{within},{of},{confidence},{float(interval.low)!r},{float(interval.high)!r},scipy binomtest exact,by formula")
