"""Reckons every figure again, from the exported log alone, with pandas, Python's own calendar of time zones and nothing of ours; and reads
every exported file with programs that know nothing of us: Python's csv module and pandas for the tables (RFC 4180), the package
icalendar for the calendar (RFC 5545), Python's json for the lines.

    check.py SWEEPBELL SHOP.toml LOG.jws

The rules are DESIGN.md's, written down here a second time: what differs is a mistake in one of the two. Fails at the first difference.
"""
import base64
import csv
import datetime as dt
import io
import json
import math
import subprocess
import sys
import tomllib
from functools import lru_cache
from zoneinfo import ZoneInfo

import icalendar
import numpy as np
import pandas as pd

SWEEPBELL, SHOP, LOG = sys.argv[1:4]
with open(SHOP, "rb") as file:
    BOOK = tomllib.load(file)
ZONE = ZoneInfo(BOOK["shop"]["time_zone"])
MACHINES = {machine["id"]: machine for machine in BOOK["machine"]}
ROOMS = {room["id"]: room for room in BOOK["room"]}
MINUTE = pd.Timedelta(minutes=1)
checked = 0


def told(*words):
    return subprocess.run([SWEEPBELL, "figures", SHOP, LOG, *words], check=True, capture_output=True).stdout.decode()


def same(ours, theirs, what):
    global checked
    checked += 1
    if ours != theirs:
        sys.exit(f"{what}: reckoned {ours!r}, sweepbell says {theirs!r}")


