"""Makes round-due.csv: when a round is due again, by dateutil's calendar.

Months and years first, then weeks, days and hours, in UTC, as dateutil's relativedelta does.
Run: python3 round-due.py > round-due.csv, with python-dateutil 4.0.0. The test needs no Python.
"""

import random
import re
from datetime import datetime, timedelta, timezone

import dateutil
from dateutil.relativedelta import relativedelta

SHAPE = re.compile(r"P(?:(\d+)Y)?(?:(\d+)M)?(?:(\d+)W)?(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?)?$")


def due(done, every):
    years, months, weeks, days, hours, minutes, seconds = (int(n or 0) for n in SHAPE.match(every).groups())
    return done + relativedelta(
        years=years, months=months, weeks=weeks, days=days, hours=hours, minutes=minutes, seconds=seconds
    )


def stamp(moment):
    return moment.strftime("%Y-%m-%dT%H:%M:%SZ")


random.seed(20261125)
print(f"# Made by round-due.py with python-dateutil {dateutil.__version__}, relativedelta in UTC.")
print("every,done,due,source,mark")
ends = ["2024-01-31", "2024-02-29", "2025-02-28", "2026-01-29", "2026-01-30", "2026-01-31", "2026-03-31", "2026-08-31",
        "2026-12-31", "2027-12-31", "2096-02-29", "2099-12-31"]
shapes = ["P1D", "P7D", "P1W", "P1M", "P3M", "P6M", "P11M", "P12M", "P1Y", "P4Y", "P1Y1M1D", "P1M1W", "PT12H", "P1DT1H",
          "P1MT90M", "P2Y30M", "PT86400S"]
cases = [(every, datetime.fromisoformat(day + "T21:30:00+00:00")) for every in shapes for day in ends]
start = datetime(2020, 1, 1, tzinfo=timezone.utc)
for _ in range(200):
    parts = [f"{random.randint(1, 40)}{unit}" for unit in "YMWD" if random.random() < 0.4]
    every = "P" + "".join(parts) + (f"T{random.randint(1, 90)}M" if random.random() < 0.3 or not parts else "")
    cases.append((every, start + timedelta(seconds=random.randrange(20 * 365 * 86400))))
for every, done in cases:
    print(f"{every},{stamp(done)},{stamp(due(done, every))},dateutil relativedelta,by formula")
