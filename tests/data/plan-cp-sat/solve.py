"""Solves plans with OR-tools CP-SAT, from DESIGN.md section 4 and nothing of ours. One JSON object a line, in and out.

M is the least makespan of the watch, starting at zero, and all chores. S is the least span such that every chore lies in the last S
before out-by, the watch standing where it is (where it was put for M, or where hot work ended). Free at is the earliest finish if
everybody starts now. No chore starts before the last spark: with a watch to come, the span of S is no longer than M.
"""
import json
import math
import sys

from ortools.sat.python import cp_model


def least(case, horizon, held, backwards=False, at_least=0):
    """The least makespan from zero; `held` is when one person is away. Backwards: what comes first comes last."""
    model = cp_model.CpModel()
    # In the coarsest unit that all times are whole multiples of: the solver is quickest with small numbers.
    window = (max(held[0], 0), held[1]) if held and held[1] > max(held[0], 0) else None
    unit = math.gcd(60_000, horizon, at_least, *(window or ()))
    horizon, at_least = horizon // unit, at_least // unit
    starts, spans, ends = [], [], []
    for index, (minutes, _, _, _) in enumerate(case["chores"]):
        start = model.new_int_var(0, horizon, f"s{index}")
        length = minutes * 60_000 // unit
        starts.append(start)
        ends.append(start + length)
        spans.append(model.new_interval_var(start, length, start + length, f"i{index}"))
    for index, (_, _, _, first) in enumerate(case["chores"]):
        for other in first:
            model.add(ends[index] <= starts[other] if backwards else ends[other] <= starts[index])
    people = [(span, hands) for span, (_, hands, _, _) in zip(spans, case["chores"])]
    if window:
        begin, length = window[0] // unit, (window[1] - window[0]) // unit
        people.append((model.new_fixed_size_interval_var(begin, length, "watch"), 1))
    model.add_cumulative([span for span, _ in people], [hands for _, hands in people], case["crew"])
    for kind, count in enumerate(case["gear"]):
        using = [span for span, (_, _, held_kind, _) in zip(spans, case["chores"]) if held_kind == kind]
        model.add_cumulative(using, [1] * len(using), count)
    makespan = model.new_int_var(at_least, horizon, "makespan")
    for end in ends:
        model.add(end <= makespan)
    model.minimize(makespan)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = 10
    status = solver.solve(model)
    return int(solver.objective_value) * unit, solver.status_name(status)


for line in sys.stdin:
    case = json.loads(line)
    watch = case["watch"] * 60_000
    serial = sum(chore[0] for chore in case["chores"]) * 60_000
    statuses = []

    def found(answer):
        statuses.append(answer[1])
        return answer[0]

    if case["hot"] == "none":
        case["s"] = case["free"] = found(least(case, serial, None))
    elif case["hot"] == "coming":
        held = (0, watch) if case["exclusive"] else None
        case["m"] = found(least(case, serial + watch, held, at_least=watch))
        span = case["m"]
        # In time that runs back from out-by the watch ends at m - watch and began at m.
        held = (span - watch, span) if case["exclusive"] else None
        case["s"] = found(least(case, span, held, backwards=True))
        case["free"] = case["m"]
    else:
        before, now = case["ended_ms"], case["now_ms"]
        held = (before - watch, before) if case["exclusive"] else None
        case["s"] = found(least(case, max(before, 0) + serial, held, backwards=True))
        over = now - before + watch
        held = (now - before, over) if case["exclusive"] else None
        case["free"] = max(over, found(least(case, max(over, 0) + serial, held)))
    case["status"] = "optimal" if set(statuses) == {"OPTIMAL"} else ",".join(statuses)
    print(json.dumps(case, separators=(",", ":")), flush=True)