def up(span):
    """Whole minutes, rounded up; the span is exact to the millisecond."""
    ms = round(span / pd.Timedelta(milliseconds=1))
    return -(-ms // 60_000)


# The log: one signed line each (RFC 7515), its body in the second part.

def body(line):
    if line.startswith("{"):
        return json.loads(line)
    part = line.split(".")[1]
    return json.loads(base64.urlsafe_b64decode(part + "=" * (-len(part) % 4)))


def instant(text):
    return pd.Timestamp(text).tz_convert("UTC")


with open(LOG, encoding="utf-8") as file:
    ENTRIES = [entry for entry in (body(line.strip()) for line in file if line.strip()) if "erased" not in entry]
log = pd.DataFrame(ENTRIES)
log["at"] = log["at"].map(instant)
log = log.sort_values("at", kind="stable").reset_index(drop=True)
of = {what: rows for what, rows in log.groupby("what")}
nobody = pd.DataFrame(columns=log.columns)


def rows(what):
    return of.get(what, nobody)


# Sessions: from their coming to their leaving, or to their last line.

sessions = rows("entered").drop_duplicates("session").set_index("session")[["who", "room", "at", "out_by"]].rename(columns={"at": "start"})
sessions["left"] = rows("left").groupby("session")["at"].min()
sessions["left"] = pd.to_datetime(sessions["left"], utc=True)
sessions["last"] = log.groupby("session")["at"].max()
sessions["end"] = sessions["left"].fillna(sessions["last"])
sessions["swept"] = pd.to_datetime(rows("sweep_started").groupby("session")["at"].min().reindex(sessions.index), utc=True)
sessions["crew"] = rows("sweep_started").groupby("session")["crew"].last().reindex(sessions.index)
assert not log[log["session"].isin(sessions.index)].merge(sessions["who"], left_on="session", right_index=True).query("who_x != who_y").size

uses = []
running = {}
for entry in log[log["what"].isin(["machine_started", "machine_stopped"])].itertuples():
    if entry.session not in sessions.index:
        continue
    key = (entry.session, entry.machine)
    if entry.what == "machine_started" and key not in running:
        running[key] = entry.at
    elif entry.what == "machine_stopped" and key in running:
        uses.append({"session": entry.session, "machine": entry.machine, "start": running.pop(key), "end": entry.at, "stopped": True})
uses += [{"session": s, "machine": m, "start": at, "end": max(sessions.loc[s, "end"], at), "stopped": False} for (s, m), at in running.items()]
uses = pd.DataFrame(uses).sort_values("start", kind="stable").reset_index(drop=True)
uses["length"] = uses["end"] - uses["start"]
uses = uses.merge(sessions[["start", "who", "room"]].rename(columns={"start": "began"}), left_on="session", right_index=True)

done = rows("chore_done")[["session", "chore", "at", "minutes"]]
done = done[done["session"].isin(sessions.index)].drop_duplicates(["session", "chore"])
DONE = {session: dict(zip(rows["chore"], rows["at"])) for session, rows in done.groupby("session")}
TOOK = {session: dict(zip(rows["chore"], rows["minutes"])) for session, rows in done.groupby("session")}


def last_out(session, at):
    others = sessions[(sessions["room"] == sessions.loc[session, "room"]) & (sessions.index != session) & (sessions["start"] <= at)]
    return not (others["left"].isna() | (others["left"] > at)).any()


def owed(session):
    """The chores of a session that left: {id: (chore, machine or None)}."""
    own = uses[uses["session"] == session]
    found = {}
    for machine in own["machine"].drop_duplicates():
        for chore in MACHINES.get(machine, {}).get("chore", []):
            found[f"{machine}/{chore['id']}"] = (chore, machine)
    room = sessions.loc[session, "room"]
    last = last_out(session, sessions.loc[session, "end"])
    for chore in ROOMS[room].get("chore", []):
        if chore.get("when", "always") == "always" or last:
            found[f"{room}/{chore['id']}"] = (chore, None)
    return found


# Buddies: a word holds for its term, until its speaker leaves, ends their session, goes elsewhere, or starts a machine of that kind.

TERM = BOOK.get("buddy", {}).get("renew_minutes", 15) * MINUTE
MAY_OPERATE = BOOK.get("buddy", {}).get("buddy_may_operate", False)
COVERS = BOOK.get("buddy", {}).get("covers", 1)
words = rows("buddy_confirmed")[["session", "who", "at", "buddy"] + (["machine"] if "machine" in log else [])]
gone = rows("buddy_left")


def holds_until(word):
    until = [word.at + TERM]
    until += list(gone[(gone["session"] == word.session) & (gone["buddy"] == word.buddy) & (gone["at"] >= word.at)]["at"]) if len(gone) else []
    room = sessions.loc[word.session, "room"]
    own = sessions[sessions["who"] == word.buddy]
    until += list(own[(own["room"] == room) & (own["left"] >= word.at)]["left"])
    until += list(own[(own["room"] != room) & (own["start"] > word.at)]["start"])
    here = own[(own["start"] <= word.at) & (own["left"].isna() | (own["left"] > word.at))].sort_values("start")
    if len(here) and here.iloc[-1]["room"] != room:
        return word.at
    if not MAY_OPERATE:
        at_work = uses[(uses["who"] == word.buddy) & uses["machine"].map(lambda id: MACHINES.get(id, {}).get("buddy", False)) & (~uses["stopped"] | (uses["end"] > word.at))]
        until += list(at_work["start"])
    return max(min(until), word.at)


COVER = {}
for buddy, said in words.groupby("buddy"):
    holding = []
    for word in said.sort_values(["at", "who", "session"]).itertuples():
        holding = [(session, until) for session, until in holding if until > word.at]
        until = holds_until(word)
        others = {session for session, _ in holding if session != word.session}
        if len(others) >= COVERS or until <= word.at or word.session not in sessions.index or word.buddy == word.who:
            continue
        left = sessions.loc[word.session, "left"]
        holding.append((word.session, until if pd.isna(left) else min(until, left)))
        COVER.setdefault(word.session, []).append((word.at, until, getattr(word, "machine", None)))


def gaps(session):
    for use in uses[(uses["session"] == session)].itertuples():
        if not MACHINES.get(use.machine, {}).get("buddy"):
            continue
        at = use.start
        for start, end, machine in sorted(COVER.get(session, []), key=lambda word: word[0]):
            if isinstance(machine, str) and machine != use.machine:
                continue
            if start > at and at < use.end:
                yield min(start, use.end) - at
            at = max(at, end)
        if at < use.end:
            yield use.end - at


# The reserve: the plan of each sweep as it would have been made when it began.

RESERVE = BOOK.get("reserve", {})
QUANTILE, PRIOR, FLOOR = RESERVE.get("quantile", 0.8), RESERVE.get("prior_weight", 5), RESERVE.get("floor_minutes", 10) * MINUTE
WATCH = BOOK.get("fire_watch", {}).get("minutes", 30) * MINUTE
EXCLUSIVE = BOOK.get("fire_watch", {}).get("exclusive", True)
timed = done.dropna(subset=["minutes"])


def chore_minutes(id, chore, used_hours, now):
    minutes = chore["minutes"] + chore.get("per_hour", 0) * used_hours
    formula = math.ceil(round(min(chore.get("cap", math.inf), minutes), 9))
    seen = timed[(timed["chore"] == id) & (timed["at"] <= now)].sort_values("at")["minutes"].tail(50).tolist()
    if not seen:
        return formula
    return math.ceil(np.quantile(np.array(seen + [formula] * PRIOR, dtype=float), QUANTILE, method="linear") - 1e-9)


def after(chore, id, machine, others):
    """The chores that must be finished before this one."""
    owner = id.split("/")[0]
    for name in chore.get("after", []):
        if name == "machines" and machine is None:
            yield from (other for other, (_, m) in others.items() if m is not None)
        else:
            yield from (other for other in others if other == (name if "/" in name else f"{owner}/{name}"))


def alone(lengths, unattended, before, held):
    """The earliest finish of one person's chores, minutes from now; `held` is until when a watch keeps that person."""
    ids = sorted(lengths)

    @lru_cache(maxsize=None)
    def best(left, free, ends):
        if not left:
            return max([free] + [end for _, end in ends])
        finished, least = dict(ends), math.inf
        for id in left:
            if any(first in left for first in before[id]):
                continue
            start = max([finished[first] for first in before[id] if first in finished], default=0)
            if id in unattended:
                end, then = start + lengths[id], free
            else:
                begin = max(start, free)
                end = begin + lengths[id]
                then = end
            rest = tuple(other for other in left if other != id)
            # What is finished by the time that the person is free holds back at most what needs nobody.
            waited_for = {first for other in rest if other in unattended for first in before[other]}
            kept = tuple(sorted((other, at) for other, at in {**finished, id: end}.items() if at > then or other in waited_for))
            least = min(least, best(rest, then, kept))
        return least

    return best(tuple(ids), held, ())


def sweep_late(session):
    """By how many minutes a whole sweep ended after its planned end; None if it left something out."""
    row = sessions.loc[session]
    all_owed = owed(session)
    if any(id not in DONE.get(session, {}) for id in all_owed):
        return None, []
    now = row["swept"]
    begun = uses[(uses["session"] == session) & (uses["start"] <= now)]
    planned = {}
    for machine in begun["machine"].drop_duplicates():
        for chore in MACHINES[machine].get("chore", []):
            planned[f"{machine}/{chore['id']}"] = (chore, machine)
    planned.update({id: it for id, it in all_owed.items() if it[1] is None})
    planned = {id: it for id, it in planned.items() if not DONE[session].get(id, now) < now}
    hot = begun[begun["machine"].map(lambda id: MACHINES[id].get("hot_work", False))]
    over = pd.Timedelta(0)
    if len(hot):
        open_hot = (~hot["stopped"] & pd.isna(row["left"])).any()
        ended = now if open_hot else min(hot["end"].max(), now)
        over = max(ended + WATCH - now, pd.Timedelta(0))
    lengths = {}
    for id, (chore, machine) in planned.items():
        own = begun[begun["machine"] == machine]
        used = (own["end"].clip(upper=now) - own["start"]).sum() / pd.Timedelta(hours=1) if machine else 0
        lengths[id] = chore_minutes(id, chore, used, now)
    assert row["crew"] == 1, "the check plans for one person alone"
    free = alone(
        lengths,
        frozenset(id for id, (chore, _) in planned.items() if chore.get("hands", 1) == 0),
        {id: tuple(after(chore, id, machine, planned)) for id, (chore, machine) in planned.items()},
        over / MINUTE if EXCLUSIVE else 0,
    )
    free = max(now + free * MINUTE, now + over)
    ended = max([now] + [DONE[session][id] for id in all_owed])
    return ended - max(free, now + FLOOR), lengths


timed_chores = {}
LATE = {}
for session in sessions[sessions["left"].notna() & sessions["swept"].notna()].index:
    LATE[session], _ = sweep_late(session)


def chores_in_time(within):
    """Of the chores that were timed and planned, how many took no longer; of whole sweeps and others alike."""
    in_time = count = 0
    for session in sessions[within & sessions["left"].notna() & sessions["swept"].notna()].index:
        now = sessions.loc[session, "swept"]
        begun = uses[(uses["session"] == session) & (uses["start"] <= now)]
        for id, (chore, machine) in owed(session).items():
            took = TOOK.get(session, {}).get(id)
            if took is None or math.isnan(took) or DONE[session][id] < now or (machine and machine not in set(begun["machine"])):
                continue
            own = begun[begun["machine"] == machine]
            used = (own["end"].clip(upper=now) - own["start"]).sum() / pd.Timedelta(hours=1) if machine else 0
            count += 1
            in_time += took <= chore_minutes(id, chore, used, now)
    return in_time, count


# The figures of a stretch.

def late_bin(late):
    minutes = up(late)
    bounds = [-15, -10, -5, 0, 5, 10]
    return next((place for place, bound in enumerate(bounds) if minutes <= bound), len(bounds))


def check(start, end, said, name):
    same([start.isoformat(), end.isoformat()], [instant(said["stretch"][key]).isoformat() for key in ("from", "to")], f"{name}: stretch")
    within = (sessions["start"] >= start) & (sessions["start"] < end)
    some = sessions[within]
    stay = some["end"] - some["start"]
    same(
        [len(some), some["who"].nunique(), int(some["left"].isna().sum()), up(stay.sum()) if len(some) else 0],
        [said["sessions"][key] for key in ("begun", "people", "open", "minutes")],
        f"{name}: sessions",
    )
    week = np.zeros((7, 24))
    for row in some.itertuples():
        # Cut at each whole hour of the shop's clock; its zone stands at whole hours from UTC.
        at = row.start
        while at < row.end:
            then = min((at + pd.Timedelta(hours=1)).floor("h"), row.end)
            local = at.tz_convert(ZONE)
            week[local.weekday(), local.hour] += round((then - at) / pd.Timedelta(milliseconds=1))
            at = then
    same([[-(-int(ms) // 60_000) for ms in day] for day in week], said["sessions"]["hours"], f"{name}: busy hours")

    used = uses[(uses["began"] >= start) & (uses["began"] < end)].groupby("machine")["length"].agg(["count", "sum"])
    same(
        {machine: (int(row["count"]), up(row["sum"])) for machine, row in used.iterrows()},
        {row["machine"]: (row["uses"], row["minutes"]) for row in said["machines"]},
        f"{name}: machines",
    )

    left = some[some["left"].notna()].index
    missing = {session: [id for id in owed(session) if id not in DONE.get(session, {})] for session in left}
    bad = [session for session in left if missing[session]]
    same(
        [len(left) - len(bad), len(bad), int(sessions.loc[bad, "swept"].isna().sum())],
        [said["sweeps"][key] for key in ("complete", "incomplete", "not_begun")],
        f"{name}: sweeps",
    )
    counts = pd.Series([id for ids in missing.values() for id in ids], dtype=object).value_counts().to_dict()
    same(counts, {row["chore"]: row["times"] for row in said["sweeps"]["chores_left"]}, f"{name}: chores left")

    whole = [LATE[session] for session in left if LATE.get(session) is not None]
    bins = [0] * 7
    for late in whole:
        bins[late_bin(late)] += 1
    in_time, timed_of = chores_in_time(within)
    same(
        [sum(late <= pd.Timedelta(0) for late in whole), len(whole), bins, in_time, timed_of],
        [said["reserve"][key] for key in ("within", "of", "late", "chores_within", "chores_of")],
        f"{name}: reserve",
    )

    asks = uses[(uses["began"] >= start) & (uses["began"] < end) & uses["machine"].map(lambda id: MACHINES.get(id, {}).get("buddy", False))]
    bare = [gap for session in some.index for gap in gaps(session)]
    same(
        [len(asks), up(asks["length"].sum()) if len(asks) else 0, len(bare), up(sum(bare, pd.Timedelta(0)))],
        [said["cover"][key] for key in ("uses", "minutes", "gaps", "gap_minutes")],
        f"{name}: cover",
    )

    needed = kept = cut = 0
    for session in left:
        hot = uses[(uses["session"] == session) & uses["machine"].map(lambda id: MACHINES.get(id, {}).get("hot_work", False))]
        if len(hot):
            short = up(max(hot["end"].max() + WATCH - sessions.loc[session, "left"], pd.Timedelta(0)))
            needed, kept, cut = needed + 1, kept + (short == 0), cut + short
    same([needed, kept, cut], [said["watches"][key] for key in ("needed", "kept", "cut_short_minutes")], f"{name}: watches")

    found = rows("found")
    found = found[(found["at"] >= start) & (found["at"] < end)]
    places = {}
    for row in found.itertuples():
        place = (row.room, True) if isinstance(getattr(row, "room", None), str) else (row.machine, False)
        clean, mess = places.get(place, (0, 0))
        places[place] = (clean + (row.state == "clean"), mess + (row.state == "mess"))
    same(places, {(row["place"], row["is_room"]): (row["clean"], row["mess"]) for row in said["mess"]["places"]}, f"{name}: found")
    hours = [0] * 24
    for at in found[found["state"] == "mess"]["at"]:
        hours[at.tz_convert(ZONE).hour] += 1
    same(hours, said["mess"]["hours"], f"{name}: mess by hour")

    tags = {}
    for machine, words_ in log[log["what"].isin(["tagged_out", "tag_cleared"]) & (log["at"] < end)].groupby("machine"):
        since, times, out = None, 0, pd.Timedelta(0)
        for row in words_.itertuples():
            if row.what == "tagged_out" and since is None:
                since, times = row.at, times + (row.at >= start)
            elif row.what == "tag_cleared" and since is not None:
                since, out = None, out + max(row.at - max(since, start), pd.Timedelta(0))
        still = since is not None
        out += end - max(since, start) if still else pd.Timedelta(0)
        if times or out > pd.Timedelta(0):
            tags[machine] = (times, up(out), still)
    same(tags, {row["machine"]: (row["times"], row["minutes"], row["still_out"]) for row in said["tags"]}, f"{name}: tags")

    rounds = {}
    for round_ in BOOK.get("round", []):
        due, count, late = None, 0, 0
        for at in sorted(rows("round_done").query("round == @round_['id'] and at < @end")["at"]) if len(rows("round_done")) else []:
            if at >= start:
                count, late = count + 1, late + (due is not None and at > due)
            due = at + EVERY[round_["every"]]
        rounds[round_["id"]] = (count, late, due is not None and due < end)
    same(rounds, {row["round"]: (row["done"], row["late"], row["overdue"]) for row in said["rounds"]}, f"{name}: rounds")


EVERY = {"P1D": pd.DateOffset(days=1), "P1W": pd.DateOffset(weeks=1), "P1M": pd.DateOffset(months=1), "P1Y": pd.DateOffset(years=1)}

first, last = log["at"].min(), log["at"].max()
midnight = first.tz_convert(ZONE).normalize().tz_convert("UTC")
check(midnight, last + pd.Timedelta(milliseconds=1), json.loads(told()), "all")
month = first.tz_convert(ZONE).date().replace(day=1)
while pd.Timestamp(month, tz=ZONE) <= last:
    following = (month + dt.timedelta(days=32)).replace(day=1)
    begin, end = (pd.Timestamp(day, tz=ZONE).tz_convert("UTC") for day in (month, following))
    check(begin, end, json.loads(told("--month", month.strftime("%Y-%m"))), month.strftime("%Y-%m"))
    month = following

# The files, read by others.

def table(name):
    text = told("--csv", name)
    assert "\n" not in text.replace("\r\n", "") or '"' in text, f"{name}: a line that does not end with CR LF"
    read = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    frame = pd.read_csv(io.StringIO(text), dtype=str, keep_default_na=False)
    same([list(frame.columns), frame.values.tolist()], [read[0], read[1:]], f"{name}: csv and pandas")
    for row in read[1:]:
        same(len(row), len(read[0]), f"{name}: columns")
        # A cell that a spreadsheet would take for a formula has an apostrophe before it.
        assert not any(cell[:1] in tuple("=+-@\t\r") and cell for cell in row), f"{name}: {row}"
    return frame


frame = table("sessions")
same(sorted(frame["session"]), sorted(sessions.index), "sessions.csv: every session")
for row in frame.itertuples():
    own = sessions.loc[row.session]
    same([instant(getattr(row, "_4")), row.who, row.room], [own["start"], own["who"], own["room"]], f"sessions.csv: {row.session}")
    same(sorted(row.chores_missing.split()), sorted(id for id in owed(row.session) if id not in DONE.get(row.session, {})), f"sessions.csv: chores of {row.session}")
    same([int(row.buddy_gaps), int(row.buddy_gap_minutes)], [len(list(gaps(row.session))), up(sum(gaps(row.session), pd.Timedelta(0)))], f"sessions.csv: gaps of {row.session}")
frame = table("uses")
same(sorted(zip(frame["session"], frame["machine"], frame["from"].map(instant))), sorted(zip(uses["session"], uses["machine"], uses["start"])), "uses.csv")
same(sum(int(minutes) for minutes in frame["minutes"] if minutes), sum(up(length) for length in uses[uses["stopped"] | uses["session"].map(sessions["left"].notna())]["length"]), "uses.csv: minutes")
for name, what in [("chores", "chore_done"), ("rounds", "round_done"), ("finds", "found"), ("incidents", "incident")]:
    frame = table(name)
    same(list(frame["at"].map(instant)), list(rows(what)["at"]), f"{name}.csv")
    same(list(frame["who"]), list(rows(what)["who"]), f"{name}.csv: who")
frame, tags = table("tags"), log[log["what"].isin(["tagged_out", "tag_cleared"])]
same(list(zip(frame["at"].map(instant), frame["machine"], frame["what"])), list(zip(tags["at"], tags["machine"], tags["what"])), "tags.csv")
same(list(frame["problem"]), list(tags["problem"].fillna("")), "tags.csv: problems")

PLACE = ("dev", "seq", "prev", "book")
lines = [json.loads(line) for line in told("--jsonl").splitlines()]
wanted = sorted(({key: value for key, value in entry.items() if key not in PLACE} for entry in ENTRIES), key=lambda entry: instant(entry["at"]))
same(lines, wanted, "log.jsonl")

calendar = icalendar.Calendar.from_ical(told("--ical"))
events = {str(event["UID"]): event for event in calendar.walk("VEVENT")}
for session, row in sessions.iterrows():
    event = events.pop(f"{session}@sweepbell")
    end = row["left"] if pd.notna(row["left"]) else instant(row["out_by"])
    whole = [at.floor("s").to_pydatetime() for at in (row["start"], max(end, row["start"] + MINUTE))]
    same([event["DTSTART"].dt, event["DTEND"].dt], whole, f"calendar.ics: {session}")
for round_ in BOOK.get("round", []):
    at = rows("round_done").query("round == @round_['id']")["at"].max() if len(rows("round_done")) else pd.NaT
    event = events.pop(f"round-{round_['id']}@sweepbell", None)
    if pd.isna(at):
        same(event, None, f"calendar.ics: {round_['id']}")
        continue
    same(event["DTSTART"].dt, (at + EVERY[round_["every"]]).floor("s").to_pydatetime(), f"calendar.ics: {round_['id']}")
    text = round_["text"]
    same(str(event["SUMMARY"]), text if isinstance(text, str) else text["en"], f"calendar.ics: {round_['id']}")
same(events, {}, "calendar.ics: nothing else")

print(f"{len(log)} entries, {len(sessions)} sessions: {checked} comparisons, none differs")
