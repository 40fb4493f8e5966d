"""Makes zone-offsets.csv and zone-clock.csv: the offsets of several zones, and what their clocks show around changes.

By Python's zoneinfo. Run: python3 zone-offsets.py in this folder, with tzdata 2026 or later. The tests need no Python.
"""

import importlib.metadata
import zoneinfo
from datetime import datetime, timedelta, timezone
from zoneinfo import ZoneInfo

# As the package has them, whatever the machine has.
zoneinfo.reset_tzpath(to=[])

# Half hours, quarters, half-hour changes, changes the other way round the year, none. Africa/Casablanca stays out: its law
# changed in 2026, which Python's tables know and the hub's (chrono-tz 0.10.4) do not.
ZONES = ["Europe/Berlin", "Europe/London", "America/New_York", "America/Los_Angeles", "America/St_Johns",
         "America/Santiago", "Australia/Lord_Howe", "Australia/Sydney", "Pacific/Chatham", "Africa/Cairo", "Asia/Kolkata", "Asia/Kathmandu", "Etc/UTC"]
BEGIN, END = datetime(2025, 1, 1, tzinfo=timezone.utc), datetime(2029, 1, 1, tzinfo=timezone.utc)
MADE = f"# Made by zone-offsets.py with Python's zoneinfo and tzdata {importlib.metadata.version('tzdata')}"


def east(zone, moment):
    return int(moment.astimezone(zone).utcoffset().total_seconds()) // 60


def stamp(moment):
    return moment.strftime("%Y-%m-%dT%H:%M:%SZ")


def changes(zone):
    moment, rows = BEGIN, [(BEGIN, east(zone, BEGIN))]
    while moment < END:
        moment += timedelta(minutes=15)
        if east(zone, moment) != rows[-1][1]:
            rows.append((moment, east(zone, moment)))
    return [row for row in rows if row[0] < END]


with open("zone-offsets.csv", "w", encoding="utf-8") as offsets, open("zone-clock.csv", "w", encoding="utf-8") as clock:
    print(f"{MADE}: minutes east of UTC from an instant on.\nzone,from,minutes,source,mark", file=offsets)
    print(f"{MADE}: what the zone's clocks show.\nzone,at,clock,source,mark", file=clock)
    for name in ZONES:
        zone = ZoneInfo(name)
        rows = changes(zone)
        for begun, minutes in rows:
            print(f"{name},{stamp(begun)},{minutes},zoneinfo,by formula", file=offsets)
        # An evening's session across midnight, and one across each change: seconds before, at, and hours around it.
        moments = [datetime(2026, 11, 25, 20, tzinfo=timezone.utc) + timedelta(hours=h) for h in range(0, 8)]
        for begun, _ in rows[1:7]:
            moments += [begun + timedelta(seconds=s) for s in (-7200, -3600, -60, -1, 0, 1, 3600, 7200)]
        for moment in moments:
            local = moment.astimezone(zone)
            print(f"{name},{stamp(moment)},{local.hour}:{local.minute:02},zoneinfo,by formula", file=clock)
